"""Whether a furnace has drifted, by the real binary: charts of kept checks as text, JSON and picture, and every way to ask wrongly."""
import datetime
import json
import pathlib
import subprocess
import sys
import xml.etree.ElementTree as ElementTree

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import house  # noqa: E402
from records_store_test import BINARY, Place  # noqa: E402

SCATTER = [0.3, -0.9, 1.1, 0.2, -1.3, 0.7, -0.4, 1.0, -0.8, 0.5, -0.2, -0.6, 0.9, 0.1]


def check(name, furnace, month, offset, **more):
    """A check of the first of a month counted from January 2024."""
    day = datetime.date(2024 + month // 12, month % 12 + 1, 1)
    values = {"name": name, "furnace": furnace, "of": "temperature", "good": True, "error": f"{offset:.2f} K", "standard_uncertainty": "1.6 K",
              "at": f"{day}T08:00:00Z", "person": "mara"} | more
    return "format = 1\n\n[check]\n" + "".join(f"{key} = {json.dumps(value)}\n" for key, value in values.items() if value is not None)


def checks_of(furnace, months, error, **changed):
    return {f"{furnace}-{month}": check(f"{furnace}-{month:02}", furnace, month, error(month) + SCATTER[month % 14], **changed.get(f"m{month}", {}))
            for month in range(months)}


FILES = {
    **checks_of("drifting", 24, lambda month: 0.36 * month - 1),
    **checks_of("stepped", 24, lambda month: 1.2 if month < 13 else -8.1),
    **checks_of("steady", 24, lambda month: 2.0),
    **checks_of("adjusted", 20, lambda month: 0.7 * month if month < 11 else 0.0, m11={"as_left": True}, m15={"after_repair": "new muffle"}),
    **checks_of("young", 2, lambda month: 1.0),
    "odd-1": check("odd-1", "odd", 0, 0, error=None, standard_uncertainty=None),
    "odd-2": check("odd-2", "odd", 1, 1, standard_uncertainty=None),
    "odd-3": check("odd-3", "odd", 2, 1, of="vacuum"),
    "twin-1": check("twin-1", "twin", 3, 1),
    "twin-2": check("twin-2", "twin", 3, 2),
    "beyond": check("beyond-1", "beyond", 0, 17, limit="8 K"),
}


class Charts(Place):
    def setUp(self):
        super().setUp()
        self.environment |= {"TZ": "Europe/Berlin"}
        (self.place / "lab").mkdir()
        for name, text in FILES.items():
            (self.place / "lab" / f"{name}.toml").write_text(text)
        self.done("create", "--as", "mara")
        self.done("take-in", "lab", "--as", "mara")

    def chart(self, *words, code=0):
        answer = subprocess.run([str(BINARY), "furnace", "check", "chart", *words], cwd=self.place, env=self.environment, stdin=subprocess.DEVNULL,
                                capture_output=True, text=True)
        self.assertEqual(answer.returncode, code, answer.stdout + answer.stderr)
        if code == 2:
            self.assertEqual(answer.stdout, "")
        return answer.stdout if code != 2 else answer.stderr

    def told(self, *words, code=0):
        return json.loads(self.chart(*words, "--json", code=code))

    def test_a_drift_is_told_from_a_step_and_from_nothing(self):
        drifting = self.told("drifting", "--limit", "10 K", code=1)
        self.assertEqual((drifting["format"], drifting["outcome"], drifting["verdict"]["change"], drifting["how_often"]), (1, "not good", "drift", "monthly"))
        self.assertAlmostEqual(drifting["forecast"]["slope_K_per_month"], 0.36, delta=0.1)
        self.assertRegex(drifting["forecast"]["leaves_limit_on"], r"^2026-")
        self.assertLess(drifting["forecast"]["earliest_on"], drifting["forecast"]["leaves_limit_on"])
        stepped = self.told("stepped", "--limit", "10 K", code=1)
        self.assertEqual((stepped["verdict"]["change"], stepped["verdict"]["begins"]), ("step", "stepped-13"))
        self.assertEqual(stepped["finding"]["sentence"].split(" between ")[1], "2025-01-01 and 2025-02-01.")
        steady = self.told("steady")
        self.assertEqual((steady["outcome"], steady["verdict"]["change"], steady["cusum"]["first_alarm"]), ("good", "none", None))
        self.assertEqual((steady["cusum"]["k"], steady["cusum"]["h"]), (0.5, 3))
        self.assertAlmostEqual(steady["average_run"], 58.8, delta=0.3)
        self.assertEqual(self.told("young")["outcome"], "cannot tell")

    def test_the_chart_begins_anew_after_adjustment_and_repair(self):
        told = self.told("adjusted")
        self.assertEqual([(run["from"], run["begins"], run["repaired"], run["checks"]) for run in told["runs"]],
                         [("adjusted-00", "first check", None, 11), ("adjusted-11", "adjusted", None, 4), ("adjusted-15", "repaired", "new muffle", 5)])
        self.assertTrue(told["runs"][1]["head_start"])
        text = self.chart("adjusted")
        self.assertIn("Anew         2024-12-01: adjusted\nAnew         2025-04-01: after repair, new muffle\n", text)

    def test_the_text_has_a_small_table_and_stays_in_its_columns(self):
        text = self.chart("drifting", "--limit", "10 K", code=1)
        self.assertIn("Checks       24 checks of temperature, from 2024-01-01 to 2025-12-01\n", text)
        self.assertIn("without a real change one in 59 checks on average", text)
        self.assertRegex(text, r"\nnot good +The display drifts: by \+\d\.\d K ± \d\.\d K from 2024-\d\d-01 to 2025-12-01\.\n")
        self.assertIn("\nCHECK        DAY             ERROR  U (K=1)      TREND  HIGHER   LOWER\n", text)
        self.assertIn("drifting-00  2024-01-01", text)
        self.assertLessEqual(max(map(len, text.split("\n"))), 100)

    def test_what_the_charts_signal_is_said_in_words(self):
        signals = [each["sentence"] for each in self.told("drifting", code=1)["signals"]]
        self.assertEqual(signals, ["The sums (CUSUM) alarm since 2024-11-01.", "The trend (EWMA) left its band on 2025-01-01.",
                                   "A single check stands out alone on 2024-12-01."])
        self.assertIn("Signal       No single check stands out alone since ", self.chart("steady"))

    def test_a_limit_is_the_one_asked_for_else_that_of_the_newest_check_else_as_checks_are_judged(self):
        told = self.told("drifting", code=1)
        self.assertEqual((told["limit_K"], told["limit_from"], told["finding"]["reason"]), (5, "chosen here", "beyond limit"))
        self.assertEqual((self.told("beyond", code=1)["limit_K"], self.told("beyond", code=1)["limit_from"]), (8, "check beyond-1"))
        self.assertEqual(self.told("beyond", "--limit", "20 K")["limit_from"], "asked")
        self.assertIn("The display is off by +17.0 K ± 3.2 K, beyond the limit of 8 K.", self.chart("beyond", code=1))

    def test_a_picture_in_each_language(self):
        self.chart("drifting", "--limit", "10 K", "--picture", "chart.svg", code=1)
        svg = (self.place / "chart.svg").read_text(encoding="utf-8")
        ElementTree.fromstring(svg)
        for words in ("Checks of furnace drifting", "The display drifts", "medical device.", "limit of the lab, 10 K either way"):
            self.assertIn(words, svg)
        self.chart("drifting", "--limit", "10 K", "--picture", "bild.svg", "--language", "de", code=1)
        german = (self.place / "bild.svg").read_text(encoding="utf-8")
        for words in ("Prüfungen des Ofens drifting", "nicht gut", "Die Anzeige driftet", "Grenze des Labors", "im Mittel ein Alarm"):
            self.assertIn(words, german)
        for english in ("The display", "It moves", "Plan the adjustment", "checked about"):
            self.assertNotIn(english, german)
        self.chart("stepped", "--picture", "chart.png", code=1)
        self.assertTrue((self.place / "chart.png").read_bytes().startswith(b"\x89PNG"))
        self.assertEqual(self.chart("stepped", "--picture", "again.svg", code=1), self.chart("stepped", code=1))

    def test_checks_of_one_second_are_charted_in_the_order_they_were_kept(self):
        self.assertEqual([check["check"] for check in self.told("twin")["checks"]], ["twin-1", "twin-2"])
        for name, at in (("twin-z", "2024-06-01T08:00:00Z"), ("twin-a", "2024-06-01T08:00:00Z"), ("twin-m", "2024-06-01T08:00:00Z"),
                         ("twin-b", "2024-05-01T08:00:00Z"), ("twin-c", "2024-07-01T08:00:00Z"), ("twin-d", "2024-07-01T08:00:00.500Z")):
            subprocess.run([str(BINARY), "check", "add", name, "--set", "furnace=twin", "--set", "of=temperature", "--set", "good=true", "--set", "error=1 K",
                            "--set", "standard_uncertainty=1.6 K", "--set", f"at={at}", "--as", "mara"],
                           cwd=self.place, env=self.environment, check=True, capture_output=True)
        told = self.told("twin")
        self.assertEqual([check["check"] for check in told["checks"]],
                         ["twin-1", "twin-2", "twin-b", "twin-z", "twin-a", "twin-m", "twin-c", "twin-d"])
        self.assertEqual(told["verdict"]["change"], "none")
        self.assertIn("twin-z", self.chart("twin"))

    def test_wrong_questions_are_answered_by_one_sentence(self):
        self.assertEqual(self.chart("attic", code=2), 'No furnace "attic" is kept; none is kept yet, "heatwork furnace add" keeps one.\n')
        self.assertEqual(self.chart("odd", code=2),
                         "No check of furnace odd can be charted: none that is kept tells an error of the display with its uncertainty.\n")
        self.assertEqual(self.chart("steady", "--of", "vacuum", code=2),
                         'There is no chart of "vacuum"; there are charts of: temperature, thermocouple.\n')
        self.assertEqual(self.chart("steady", "--limit", "0 K", code=2), 'The limit "0 K" must be above 0 K and at most 60 K.\n')
        self.assertIn('The limit "ten": ', self.chart("steady", "--limit", "ten", code=2))
        self.assertIn("must end in .svg, .png or .pdf", self.chart("steady", "--picture", "chart.gif", code=2))
        self.assertIn('--language is "fr", but must be en or de', self.chart("steady", "--picture", "a.svg", "--language", "fr", code=2))
        self.assertIn("No check of furnace steady can be charted", self.chart("steady", "--of", "thermocouple", code=2))


if __name__ == "__main__":
    house.main()
