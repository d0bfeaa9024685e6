"""The JSON Schemas that `heatwork schema` prints, judged by a validator that is not ours.

Every shipped file passes the schema of its kind. Every broken file is refused by it, except those in BEYOND: what a schema cannot say, with
the reason. The list is held exact: a file in it that is refused after all is a failure too."""
import datetime
import json
import math
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
import house  # noqa: E402

BINARY = pathlib.Path(os.environ.get("HEATWORK_BINARY", house.ROOT / "build/release/heatwork"))
OWN = house.ROOT / "tests/schema"
PLACE = house.ROOT / "build/schema_proof"
BROKEN = house.ROOT / "tests/faults/broken"
NOUNS = ("program", "instruction", "furnace", "tray", "support", "material", "liquid", "piece", "firing",
         "alloy", "lot", "case", "bench_step", "check", "reference", "deviation", "person", "lock", "lab")

# What no schema can say, by reason: names of files in tests/faults/broken.
BEYOND = {
    "a range of a quantity, whatever its unit; a schema sees a text":
        "firing-barometer-low firing-humidity-over firing-room-hot furnace-ability-step-fine furnace-altitude-high furnace-error-huge "
        "furnace-mains-wrong furnace-maximum-low furnace-pump-ultimate-high liquid-boiling-low liquid-organics-over material-density-grams "
        "piece-area-huge piece-layer-thickness-huge piece-radius-metres program-entry-huge program-hold-too-long program-opening-over-whole "
        "program-rate-fahrenheit-fast program-rate-per-hour-slow program-rate-seconds program-standby-too-hot program-vacuum-level-high "
        "support-mass-heavy too-hot tray-diameter-wide check-error-absolute",
    "the size of a number within a text, or the smallest step that is kept":
        "material-expansion-huge overflow too-fine",
    "an order among several quantities of one table":
        "furnace-ability-rates-crossed furnace-cooling-half-order furnace-cooling-order gain instruction-hold-crossed "
        "instruction-top-crossed liquid-boiling-crossed liquid-boiling-ends-before material-low-above-high material-value-above-high "
        "outside-range rate-limits-crossed alloy-fired-at-solidus alloy-liquidus-below-solidus",
    "an order in time, from stage to stage":
        "falling-heating program-cooling-rising program-cooling-second-rising program-heating-second-falls "
        "program-opening-temperature-above program-unloading-above-opening program-vacuum-hold-between program-vacuum-hold-longer "
        "program-vacuum-to-above-top unloading-above vacuum-above-top vacuum-to-below",
    "a dial that counts down from an ambient pressure that must be known":
        "dial firing-barometer-dial instruction-vacuum-dial program-vacuum-level-below-ambient",
    "a name that must differ from another":
        "check-map-place-twice firing-after-itself furnace-due-said-twice lab-due-said-twice piece-twice firing-record-photo-twice firing-record-result-twice firing-record-used-twice",
    "a name that must be that of another, or be made of others":
        "firing-record-result-of-a-stranger lock-name-of-another",
    "one unit for all of a list":
        "check-sample-two-units",
    "a sum of several quantities":
        "alloy-shares-over",
    "an order of days or moments, and the length of each month":
        "bench-step-time-april-31 case-wanted-before-ordered check-sample-clock-back check-sample-same-second check-trial-clock-back "
        "check-trial-same-second deviation-released-before-found firing-record-ended-before-started "
        "lot-day-of-no-calendar reference-expires-before",
    "a word that is said only beside another":
        "reference-by-alone",
    "JSON has no dates, and the text of one is right":
        "instruction-date-bare lot-day-bare",
}

# No TOML at all, so there is no JSON to judge; another reader of TOML agrees.
NO_TOML = (
    "clock-bare escape firing-windows-lines furnace-ability-truth-capital furnace-pump-twice liquid-properties-text "
    "material-estimate-over-lines material-property-twice no-equals no-value open-bracket open-quote piece-inner-mass-lines "
    "piece-layer-before-section piece-layer-single program-colon-for-equals program-conflict-marks program-format-twice program-json "
    "program-key-empty program-key-with-space program-note-many-lines-open program-quote-typographic program-quotes-single-open "
    "program-semicolon program-standby-twice-dotted table-twice tail twice unquoted unquoted-word value-and-table")


