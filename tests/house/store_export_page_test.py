"""The page on the export of a store: its example is proven by its own script, and its commands give the hashes it prints."""
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

import house

PAGE = "docs/formats/store-export.md"


def block(language):
    return re.search(r"```" + language + r"\n(.*?)```", house.text(PAGE), re.S).group(1)


def proof(example):
    """(exit code, words) of the page's script on an example."""
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "export.json"
        path.write_text(example, encoding="utf-8")
        done = subprocess.run([sys.executable, "-c", block("python"), str(path)], capture_output=True, text=True)
        return done.returncode, done.stdout + done.stderr


class StoreExportPage(unittest.TestCase):
    def test_the_example_is_proven_by_the_script(self):
        code, words = proof(block("json"))
        self.assertEqual(code, 0, words)
        self.assertIn("proven, newest entry", words)

    def test_the_script_finds_what_was_altered(self):
        for before, after in (("Second shelf", "Second shelx"), ('"person":"kr"', '"person":"kx"'), ("Kim R", "Tim R"), ('"moved ', '"moves '),
                              ('"key":"format","value":"3', '"key":"format","value":"2')):
            self.assertIn(before, block("json"))
            self.assertNotEqual(proof(block("json").replace(before, after, 1))[0], 0, before)

    def test_the_hashes_are_those_of_the_commands(self):
        page = house.text(PAGE)
        whole = subprocess.run(["b2sum", "--length=256"], input=block("json").encode(), capture_output=True).stdout.decode().split()[0]
        self.assertIn(f"Its hash is `{whole}`", page)
        command = re.search(r"^printf .*$", page, re.M).group(0)
        self.assertIn(subprocess.run(["sh", "-c", command], capture_output=True, text=True).stdout.split()[0], block("json"))


if __name__ == "__main__":
    house.main()
