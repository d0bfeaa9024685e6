"""The manual page and what bash completes by: both tell of every verb, and of nothing else."""
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

BINARY = pathlib.Path(os.environ.get("HEATWORK_BINARY", house.ROOT / "build/release/heatwork")).resolve()


def printed(*words):
    return subprocess.run([BINARY, *words], stdin=subprocess.DEVNULL, capture_output=True, text=True, check=True).stdout


def verbs_below(help_text):
    """The verbs that a help lists, under whatever heading; options and values are told apart by their headings."""
    sections = [section.split("\n") for section in help_text.split("\n\n")]
    return [line.split()[0] for section in sections if re.fullmatch(r"[A-Z][a-z ]+:", section[0]) and section[0] not in ("Positionals:", "Options:", "Example:")
            for line in section[1:] if re.match(r"  [a-z]", line)]


def every_verb(*path):
    below = verbs_below(printed(*path, "--help"))
    return [path] * (not below) + [verb for name in below for verb in every_verb(*path, name)]


class Manual(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.verbs = every_verb()
        cls.page = printed("manual")

    def test_there_are_many_verbs(self):
        self.assertGreater(len(self.verbs), 100)
        self.assertIn(("program", "list"), self.verbs)

    def test_every_verb_has_its_section_and_no_other(self):
        sections = re.findall(r'^\.SS "heatwork (.*)"$', self.page, re.M)
        told = [" ".join(verb).replace("-", r"\-") for verb in self.verbs]
        self.assertEqual(sorted(sections), sorted(told))

    def test_a_section_tells_each_option_of_its_help(self):
        for verb in (("case", "end"), ("store", "back-up"), ("rehearse",)):
            section = self.page.split(f'.SS "heatwork {" ".join(verb)}"'.replace("-", r"\-"), 1)[1].split("\n.S", 1)[0]
            for option in re.findall(r"^  (?:-h,)?(--[a-z-]+)", printed(*verb, "--help"), re.M):
                if option != "--help":
                    self.assertIn(f"\\fB{option.replace('-', chr(92) + '-')}\\fR", section, verb)

    def test_the_disclaimer_stands_in_it(self):
        self.assertIn("Not a medical device.", self.page)

    def test_man_understands_every_line(self):
        if not shutil.which("groff"):
            self.skipTest("groff is not installed")
        done = subprocess.run(["groff", "-man", "-Tutf8", "-ww"], input=self.page, capture_output=True, text=True)
        self.assertEqual((done.returncode, done.stderr), (0, ""))


class Completion(unittest.TestCase):
    def completed(self, *words):
        """What bash would offer for the last word."""
        with tempfile.TemporaryDirectory() as place:
            (pathlib.Path(place) / "firing.toml").touch()
            script = printed("manual", "--completion") + f'COMP_WORDS=(heatwork {" ".join(repr(word) for word in words)})\nCOMP_CWORD={len(words)}\n_heatwork\nprintf "%s\\n" "${{COMPREPLY[@]}}"\n'
            done = subprocess.run(["bash", "-c", script], cwd=place, capture_output=True, text=True)
            self.assertEqual((done.returncode, done.stderr), (0, ""))
            return done.stdout.split()

    def test_verbs_of_the_program(self):
        self.assertEqual(self.completed("reh"), ["rehearse"])
        self.assertIn("program", self.completed(""))

    def test_verbs_below_a_verb(self):
        self.assertEqual(self.completed("store", "back"), ["back-up"])
        self.assertNotIn("rehearse", self.completed("store", ""))

    def test_options_are_those_of_the_verb(self):
        self.assertEqual(self.completed("program", "change", "--from"), ["--from-version"])
        self.assertEqual(self.completed("program", "list", "--from"), [])

    def test_files_where_a_file_may_stand(self):
        self.assertEqual(self.completed("rehearse", "fir"), ["firing.toml"])
        self.assertEqual(self.completed("rehearse", "--picture", "fir"), ["firing.toml"])


if __name__ == "__main__":
    house.main()
