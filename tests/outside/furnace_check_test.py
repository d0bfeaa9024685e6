"""A furnace is checked by the real binary, as at the bench: asked one thing at a time, wires fired at the display it says, kept on the way,
corrected and confirmed; compared with a thermocouple; mapped. And all that is no check is refused by one sentence, with nothing kept."""
import json
import pathlib
import re
import subprocess
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import house  # noqa: E402
from records_store_test import BINARY, Place  # noqa: E402

WIRE = ("--wire", "silver", "--purity", "99.99 %", "--gas", "vacuum", "--pressure", "50 mbar", "--vented-hot", "false",
        "--diameter", "0.25 mm", "--hold", "2 min", "--criterion", "edges rounded")
PROBE = ("--type", "S", "--use", "new", "--class", "1")


class Lab(Place):
    def setUp(self):
        super().setUp()
        self.environment |= {"TZ": "Europe/Berlin", "HEATWORK_STORE": "lab.sqlite"}
        for name in ("window", "corner"):
            (self.place / f"{name}.toml").write_text(house.text(f"data/demo/furnace-{name}.toml"))
        self.ask("store", "create")
        self.ask("furnace", "add", "window.toml", "corner.toml")

    def run_it(self, *words):
        return subprocess.run([str(BINARY), *words], cwd=self.place, env=self.environment, stdin=subprocess.DEVNULL, capture_output=True, text=True)

    def ask(self, *words, code=0):
        answer = self.run_it(*words)
        self.assertEqual((answer.returncode, answer.stderr), (code, ""), answer.stdout + answer.stderr)
        return answer.stdout

    def check(self, of, *words, furnace="window", code=0):
        told = json.loads(self.ask("furnace", "check", of, furnace, *words, "--json", code=code))
        self.assertEqual(list(told)[:3], ["format", "furnace", "check"])
        return told

    def refusal(self, of, *words, furnace="window", code=2):
        answer = self.run_it("furnace", "check", of, furnace, "--keep", *words)
        self.assertEqual((answer.returncode, answer.stdout), (code, ""), answer.stderr)
        self.assertEqual(answer.stderr.count("\n"), 1, answer.stderr)
        self.assertEqual(self.kept(), [], "nothing is kept of it")
        return answer.stderr.rstrip("\n")

    def kept(self):
        return json.loads(self.ask("check", "list", "--json"))["rows"]

    def fire(self, name, true_error, melting=959.65):
        """A wire that melts where the chamber is hot enough, at the display asked for, until no further one is asked for."""
        told = self.check("temperature", "--go-on", name)
        while told["next"]:
            display = told["next"]["display_C"]
            how = "melted" if display - true_error >= melting else "whole"
            answer = self.run_it("furnace", "check", "temperature", "window", "--go-on", name, "--keep", "--trial", f"{display:.0f} °C {how}", "--json")
            self.assertIn(answer.returncode, (0, 1), answer.stderr)
            told = json.loads(answer.stdout)
            self.assertEqual(answer.returncode, 1 if told["level"] == "not good" else 0)
        return told


