"""The rehearsal that answers while one types, long work with its events, and help: asked of the real server, held against the command line."""
import datetime
import json
import http.client
import pathlib
import threading
import time
import unittest

import served
import house  # noqa: E402


def typed(edit, bands=False, **over):
    return {"firing": "metal-ceramic-firing", "edit": edit, "bands": bands, "picture": True, **over}


class Live(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.server = served.Server()
        code, _, said = cls.server.heatwork("demo", "--store", cls.server.store)
        assert code == 0, said
        cls.server.__enter__()

    @classmethod
    def tearDownClass(cls):
        cls.server.__exit__()

    def rehearse(self, body, status=200, **headers):
        answer = self.server.ask("POST", "/api/rehearse", body, **headers)
        self.assertEqual(answer.status, status, answer.bytes[:500])
        return answer.json

    def by_command_line(self, firing):
        code, said, wrong = self.server.heatwork("rehearse", firing, "--json")
        self.assertIn(code, (0, 1), wrong)
        return json.loads(said)

    def test_an_edit_gives_the_numbers_of_the_same_edit_kept_and_rehearsed_by_the_command_line(self):
        change = {"program": {"heating[1].to": "941 °C", "heating[1].hold": "1 min 25 s"}, "tray middle": {"mass": "51 g"},
                  "firing": {"chamber.room": "26 °C"}}
        live = self.rehearse(typed(1, True, set=change, stress="with"))
        self.assertEqual(live["mistakes"], [])
        kept = self.server.ask("POST", "/api/firings", {"firing": "metal-ceramic-firing", "set": change, "name": "metal-typed",
                                                        "names": {"program": "my-dentine"}, "reason": "tried"})
        self.assertEqual(kept.status, 200, kept.bytes)
        there = self.by_command_line("metal-typed")
        here = live["rehearsal"]
        self.assertEqual(there["program"], "my-dentine")
        for key in ("inputs_hash", "pieces", "moments", "model_version"):
            self.assertEqual(here[key], there[key], key)
        for one, other in zip(here["findings"], there["findings"]):
            for key in ("aspect", "level", "piece", "sentence", "number", "low", "high", "limit", "change"):
                self.assertEqual(one[key], other[key], key)
        maker = self.server.ask("GET", "/api/documents/program/dentine-on-metal").json
        self.assertEqual(maker["version"], maker["newest"])
        self.assertNotIn("941 °C", json.dumps(maker), "the maker's own program stays")

    def test_without_bands_no_level_is_final(self):
        early, late = self.rehearse(typed(2)), self.rehearse(typed(3, True))
        self.assertFalse(early["bands"])
        self.assertTrue(late["bands"])
        numbers = {(f["aspect"], f["piece"]): f for f in early["rehearsal"]["findings"]}
        follow = 0
        for finding in late["rehearsal"]["findings"]:
            self.assertFalse(finding["band_follows"])
            before = numbers.get((finding["aspect"], finding["piece"]))
            if before is None or finding["low"] is None:
                continue
            follow += 1
            self.assertTrue(before["band_follows"], finding["aspect"])
            self.assertIn("follows", before["level_words"])
        for one, other in zip(early["rehearsal"]["pieces"], late["rehearsal"]["pieces"]):
            self.assertEqual(one["peak_C"], other["peak_C"])
            self.assertEqual(one["compared"]["shift_K"], other["compared"]["shift_K"])
        self.assertGreater(follow, 3)

    def test_every_mistake_is_told_by_document_and_key(self):
        answer = self.rehearse(typed(4, set={"program": {"heating[1].hold": "1 mni", "entry": "warm", "heating[1].rate": "45 K/min"},
                                             "tray middle": {"mass": "heavy"}, "firing": {"chamber.room": "hot"}}))
        self.assertIsNone(answer["rehearsal"])
        self.assertIsNone(answer["picture"])
        told = {(m["of"], m["key"]) for m in answer["mistakes"]}
        self.assertIn(("firing", "chamber.room"), told)
        answer = self.rehearse(typed(5, set={"program": {"heating[1].hold": "1 mni", "entry": "warm"}, "tray middle": {"mass": "heavy"}}))
        self.assertEqual({(m["of"], m["key"]) for m in answer["mistakes"]},
                         {("program", "heating[1].hold"), ("program", "entry"), ("tray middle", "mass")})
        answer = self.rehearse(typed(6, set={"firing": {"tray": "ligth"}}))
        self.assertEqual([(m["of"], m["key"]) for m in answer["mistakes"]], [("firing", "tray")])
        self.assertIn("did you mean \"light\"?", answer["mistakes"][0]["sentence"])
        refused = self.server.ask("POST", "/api/firings", {"firing": "metal-ceramic-firing", "set": {"program": {"entry": "warm"}}, "reason": "x"})
        self.assertEqual(refused.status, 422)
        self.assertEqual(refused.json["mistakes"][0]["key"], "entry")

    def test_what_was_typed_over_a_version_that_is_no_longer_the_newest_is_refused_with_both(self):
        piece = self.server.ask("GET", "/api/documents/firing/metal-ceramic-firing").json
        name = next(each["typed"] for each in piece["values"] if each["key"] == "piece[1].piece")
        path = f"/api/documents/piece/{name}"
        stands = self.server.ask("GET", path).json
        change = {f"piece {name}": {"label": "mine"}}
        typed_now = {"firing": "metal-ceramic-firing", "set": change, "from": {f"piece {name}": stands["version"]}, "name": "metal-conflict",
                     "reason": "tried"}
        other = self.server.ask("PUT", path, {"from": stands["version"], "set": {"label": "theirs"}, "reason": "another hand"})
        self.assertEqual(other.status, 200, other.bytes)
        refused = self.server.ask("POST", "/api/firings", typed_now)
        self.assertEqual(refused.status, 409, refused.bytes)
        told = refused.json
        self.assertEqual((told["error"], told["kind"], told["name"], told["from"], told["newest"]),
                         ("conflict", "piece", name, stands["version"], stands["version"] + 1))
        self.assertRegex(told["sentence"], r"(?s)was changed meanwhile.*Version \d+ changed:\n.*theirs.*Yours would have changed:\n.*mine")
        self.assertEqual(self.server.ask("GET", path).json["newest"], stands["version"] + 1, "nothing was kept")
        self.assertEqual(self.server.ask("GET", "/api/documents/firing/metal-conflict").status, 404)
        typed_now["from"] = {f"piece {name}": stands["version"] + 1}
        self.assertEqual(self.server.ask("POST", "/api/firings", typed_now).status, 200)
        self.assertIn("mine", json.dumps(self.server.ask("GET", path).json))
        # The firing itself: asked by its first version, while it has a second.
        again = {"firing": "metal-conflict@1", "set": {"firing": {"chamber.room": "25 °C"}}, "reason": "warmer"}
        self.assertEqual(self.server.ask("POST", "/api/firings", again).status, 200)
        again["set"]["firing"]["chamber.room"] = "26 °C"
        refused = self.server.ask("POST", "/api/firings", again)
        self.assertEqual(refused.status, 409, refused.bytes)
        self.assertEqual((refused.json["kind"], refused.json["from"], refused.json["newest"]), ("firing", 1, 2))
        self.assertNotIn("record", refused.json["sentence"])
        del typed_now["from"]["piece " + name]
        typed_now["from"]["tray middle"] = 1
        self.assertEqual(self.server.ask("POST", "/api/firings", typed_now).json["sentence"],
                         '"from" names "tray middle", over which nothing is typed.')

    def test_a_firing_never_becomes_the_next_version_of_another_one(self):
        typed_now = {"firing": "metal-ceramic-firing", "set": {"firing": {"chamber.room": "24 °C"}}, "name": "stain-firing", "reason": "tried"}
        before = self.server.ask("GET", "/api/documents/firing/stain-firing").json["newest"]
        refused = self.server.ask("POST", "/api/firings", typed_now)
        self.assertEqual(refused.status, 422, refused.bytes)
        self.assertIn(f"is kept already, in version {before}; give this one a name of its own. Nothing was kept.", refused.json["sentence"])
        self.assertEqual(self.server.ask("GET", "/api/documents/firing/stain-firing").json["newest"], before)
        own = {"firing": "metal-ceramic-firing", "set": {"program": {"heating[1].to": "944 °C"}}, "name": "metal-program", "reason": "tried"}
        before = self.server.ask("GET", "/api/documents/program/stain-film").json["newest"]
        refused = self.server.ask("POST", "/api/firings", own | {"program_name": "stain-film"})
        self.assertEqual((refused.status, refused.json["mistakes"][0]["of"], refused.json["mistakes"][0]["key"]), (422, "program", "name"))
        self.assertEqual(self.server.ask("GET", "/api/documents/program/stain-film").json["newest"], before)
        self.assertEqual(self.server.ask("GET", "/api/documents/firing/metal-program").status, 404, "nothing was kept")
        for _ in range(2):
            self.assertEqual(self.server.ask("POST", "/api/firings", own | {"program_name": "dentine-own"}).status, 200)
        typed_now["name"] = "metal-own"
        for _ in range(2):  # an answer that was lost on the way: asked once more, nothing is kept twice
            self.assertEqual(self.server.ask("POST", "/api/firings", typed_now).status, 200)
        self.assertEqual(self.server.ask("GET", "/api/documents/firing/metal-own").json["newest"], 1)

    def test_today_tells_when_a_firing_that_runs_opens(self):
        moment = lambda text: datetime.datetime.fromisoformat(text.replace("Z", "+00:00"))  # noqa: E731
        today = self.server.ask("GET", "/api/today").json
        running = [each for each in today["firings"] if each["state"] == "started"]
        self.assertTrue(running)
        for firing in today["firings"]:
            self.assertEqual(firing["open"] is None, firing["state"] != "started", firing["name"])
        firing = running[0]
        opens = next(each["at_s"] for each in self.by_command_line(firing["name"])["moments"] if each["what"] == "open")
        told = {key: (moment(at) - moment(firing["started"])).total_seconds() for key, at in firing["open"].items()}
        self.assertLessEqual(abs(told["expected"] - opens), 30.5)
        self.assertLess(told["earliest"], opens)
        self.assertGreater(told["latest"], opens)
        self.assertLess(told["latest"] - told["earliest"], 20 * 60)
        self.assertTrue(all(at.endswith(":00Z") for at in firing["open"].values()), firing["open"])

    def test_what_cannot_be_asked_is_refused(self):
        self.rehearse({"edit": 1}, 422)
        self.rehearse({"firing": "none-such", "edit": 7}, 404)
        self.rehearse(typed(8, set={"thing": {"a": "b"}}), 422)
        self.rehearse(typed(9, sett={}), 422)
        self.rehearse(typed(-1), 422)
        self.rehearse(typed(10, pane={"width": 0}), 422)

    def test_a_new_firing_of_kept_things(self):
        new = {"stage": "dentine", "pieces": [{"piece": "crown-16", "place": "middle"}], "tray": "light", "furnace": "corner",
               "program": "dentine-on-zirconia", "instruction": "dentine-on-zirconia-sheet", "chamber": {"room": "23 °C"}}
        answer = self.rehearse({"new": new, "edit": 11})
        self.assertEqual(answer["mistakes"], [])
        self.assertEqual([p["piece"] for p in answer["rehearsal"]["pieces"]], ["crown-16"])

    def test_german_and_fahrenheit_in_every_sentence(self):
        answer = self.rehearse(typed(12, True), Accept_Language="de-AT, en;q=0.5", Heatwork_Units="fahrenheit")
        for finding in answer["rehearsal"]["findings"]:
            said = finding["sentence"] + (finding["change"] or "")
            self.assertNotRegex(said, r"°C|[0-9] K\b")
        self.assertIn("Brand des Herstellers", json.dumps(answer["rehearsal"]["findings"], ensure_ascii=False))

    def test_the_picture_brings_no_style_and_is_small(self):
        picture = self.rehearse(typed(13))["picture"]
        self.assertNotIn("<style", picture)
        self.assertNotIn("style=", picture)
        self.assertLess(len(picture), 40000)
        pane = self.rehearse(typed(14, pane={"width": 560, "height": 600}))["picture"]
        self.assertIn('width="560"', pane)

    def test_a_newer_edit_stops_the_older_ones(self):
        answers = {}

        def ask(edit):
            answers[edit] = self.server.ask("POST", "/api/rehearse", {"firing": "metal-ceramic-firing", "edit": edit, "bands": True, "picture": False,
                                                                      "set": {"program": {"heating[1].to": f"{930 + edit % 20} °C"}}})

        asking = [threading.Thread(target=ask, args=(edit,)) for edit in range(1000, 1030)]
        for thread in asking:
            thread.start()
        for thread in asking:
            thread.join()
        stale = [a for a in answers.values() if a.status == 409]
        self.assertEqual(answers[1029].status, 200)
        self.assertGreater(len(stale), 10)
        self.assertTrue(all(a.json["error"] == "superseded" for a in stale))
        self.assertTrue(all(a.status in (200, 409) for a in answers.values()))

    def test_tabs_of_one_browser_do_not_stop_each_other(self):
        answers = {}

        def ask(tab, edit):
            answers[tab] = self.server.ask("POST", "/api/rehearse", {"firing": "metal-ceramic-firing", "edit": edit, "tab": tab, "bands": True, "picture": False,
                                                                     "set": {"program": {"heating[1].to": f"{930 + edit} °C"}}})

        asking = [threading.Thread(target=ask, args=(f"tab-{number}", number)) for number in range(4)]
        for thread in asking:
            thread.start()
        for thread in asking:
            thread.join()
        self.assertEqual([answer.status for answer in answers.values()], [200] * 4)
        refused = self.server.ask("POST", "/api/rehearse", {"firing": "metal-ceramic-firing", "edit": 1, "tab": "x" * 41})
        self.assertEqual((refused.status, refused.json["sentence"]), (422, '"tab" is a text of up to 40 letters that tells the tabs of a browser apart.'))

    def test_help_in_both_languages(self):
        english = self.server.ask("GET", "/api/help/degree%20of%20firing").json
        german = self.server.ask("GET", "/api/help/degree-of-firing", Accept_Language="de").json
        self.assertEqual(english["equation"], german["equation"])
        self.assertIn("(comparison.3)", english["equation"])
        self.assertNotEqual(english["meaning"], german["meaning"])
        self.assertEqual(self.server.ask("GET", "/api/help/luck").status, 404)
        self.assertIn(".firing-picture .small{", self.server.ask("GET", "/api/picture-style").bytes.decode())

    def test_a_job_tells_how_far_it_is_and_its_answer(self):
        begun = self.server.ask("POST", "/api/jobs", {"work": "verify"})
        self.assertEqual(begun.status, 202)
        line = http.client.HTTPConnection("127.0.0.1", self.server.port, timeout=60)
        line.request("GET", f"/api/jobs/{begun.json['id']}/events", headers={"Cookie": self.server.cookie} if self.server.cookie else {})
        heard = line.getresponse()
        self.assertTrue(heard.getheader("Content-Type").startswith("text/event-stream"))
        text = heard.read().decode()
        line.close()
        self.assertIn("event: done", text)
        seen = self.server.ask("GET", f"/api/jobs/{begun.json['id']}").json
        self.assertEqual(seen["state"], "done")
        self.assertFalse(seen["wrong"])
        self.assertEqual(self.server.ask("DELETE", f"/api/jobs/{begun.json['id']}").status, 200)
        self.assertEqual(self.server.ask("GET", f"/api/jobs/{begun.json['id']}").status, 404)
        self.assertEqual(self.server.ask("POST", "/api/jobs", {"work": "dance"}).status, 422)

    def test_an_export_is_long_work_and_stands_among_the_backups(self):
        refused = self.server.ask("POST", "/api/jobs", {"work": "export"}, Accept_Language="de")
        self.assertEqual(refused.status, 400, refused.bytes)
        self.assertIn("keinen Ordner für Sicherungen", refused.json["sentence"])
        settings = pathlib.Path(self.server.environment["XDG_CONFIG_HOME"]) / "heatwork/settings.toml"
        settings.parent.mkdir(parents=True, exist_ok=True)
        backups = pathlib.Path(self.server.folder.name) / "backups"
        settings.write_text(f'format = 1\n[settings]\nbackups = "{backups}"\n')
        try:
            begun = self.server.ask("POST", "/api/jobs", {"work": "export"})
            self.assertEqual(begun.status, 202, begun.bytes)
            path = f"/api/jobs/{begun.json['id']}"
            until = time.monotonic() + 60
            while (job := self.server.ask("GET", path).json)["state"] == "running" and time.monotonic() < until:
                time.sleep(0.05)
            self.assertEqual((job["state"], job["work"], job["wrong"]), ("done", "export", False), job)
            written = pathlib.Path(job["answer"]["file"])
            self.assertEqual(written.parent, backups)
            self.assertEqual(written.stat().st_size, job["answer"]["bytes"])
            self.assertGreater(job["all"], 0)
            copy = str(backups / "again.sqlite")
            code, said, wrong = self.server.heatwork("store", "import", str(written), "--store", copy)
            self.assertEqual(code, 0, said + wrong)
        finally:
            settings.unlink()


if __name__ == "__main__":
    house.main()
