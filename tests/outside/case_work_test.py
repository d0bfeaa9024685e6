"""Firings kept, started, ended and told again, by the real binary: each answer, each refusal with its whole sentence."""
import json
import pathlib
import subprocess
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import house  # noqa: E402
from records_store_test import BINARY, Place  # noqa: E402


class Work(Place):
    def setUp(self):
        super().setUp()
        self.lab = self.place / "lab"
        self.heatwork("demo", "lab")

    def heatwork(self, *words, code=0, **more):
        done = subprocess.run([str(BINARY), *words], cwd=self.place, env=self.environment | more, stdin=subprocess.DEVNULL, capture_output=True,
                              text=True)
        self.assertEqual(done.returncode, code, done.stdout + done.stderr)
        return done.stdout if code in (0, 1) else done.stderr

    def answer(self, *words, code=0, **more):
        return json.loads(self.heatwork(*words, "--json", code=code, **more))

    def alter(self, file, old, new):
        path = self.lab / file
        text = path.read_text()
        self.assertIn(old, text)
        path.write_text(text.replace(old, new, 1))


class Kept(Work):
    def test_without_a_store_a_firing_is_rehearsed_from_files_alone(self):
        came_from = self.answer("rehearse", "lab/firing.toml")["came_from"]
        self.assertEqual({place.split(":")[0] for place in came_from.values()}, {"beside", "shipped"})
        self.assertFalse((self.place / "data").exists(), "nothing is made by looking")

    def test_a_store_that_is_named_must_stand(self):
        said = "There is no store at none.sqlite. \"heatwork store create\" makes one, \"heatwork store restore BACKUP\" brings one back.\n"
        self.assertEqual(self.heatwork("rehearse", "lab/firing.toml", "--store", "none.sqlite", code=2), said)
        self.assertEqual(self.heatwork("rehearse", "lab/firing.toml", code=2, HEATWORK_STORE="none.sqlite"), said)
        self.assertEqual(self.heatwork("rehearse", "lab/firing.toml", "--keep", "--store", "none.sqlite", code=2), said)

    def test_kept_once_and_found_by_name(self):
        kept = self.answer("rehearse", "lab/firing.toml", "--keep")["kept"]
        self.assertEqual((kept["firing"], kept["version"], kept["rehearsal"], kept["is_new"]), ("firing", 1, 1, True))
        self.assertEqual(kept["head"], self.json("status")["head"])
        again = self.answer("rehearse", "lab/firing.toml", "--keep")["kept"]
        self.assertEqual((again["is_new"], again["head"]), (False, kept["head"]))
        for name in ("firing", "firing@1"):
            by_name = self.answer("rehearse", name)
            self.assertEqual(by_name["came_from"]["tray light"], "store: tray light@1")
            from_files = self.answer("rehearse", "lab/firing.toml")
            self.assertEqual(by_name["inputs_hash"], from_files["inputs_hash"])
            self.assertEqual([each["sentence"] for each in by_name["findings"]], [each["sentence"] for each in from_files["findings"]])
        self.assertIn("nothing was altered", self.done("verify"))
        self.assertIsNone(self.answer("rehearse", "firing")["kept"])

    def test_what_cannot_be_found_or_kept_is_said(self):
        where = self.place / "data/heatwork/lab.sqlite"
        self.assertEqual(self.heatwork("rehearse", "firing", code=2),
                         f"Firing \"firing\" would stand in the store {where}, but there is none. A file's name ends in .toml.\n")
        self.heatwork("rehearse", "lab/firing.toml", "--keep")
        for word, said in [("firin", f"The store {where} keeps no firing \"firin\"; did you mean \"firing\"?\n"),
                           ("dentine", f"The store {where} keeps no firing \"dentine\"; a file's name ends in .toml.\n"),
                           ("firing@2", "Firing firing has no version 2; its newest is 1.\n"),
                           ("firing@", "\"firing@\" names no version; a version is a number from 1, as in firing@1.\n"),
                           ("firing@0", "\"firing@0\" names no version; a version is a number from 1, as in firing@1.\n")]:
            self.assertEqual(self.heatwork("rehearse", word, code=2), said)
        self.alter("firing.toml", 'place = "between"', 'place = "edge"')
        head = self.json("status")["head"]
        self.assertEqual(self.heatwork("rehearse", "lab/firing.toml", "--keep", code=2),
                         "Firing firing differs from version 1 in the store; nothing was kept. Say why, and it becomes version 2.\n")
        self.assertEqual(self.json("status")["head"], head)
        self.assertEqual(self.answer("rehearse", "lab/firing.toml", "--keep", "--reason", "moved")["kept"]["version"], 2)

    def test_a_damaged_store_is_never_passed_over(self):
        self.heatwork("rehearse", "lab/firing.toml", "--keep")
        where = self.place / "data/heatwork/lab.sqlite"
        whole = where.read_bytes()
        where.write_bytes(b"no store any more" + whole[17:])
        self.assertEqual(self.heatwork("rehearse", "lab/firing.toml", code=2),
                         f"The store {where} is no store of Heatwork: something else stands there.\n")
        where.write_bytes(whole[:4096] + b"\xff" * (len(whole) - 4096))
        self.assertIn(str(where), self.heatwork("rehearse", "lab/firing.toml", code=3))