# Ways to spell a quantity that the reader takes and the schema must take too: file of the demo lab, key, texts.
SPELLINGS = (
    ("program-dentine-on-zirconia", "entry", ("431°C", "431 C", "431,5 °C", "431.50 °C", "807 °F", "4.31e2 °C", " 431 °C ", "431 deg C", "431 \u2103")),
    ("program-dentine-on-zirconia", "closing_time", ("2:25", "145 s", "0:02:25", "2min25s", "2 min 25 s", "0,04 h", "145000 ms")),
    ("program-dentine-on-zirconia", "rate", ("47 °C/min", "47 K / min", "0.78 K/s", "84 °F/min", "47 K min^-1", "47 K\u00b7min-1")),
    ("program-dentine-on-zirconia", "drying_opening", ("70%", "70.5 %", "0,125 %")),
    ("program-dentine-on-zirconia", "level", ("57 hPa", "5.7 kPa", "0.057 bar", "57 mbar absolute", "930 mbar below ambient", "700 mmHg")),
    ("furnace-corner", "chamber_volume", ("0.59 l", "590 cm3", "590 ml", "0.59 dm³", "590 cm^3")),
    ("furnace-corner", "error", ("-12 K", "+12 K", "\u221212 K", "21 °F", "12 °C")),
    ("furnace-corner", "shut", ("0.00083/s", "8.3e-4 1/s", "0.05 /min", "0.00083 s^-1")),
    ("support-pins", "contact", ("0.073 cm2", "7.3 mm²", "7.3 mm^2")),
    ("support-pins", "gap", ("230 W/(m² K)", "0.023 W/(cm2 K)", "230 W/m2/K", "230 W/(m2·K)")),
    ("tray-light", "mass", ("11,7 g", "0.0117 kg", "11700 mg")),
    ("tray-light", "thickness", ("7800 µm", "7800 um", "0.78 cm", "0,125 dm")),
)


def validator():
    """Prepares the validator; the reason why there is none, or nothing."""
    if not shutil.which("node") or not shutil.which("npm"):
        return "node or npm is not installed"
    wanted = json.loads((OWN / "package.json").read_text())["dependencies"]
    there = {name: PLACE / "node_modules" / name / "package.json" for name in wanted}
    if all(file.is_file() and json.loads(file.read_text())["version"] == wanted[name] for name, file in there.items()):
        return None
    PLACE.mkdir(parents=True, exist_ok=True)
    for name in ("package.json", "package-lock.json", ".npmrc"):
        shutil.copy(OWN / name, PLACE / name)
    install = ["npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--fetch-retries=1"]
    done = subprocess.run(install, cwd=PLACE, stdin=subprocess.DEVNULL, capture_output=True, text=True)
    if done.returncode != 0:
        said = [line for line in done.stderr.splitlines() if line.strip()]
        return f"npm could not install {wanted}: {said[0] if said else 'it said nothing'}"
    return None


