"""A lab with one broken file, asked by the real program: exit code 2, one message on standard error, nothing on standard output, no file written."""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
import house  # noqa: E402

BINARY = pathlib.Path(os.environ.get("HEATWORK_BINARY", house.ROOT / "build/release/heatwork"))
BROKEN = house.ROOT / "tests/faults/broken"
NOUNS = ("program", "instruction", "furnace", "tray", "support", "material", "liquid", "piece", "firing")

# Where the demo lab names a file of that kind: the file that names it, and the name it has there.
NAMED_IN = {"program": ("firing", "dentine-on-zirconia"), "instruction": ("firing", "dentine-on-zirconia-sheet"), "furnace": ("firing", "corner"),
            "tray": ("firing", "light"), "support": ("piece-crown-16", "pins"), "material": ("piece-crown-16", "zirconia-veneer"),
            "liquid": ("piece-crown-16", "water"), "piece": ("firing", "crown-16")}
# A dial that counts down from the ambient pressure is no mistake once a furnace with its altitude is there.
READ_WITH_A_FURNACE = {"dial", "instruction-vacuum-dial", "program-vacuum-level-below-ambient"}
# A file that does not say what it is cannot be found by its name; the firing that names it is told so.
NOT_FOUND = {"no-format", "program-format-inside", "program-list-of-programs"}
# So many of a kind, spread evenly; all of them where the counts are full.
OF_A_KIND = 1000 if os.environ.get("HEATWORK_LONG") else 8


def kind_and_name(text):
    """As far as a person could tell what the file is and what it calls itself."""
    kind = re.search(r"^\[+(\w+)\]", text, re.M)
    name = re.search(r'^name = "([A-Za-z0-9_-]{1,60})"\s*$', text, re.M)
    return (kind.group(1) if kind else None), (name.group(1) if name else None)


def cases():
    of_kind = {kind: [] for kind in NOUNS}
    for path in sorted(BROKEN.glob("*.toml")):
        kind, name = kind_and_name(path.read_bytes().decode())
        if kind == "firing" or (kind in NAMED_IN and name and path.stem not in READ_WITH_A_FURNACE | NOT_FOUND):
            of_kind[kind].append((path, kind, name))
    for rows in of_kind.values():
        step = max(1, len(rows) // OF_A_KIND)
        yield from rows[::step]


class BrokenLab(unittest.TestCase):
    maxDiff = None

    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        cls.demo = pathlib.Path(cls.folder.name) / "demo"
        subprocess.run([BINARY, "demo", cls.demo], check=True, stdin=subprocess.DEVNULL, capture_output=True)

    @classmethod
    def tearDownClass(cls):
        cls.folder.cleanup()

    def lab_with(self, path, kind, name):
        """The demo lab with the broken file in it, named where the demo lab names one of its kind: the lab and the firing to ask for."""
        lab = pathlib.Path(self.folder.name) / f"lab-{path.stem}"
        shutil.copytree(self.demo, lab)
        for other in lab.iterdir():
            if kind_and_name(other.read_text()) == (kind, name):
                other.unlink()
        shutil.copy(path, lab / path.name)
        if kind == "firing":
            return lab, lab / path.name
        asks, usual = NAMED_IN[kind]
        text = (lab / f"{asks}.toml").read_text()
        self.assertIn(f'"{usual}"', text)
        (lab / f"{asks}.toml").write_text(text.replace(f'"{usual}"', f'"{name}"'))
        return lab, lab / "firing.toml"

    def test_each_ends_2_with_its_message_and_writes_nothing(self):
        seen = {}
        for path, kind, name in cases():
            with self.subTest(path.stem):
                lab, firing = self.lab_with(path, kind, name)
                before = sorted(each.name for each in lab.iterdir())
                done = subprocess.run([BINARY, "rehearse", firing, "--picture", lab / "picture.svg"], cwd=lab, stdin=subprocess.DEVNULL,
                                      capture_output=True, text=True)
                self.assertEqual((done.returncode, done.stdout), (2, ""), done.stderr)
                self.assertEqual(done.stderr.replace(str(lab) + "/", ""), path.with_suffix(".txt").read_text())
                self.assertEqual(sorted(each.name for each in lab.iterdir()), before)
                seen[kind] = seen.get(kind, 0) + 1
                shutil.rmtree(lab)
        self.assertEqual(sorted(seen), sorted(NOUNS))
        self.assertGreaterEqual(min(seen.values()), 5, seen)
        print(f"{sum(seen.values())} broken labs: {seen}")

    def test_json_is_refused_in_the_same_words(self):
        path = BROKEN / "firing-room-hot.toml"
        lab, firing = self.lab_with(path, "firing", None)
        plain = subprocess.run([BINARY, "rehearse", firing], stdin=subprocess.DEVNULL, capture_output=True, text=True)
        as_json = subprocess.run([BINARY, "rehearse", firing, "--json"], stdin=subprocess.DEVNULL, capture_output=True, text=True)
        self.assertEqual((as_json.returncode, as_json.stdout, as_json.stderr), (plain.returncode, "", plain.stderr))

    def test_a_file_too_long_or_in_another_encoding_is_refused_at_once(self):
        good = (self.demo / "firing.toml").read_text()
        for name, content, said in (("long", good.encode() + b'# ' + b"x" * 10_000_000 + b"\n", "files up to 1 MB are read"),
                                    ("latin", good.replace("23 °C", "23 °C").encode("latin-1"), "is not UTF-8"),
                                    ("utf16", good.encode("utf-16"), "is not UTF-8"), ("empty", b"", "lacks its first line, format = 1")):
            with self.subTest(name):
                lab = pathlib.Path(self.folder.name) / name
                shutil.copytree(self.demo, lab)
                (lab / "firing.toml").write_bytes(content)
                done = subprocess.run([BINARY, "rehearse", lab / "firing.toml"], stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=10)
                self.assertEqual((done.returncode, done.stdout), (2, ""))
                self.assertIn(said, done.stderr)
                self.assertLessEqual(done.stderr.count("\n"), 3)


if __name__ == "__main__":
    house.main()