class Day(Work):
    """A day on the demo lab: two firings of one crown with bench steps between them."""

    def setUp(self):
        super().setUp()
        self.done("take-in", "lab")

    def fire(self, name, *ended, at):
        started = self.answer("case", "start", name, "--at", f"2026-01-05T{at}:00:00Z", "--as", "mara")
        self.answer("case", "end", name, *ended, "--at", f"2026-01-05T{at}:30:00Z", "--as", "tom")
        return started

    def test_a_whole_day_is_told_again(self):
        self.answer("rehearse", "lab/firing.toml", "--keep")
        self.answer("case", "step", "layers-1", "--work", "build-up", "--piece", "crown-16", "--piece", "bridge-24-26", "--lot", "veneer-31-7",
                    "--at", "2026-01-05T08:00:00Z", "--as", "mara")
        started = self.fire("firing", "--piece", "crown-16=fire again", "--piece", "bridge-24-26=as-wanted", "--looked-like", "crown-16=-10 K",
                            "--seen", "crown-16=edges still sharp", "--highest-display", "818 \u00b0C", at="09")
        self.assertEqual({use["name"] for use in started["used"] if use["kind"] == "furnace"}, {"corner"})
        (self.place / "shot.png").write_bytes(b"\x89PNG\r\n\x1a\n and more")
        photo = self.answer("case", "photo", "firing", "shot.png", "--of", "crown after dentine")["photos"][0]["hash"]
        self.alter("piece-crown-16.toml", "1.9 mm", "1.7 mm")
        step = self.answer("case", "step", "ground-1", "--work", "grind", "--piece", "crown-16", "--piece-file", "lab/piece-crown-16.toml",
                           "--at", "2026-01-05T10:00:00Z", "--as", "mara")
        self.assertEqual(step["changed"], [{"piece": "crown-16", "version": 2}])
        self.alter("window-firing.toml", "instruction = ", 'after = ["firing"]\ninstruction = ')
        self.answer("rehearse", "lab/window-firing.toml", "--keep", "--reason", "after the first dentine")
        self.fire("window-firing", "--piece", "crown-16=as wanted", "--piece", "bridge-24-26=not judged", at="11")

        told = self.answer("case", "history", "crown-16")
        self.assertEqual([(each["kind"], each["name"], each["person"]) for each in told["history"]],
                         [("bench step", "layers-1", "mara"), ("firing", "firing", "mara"), ("bench step", "ground-1", "mara"),
                          ("firing", "window-firing", "mara")])
        first, second = told["history"][1], told["history"][3]
        self.assertEqual((first["piece"], first["furnace"], first["program"], first["ended_by"]),
                         ("crown-16@1", "corner@1", "dentine-on-zirconia@1", "tom"))
        self.assertEqual(first["result"], {"outcome": "fire again", "looked_like_K": -10, "seen": "edges still sharp"})
        self.assertEqual(first["photos"], [{"hash": photo, "of": "crown after dentine"}])
        self.assertEqual(first["after"]["how"], "kept rehearsal 2")
        self.assertLess(first["after"]["shift_K"], -10)
        self.assertEqual((second["piece"], second["furnace"]), ("crown-16@2", "window@1"))
        text = self.heatwork("case", "history", "crown-16")
        self.assertIn("like 13 K less than the maker's own, no water left (kept rehearsal 2)", text)
        self.assertLessEqual(max(len(line) for line in text.splitlines() if photo not in line), 100)
        self.heatwork("case", "photo-out", photo, "again.png")
        self.assertEqual((self.place / "again.png").read_bytes(), (self.place / "shot.png").read_bytes())
        self.assertIn("nothing was altered", self.done("verify"))

        # What stands now may change: the first firing is told, and computed, as it was.
        before = self.answer("rehearse", "firing")
        self.alter("furnace-corner.toml", "12 K", "31 K")
        self.alter("tray-light.toml", 'mass = "', 'mass = "1')
        self.done("take-in", "lab", "--reason", "checked again")
        after = self.answer("rehearse", "firing")
        self.assertEqual((after["inputs_hash"], after["findings"]), (before["inputs_hash"], before["findings"]))
        self.assertEqual(after["came_from"]["furnace corner"], "as it was fired: furnace corner@1")
        self.assertNotEqual(self.answer("rehearse", "firing@1")["inputs_hash"], before["inputs_hash"], "a plan takes what stands now")
        self.assertEqual(self.answer("case", "history", "crown-16")["history"], told["history"])

    def test_each_refusal_is_one_sentence(self):
        self.answer("rehearse", "lab/firing.toml", "--keep")
        head = self.json("status")["head"]
        for words, said in [
                (("start", "firin"), "The store keeps no firing \"firin\"; did you mean \"firing\"?\n"),
                (("start", "nothing-like-it"), "The store keeps no firing \"nothing-like-it\"; rehearse it and keep it first.\n"),
                (("start", "firing", "--at", "yesterday"), None),
                (("end", "firing", "--piece", "crown-16=as wanted"),
                 "Firing firing is \"planned\" and cannot be ended; \"heatwork case start\" starts it first.\n"),
                (("interrupted", "firing", "--what", "mains cut"),
                 "Firing firing is \"planned\" and cannot be interrupted; only a started firing can.\n"),
                (("step", "No name", "--work", "grind", "--piece", "crown-16"), None),
                (("photo", "firing", "no.jpg"), None),
                (("photo-out", "ab" * 32, "no.jpg"), f"No photo with the hash {'ab' * 32} is kept.\n"),
                (("history", "crown-61"), "The store keeps nothing of a piece \"crown-61\".\n")]:
            answer = self.heatwork("case", *words, code=2)
            self.assertEqual(answer.count("\n"), 1, answer)
            if said:
                self.assertEqual(answer, said)
        self.assertEqual(self.json("status")["head"], head, "nothing was kept by what was refused")

    def test_of_two_that_start_at_once_one_is_refused(self):
        self.answer("rehearse", "lab/firing.toml", "--keep")
        self.answer("rehearse", "lab/window-firing.toml", "--keep")
        both = [subprocess.Popen([str(BINARY), "case", "start", name], cwd=self.place, env=self.environment, stdout=subprocess.PIPE,
                                 stderr=subprocess.PIPE, text=True) for name in ("firing", "window-firing")]
        ended = [(process.communicate(), process.returncode) for process in both]
        self.assertEqual(sorted(code for _, code in ended), [0, 2], ended)
        refused = next(answer[1] for answer, code in ended if code == 2)
        self.assertIn("crown-16", refused)


# The class of the other file is for use here, not to be run twice.
del Place

if __name__ == "__main__":
    house.main()
