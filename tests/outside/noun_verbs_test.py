"""What a lab keeps, one by one, by the real binary: every verb of every kind of file, and each refusal with its whole sentence."""
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

UTC = "2026-11-25T10:00:00Z"

# Of each kind: its file (below data/, or its table), its name, a value to set, and what that changes in words.
KINDS = {
    "program": ("demo/program-glaze-film.toml", "glaze-film", "drying_time=4 min", "drying time: 4 min instead of 2 min 35 s"),
    "instruction": ("demo/instruction-glaze-film-sheet.toml", "glaze-film-sheet", "edition=demo 4", "edition: demo 4 instead of demo 3"),
    "furnace": ("demo/furnace-window.toml", "window", "correction_keyed=3 K", "correction keyed: 3 K instead of 0 K"),
    "tray": ("demo/tray-light.toml", "light", "mass=12.1 g", "mass: 12.1 g instead of 11.7 g"),
    "support": ("demo/support-pins.toml", "pins", "mass=2.3 g", "mass: 2.3 g instead of 1.9 g"),
    "material": ("materials/glaze.toml", "glaze", "family=our glaze", "family: our glaze instead of glaze"),
    "liquid": ("liquids/stain-liquid-glycol.toml", "stain-liquid-glycol", "organic=false", "organic: false instead of true"),
    "alloy": ("alloys/gold-rich-alloy.toml", "gold-rich-alloy", "label=alloy in the drawer",
              "label: alloy in the drawer instead of gold alloy for porcelain"),
    "piece": ("demo/piece-crown-16.toml", "crown-16", "teeth=17", "teeth: [17] instead of [16]"),
    "firing": ("demo/glaze-firing.toml", "glaze-firing", "tray=heavy", "tray: heavy instead of light"),
    "case": ("demo/case-k-0417.toml", "k-0417", "next_step=glaze firing", "next step: glaze firing instead of dentine firing"),
    "lot": ("demo/lot-veneer-31-7.toml", "veneer-31-7", "used_up=true", "used up: true instead of false"),
    "reference": ("demo/reference-silver-wire-3.toml", "silver-wire-3", "expires=2028-03-31", "expires: 2028-03-31 instead of 2029-05-31"),
    "bench-step": (f'[bench_step]\nname = "ground"\nwork = "grind"\npieces = ["crown-16"]\nat = "{UTC}"\n', "ground", "work=clean",
                   "work: clean instead of grind"),
    "check": (f'[check]\nname = "autumn"\nfurnace = "window"\nof = "temperature"\ngood = true\nat = "{UTC}"\n', "autumn", "good=false",
              "good: false instead of true"),
    "deviation": (f'[deviation]\nname = "long-hold"\nfrom = "hold at most 1 min"\nfound = "held 2 min"\nfound_at = "{UTC}"\nfound_by = "tom"\n',
                  "long-hold", "found=held 3 min", "found: held 3 min instead of held 2 min"),
}


class Nouns(Place):
    def heatwork(self, *words, code=0):
        done = subprocess.run([str(BINARY), *words], cwd=self.place, env=self.environment, stdin=subprocess.DEVNULL, capture_output=True, text=True)
        self.assertEqual((done.returncode, "" if code else done.stderr), (code, ""), done.stdout + done.stderr)
        if code == 2:
            self.assertEqual(done.stdout, "")
        return done.stderr if code == 2 else done.stdout

    def answer(self, *words):
        told = json.loads(self.heatwork(*words, "--json"))
        self.assertEqual(list(told)[0], "format")
        return told

    def refusal(self, *words):
        """Wrapped lines as one."""
        return " ".join(self.heatwork(*words, code=2).split())

    def file_of(self, kind):
        text = KINDS[kind][0]
        if not text.startswith("["):
            text = (house.ROOT / "data" / text).read_text()
        else:
            text = "format = 1\n\n" + text
        (self.place / f"{kind}.toml").write_text(text)
        return f"{kind}.toml"

    def add(self, kind):
        return self.answer(kind, "add", self.file_of(kind))

    def versions(self):
        return self.json("status")["versions"]


