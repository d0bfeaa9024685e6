"""The files of a lab kept in its store and written out again, by the real binary: nothing lost, nothing replaced without a reason."""
import json
import pathlib
import subprocess
import unittest

import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import house  # noqa: E402
from records_store_test import BINARY, SERVER, Place  # noqa: E402


class Files(Place):
    def setUp(self):
        super().setUp()
        self.lab = self.place / "lab"
        subprocess.run([str(BINARY), "demo", str(self.lab)], check=True, capture_output=True, env=self.environment)
        self.done("create")

    def test_a_lab_goes_in_whole_and_comes_out_the_same(self):
        taken = self.json("take-in", "lab")
        self.assertEqual(len(taken["added"]), len(list(self.lab.glob("*.toml"))))
        self.assertIn("nothing was altered", self.done("verify"))
        self.done("write-out", "out")
        self.assertEqual(self.json("take-in", "out")["left"], len(taken["added"]), "what was written out is what is kept")
        firings = [subprocess.run([str(BINARY), "rehearse", str(path), "--json"], env=self.environment, capture_output=True, text=True, cwd=self.place)
                   for path in (self.lab / "firing.toml", self.place / "out/firing-firing.toml")]
        hashes = [json.loads(done.stdout)["inputs_hash"] for done in firings]
        self.assertEqual(hashes[0], hashes[1], "the same firing, to every value that changes a number")

    def test_the_same_again_keeps_nothing(self):
        first = self.json("take-in", "lab")
        again = self.json("take-in", "lab")
        self.assertEqual((again["added"], again["changed"], again["head"]), ([], [], first["head"]))

    def test_a_changed_file_needs_a_reason(self):
        self.done("take-in", "lab")
        tray = self.lab / "tray-light.toml"
        tray.write_text(tray.read_text().replace('mass = "', 'mass = "1', 1))
        head = self.json("status")["head"]
        said = self.refused(2, "take-in", "lab")
        self.assertIn("lab/tray-light.toml differs from tray light, version 1, in the store; nothing was kept.", said)
        self.assertEqual(self.json("status")["head"], head)
        self.assertEqual(self.json("take-in", "lab", "--reason", "weighed again")["changed"], ["tray light"])
        self.assertEqual(self.json("status")["versions"], self.json("status")["documents"] + 1)
        self.assertIn("nothing was altered", self.done("verify"))

    def test_a_broken_file_keeps_nothing_of_the_folder(self):
        (self.lab / "tray-light.toml").write_text('format = 1\n\n[tray]\nname = "light"\nmass = "heavy"\n')
        answer = self.call("take-in", "lab")
        self.assertEqual(answer.returncode, 2)
        self.assertIn("tray-light.toml:5:", answer.stderr)
        self.assertEqual(self.json("status")["documents"], 0)

    def test_what_cannot_be_done_is_said(self):
        self.assertEqual(self.refused(2, "take-in", "nowhere"), "There is no folder nowhere.\n")
        (self.place / "empty").mkdir()
        self.assertEqual(self.refused(2, "take-in", "empty"), "The folder empty holds no file of a lab; nothing was kept.\n")
        self.assertEqual(self.refused(2, "write-out", "out"), "The store holds no file of a lab yet; nothing was written.\n")
        (self.lab / "twice.toml").write_text((self.lab / "tray-light.toml").read_text())
        self.assertIn("tray light stands in lab/tray-light.toml and in lab/twice.toml", self.refused(2, "take-in", "lab"))

    def test_a_file_that_differs_is_never_touched(self):
        self.done("take-in", "lab")
        self.done("write-out", "out")
        mine = self.place / "out/tray-light.toml"
        mine.write_text("mine\n")
        self.assertIn("out/tray-light.toml stands there and differs", self.refused(2, "write-out", "out"))
        self.assertEqual(mine.read_text(), "mine\n")

    def test_a_backup_brings_a_lab_back(self):
        self.done("take-in", "lab")
        (self.place / "backups").mkdir()
        made = self.json("back-up", "backups")
        self.done("restore", "backups", "--store", "again.sqlite")
        self.done("write-out", "again", "--store", "again.sqlite")
        self.assertEqual(len(list((self.place / "again").glob("*.toml"))), len(list(self.lab.glob("*.toml"))))
        self.assertEqual(self.json("verify", "--store", "again.sqlite", "--head", made["head"])["wrong"], [])

    @unittest.skipUnless(SERVER, "no PostgreSQL was started for this test")
    def test_a_lab_moves_between_engines(self):
        self.done("take-in", "lab")
        database = f"files_{self.place.name.lower().replace('-', '_')}"
        subprocess.run(["psql", SERVER, "-qc", f'create database "{database}"'], check=True, capture_output=True)
        url = SERVER.rsplit("/", 1)[0] + "/" + database
        self.done("move", url)
        self.done("write-out", "out", "--store", url)
        self.assertEqual(self.json("take-in", "out", "--store", url)["added"], [])


# The class of the other file is for use here, not to be run twice.
del Place

if __name__ == "__main__":
    house.main()
