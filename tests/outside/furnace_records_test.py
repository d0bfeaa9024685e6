"""Checks of vacuum and heating by the real binary: records typed and from tables, what they tell, what is kept, what is refused."""
import json
import math
import pathlib
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import house  # noqa: E402
from records_store_test import BINARY  # noqa: E402

AIR_MBAR = 991


def shown(pressure_mbar):
    """What the corner furnace's gauge shows: below the air."""
    return max(0, round(AIR_MBAR - pressure_mbar))


def table(unit, rows, title="gauge"):
    return f"time (s),{title} ({unit})\n" + "".join(f"{time},{value}\n" for time, value in rows)


def pumping(time_constant_s, lowest_mbar):
    return [(t, shown(lowest_mbar + (AIR_MBAR - lowest_mbar) * math.exp(-t / time_constant_s))) for t in range(0, 160, 4)]


def rising(slope, gas_mbar):
    return [(t, shown(14 + slope * t + gas_mbar * (1 - math.exp(-t / 60)))) for t in range(0, 601, 10)]


def run(power, lining=1.0, volts=228, most=99.0):
    rows, temperature = [], 24.0
    for tick in range(40000):
        if tick % 50 == 0:
            rows.append((tick / 10, round(temperature)))
        if temperature > 900:
            break
        temperature += 0.1 * min(most, 2.97 * power * (volts / 230) ** 2 - 0.00159 * lining * (temperature - 22))
    return rows


