"""What a kept check of a furnace changes in a rehearsal, by the real binary and its server, on both engines: whole sentences, marks, bands."""
import datetime
import json
import pathlib
import subprocess
import sys
import time
import unittest
import uuid
import zoneinfo

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import house  # noqa: E402
import served  # noqa: E402
from records_store_test import BINARY, SERVER, Place  # noqa: E402


def utc(days=0.0):
    """A moment so many days from now, to the second."""
    moment = datetime.datetime.now(datetime.timezone.utc) + datetime.timedelta(days=days)
    return moment.strftime("%Y-%m-%dT%H:%M:%SZ")


def finding(answer, aspect):
    return next(each for each in answer["findings"] if each["aspect"] == aspect)


class Checks:
    """On either engine; self.where names a place where no store stands."""

    def setUp(self):
        super().setUp()
        self.environment["TZ"] = "UTC"
        self.heatwork("demo", "lab")
        corner = self.place / "lab/furnace-corner.toml"
        text = corner.read_text()
        before, _, after = text.partition("[furnace.display_error]")
        corner.write_text(before + after[after.index("[furnace.heating]"):])  # never checked
        self.heatwork("store", "create", "--store", self.where)
        self.heatwork("rehearse", "lab/firing.toml", "--keep", "--store", self.where, codes=(0, 1))

    def heatwork(self, *words, codes=(0,), **more):
        done = subprocess.run([str(BINARY), *words], cwd=self.place, env=self.environment | more, stdin=subprocess.DEVNULL,
                              capture_output=True, text=True)
        self.assertIn(done.returncode, codes, done.stdout + done.stderr)
        return done.stdout

    def answer(self, *words, **more):
        return json.loads(self.heatwork(*words, "--json", "--store", self.where, codes=(0, 1), **more))

    def check(self, name, **values):
        sets = [word for key, value in values.items() for word in ("--set", f"{key}={value}")]
        self.heatwork("check", "add", name, "--set", "furnace=corner", *sets, "--store", self.where)

    def wire(self, name, **values):
        self.check(name, **({"of": "temperature", "good": "false", "error": "12 K", "standard_uncertainty": "2 K", "at": utc()} | values))

    def said(self, firing="firing", **more):
        return [each["sentence"] for each in self.answer("rehearse", firing, **more).get("checks", [])]

    def test_before_a_check_cannot_tell_after_one_a_band(self):
        before = self.answer("rehearse", "firing")
        self.assertEqual(before["checks"], [])
        unchecked = finding(before, "furnace")
        self.assertEqual((unchecked["level"], unchecked["low"]), ("cannot tell", None))
        self.wire("corner-wire", at=utc(-1))
        after = self.answer("rehearse", "firing")
        display = finding(after, "furnace")
        self.assertEqual(display["level"], "borderline", "the band goes from inside the limit to beyond it")
        self.assertAlmostEqual(display["number"], 12)
        self.assertAlmostEqual(display["low"], 12 - 2 * 2.0, delta=0.05)
        self.assertAlmostEqual(display["high"], 12 + 2 * 2.0, delta=0.05)
        self.assertNotEqual(after["inputs_hash"], before["inputs_hash"])
        self.assertEqual(after["came_from"]["check corner-wire"], "store: check corner-wire@1")
        band = {key: after["pieces"][0]["compared"][key] for key in ("shift_low_K", "shift_high_K")}
        wide = {key: before["pieces"][0]["compared"][key] for key in band}
        self.assertLess(band["shift_high_K"] - band["shift_low_K"], 0.5 * (wide["shift_high_K"] - wide["shift_low_K"]))

    def test_what_is_told_of_a_check(self):
        at = utc(-40)
        self.wire("corner-wire", at=at, error_at="960 °C")
        sentences = self.said()
        answer = self.answer("rehearse", "firing")
        used = answer["checks"][0]
        self.assertEqual(list(used), ["of", "check", "day", "used", "value", "standard_uncertainty", "unit", "sentence"])
        self.assertEqual((used["of"], used["check"], used["day"], used["used"], used["unit"]), ("display error", "corner-wire", at[:10], True, "K"))
        top = next(moment["display_C"] for moment in answer["moments"] if moment["what"] == "top")
        carried = 0.5 * (12 + 12 * 817 / 960)
        self.assertAlmostEqual(top, 817, delta=3)
        self.assertAlmostEqual(used["value"], carried, delta=0.005)
        self.assertEqual(sentences, [
            f"Display error {used['value']:g} K with standard uncertainty {used['standard_uncertainty']:g} K: check corner-wire of {at[:10]} "
            "found 12 K with 2 K; drift over 40 d is in it.",
            "The error was found at 960 °C and is carried to 817 °C, half-way between constant and in proportion."])
        text = " ".join(self.heatwork("rehearse", "firing", "--store", self.where, codes=(0, 1)).split())
        self.assertIn("What the checks of the furnace say", text)
        for sentence in sentences:
            self.assertIn(sentence, text)
        german = " ".join(self.heatwork("rehearse", "firing", "--store", self.where, "--language", "de", codes=(0, 1)).split())
        self.assertIn(f"Prüfung corner-wire vom {at[:10]} fand 12 K mit 2 K; die Drift über 40 d ist darin enthalten. Der Fehler wurde bei 960 °C "
                      "gefunden und ist auf 817 °C übertragen, in der Mitte zwischen gleichbleibend und verhältnisgleich.", german)

    def test_files_alone_ask_no_check(self):
        before = self.heatwork("rehearse", "lab/firing.toml", "--json", "--store", self.where, codes=(0, 1))
        self.wire("corner-wire")
        self.assertEqual(self.heatwork("rehearse", "lab/firing.toml", "--json", "--store", self.where, codes=(0, 1)), before)

    def test_what_does_not_count_is_said(self):
        day = utc()[:10]
        self.wire("open", finished="false")
        self.check("blind", of="temperature", good="false", cannot_tell="true", at=utc())
        self.assertEqual(sorted(self.said()), [f"Check blind of {day} does not count: it could not tell.",
                                               f"Check open of {day} does not count: it is not finished."])
        self.assertEqual(finding(self.answer("rehearse", "firing"), "furnace")["level"], "cannot tell")
        self.wire("old", at=utc(-20))
        self.assertEqual(finding(self.answer("rehearse", "firing"), "furnace")["level"], "borderline")
        self.check("muffle", of="other", good="true", at=utc(-3), after_repair="new muffle")
        self.assertIn(f"Check old of {utc(-20)[:10]} does not count: check muffle of {utc(-3)[:10]} tells of a repair after it, \"new muffle\".",
                      self.said())
        self.assertEqual(finding(self.answer("rehearse", "firing"), "furnace")["level"], "cannot tell")

    def test_what_is_typed_after_the_check_stands(self):
        self.wire("corner-wire", at=utc(-1))
        self.heatwork("furnace", "change", "corner", "--set", "display_error.error=4 K", "--set", "display_error.standard_uncertainty=1 K",
                      "--reason", "probe", "--store", self.where)
        self.assertEqual(self.said(), [f"Display error as it was typed in the furnace's file on {utc()[:10]}, after check corner-wire of "
                                       f"{utc(-1)[:10]}."])
        self.assertEqual(finding(self.answer("rehearse", "firing"), "furnace")["number"], 4)
        time.sleep(1.1)
        self.wire("again", error="6 K")
        self.assertEqual(finding(self.answer("rehearse", "firing"), "furnace")["number"], 6)

    def test_corrected_or_allowed_for(self):
        """The correction keyed as advised takes the error away, by either convention, told by the furnace's file or by the check."""
        for convention, keyed in (("added to display", "-12 K"), ("added to setting", "12 K")):
            if convention != "added to display":  # as it stands
                self.heatwork("furnace", "change", "corner", "--set", f"correction_convention={convention}", "--set", "correction_keyed=0 K",
                              "--reason", "as the panel has it", "--store", self.where)
            time.sleep(1.1)
            name = "wire-" + convention.rsplit(" ", 1)[-1]
            self.wire(name, keyed_after=keyed, decision="corrected")
            corrected = self.answer("rehearse", "firing")
            self.assertEqual(finding(corrected, "furnace")["number"], 0, convention)
            self.assertIn(f"The correction keyed on the panel went from 0 K to {keyed} since check {name} of {utc()[:10]}; the display error "
                          "went with it.", self.said())
            self.heatwork("furnace", "change", "corner", "--set", f"correction_keyed={keyed}", "--reason", "keyed", "--store", self.where)
            again = self.answer("rehearse", "firing")
            self.assertEqual([again[key] for key in ("inputs_hash", "pieces")], [corrected[key] for key in ("inputs_hash", "pieces")])
            peak = corrected["pieces"][0]["peak_C"]
            self.assertAlmostEqual(peak["display"], peak["chamber"], delta=2.5)  # the lag of the sensor

    def test_gain_pump_and_leak_with_their_bands(self):
        before = self.answer("rehearse", "firing")
        time.sleep(1.1)
        self.check("run", of="heating", good="false", at=utc(), gain="2.2 K/s", gain_sd="0.03 K/s", loss="0.0018 /s")
        self.check("pump", of="vacuum", good="true", at=utc(), pump_time_constant="17 s", pump_time_constant_sd="0.4 s", ultimate="44 mbar",
                   ultimate_sd="1 mbar", leak="0.2 mbar/s", leak_sd="0.02 mbar/s")
        after = self.answer("rehearse", "firing")
        day = utc()[:10]
        self.assertEqual(self.said(), [
            f"Heating gain 132 K/min with standard uncertainty 1.8 K/min: check run of {day}.",
            f"Heating loss 0.0018 /s: check run of {day}.",
            f"Time constant of the pump 17 s with standard uncertainty 0.4 s: check pump of {day}.",
            f"Lowest pressure 44 mbar with standard uncertainty 1 mbar: check pump of {day}.",
            f"Leak 0.2 mbar/s with standard uncertainty 0.02 mbar/s: check pump of {day}."])
        self.assertNotEqual(after["inputs_hash"], before["inputs_hash"])
        sure = after["inputs_hash"]
        time.sleep(1.1)
        self.check("pump-2", of="vacuum", good="true", at=utc(), pump_time_constant="17 s", pump_time_constant_sd="4 s", ultimate="44 mbar",
                   ultimate_sd="1 mbar", leak="0.2 mbar/s", leak_sd="0.02 mbar/s")
        self.assertNotEqual(self.answer("rehearse", "firing")["inputs_hash"], sure, "how sure it is belongs to the inputs")

    def test_a_started_firing_keeps_its_furnace_and_a_kept_rehearsal_is_marked(self):
        self.wire("first", at=utc(-2))
        shown = self.answer("firing", "show", "firing")
        self.assertEqual((shown["made_before_check"], shown["stale"]), (None, False))
        self.assertNotIn("made before", self.heatwork("firing", "list", "--store", self.where))
        started = self.answer("case", "start", "firing")
        self.assertIn({"kind": "check", "name": "first", "version": 1, "snapshot": None}, started["used"])
        self.assertIn("Check first was not known when the firing was rehearsed and kept; it is started with what it tells.", started["notes"])
        as_started = self.answer("rehearse", "firing")
        self.assertEqual(as_started["came_from"]["check first"], "as it was fired: check first@1")
        time.sleep(1.1)
        self.wire("second", error="-20 K")
        day = utc()[:10]
        again = self.answer("rehearse", "firing")
        self.assertEqual(again["inputs_hash"], as_started["inputs_hash"])
        self.assertEqual(finding(again, "furnace")["number"], 12)
        shown = self.answer("firing", "show", "firing")
        self.assertEqual((shown["made_before_check"], shown["stale"]), ({"check": "second", "day": day}, True))
        self.assertIn(f"Rehearsal    made before the check second of {day}\n", self.heatwork("firing", "show", "firing", "--store", self.where))
        row = self.answer("firing", "list")["rows"][0]
        self.assertEqual((row["made_before_check"], row["stale"]), ({"check": "second", "day": day}, True))
        self.assertIn(f"rehearsal made before the check second of {day}", self.heatwork("firing", "list", "--store", self.where))
        self.assertIn("nothing was altered", self.heatwork("store", "verify", "--store", self.where))

    def test_kept_again_after_a_check_it_is_marked_no_more(self):
        time.sleep(1.1)
        self.wire("corner-wire")
        self.assertTrue(self.answer("firing", "show", "firing")["stale"])
        self.heatwork("rehearse", "firing", "--keep", "--store", self.where, codes=(0, 1))
        self.assertFalse(self.answer("firing", "show", "firing")["stale"])
        same = self.answer("rehearse", "firing", "--keep")["kept"]
        self.assertFalse(same["is_new"], "the same again keeps nothing")