class EveryKind(Nouns):
    def walk(self, kind):
        _, name, value, words = KINDS[kind]
        self.assertIn(f"Kept {kind.replace('-', ' ')} {name}, version 1 ", " ".join(self.heatwork(kind, "add", self.file_of(kind)).split()))
        self.assertEqual(self.answer(kind, "list")["kept" if kind == "material" else "rows"][-1]["name"], name)
        changed = self.heatwork(kind, "change", name, "--set", value, "--reason", "seen again")
        self.assertIn(words, " ".join(changed.split()))
        self.assertIn(f"{name}, version 2\n", changed)
        shown = self.answer(kind, "show", name)
        self.assertEqual((shown["version"], shown["reason"], shown["action"]), (2, "seen again", "changed"))
        self.assertRegex(shown["hash"], "^[0-9a-f]{64}$")
        first = self.answer(kind, "show", f"{name}@1")
        self.assertEqual((first["version"], first["newest"]), (1, 2))
        self.assertNotEqual(first["text"], shown["text"])
        self.assertIn(shown["text"], self.heatwork(kind, "show", name))
        self.assertIn(shown["hash"], self.heatwork(kind, "show", name))
        told = self.answer(kind, "difference", f"{name}@1", name)
        self.assertEqual([change["words"] for change in told["changes"]], [words])
        self.assertEqual((told["before"], told["after"]), (f"{name}@1", f"{name}@2"))
        self.assertIn(words, " ".join(self.heatwork(kind, "difference", f"{name}@1", f"{name}@2").split()))
        of_versions = "versions" if kind == "case" else "history"  # the history of a case is that of its pieces
        history = self.answer(kind, of_versions, name)["versions"]
        self.assertEqual([(each["version"], each["action"], each["reason"]) for each in history], [(1, "added", ""), (2, "changed", "seen again")])
        self.assertEqual([[change["words"] for change in each["changes"]] for each in history], [[], [words]])
        self.assertIn(words, " ".join(self.heatwork(kind, of_versions, name).split()))
        self.assertEqual([row["name"] for row in self.answer(kind, "find", name[:4])["rows"]], [name])
        self.assertEqual(self.answer(kind, "find", "no such word")["count"], 0)
        self.heatwork(kind, "write-out", f"{name}@1", "--output", "out.toml")
        self.assertEqual((self.place / "out.toml").read_text(), first["text"])
        self.heatwork(kind, "lock", name, "--reason", "proven")
        self.assertEqual(self.answer(kind, "show", name)["locked_because"], "proven")
        self.heatwork(kind, "unlock", name, "--reason", "to be tried again")
        self.assertIsNone(self.answer(kind, "show", name)["locked_because"])
        self.assertIn("nothing was altered", self.done("verify"))

    def test_persons_are_listed_found_and_told_of(self):
        self.heatwork("store", "create")
        folder = self.place / "persons"
        folder.mkdir()
        (folder / "mara.toml").write_text('format = 1\n\n[person]\nname = "mara"\nrole = "release"\nmay_set_up = true\n')
        self.heatwork("store", "take-in", "persons")
        self.assertEqual([(row["name"], row["state"]) for row in self.answer("person", "list")["rows"]], [("mara", "release")])
        self.assertEqual(self.answer("person", "find", "mar")["count"], 1)
        self.assertEqual(self.answer("person", "history", "mara")["versions"][0]["action"], "added")

    def test_locks_are_listed_and_shown(self):
        self.add("tray")
        self.heatwork("tray", "lock", "light", "--reason", "weighed and proven")
        self.assertEqual([(row["name"], row["state"]) for row in self.answer("lock", "list")["rows"]], [("tray-light", "locked")])
        self.assertIn('reason = "weighed and proven"', self.answer("lock", "show", "tray-light")["text"])


