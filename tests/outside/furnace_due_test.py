"""What is due for a furnace and whether it is qualified, by the real binary: reasons, intervals of furnace and lab, the same list as "store due"
and as today, as found and as left, out of use, the sheet on both papers."""
import datetime
import json
import pathlib
import shutil
import subprocess
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import house  # noqa: E402
from records_store_test import BINARY, Place  # noqa: E402


def day(before):
    """The day so many days before today; noon in UTC is the same day in Berlin."""
    return str(datetime.datetime.now(datetime.timezone.utc).date() - datetime.timedelta(days=before))


def check(name, of, before, good=True, extra="", **more):
    values = {"name": name, "furnace": "corner", "of": of, "good": good, "at": f"{day(before)}T08:00:00Z", "person": "mara"} | more
    return "format = 1\n\n[check]\n" + "".join(f"{key} = {json.dumps(value)}\n" for key, value in values.items()) + extra


def firing(name, stage, before, outcome="as wanted"):
    return (f'format = 1\n\n[firing]\nname = "{name}"\nstage = "{stage}"\ntray = "light"\nfurnace = "corner"\nprogram = "glaze-film"\n\n[[firing.piece]]\n'
            f'piece = "tab"\n\n[firing.record]\nstate = "ended"\nstarted = "{day(before)}T09:00:00Z"\nstarted_by = "mara"\nended = "{day(before)}T09:30:00Z"\n'
            f'ended_by = "mara"\n\n[[firing.record.result]]\npiece = "tab"\noutcome = "{outcome}"\n')