class OnSqlite(Checks, Place):
    where = "lab.sqlite"


@unittest.skipUnless(SERVER, "HEATWORK_TEST_POSTGRES names no server")
class OnPostgresql(Checks, Place):
    def setUp(self):
        database = "heatwork_checks_" + uuid.uuid4().hex[:12]
        subprocess.run(["psql", "-q", "-d", SERVER, "-c", f"create database {database}"], check=True, capture_output=True)
        self.addCleanup(subprocess.run, ["psql", "-q", "-d", SERVER, "-c", f"drop database {database} with (force)"], capture_output=True)
        start, _, rest = SERVER.partition("://")
        host, _, options = rest.partition("?")
        self.where = f"{start}://{host.split('/')[0]}/{database}" + (f"?{options}" if options else "")
        super().setUp()


class Live(unittest.TestCase):
    """The rehearsal that answers while one types."""

    @classmethod
    def setUpClass(cls):
        cls.server = served.Server()
        code, _, said = cls.server.heatwork("demo", "--store", cls.server.store)
        assert code == 0, said
        time.sleep(1.1)
        code, _, said = cls.server.heatwork("check", "add", "now", "--set", "furnace=corner", "--set", "of=temperature", "--set", "good=false",
                                            "--set", "error=-8 K", "--set", "standard_uncertainty=1.5 K", "--set", f"at={utc()}")
        assert code == 0, said
        cls.server.__enter__()

    @classmethod
    def tearDownClass(cls):
        cls.server.__exit__()

    def rehearse(self, edit, **over):
        answer = self.server.ask("POST", "/api/rehearse", {"firing": "metal-ceramic-firing", "edit": edit, "bands": True, "picture": False, **over})
        self.assertEqual(answer.status, 200, answer.bytes[:500])
        self.assertEqual(answer.json["mistakes"], [])
        return answer.json["rehearsal"]

    def test_the_same_as_by_the_command_line_and_what_is_typed_stands(self):
        live = self.rehearse(1, stress="with")
        code, said, _ = self.server.heatwork("rehearse", "metal-ceramic-firing", "--json")
        self.assertIn(code, (0, 1))
        there = json.loads(said)
        self.assertEqual([live[key] for key in ("inputs_hash", "checks", "pieces")], [there[key] for key in ("inputs_hash", "checks", "pieces")])
        self.assertEqual(finding(live, "furnace")["number"], -8)
        typed = self.rehearse(2, set={"furnace": {"display_error.error": "3 K"}})
        self.assertEqual(finding(typed, "furnace")["number"], 3)
        day = datetime.datetime.now(zoneinfo.ZoneInfo("Europe/Berlin")).strftime("%Y-%m-%d")
        self.assertEqual([each["sentence"] for each in typed["checks"]],
                         [f"Display error as it was typed in the furnace's file on {day}, after check now of {day}."])
        other = self.rehearse(3, set={"furnace": {"heating.mains": "228 V"}})
        self.assertEqual(finding(other, "furnace")["number"], -8, "another value was typed")


if __name__ == "__main__":
    house.main()