def add_walk(kind):
    def test(self):
        self.walk(kind)
    setattr(EveryKind, f"test_{kind.replace('-', '_')}", test)


for each in KINDS:
    add_walk(each)


class Adding(Nouns):
    def test_the_store_is_made_at_first_use_and_the_head_hash_told(self):
        said = self.heatwork("tray", "add", self.file_of("tray"))
        head = re.search(r"^Head hash +([0-9a-f]{64})$", said, re.M).group(1)
        self.assertEqual(head, self.json("status")["head"])

    def test_several_files_at_once_all_or_none(self):
        trays = []
        for name in ("light", "middle", "heavy"):
            (self.place / f"{name}.toml").write_text((house.ROOT / f"data/demo/tray-{name}.toml").read_text())
            trays.append(f"{name}.toml")
        self.heatwork("tray", "add", trays[2])
        self.assertEqual(self.refusal("tray", "add", *trays),
                         "tray heavy is kept already, in version 1; nothing was kept. \"heatwork tray change heavy\" makes its next version.")
        self.assertEqual(self.answer("tray", "list")["count"], 1)
        self.assertEqual([each["name"] for each in self.answer("tray", "add", *trays[:2])["kept"]], ["light", "middle"])

    def test_by_name_with_values(self):
        self.heatwork("lot", "add", "jar-7", "--set", "material=glaze", "--set", "code=odd 7", "--set", "opened=2026-11-25")
        self.assertIn('code = "odd 7"', self.answer("lot", "show", "jar-7")["text"])

    def test_a_value_that_is_none_is_said_by_the_reader(self):
        said = self.heatwork("lot", "add", "jar-7", "--set", "material=glaze", "--set", "opened=yesterday", code=2)
        self.assertRegex(said, r"^lot jar-7:\d+:\d+: opened: ")
        self.assertIn('opened = "yesterday"\n', said)
        self.assertIn("^", said.splitlines()[-1])
        self.assertFalse((self.place / "data").exists(), "nothing is made for what cannot be kept")

    def test_what_is_no_file_of_this_kind(self):
        self.assertEqual(self.refusal("tray", "add", self.file_of("support")),
                         "support.toml holds a support; \"heatwork tray\" keeps a tray.")
        self.assertIn("none.toml", self.refusal("tray", "add", "none.toml"))
        self.assertEqual(self.refusal("tray", "add", "light", "heavy"), "Give files that end in .toml, or one new name with its values.")
        self.assertEqual(self.refusal("tray", "add", self.file_of("tray"), "--set", "mass=1 g"),
                         "Single values go with a new name, not with files; write the value into the file.")
        self.assertEqual(self.refusal("tray", "add", "new", "--set", "mass"), "\"mass\" must be KEY=VALUE, as in drying_time=\"4 min\".")