class FurnaceDue(Place):
    def setUp(self):
        super().setUp()
        self.environment |= {"TZ": "Europe/Berlin"}
        self.lab = self.place / "lab"
        self.lab.mkdir()
        for name in ("furnace-corner", "furnace-window"):
            shutil.copy(house.ROOT / f"data/demo/{name}.toml", self.lab)
        self.done("create", "--as", "mara")

    def keep(self, **texts):
        for name, text in texts.items():
            (self.lab / f"{name}.toml").write_text(text)
        self.done("take-in", "lab", "--as", "mara")

    def ask(self, *words, code=0):
        answer = subprocess.run([str(BINARY), *words], cwd=self.place, env=self.environment, stdin=subprocess.DEVNULL, capture_output=True, text=True)
        self.assertEqual(answer.returncode, code, answer.stdout + answer.stderr)
        return answer.stderr if code == 2 else answer.stdout

    def due(self, furnace="corner"):
        [told] = json.loads(self.ask("furnace", "check", "due", furnace, "--json"))["furnaces"]
        return {item["what"]: item for item in told["due"]}

    def test_each_work_has_its_day_its_reason_and_who_says_so(self):
        self.keep(temp=check("wire-1", "temperature", 12), vac=check("vac-1", "vacuum", 40), one=firing("glaze-1", "glaze", 0))
        due = self.due()
        self.assertEqual((due["temperature check"]["on"], due["temperature check"]["overdue"]), (day(-18), False))
        self.assertEqual(due["temperature check"]["reason"]["sentence"], f"Last done on {day(12)} by check wire-1.")
        self.assertEqual((due["temperature check"]["interval"], due["temperature check"]["set_by"]), ("every 30 days or after 100 firings", "common practice"))
        self.assertEqual((due["vacuum test"]["on"], due["vacuum test"]["overdue"]), (day(10), True))
        self.assertEqual(due["full-power run"]["reason"]["sentence"], "Nothing that is kept tells that it was ever done.")
        self.assertNotIn("start of the day", due)
        self.assertIn("start of the day", self.due("window"))
        text = self.ask("furnace", "check", "due", "corner")
        self.assertIn(f"\n{day(10)}  overdue  vacuum test\n             Last done on {day(40)} by check vac-1. Due every 30 days (common practice).\n", text)
        self.assertIn("Nobody says how often the muffle is due: the furnace maker's instruction must.", " ".join(text.split()))
        self.assertIn("The furnace maker's instruction comes first", text)
        self.assertLessEqual(max(map(len, text.split("\n"))), 100)

    def refused(self, verb, *words):
        return self.ask("furnace", "check", verb, *words, "--as", "mara", code=2).removeprefix("heatwork: ").strip()

    def test_furnace_and_lab_set_how_often_and_the_makers_word_goes_first(self):
        self.keep(vac=check("vac-1", "vacuum", 2), temp=check("wire-1", "temperature", 10))
        self.assertEqual((self.due()["vacuum test"]["set_by"], self.due()["vacuum test"]["on"]), ("common practice", day(-28)))
        text = self.ask("furnace", "check", "interval", "vacuum test", "--every-days", "5", "--as", "mara")
        self.assertIn("Kept         lab lab, version 1", text)
        self.assertEqual((self.due()["vacuum test"]["set_by"], self.due()["vacuum test"]["on"]), ("the lab, for every furnace", day(-3)))
        text = self.ask("furnace", "check", "interval", "vacuum test", "--furnace", "corner", "--every-days", "14", "--after-firings", "60", "--as", "mara")
        self.assertIn("Due every 14 days or after 60 firings (the lab; set by mara).", " ".join(text.split()))
        self.assertEqual(self.due("window")["vacuum test"]["set_by"], "the lab, for every furnace")
        self.ask("furnace", "check", "interval", "vacuum test", "--furnace", "corner", "--every-days", "20", "--by", "furnace maker", "--stated-in",
                 "instructions for use, page 31", "--as", "mara")
        item = self.due()["vacuum test"]
        self.assertEqual([item[key] for key in ("set_by", "stated_in", "person", "interval", "every_days", "after_firings", "on", "by_hand", "check")],
                         ["furnace maker's instruction", "instructions for use, page 31", "mara", "every 20 days", 20, None, day(-18), False, "vacuum"])
        self.assertEqual(self.refused("interval", "vacuum test", "--furnace", "corner", "--every-days", "3"),
                         "The furnace maker's instruction says how often the vacuum test of furnace corner is due, and comes first.")
        self.ask("furnace", "check", "interval", "vacuum test", "--furnace", "corner", "--as-before", "--as", "mara")
        self.assertEqual(self.due()["vacuum test"]["set_by"], "the lab, for every furnace")
        self.assertNotIn("[[furnace.due]]", self.ask("furnace", "show", "corner"))
        self.ask("furnace", "check", "interval", "vacuum test", "--as-before", "--as", "mara")
        self.assertEqual(self.due()["vacuum test"]["set_by"], "common practice")

    def test_what_cannot_be_set_is_refused_in_one_sentence_and_nothing_is_kept(self):
        self.keep(temp=check("wire-1", "temperature", 10))
        before = self.ask("store", "trail")
        for words, sentence in (
            (["vacum test", "--every-days", "3"], '"vacum test" is no work of every furnace; did you mean "vacuum test"?'),
            (["vacuum test"], "Say how often: every so many days, after so many firings or after so many hours of firings."),
            (["vacuum test", "--every-days", "3", "--as-before"], "Say how often, or that it goes back to what it was before; one of the two."),
            (["vacuum test", "--every-days", "3", "--by", "the moon"], 'Who says how often is "furnace maker" or "lab", not "the moon".'),
            (["vacuum test", "--every-days", "3", "--by", "furnace maker"], "What a furnace maker says is kept with its furnace; name the furnace."),
            (["vacuum test", "--furnace", "corner", "--every-days", "3", "--by", "furnace maker"],
             'Where the furnace maker says so is missing; give it, such as "instructions for use, page 31".'),
            (["vacuum test", "--every-days", "3", "--stated-in", "page 3"], "Where it is stated goes with what the furnace maker says."),
            (["start of the day", "--after-firings", "3"], "The start of the day comes round by days alone."),
            (["vacuum test", "--as-before"], "Nothing is set for the vacuum test of every furnace."),
            (["muffle", "--furnace", "corner", "--as-before"], "Nothing is set for the muffle of furnace corner."),
        ):
            self.assertEqual(self.refused("interval", *words), sentence)
        self.assertIn("allowed is 1 to 3652", self.refused("interval", "vacuum test", "--every-days", "0"))
        self.assertIn("every_days", self.refused("interval", "vacuum test", "--furnace", "corner", "--every-days", "often"))
        self.assertIn('No furnace "attic" is kept', self.refused("interval", "vacuum test", "--furnace", "attic", "--every-days", "3"))
        self.assertEqual(self.ask("store", "trail"), before)

    def test_what_no_record_tells_is_marked_done_by_whom(self):
        self.keep(temp=check("wire-1", "temperature", 10))
        self.assertEqual(self.due()["pump service"]["reason"]["sentence"], "Nothing that is kept tells that it was ever done.")
        text = self.ask("furnace", "check", "done", "corner", "pump service", "--on", day(5), "--as", "mara")
        self.assertIn("Kept         furnace corner, version 2", text)
        item = self.due()["pump service"]
        self.assertEqual((item["on"], item["reason"]["sentence"]), (day(-360), f"Last done on {day(5)} by mara, marked by hand."))
        self.assertEqual(item["last"], {"on": day(5), "by": "mara, marked by hand", "sentence": f"Last done on {day(5)} by mara, marked by hand."})
        self.ask("furnace", "check", "interval", "wipe the door", "--every-days", "10", "--as", "mara")
        self.ask("furnace", "check", "done", "corner", "wipe the door", "--as", "mara")
        self.assertEqual((self.due()["wipe the door"]["on"], self.due("window")["wipe the door"]["overdue"]), (day(-10), False))
        for words, sentence in (
            (["pump service", "--on", day(9)], f"The pump service was last done on {day(5)} by mara, marked by hand already."),
            (["pump service", "--on", day(-2)], f"{day(-2)} is still to come; what was done was done today or before."),
            (["pump service", "--on", "soon"], '"soon" is no day; a day is written 2026-11-25.'),
            (["vacuum test"], "The vacuum test is done by a check whose readings are kept; it is not marked by hand."),
            (["polish the brass"], 'Nothing says that "polish the brass" is due at furnace corner; say how often first.'),
        ):
            self.assertEqual(self.refused("done", "corner", *words), sentence)

    def test_a_muffle_serves_from_its_day_and_its_exchange_opens_the_qualification(self):
        self.keep(temp=check("wire-1", "temperature", 10), one=firing("glaze-1", "glaze", 3))
        self.ask("furnace", "check", "interval", "muffle", "--furnace", "corner", "--after-hours", "1", "--by", "furnace maker", "--stated-in", "page 12",
                 "--as", "mara")
        text = self.ask("furnace", "check", "due", "corner")
        self.assertIn("muffle", text)
        self.ask("furnace", "check", "done", "corner", "muffle", "--as", "mara")
        self.assertIn("muffle exchanged", self.due()["requalification"]["reason"]["sentence"])

    def test_firings_are_counted_from_the_last_time_on_however_long_ago(self):
        self.keep(temp=check("wire-1", "temperature", 700), old=firing("glaze-1", "glaze", 500), new=firing("glaze-2", "glaze", 3))
        self.ask("furnace", "check", "interval", "pump service", "--furnace", "corner", "--after-firings", "2", "--as", "mara")
        self.ask("furnace", "check", "done", "corner", "pump service", "--on", day(600), "--as", "mara")
        item = self.due()["pump service"]
        self.assertEqual((item["on"], item["reason"]["sentence"]), (day(0), f"Last done on {day(600)} by mara, marked by hand, 2 firings ago."))

    def test_silver_asks_for_cleaning_and_then_for_a_white_tab(self):
        self.keep(wire=check("wire-1", "temperature", 3, extra='\n[check.wire]\nmetal = "silver"\n'), one=firing("glaze-1", "glaze", 0))
        self.assertEqual(self.due()["cleaning firing"]["reason"]["sentence"],
                         f"Silver was in the chamber on {day(3)} (check wire-1) and no cleaning firing since.")
        self.keep(clean=firing("clean-1", "cleaning", 2))
        due = self.due()
        self.assertEqual(due["white tab"]["on"], day(2))
        self.assertEqual(due["cleaning firing"]["reason"]["sentence"], f"Last done on {day(2)} by firing clean-1.")
        self.keep(white=check("white-1", "cleaning", 1))
        self.assertNotIn("white tab", self.due())

    def test_it_is_the_same_list_as_what_is_due_in_the_store(self):
        self.keep(temp=check("wire-1", "temperature", 12), old=check("vac-1", "vacuum", 40, next=day(10)), new=check("vac-2", "vacuum", 5, next=day(-25)),
                  reference='format = 1\n\n[reference]\nname = "wire"\nof = "silver wire"\nexpires = "2031-05-31"\n')
        rows = {(row["kind"], row["name"], row["what"]): row["on"] for row in json.loads(self.ask("store", "due", "--json"))["due"]}
        self.assertEqual(rows["furnace", "corner", "temperature check"], day(-18))
        self.assertEqual(rows["check", "vac-2", "check of vacuum of corner"], day(-25))
        self.assertNotIn(("check", "vac-1", "check of vacuum of corner"), rows, "a newer check of its kind stands")
        self.assertNotIn(("furnace", "corner", "vacuum test"), rows, "the check states its day")
        due = self.due()
        self.assertEqual(due["vacuum test"]["on"], day(-25))
        for what, item in due.items():
            if what != "vacuum test":
                self.assertEqual(rows["furnace", "corner", what], item["on"], what)
        told = json.loads(self.ask("furnace", "check", "due", "--json"))
        self.assertEqual([row["reference"] for row in told["references"]], ["wire"])
        self.assertEqual([each["furnace"] for each in told["furnaces"]], ["corner", "window"])
        self.assertIn('No furnace "cornr" is kept; did you mean "corner"?', self.ask("furnace", "check", "due", "cornr", code=2))

    def test_certificates_fall_due_by_their_day_the_lab_the_maker_or_common_practice(self):
        def reference(name, of, **more):
            values = {"name": name, "of": of} | more
            return "format = 1\n\n[reference]\n" + "".join(f"{key} = {json.dumps(value)}\n" for key, value in values.items())
        self.keep(a=reference("wire", "silver wire", certified=day(30), expires=day(-90)), b=reference("probe", "thermocouple", certified=day(400)),
                  c=reference("gauge", "vacuum gauge", certified=day(10), every_days=90, by="furnace maker", stated_in="manual, page 7"),
                  d=reference("glass", "barometer", certified=day(10), every_days=200), e=reference("tab", "shade tab"), f=reference("new", "thermocouple"),
                  g=reference("soon", "thermocouple", certified=day(10), expires=day(-300), every_days=60))
        told = json.loads(self.ask("furnace", "check", "due", "corner", "--json"))["references"]
        self.assertEqual({row["reference"]: (row["on"], row["overdue"], row["set_by"], row["interval"]) for row in told},
                         {"wire": (day(-90), False, "its certificate", None), "probe": (day(35), True, "common practice", "every 365 days"),
                          "gauge": (day(-80), False, "furnace maker's instruction", "every 90 days"), "glass": (day(-190), False, "the lab", "every 200 days"),
                          "new": (day(0), False, "common practice", "every 365 days"), "soon": (day(-50), False, "the lab", "every 60 days")})
        self.assertEqual([row["on"] for row in told], sorted(row["on"] for row in told))
        text = " ".join(self.ask("furnace", "check", "due", "corner").split())
        self.assertIn(f"{day(35)} overdue probe: thermocouple Certified on {day(400)}. Again every 365 days (common practice).", text)
        self.assertIn("(furnace maker's instruction, manual, page 7).", text)
        self.assertIn("Nothing that is kept tells when it was certified.", text)
        rows = {row["name"]: row["on"] for row in json.loads(self.ask("store", "due", "--json"))["due"] if row["kind"] == "reference"}
        self.assertEqual(rows, {row["reference"]: row["on"] for row in told}, "the same days in the whole list")

    def whole(self):
        self.keep(temp=check("wire-1", "temperature", 20, good=False, error="12 K", standard_uncertainty="2 K", limit="6 K", decision="corrected"),
                  left=check("wire-2", "temperature", 20, as_left=True, at=f"{day(20)}T09:00:00Z", error="0.4 K", standard_uncertainty="2 K", limit="6 K"),
                  vac=check("vac-1", "vacuum", 19, ultimate="41 mbar"), heat=check("heat-1", "heating", 19), tabs=check("map-1", "chamber map", 18, spread="4 K"),
                  **{f"s{i}": firing(f"specimen-{i}", "specimen", 17) for i in range(3)})

    def report(self, code=0):
        return json.loads(self.ask("furnace", "check", "report", "corner", "--json", code=code))

    def test_a_furnace_is_qualified_by_its_checks_and_specimens_and_reopened_by_a_repair(self):
        self.keep()
        self.assertEqual(self.report()["outcome"], "not yet qualified")
        self.whole()
        told = self.report()
        self.assertEqual((told["outcome"], told["specimens"]["as_wanted"]), ("qualified", 3))
        works = {work["work"]: work for work in told["works"]}
        self.assertEqual((works["temperature check"]["as_found"]["check"], works["temperature check"]["as_left"]["check"]), ("wire-1", "wire-2"))
        self.assertEqual((works["temperature check"]["as_found"]["limit_K"], works["temperature check"]["as_found"]["limit_by"]), (6, "lab"))
        text = self.ask("furnace", "check", "report", "corner")
        self.assertIn("error +12.0 K ± 4.0 K, limit 6 K (set by the lab) (wire-1)", " ".join(text.split()))
        self.assertLessEqual(max(map(len, text.split("\n"))), 100)
        self.keep(muffle=check("vac-2", "vacuum", 3, after_repair="new muffle"))
        told = self.report()
        self.assertEqual(told["outcome"], "not yet qualified")
        self.assertIn("temperature check and full-power run and chamber map still to be done", told["finding"]["sentence"])
        self.assertEqual(self.due()["requalification"]["reason"]["sentence"],
                         f"After new muffle on {day(3)} still wanted: temperature check and full-power run and chamber map.")

    def test_out_of_use_ends_1_and_is_said_large_on_the_sheet(self):
        self.whole()
        self.keep(off=check("wire-9", "temperature", 1, good=False, error="31 K", standard_uncertainty="2 K", limit="6 K", decision="out of use"))
        told = self.report(code=1)
        self.assertEqual((told["outcome"], told["out_of_use_by"]), ("out of use", "wire-9"))
        for paper, size in (("a4", "595.28 x 841.89"), ("letter", "612 x 792")):
            self.ask("furnace", "check", "report", "corner", "--sheet", f"{paper}.pdf", "--paper", paper, code=1)
            info = subprocess.run(["pdfinfo", f"{paper}.pdf"], cwd=self.place, capture_output=True, text=True, check=True).stdout
            self.assertIn(size, info)
            self.assertIn("Report of furnace corner", info)
            text = " ".join(subprocess.run(["pdftotext", "-layout", f"{paper}.pdf", "-"], cwd=self.place, capture_output=True, text=True, check=True).stdout.split())
            for words in ("OUT OF USE: fire nothing in this furnace.", "as found", "6 K (set by", "Not a medical device.", "page 1 of", "specimen-0"):
                self.assertIn(words, text)
        self.ask("furnace", "check", "report", "corner", "--sheet", "de.pdf", "--language", "de", code=1)
        german = " ".join(subprocess.run(["pdftotext", "-layout", "de.pdf", "-"], cwd=self.place, capture_output=True, text=True, check=True).stdout.split())
        for words in ("AUSSER BETRIEB", "Bericht über den Ofen corner", "wie vorgefunden", "Kein Medizinprodukt", "Seite 1 von"):
            self.assertIn(words, german)
        for english in ("as found", "Condition", "Out of use", "set by"):
            self.assertNotIn(english, german)

    def test_wrong_words_are_answered_by_one_sentence(self):
        self.keep()
        for words, sentence in ((("corner", "--paper", "a5", "--sheet", "a.pdf"), '--paper is "a5", but must be a4 or letter'),
                                (("corner", "--paper", "a4"), "--paper goes with --sheet"),
                                (("corner", "--sheet", "a.svg"), 'A report\'s name must end in .pdf, and "a.svg" does not.'),
                                (("cornr",), 'No furnace "cornr" is kept; did you mean "corner"?')):
            self.assertIn(sentence, self.ask("furnace", "check", "report", *words, code=2))


if __name__ == "__main__":
    house.main()