class Temperature(Lab):
    def test_it_asks_one_thing_at_a_time_and_keeps_nothing_unasked(self):
        answers = dict(zip(WIRE[::2], WIRE[1::2]))
        option_of = {"wire.metal": "--wire"} | {f"wire.{name}": f"--{name.replace('_', '-')}" for name in
                                                ("purity", "gas", "pressure", "vented_hot", "diameter", "hold", "criterion")}
        words, asked = [], []
        told = self.check("temperature")
        while told["question"]:
            asked.append(told["question"]["key"])
            self.assertTrue(told["question"]["sentence"].endswith("?"))
            self.assertTrue(told["question"]["why"]["sentence"])
            option = option_of[asked[-1]]
            words += [option, answers[option]]
            told = self.check("temperature", *words)
        self.assertEqual(asked, list(option_of))
        self.assertEqual((told["next"]["display_C"], told["kept"], told["level"]), (960, False, "going on"))
        self.assertEqual(self.kept(), [])

    def test_a_check_goes_on_until_it_knows_then_is_corrected_and_confirmed(self):
        first = self.check("temperature", *WIRE, "--keep", "--name", "autumn")
        self.assertEqual((first["version"], first["finished"]), (1, False))
        self.assertIn("going on", self.ask("check", "list"))
        told = self.fire("autumn", 13.2)
        self.assertLessEqual(len(told["trials"]), 5)
        self.assertEqual((told["level"], told["finished"]), ("not good", True))
        self.assertAlmostEqual(told["found"]["error_K"], 13.2, delta=5)
        parts = {part["sentence"]: part for part in told["budget"]}
        self.assertEqual(list(parts), ["melting point of the wire", "purity and melting kinetics", "place in the chamber", "step of the display",
                                       "ripple of the hold", "threshold from these wires"])
        squares = sum(part["standard_uncertainty_K"] ** 2 for part in parts.values())
        self.assertAlmostEqual(squares ** 0.5, told["found"]["standard_uncertainty_K"], places=2)
        self.assertTrue(all(part["standing"] and part["source"] for part in parts.values()))
        to_key = told["keying"]["to_key_K"]
        self.assertAlmostEqual(to_key, -told["found"]["error_K"], delta=0.51)
        self.assertEqual([way["decision"] for way in told["ways"]], ["corrected", "allowed for"])
        self.assertTrue(any("white tab" in then["sentence"] for then in told["then"]))
        self.assertEqual(told["fired_since_good"]["count"], 0)

        decided = self.check("temperature", "--go-on", "autumn", "--decide", "corrected", "--keep", code=1)
        self.assertEqual([document["kind"] for document in decided["documents"]], ["check", "furnace"])
        furnace = self.ask("furnace", "show", "window")
        self.assertIn(f'correction_keyed = "{to_key:.0f} K"', furnace)
        self.assertIn('checked = "silver wire, 2026-10-07"', furnace, "the file's own error stays: the check counts in its place")
        self.assertIn(f'keyed_after = "{to_key:.0f} K"', self.ask("check", "show", "autumn"))

        self.check("temperature", *WIRE, "--keep", "--name", "confirmed", "--as-left", "true", "--limit", "8 K")
        after = self.fire("confirmed", 13.2 + to_key)
        self.assertEqual(after["level"], "good")
        self.assertLess(after["before"]["sd_K"], 6.1)
        self.assertLess(abs(after["before"]["error_K"]), 1)
        self.assertEqual(after["keying"], None)

    def test_an_answer_is_changed_and_what_follows_is_asked_again_only_where_it_no_longer_fits(self):
        name = self.check("temperature", *WIRE, "--trial", "960 °C whole", "--keep")["check"]
        told = self.check("temperature", "--go-on", name)
        self.assertEqual([(each["key"], each["values"]) for each in told["answered"]][:3],
                         [("wire.metal", {"wire.metal": "silver"}), ("wire.purity", {"wire.purity": "99.99 %"}), ("wire.gas", {"wire.gas": "vacuum"})])
        air = self.check("temperature", "--go-on", name, "--gas", "air", "--keep")
        self.assertEqual([each["sentence"] for each in air["remarks"]], ["The wire is held in no vacuum: the pressure that was answered is taken out.",
                                                                        "There is air or any gas around the wire: whether air is let in hot is taken out."])
        self.assertEqual((air["question"], len(air["trials"]), air["answered"][-1]["key"]), (None, 1, "wire.criterion"))
        self.assertNotIn("pressure", self.ask("check", "show", name))
        back = self.check("temperature", "--go-on", name, "--gas", "vacuum", "--take-out", "trials[1]", "--keep")
        self.assertEqual((back["question"]["key"], back["trials"], back["remarks"]), ("wire.pressure", [], []))
        text = self.ask("furnace", "check", "temperature", "window", "--go-on", name)
        self.assertIn("Answered     wire.metal: silver; wire.purity: 99.99 %; wire.gas: vacuum\n", text)

    def test_a_certificate_takes_the_place_of_a_class_that_is_taken_out(self):
        name = self.check("thermocouple", *PROBE, "--reading", "800 °C reads 803 °C", "--more", "--keep")["check"]
        told = self.check("thermocouple", "--go-on", name, "--take-out", "probe.tolerance_class", "--correction", "0.4 K", "--correction-u", "0.3 K",
                          "--certified", "2026-03-17", "--more", "--keep")
        self.assertEqual(told["answered"][-1]["values"], {"probe.correction": "0.4 K", "probe.correction_u": "0.3 K", "probe.certified": "2026-03-17"})
        self.assertIsNone(told["judged"])
        done = self.check("thermocouple", "--go-on", name, "--keep")
        self.assertAlmostEqual(done["judged"]["high_K"] - done["judged"]["error_K"], 2 * done["judged"]["standard_uncertainty_K"])
        self.assertAlmostEqual(done["judged"]["error_K"], done["found"][0]["error_K"], places=9)

    def test_a_check_is_given_up_with_a_reason_and_says_nothing_of_its_furnace(self):
        name = self.check("temperature", *WIRE, "--trial", "960 °C whole", "--keep")["check"]
        self.assertEqual(self.run_it("furnace", "check", "give-up", name).stderr, "Say why the check is given up; the reason is kept with it.\n")
        self.assertIn(f"Given up     check {name} of furnace window, version 2", self.ask("furnace", "check", "give-up", name, "--reason", "the wire was lost"))
        again = self.run_it("furnace", "check", "give-up", name, "--reason", "again")
        self.assertEqual(again.stderr, f"Check {name} is finished; there is nothing to give up.\n")
        [row] = self.kept()
        self.assertEqual((row["state"], self.check("temperature")["going_on"]), ("cannot tell", []))

    def test_whoever_reads_fahrenheit_is_told_in_it_differences_without_the_32(self):
        (self.place / "config/heatwork").mkdir(parents=True)
        (self.place / "config/heatwork/settings.toml").write_text("format = 1\n\n[settings]\nunits = \"fahrenheit\"\n")
        self.environment |= {"XDG_CONFIG_HOME": str(self.place / "config")}
        text = self.ask("furnace", "check", "temperature", "window", *WIRE)
        self.assertIn("Next         Fire a fresh wire at a display of 1760 °F.\n", text)
        self.assertIn("Melts        Silver of this purity melts at 1759.06 °F in a vacuum of 50 mbar.\n", text)
        self.assertNotRegex(text, r"\d (K|°C)\b")
        probe = self.ask("furnace", "check", "thermocouple", "window", *PROBE, "--reading", "800 °C reads 814 °C", code=1)
        self.assertIn("Compared     display 1472 °F, true 1497.2 °F: -25.2 °F", probe)
        self.assertEqual(self.refusal("thermocouple", *PROBE, "--reading", "800 °C reads 12 °C"),
                         "The thermocouple reads 54 °F while the display shows 1472 °F: its wires look reversed.")
        self.assertEqual(self.check("temperature", *WIRE)["next"]["sentence"], "Fire a fresh wire at a display of 960 °C.", "JSON is the same in all")

    def test_what_is_typed_in_fahrenheit_is_refused_in_fahrenheit(self):
        self.assertEqual(self.refusal("thermocouple", *PROBE, "--reading", "1472 °F reads 54 °F"),
                         "The thermocouple reads 54 °F while the display shows 1472 °F: its wires look reversed.")
        wire = self.refusal("temperature", *WIRE, "--trial", "1598 °F melted")
        self.assertEqual(wire, "A silver wire does not melt at a display of 1598 °F, 162 °F under its melting point: it is another metal or an alloy, "
                               "or the display was misread.")
        self.assertNotRegex(self.refusal("temperature", *WIRE, "--trial", "9600 °F melted"), r"\d (°C|K)\b")

    def test_beyond_use_it_is_corrected_and_not_allowed_for(self):
        self.check("temperature", *WIRE, "--keep", "--name", "far")
        told = self.fire("far", 31)
        self.assertEqual([way["decision"] for way in told["ways"]], ["corrected"])
        self.assertIn("Do not fire with it", told["sentence"])

    def test_what_is_decided_to_be_allowed_for_leaves_the_panel_alone(self):
        self.check("temperature", *WIRE, "--keep", "--name", "one")
        self.fire("one", 13)
        decided = self.check("temperature", "--go-on", "one", "--decide", "allowed for", "--keep", code=1)
        self.assertEqual([document["kind"] for document in decided["documents"]], ["check"])
        self.assertIn('correction_keyed = "0 K"', self.ask("furnace", "show", "window"))
        self.check("temperature", *WIRE, "--keep", "--name", "begun")
        self.assertEqual(self.check("temperature")["going_on"], ["begun"])

    def test_a_finished_check_takes_no_more_and_another_furnace_has_its_own(self):
        self.check("temperature", *WIRE, "--keep", "--name", "one")
        self.fire("one", 1)
        for words, sentence in (
                (("window", "--go-on", "one", "--trial", "960 °C melted"), "Check one is finished and takes no more readings; begin a new one."),
                (("corner", "--go-on", "one", "--trial", "960 °C melted"), "Check one is of furnace window, not of corner."),
                (("window", *WIRE, "--name", "one", "--keep"), "Check one is kept already; give another name, or go on with it."),
                (("window", "--go-on", "one", "--decide", "corrected", "--keep"), "This check found no error of the display that a correction could mend."),
                (("window", *WIRE, "--decide", "left"), "The check still goes on; it is decided once it is finished.")):
            answer = self.run_it("furnace", "check", "temperature", *words)
            self.assertEqual((answer.returncode, answer.stderr), (2, sentence + "\n"))

    def test_the_procedures_own_melting_value_and_gold(self):
        stated = self.check("temperature", "--wire", "silver", "--melting", "957.4 °C", "--melting-u", "0.8 K", "--stated-in", "sheet of the wire",
                            "--diameter", "0.25 mm", "--hold", "2 min", "--criterion", "balled")
        self.assertEqual((stated["melting"]["temperature_C"], stated["melting"]["source"]), (957.4, "sheet of the wire"))
        gold = self.check("temperature", "--wire", "gold", "--purity", "99.99 %", "--diameter", "0.2 mm", "--hold", "2 min", "--criterion", "edges rounded")
        self.assertEqual(gold["next"]["display_C"], 1064)
        air = self.check("temperature", "--wire", "silver", "--purity", "99.99 %", "--gas", "air", "--diameter", "0.25 mm", "--hold", "2 min",
                         "--criterion", "edges rounded")
        self.assertAlmostEqual(air["melting"]["temperature_C"], 952, delta=0.5)
        vented = self.check("temperature", *WIRE[:8], "--vented-hot", "true", *WIRE[10:])
        self.assertAlmostEqual(vented["melting"]["temperature_C"], 952, delta=0.5)

    def test_a_contradiction_is_said(self):
        told = self.check("temperature", *WIRE, "--trial", "957 °C melted", "--trial", "959 °C whole")
        self.assertTrue(told["found"]["contradictory"])
        self.assertEqual(told["remarks"][-1]["sentence"], "A wire stayed whole at a display of 959 °C though one melted at 957 °C: look at both again, "
                                                          "one reading may be wrong.")

    def test_what_is_no_test_is_refused_and_nothing_kept(self):
        for words, sentence in (
                (("--wire", "silver", "--purity", "92.5 %"), "The wire is 92.5 % pure: a melt test needs 99.5 % or more, since an alloy (sterling silver "
                                                             "is 92.5 %) begins to melt far lower."),
                (("--wire", "brass"), 'metal: "brass" is not known; allowed are silver, gold'),
                ((*WIRE, "--trial", "870 °C melted"), "A silver wire does not melt at a display of 870 °C, 90 K under its melting point: it is another "
                                                      "metal or an alloy, or the display was misread."),
                ((*WIRE, "--trial", "1040 °C whole"), "A silver wire does not stay whole at a display of 1040 °C, 80 K over its melting point: it is "
                                                      "another metal, or the display was misread."),
                ((*WIRE, "--trial", "960 °C molten"), '"molten" does not say how the wire came out; allowed are melted and whole.'),
                ((*WIRE, "--trial", "960 °C melted at 2026-11-09T06:31:00Z", "--trial", "951 °C whole at 2026-11-09T06:13:00Z"),
                 "at: 2026-11-09T06:13:00Z lies before the reading above it, 2026-11-09T06:31:00Z: the clock went back; readings stand in the order of "
                 "their time"),
                ((*WIRE, "--trial", "960 °C melted at 2026-11-09T06:31:00Z", "--trial", "951 °C whole at 2026-11-09T06:31:00Z"),
                 "at: 2026-11-09T06:31:00Z is the moment of the reading above it too; two readings take two moments"),
                ((*WIRE[:6], "--pressure", "760 mmHg"), None),
                ((*WIRE[:10], "--diameter", "1.5 mm", "--hold", "30 s", "--criterion", "balled"), None),
                (("--wire", "silver", "--trial", "960 °C melted"), "A wire was fired before it is known how: first answer wire.purity.")):
            said = self.refusal("temperature", *words)
            if sentence:
                self.assertEqual(said, sentence)
        self.assertIn("ambient", self.refusal("temperature", *WIRE[:6], "--pressure", "760 mmHg"))

    def test_a_dial_counts_from_the_air_at_this_furnace(self):
        told = self.check("temperature", *WIRE[:6], "--pressure", "700 mmHg", *WIRE[8:])
        self.assertIn("in a vacuum of 58 mbar", told["melting"]["sentence"])

    def test_unknown_furnace(self):
        self.assertEqual(self.refusal("temperature", furnace="windoww"), 'No furnace "windoww" is kept; did you mean "window"?')