class Changing(Nouns):
    def setUp(self):
        super().setUp()
        self.add("program")

    def test_a_stage_by_its_number_and_back(self):
        self.heatwork("program", "change", "glaze-film", "--set", "heating[1].hold=1 min 20 s", "--reason", "edges sharp")
        told = self.answer("program", "difference", "glaze-film@1", "glaze-film@2")["changes"]
        self.assertEqual([(each["key"], each["where"], each["after"]) for each in told], [("heating[1].hold", "heating stage 1, hold", "1 min 20 s")])
        self.heatwork("program", "change", "glaze-film", "--unset", "note", "--reason", "not wanted")
        self.assertEqual(self.answer("program", "difference", "glaze-film@2", "glaze-film")["changes"][0]["after"], None)

    def test_from_a_file(self):
        file = self.place / "program.toml"
        file.write_text(file.read_text().replace("2 min 35 s", "3 min"))
        self.assertEqual(self.answer("program", "difference", "glaze-film", "program.toml")["changes"][0]["words"], "drying time: 3 min instead of 2 min 35 s")
        self.heatwork("program", "change", "glaze-film", "--file", "program.toml", "--reason", "wetter")
        self.assertEqual(self.heatwork("program", "difference", "glaze-film", "program.toml"),
                         "glaze-film@2 and program.toml are alike in every value.\n")

    def test_two_who_change_the_same_version(self):
        self.heatwork("program", "change", "glaze-film", "--set", "drying_time=4 min", "--from-version", "1", "--reason", "wetter")
        before = self.versions()
        said = self.heatwork("program", "change", "glaze-film", "--set", "standby=401 °C", "--from-version", "1", "--reason", "warmer", code=2)
        self.assertEqual(said,
                         "The program \"glaze-film\" was changed meanwhile: version 2 stands, yours was made from version 1. Nothing was kept.\n"
                         "Version 2 changed:\n  drying time: 4 min instead of 2 min 35 s\n"
                         "Yours would have changed:\n  standby: 401 °C instead of 391 °C\n"
                         "Look at both, then change version 2.\n")
        self.assertEqual(self.versions(), before)
        self.heatwork("program", "change", "glaze-film", "--set", "standby=401 °C", "--from-version", "2", "--reason", "warmer")
        self.assertEqual(self.answer("program", "show", "glaze-film")["version"], 3)

    def test_refusals(self):
        before = self.versions()
        for words, sentence in [
            (("--set", "drying_time=4 min"), "heatwork program change: --reason is missing; \"heatwork program change --help\" shows how it is used."),
            (("--reason", "x"), "Say what changes: a whole text, or values to set and keys to unset."),
            (("--set", "drying_time=2 min 35 s", "--reason", "x"),
             "That is what version 1 of program glaze-film says already; nothing was kept."),
            (("--set", "heating[1].hodl=1 min", "--reason", "x"), "a program has no \"heating[1].hodl\"; did you mean \"heating[1].hold\"?"),
            (("--set", "entry=1 °C", "--set", "entry=2 °C", "--reason", "x"), "\"entry\" is given twice; give it once."),
            (("--set", "name=other", "--reason", "x"), "A name stays what it is: add one under the new name."),
        ]:
            with self.subTest(words=words):
                self.assertEqual(self.refusal("program", "change", "glaze-film", *words), sentence)
        said = self.heatwork("program", "change", "glaze-film", "--set", "drying_time=long", "--reason", "x", code=2)
        self.assertRegex(said, r"^program glaze-film with these changes:\d+:\d+: drying_time: ")
        self.assertIn('drying_time = "long"', said)
        self.assertEqual(self.refusal("program", "change", "glaze-film@1", "--set", "entry=2 °C", "--reason", "x"),
                         "A kept version never changes: name glaze-film without \"@1\".")
        self.assertEqual(self.versions(), before)

    def test_near_misses(self):
        for verb in (("show",), ("history",), ("write-out",), ("lock", "--reason", "x")):
            with self.subTest(verb=verb):
                self.assertEqual(self.refusal("program", verb[0], "glase-film", *verb[1:]),
                                 "No program \"glase-film\" is kept; did you mean \"glaze-film\"?")
        self.assertEqual(self.refusal("program", "show", "glaze-film@7"), "There is no version 7 of program glaze-film; the newest is 1.")
        self.assertEqual(self.refusal("program", "show", "glaze-film@x"),
                         "\"glaze-film@x\" names no version; a version is a number from 1, as in glaze-film@1.")
        self.assertEqual(self.refusal("tray", "show", "light"), "No tray \"light\" is kept; none is kept yet, \"heatwork tray add\" keeps one.")

    def test_what_is_locked_stays(self):
        self.heatwork("program", "lock", "glaze-film", "--reason", "proven on a tab")
        self.assertIn("locked", self.heatwork("program", "list"))
        self.assertIn("Locked       proven on a tab\n", self.heatwork("program", "show", "glaze-film"))
        before = self.versions()
        self.assertIn("program glaze-film is locked: proven on a tab. Nothing was kept",
                      self.refusal("program", "change", "glaze-film", "--set", "entry=421 °C", "--reason", "x"))
        self.assertEqual(self.refusal("program", "lock", "glaze-film", "--reason", "y"), "program glaze-film is locked already: proven on a tab.")
        self.assertEqual(self.versions(), before)
        self.heatwork("program", "unlock", "glaze-film", "--reason", "new glaze")
        self.assertEqual(self.refusal("program", "unlock", "glaze-film", "--reason", "y"), "program glaze-film is not locked.")
        self.heatwork("program", "change", "glaze-film", "--set", "entry=421 °C", "--reason", "new glaze")

    def test_nothing_is_written_over(self):
        mine = self.place / "program-glaze-film.toml"
        self.heatwork("program", "write-out", "glaze-film")
        mine.write_text("mine\n")
        self.assertEqual(self.refusal("program", "write-out", "glaze-film"),
                         "Something stands at program-glaze-film.toml already; nothing was written over it.")
        self.assertEqual(mine.read_text(), "mine\n")