class FurnaceRecords(unittest.TestCase):
    maxDiff = None

    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        cls.place = pathlib.Path(cls.folder.name)
        cls.environment = {"PATH": "/usr/bin:/bin", "HOME": str(cls.place), "TZ": "Europe/Berlin", "HEATWORK_STORE": str(cls.place / "lab.sqlite")}
        cls.ask("demo", "my-lab")
        cls.ask("store", "create", "--as", "kr")
        cls.ask("store", "take-in", "my-lab", "--as", "kr")
        for name, text in {"pump": table("mbar", pumping(9.0, 36)), "weak": table("mbar", pumping(19, 36)), "leak": table("mbar", rising(0.4, 0)),
                           "gas": table("mbar", rising(0, 33)), "water": table("mbar", rising(0, 10.9)), "mixed": table("mbar", rising(0.4, 15)),
                           "run": table("°C", run(1), "temperature"), "worn": table("°C", run(0.8), "temperature"),
                           "ageing": table("°C", run(0.89), "temperature"), "lining": table("°C", run(1, 1.5), "temperature"),
                           "low": table("°C", run(1, volts=208), "temperature"), "capped": table("°C", run(1, most=1.2), "temperature"),
                           "other": "time (s),gauge (mbar),furnace\n0,10,window\n2,90,window\n"}.items():
            (cls.place / f"{name}.csv").write_text(text)

    @classmethod
    def tearDownClass(cls):
        cls.folder.cleanup()

    @classmethod
    def ask(cls, *words, code=0):
        answer = subprocess.run([str(BINARY), *words], cwd=cls.place, env=cls.environment, stdin=subprocess.DEVNULL, capture_output=True, text=True)
        assert answer.returncode == code, (words, answer.returncode, answer.stdout + answer.stderr)
        return answer.stdout if code in (0, 1) else answer.stderr

    def vacuum(self, *words, code=0):
        return json.loads(self.ask("furnace", "check", "vacuum", "corner", "--room", "21 °C", "--barometer", f"{AIR_MBAR} mbar", "--json", *words, code=code))

    def heating(self, name, mains="228 V", code=0):
        return json.loads(self.ask("furnace", "check", "heat-up", "corner", "--run-from", f"{name}.csv", "--mains", mains, "--room", "22 °C", "--json", code=code))

    def kept(self):
        return json.loads(self.ask("check", "list", "--json"))["count"]

    def refused(self, *words):
        before = self.kept()
        said = self.ask("furnace", "check", *words, "--keep", "--as", "kr", code=2)
        self.assertEqual(self.kept(), before)
        self.assertEqual(said.count("\n"), 1, said)
        return said.removeprefix("heatwork: ").strip()

    def test_a_barometer_may_be_read_in_inches(self):
        by = [json.loads(self.ask("furnace", "check", "vacuum", "corner", "--room", "21 °C", "--barometer", typed, "--json", "--pump-down-from", "pump.csv"))
              for typed in ("991 mbar", "29.26 inHg", "743.3 mmHg")]
        self.assertEqual([each["air"]["by_barometer"] for each in by], [True] * 3)
        for each in by[1:]:
            self.assertAlmostEqual(each["pump"]["ultimate_mbar"], by[0]["pump"]["ultimate_mbar"], delta=1)

    def test_a_sound_vacuum(self):
        told = self.vacuum("--pump-down-from", "pump.csv", "--rise-from", "gas.csv")
        self.assertEqual((told["format"], told["furnace"], told["of"], told["level"]), (1, "corner", "vacuum", "good"))
        self.assertEqual(told["verdict"], "pump as before, low enough for porcelain, gas from the lining")
        self.assertAlmostEqual(told["pump"]["time_constant_s"], 9.0, delta=0.1)
        self.assertAlmostEqual(told["pump"]["ultimate_mbar"], 36, delta=1)
        self.assertEqual(told["pump"]["usual"], {"time_constant_s": 8.7, "ultimate_mbar": 36})
        self.assertEqual(told["air"]["by_barometer"], True)
        self.assertEqual(len(told["records"]["rise"]), 61)
        self.assertEqual((told["kept"], told["fired_since_good"], told["forecast"]), (False, None, None))

    def test_faults_of_the_vacuum_end_1(self):
        self.assertEqual(self.vacuum("--pump-down-from", "weak.csv", code=1)["verdict"], "weak pump")
        leak = self.vacuum("--pump-down-from", "pump.csv", "--rise-from", "leak.csv", code=1)
        self.assertEqual(leak["verdict"], "leak")
        self.assertAlmostEqual(leak["chamber"]["leak_mbar_per_s"], 0.4, delta=0.01)
        self.assertAlmostEqual(leak["chamber"]["leak_mbar_L_per_s"], 0.4 * 0.59, delta=0.01)
        self.assertEqual(leak["fired_since_good"]["check_of"], "vacuum")
        self.assertEqual(self.vacuum("--rise-from", "water.csv", code=1)["verdict"], "water")
        self.assertEqual(self.vacuum("--rise-from", "mixed.csv", code=1)["verdict"], "leak and gas from the lining")

    def test_what_does_not_suffice_cannot_tell(self):
        few = self.vacuum("--pump-down", "0 s, 10 mbar", "--pump-down", "5 s, 400 mbar", "--pump-down", "10 s, 700 mbar")
        self.assertEqual((few["level"], few["sentence"]), ("cannot tell", "The pump-down has 3 readings; at least 5 are needed."))
        self.assertIsNone(few["pump"])
        brief = self.vacuum("--rise", "0 s, 977 mbar", "--rise", "30 s, 974 mbar", "--rise", "60 s, 971 mbar")
        self.assertEqual((brief["level"], brief["chamber"]["verdict"]), ("cannot tell", "undecided"))
        alone = self.vacuum("--pump-down-from", "pump.csv", "--cannot-be-shut")
        self.assertEqual((alone["level"], alone["rise_possible"], alone["chamber"]), ("good", False, None))

    def test_heating_tells_element_mains_lining_and_cap_apart(self):
        for name, mains, verdict, level in (("run", "228 V", "heats as it did", "good"), ("low", "208 V", "heats as it did, mains low", "good"),
                                            ("ageing", "228 V", "element ageing", "not good"), ("worn", "228 V", "element worn", "not good"),
                                            ("lining", "228 V", "insulation", "not good"), ("capped", "228 V", "held back", "cannot tell")):
            told = self.heating(name, mains, 1 if level == "not good" else 0)
            self.assertEqual((told["verdict"], told["level"]), (verdict, level))
        sound = self.heating("run")["run"]
        self.assertAlmostEqual(sound["power_health"], 1, delta=0.02)
        self.assertAlmostEqual(sound["loss_per_s"], 0.00159, delta=0.0001)

    def test_what_is_kept_is_the_readings_and_the_outcome(self):
        self.ask("furnace", "check", "vacuum", "corner", "--pump-down-from", "pump.csv", "--rise-from", "leak.csv", "--room", "21 °C", "--barometer", "991 mbar",
                 "--keep", "--name", "pump-autumn", "--as", "kr", code=1)
        text = json.loads(self.ask("check", "show", "pump-autumn", "--json"))["text"]
        for line in ('verdict = "leak"', "good = false", 'room = "21 °C"', '"0 s, 0 mbar", "4 s, '):
            self.assertIn(line, text)
        for key in ("pump_time_constant", "pump_time_constant_sd", "ultimate", "ultimate_sd", "leak", "leak_sd"):
            self.assertRegex(text, rf'(?m)^{key} = "[0-9.]+ ')
        self.assertNotIn("finished = false", text)
        self.ask("furnace", "check", "heat-up", "corner", "--run-from", "run.csv", "--mains", "228 V", "--keep", "--name", "run-autumn", "--as", "kr")
        text = json.loads(self.ask("check", "show", "run-autumn", "--json"))["text"]
        for key in ("gain", "gain_sd", "loss", "loss_sd"):
            self.assertRegex(text, rf'(?m)^{key} = "[0-9.e-]+ ')
        self.assertIn("corner-vacuum", self.ask("furnace", "check", "vacuum", "corner", "--pump-down-from", "pump.csv", "--keep", "--as", "kr"))

    def test_a_wet_pump_is_known_by_its_warm_repeat(self):
        (self.place / "cold.csv").write_text(table("mbar", [(t, AIR_MBAR - mbar) for t, mbar in pumping(7, 46)]))
        (self.place / "warm.csv").write_text(table("mbar", [(t, AIR_MBAR - mbar) for t, mbar in pumping(7, 34)]))
        check = ("furnace", "check", "vacuum", "window", "--json", "--as", "kr")
        cold = json.loads(self.ask(*check, "--pump-down-from", "cold.csv", "--keep", code=1))
        self.assertEqual((cold["verdict"], cold["pump"]["change"]), ("leak or water", "leak or water"))
        self.assertIn("check again the same day with the pump warm", cold["then"][0]["sentence"])
        warm = json.loads(self.ask(*check, "--pump-down-from", "warm.csv", "--pump-warm", "true", code=1))
        self.assertEqual((warm["verdict"], warm["pump"]["change"]), ("wet pump", "wet pump"))
        self.assertEqual(json.loads(self.ask(*check, "--pump-down-from", "cold.csv", "--pump-warm", "true", code=1))["verdict"], "leak or water")

    def test_what_slows_down_is_foreseen(self):
        for number, (month, seconds) in enumerate((("05", 7.0), ("07", 7.3), ("09", 7.6), ("11", 7.9))):
            (self.place / f"slow-{number}.toml").write_text(
                'format = 1\n\n[check]\n' + f'name = "slow-{number}"\nfurnace = "window-leaking"\nof = "vacuum"\ngood = true\n'
                f'at = "2026-{month}-01T06:00:00Z"\npump_time_constant = "{seconds} s"\nultimate = "35 mbar"\n')
            self.ask("check", "add", f"slow-{number}.toml", "--as", "kr")
        (self.place / "slow.csv").write_text(table("mbar", [(t, AIR_MBAR - mbar) for t, mbar in pumping(8.1, 35)]))
        told = json.loads(self.ask("furnace", "check", "vacuum", "window-leaking", "--pump-down-from", "slow.csv", "--json"))
        self.assertEqual((told["level"], told["pump"]["usual"]["time_constant_s"]), ("good", 7.45))
        self.assertGreater(told["forecast"]["days"], 90)
        self.assertLess(told["forecast"]["earliest_days"], told["forecast"]["days"])
        self.assertRegex(told["forecast"]["day"], r"^20\d\d-\d\d-\d\d$")
        self.assertTrue(any("The pump slows down" in remark["sentence"] for remark in told["remarks"]))

    def test_bad_input_is_one_sentence_and_keeps_nothing(self):
        self.assertEqual(self.refused("vacuum", "corner", "--pump-down", "0 s, 1013 mbar"),
                         "pump-down, 0 s: 1013 mbar below the air leaves no pressure at all: at 187 m the air has about 991 mbar; the unit, the altitude or "
                         "the weather is another (a barometer tells).")
        self.assertEqual(self.refused("vacuum", "corner", "--pump-down", "0 s, 10 mbar", "--barometer", "900 mbar"),
                         "The barometer shows 900 mbar, but at 187 m the air has about 991 mbar; take the pressure of the place itself, not one brought to sea "
                         "level.")
        self.assertIn("the clock went back", self.refused("vacuum", "corner", "--pump-down", "5 s, 10 mbar", "--pump-down", "2 s, 40 mbar"))
        self.assertIn("a second reading at the same moment", self.refused("vacuum", "corner", "--pump-down", "5 s, 10 mbar", "--pump-down", "5 s, 40 mbar"))
        self.assertIn("NaN", self.refused("vacuum", "corner", "--pump-down", "5 s, NaN mbar"))
        self.assertEqual(self.refused("vacuum", "corner", "--pump-down-from", "other.csv"), "other.csv is a record of furnace window, not of corner.")
        self.assertIn("another furnace", self.refused("heat-up", "corner", "--run", "0 s, 40 °C", "--run", "9 min, 1240 °C"))
        self.assertEqual(self.refused("heat-up", "corner", "--run-from", "run.csv", "--mains", "110 V"),
                         "The mains must be from 80 to 130 % of nominal: 110 V of 230 V.")
        self.assertIn("no muffle gets stronger", self.refused("heat-up", "corner", "--run-from", "run.csv", "--mains", "190 V"))
        self.assertEqual(self.refused("vacuum", "corner"), "No reading of a gauge is given: neither pumping down nor the shut chamber.")
        self.assertIn("add room", self.refused("vacuum", "corner", "--rise-from", "leak.csv"))
        self.assertIn("one of the two goes", self.refused("vacuum", "corner", "--pump-down-from", "pump.csv", "--pump-down", "0 s, 1 mbar"))
        self.assertIn("did you mean", self.refused("vacuum", "cornr", "--pump-down-from", "pump.csv"))


if __name__ == "__main__":
    house.main()