class Thermocouple(Lab):
    def test_at_two_temperatures_and_with_the_wire_it_is_a_line(self):
        told = self.check("thermocouple", *PROBE, "--reading", "800 °C reads 788 °C", "--reading", "950 °C reads 935 °C", "--keep", code=1)
        self.assertEqual((told["level"], told["finished"]), ("not good", True))
        self.assertTrue(told["line"]["is_line"])
        self.assertEqual([round(found["error_K"], 6) for found in told["found"]], [12, 15])
        self.check("temperature", *WIRE, "--keep", "--name", "wire")
        for display, how in ((972, "whole"), (978, "melted"), (974, "whole"), (976, "melted"), (975, "melted")):
            told = json.loads(self.run_it("furnace", "check", "temperature", "window", "--go-on", "wire", "--keep", "--trial", f"{display} °C {how}", "--json").stdout)
            if told["finished"]:
                break
        self.assertEqual(told["line"]["findings"], 3, "both readings of the probe and the wire")

    def test_a_voltage_is_read_with_its_cold_junction(self):
        told = self.check("thermocouple", *PROBE, "--reading", "962 °C reads 9.000 mV from 25 °C")
        self.assertAlmostEqual(told["found"][0]["probe_C"], 961.273, delta=0.002)
        self.assertEqual(told["level"], "cannot tell", "0.7 K, but it is sure to 5 K only")

    def test_it_goes_by_the_whole_range_and_says_what_would_settle_it(self):
        told = self.check("thermocouple", *PROBE, "--reading", "800 °C reads 803 °C")
        self.assertEqual((told["level"], told["limit_K"], told["limit_from"], told["ways"]), ("cannot tell", 5, "Heatwork", []))
        self.assertTrue(told["judged"]["low_K"] < -5 < told["judged"]["high_K"] < 5)
        self.assertIn("cannot be told yet", told["sentence"])
        self.assertIn("What would settle it: fire a wire too within two months", told["then"][-2]["sentence"])
        limit = told["then"][-1]["sentence"].split(" allows ")[1].split(" or more")[0]
        settled = self.check("thermocouple", *PROBE, "--reading", "800 °C reads 803 °C", "--limit", limit, "--keep")
        self.assertEqual((settled["level"], settled["limit_from"]), ("good", "lab"))
        again = self.check("thermocouple", *PROBE, "--reading", "800 °C reads 803 °C")
        self.assertEqual((f"{again['limit_K']:g} K", again["limit_from"]), (limit, "lab"), "the next check goes by what the lab said")

    def test_what_cannot_tell_alone_tells_together(self):
        self.check("temperature", *WIRE, "--keep", "--name", "wire")
        wire = self.fire("wire", 0)
        self.assertEqual(wire["level"], "cannot tell")
        certified = ("--type", "S", "--use", "used", "--correction", "0.2 K", "--correction-u", "0.3 K", "--indicator-u", "0.2 K")
        alone = self.check("thermocouple", *certified, "--reading", "955 °C reads 955 °C", furnace="corner")
        self.assertEqual(alone["level"], "cannot tell")
        both = self.check("thermocouple", *certified, "--reading", "955 °C reads 955 °C", "--keep", "--name", "probe")
        self.assertLess(both["judged"]["standard_uncertainty_K"], 0.9 * alone["judged"]["standard_uncertainty_K"])
        self.assertIn("which by itself found", both["remarks"][-1]["sentence"])
        kept = self.ask("check", "show", "probe")
        self.assertIn('error = "-0.2 K"', kept, "what is kept is what the thermocouple found")
        self.assertEqual(self.check("temperature", "--go-on", "wire")["level"], "cannot tell", "what was known when it was finished stays what is told")
        left = self.check("thermocouple", *certified, "--as-left", "yes", "--reading", "955 °C reads 955 °C")
        self.assertAlmostEqual(left["judged"]["standard_uncertainty_K"], alone["judged"]["standard_uncertainty_K"], places=6,
                               msg="as left it stands alone")

    def test_the_budget_is_that_of_the_comparison_it_is_judged_by(self):
        """The wire of a class is the less sure the hotter it is."""
        told = self.check("thermocouple", "--type", "S", "--use", "new", "--class", "2", "--reading", "1150 °C reads 1147 °C", "--reading", "500 °C reads 499 °C")
        squares = sum(part["standard_uncertainty_K"] ** 2 for part in told["budget"])
        hot, cool = (found["standard_uncertainty_K"] for found in told["found"])
        self.assertGreater(hot, cool + 0.05)
        self.assertAlmostEqual(squares ** 0.5, hot, places=2)

    def test_more_may_follow(self):
        told = self.check("thermocouple", *PROBE, "--reading", "800 °C reads 801 °C", "--more", "--keep", "--name", "probe")
        self.assertEqual((told["level"], told["finished"]), ("going on", False))
        told = self.check("thermocouple", "--go-on", "probe", "--reading", "900 °C reads 901 °C", "--keep")
        self.assertEqual((told["level"], len(told["found"]), told["version"]), ("cannot tell", 2, 2))

    def test_what_is_no_reference_is_refused_and_nothing_kept(self):
        for words, sentence in (
                (("--type", "K", "--use", "used", "--class", "1"),
                 "A type K thermocouple that was hot before cannot be the reference of furnace window, whose own sensor is of type S: use changes type K "
                 "by up to 5 K and no class or certificate covers that; take a new one, or one of type S."),
                ((*PROBE, "--reading", "800 °C reads 20 °C"), "Display 800 °C and thermocouple 20 °C are too far apart for an error of a furnace: reversed "
                                                              "or wrong wires, another type, or two places; look at the probe first."),
                ((*PROBE, "--reading", "800 °C reads 12 °C"), "The thermocouple reads 12 °C while the display shows 800 °C: its wires look reversed."),
                ((*PROBE, "--reading", "800 °C reads 7.2 mV"), 'emf: a voltage needs the temperature of the cold junction; add cold_junction, such as '
                                                              'cold_junction = "23 °C"')):
            self.assertEqual(self.refusal("thermocouple", *words), sentence)
        self.assertIn("look reversed", self.refusal("thermocouple", *PROBE, "--reading", "800 °C reads -7.2 mV from 23 °C"))
        self.assertIn("cannot give this voltage", self.refusal("thermocouple", *PROBE, "--reading", "800 °C reads 40 mV from 23 °C"))