class Looking(Nouns):
    def test_by_state(self):
        self.add("lot")
        self.heatwork("lot", "add", "jar-7", "--set", "material=glaze", "--set", "used_up=true")
        for state, name in (("in use", "veneer-31-7"), ("used up", "jar-7")):
            told = self.answer("lot", "list", "--state", state)
            self.assertEqual(([row["name"] for row in told["rows"]], told["count"]), ([name], 1))

    def test_nothing_there(self):
        self.heatwork("store", "create")
        self.assertEqual(self.heatwork("program", "list"), "No program is kept yet.\n")
        self.assertEqual(self.heatwork("program", "find", "dentine"), "No program was found.\n")

    def test_a_thousand_rows_a_page_and_the_exact_count(self):
        folder = self.place / "many"
        folder.mkdir()
        for number in range(1003):
            (folder / f"{number:04}.toml").write_text(f'format = 1\n\n[lot]\nname = "jar-{number:04}"\nmaterial = "glaze"\n')
        self.heatwork("store", "create")
        self.heatwork("store", "take-in", "many")
        first, second = self.answer("lot", "list"), self.answer("lot", "list", "--page", "2")
        self.assertEqual((len(first["rows"]), first["count"], second["count"]), (1000, 1003, 1003))
        self.assertEqual([row["name"] for row in second["rows"]], ["jar-1000", "jar-1001", "jar-1002"])
        self.assertIn("3 of 1003, page 2", self.heatwork("lot", "list", "--page", "2"))

    def test_materials_that_ship_are_listed_beside_the_labs_own(self):
        ships = self.heatwork("material", "list")
        (self.place / "own.toml").write_text((house.ROOT / "data/materials/glaze.toml").read_text().replace('name = "glaze"', 'name = "our-glaze"'))
        self.heatwork("material", "add", "own.toml")
        told = self.heatwork("material", "list")
        self.assertIn("zirconia-veneer", ships)
        self.assertIn("zirconia-veneer", told)
        self.assertIn("our-glaze", told)
        self.assertIn("our-glaze", self.heatwork("material", "show", "our-glaze"))

    def test_times_are_told_in_the_zone_of_the_lab(self):
        self.environment["TZ"] = "Europe/Berlin"
        self.add("tray")
        self.assertRegex(self.heatwork("tray", "show", "light"), r"By +\S+, \d{4}-\d\d-\d\d \d\d:\d\d Europe/Berlin\n")
        self.assertEqual(self.answer("tray", "show", "light")["zone"], "Europe/Berlin")


# The class of the other file is for use here, not to be run twice.
del Place

if __name__ == "__main__":
    house.main()