def heatwork(*words):
    done = subprocess.run([BINARY, *words], stdin=subprocess.DEVNULL, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def as_json(value):
    """JSON has no dates and no numbers beyond the finite: a date becomes its text, NaN and infinity become null."""
    if isinstance(value, dict):
        return {key: as_json(each) for key, each in value.items()}
    if isinstance(value, list):
        return [as_json(each) for each in value]
    if isinstance(value, (datetime.date, datetime.time)):
        return value.isoformat()
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value


def document(path):
    """A file as JSON with its kind; nothing where it is no TOML."""
    try:
        value = tomllib.loads(path.read_bytes().decode())
    except (tomllib.TOMLDecodeError, UnicodeDecodeError):
        return None
    kind = next((key for key in value if key in NOUNS), "program")
    return {"kind": kind, "value": as_json(value)}


def judged(schemas, documents, **options):
    asked = json.dumps({"schemas": schemas, "documents": documents, "options": options})
    done = subprocess.run(["node", str(OWN / "judge.mjs")], cwd=PLACE, input=asked, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr[-3000:]
    return json.loads(done.stdout)


MISSING = validator()


@unittest.skipIf(MISSING, MISSING)
class Schemas(unittest.TestCase):
    maxDiff = None

    @classmethod
    def setUpClass(cls):
        cls.schemas = {noun: heatwork("schema", noun.replace("_", "-")) for noun in NOUNS}

    def test_every_shipped_file_passes(self):
        files = sorted(path for path in (house.ROOT / "data").rglob("*.toml") if not {"limits", "relaxation", "words"} & set(path.parts))
        self.assertGreater(len(files), 60)
        verdicts = judged(self.schemas, [document(path) for path in files])
        self.assertEqual({str(path.relative_to(house.ROOT)): wrong for path, wrong in zip(files, verdicts) if wrong}, {})

    def test_every_broken_file_is_refused_or_listed_with_its_reason(self):
        files = sorted(BROKEN.glob("*.toml"))
        documents = {path.stem: document(path) for path in files}
        read = {name: each for name, each in documents.items() if each}
        verdicts = dict(zip(read, judged(self.schemas, list(read.values()))))
        passed = sorted(name for name, wrong in verdicts.items() if not wrong)
        listed = sorted(name for names in BEYOND.values() for name in names.split())
        self.assertEqual(sorted(set(documents) - set(read)), sorted(NO_TOML.split()))
        self.assertEqual(sorted(set(listed)), listed, "listed twice")
        self.assertEqual(sorted(set(passed) - set(listed)), [], "the schema takes these; it must refuse them, or the list gives the reason")
        self.assertEqual(sorted(set(listed) - set(passed)), [], "listed as beyond a schema, but refused, no TOML at all, or gone")
        print(f"{len(files)} broken files: {len(read) - len(passed)} refused by a schema, {len(passed)} beyond one, {len(files) - len(read)} no TOML")

    def test_every_usual_spelling_is_taken_by_reader_and_schema(self):
        with tempfile.TemporaryDirectory() as folder:
            lab = pathlib.Path(folder) / "lab"
            subprocess.run([BINARY, "demo", lab], check=True, stdin=subprocess.DEVNULL, capture_output=True)
            # The last file that is read is broken: its mistake says that all before it were read, and no time goes into a firing.
            last = lab / "piece-bridge-24-26.toml"
            last.write_text(last.read_text().replace('shape = ', 'shpae = '))
            documents, names = [], []
            for name, key, texts in SPELLINGS:
                path = lab / f"{name}.toml"
                good = path.read_text()
                for text in texts:
                    changed, count = re.subn(rf'^{key} = ".*"$', f'{key} = "{text}"', good, count=1, flags=re.M)
                    self.assertEqual(count, 1, (name, key))
                    path.write_text(changed)
                    done = subprocess.run([BINARY, "rehearse", lab / "firing.toml", "--json"], stdin=subprocess.DEVNULL, capture_output=True, text=True)
                    self.assertEqual(done.returncode, 2)
                    self.assertIn('"shpae" is not known', done.stderr)
                    documents.append(document(path))
                    names.append(f"{name}: {key} = {text}")
                path.write_text(good)
            verdicts = judged(self.schemas, documents)
            self.assertEqual({name: wrong for name, wrong in zip(names, verdicts) if wrong}, {})

    def test_the_validator_bites(self):
        good = document(house.ROOT / "data/demo/tray-light.toml")
        bad = json.loads(json.dumps(good))
        bad["value"]["tray"]["diameter"] = "69 kelvin"
        self.assertEqual(judged(self.schemas, [good]), [[]])
        self.assertIn("/tray/diameter must match pattern", judged(self.schemas, [bad])[0][0])

    def test_what_the_schema_of_a_calculation_refuses_the_program_refuses(self):
        """The branches of a choice name keys that their parent describes; only that the strict mode is told to take."""
        listed = subprocess.run([BINARY, "calculate", "--list"], stdin=subprocess.DEVNULL, capture_output=True, text=True, check=True).stdout
        names = [line.split()[0] for line in listed.splitlines() if line[:1].strip()]
        self.assertGreaterEqual(len(names), 14)
        schemas = {name: heatwork("calculate", name, "--describe", "--json") for name in names}
        asked = [(name, value) for name in names for value in ({}, {"odd": 1}, {next(iter(schemas[name]["properties"])): {}}, [], 7)]
        verdicts = judged(schemas, [{"kind": name, "value": value} for name, value in asked], strictRequired=False)
        self.assertGreater(sum(1 for wrong in verdicts if wrong), 40)
        for (name, value), wrong in zip(asked, verdicts):
            done = subprocess.run([BINARY, "calculate", name], input=json.dumps(value), capture_output=True, text=True)
            if value != []:  # a list asks once for each of its objects, and this one holds none
                self.assertEqual(done.returncode, 2 if wrong else 0, (name, value, wrong, done.stderr))
        good = {"kind": "standard-atmosphere", "value": {"altitude_m": 1500}}
        self.assertEqual(judged(schemas, [good], strictRequired=False), [[]])

    def test_a_schema_that_is_none_is_refused(self):
        with self.assertRaises(AssertionError):
            judged({"program": {"type": "object", "propertys": {}}}, [])


if __name__ == "__main__":
    house.main()