class Map(Lab):
    def test_five_tabs(self):
        tabs = [word for tab in ("middle 0 K", "front -4 K", "back 3 K", "left 0 K") for word in ("--tab", tab)]
        told = self.check("map", *tabs, "--keep", "--name", "map")
        self.assertEqual(told["question"]["sentence"], "How did the tab from the right look?")
        told = self.check("map", "--go-on", "map", "--tab", "right 9 K", "--keep", code=1)
        self.assertEqual((told["spread_K"], told["level"], told["finished"]), (13, "not good", True))
        self.assertIn('spread = "13 K"', self.ask("check", "show", "map"))
        wide = self.check("map", *tabs, "--tab", "right 9 K", "--limit", "15 K")
        self.assertEqual((wide["level"], wide["limit_from"]), ("good", "lab"))

    def test_by_colour(self):
        tabs = [word for tab in ("middle 71 1 18", "front 71 1 18.4", "back 71 1 17", "left 70.8 1 18", "right 66 2 24") for word in ("--tab", tab)]
        told = self.check("map", *tabs, code=1)
        self.assertGreater(told["colour_difference"], 3.48)

    def test_a_place_has_one_tab(self):
        self.assertEqual(self.refusal("map", "--tab", "middle 0 K", "--tab", "middle 1 K"), 'where: "middle" has a tab already; each place has one')
        self.assertEqual(self.refusal("map", "--tab", "midle 0 K"),
                         'where: "midle" is not known; allowed are middle, front, back, left, right; did you mean "middle"?')


class Shape(Lab):
    def test_answers_are_at_most_a_hundred_columns_and_quick(self):
        text = self.ask("furnace", "check", "temperature", "window", *WIRE, "--trial", "960 °C whole", "--trial", "969 °C melted")
        self.assertLessEqual(max(len(line) for line in text.split("\n")), 100)
        self.assertTrue(re.search(r"^Next +Fire a fresh wire at a display of \d+ °C\.$", text, re.M), text)


if __name__ == "__main__":
    house.main()
