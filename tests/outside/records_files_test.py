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
        self.assertEqual(self.refused(2, "write-out", "out"),
                         "out/tray-light.toml stands there already and is another; nothing was written. Name an empty folder.\n")
        self.assertEqual(mine.read_text(), "mine\n")

    def keep(self, name, text, *words, code=0, who="mara"):
        folder = self.place / f"one-{name}"
        folder.mkdir(exist_ok=True)
        (folder / f"{name}.toml").write_text("format = 1\n\n" + text)
        answer = self.call("take-in", folder.name, "--as", who, *words)
        self.assertEqual(answer.returncode, code, answer.stdout + answer.stderr)
        return answer.stderr

    def person(self, code, role, **more):
        return f'[person]\nname = "{code}"\nrole = "{role}"\n' + "".join(f"{key} = {value}\n" for key, value in more.items())

    def test_roles_hold_once_a_person_is_entered(self):
        self.assertEqual(self.keep("one", self.person("mara", "release"), code=2),
                         "The first person entered must be one who may set up (may_set_up = true); else nobody could "
                         "enter the next. Nothing was kept.\n")
        self.keep("one", self.person("mara", "release", may_set_up="true"))
        self.keep("two", self.person("tom", "fire"))
        self.keep("three", self.person("ida", "look"))
        self.assertIn("in force: 3 persons are entered", self.done("status"))
        tray = '[tray]\nname = "small"\nmaterial = "alumina-fibre"\ndiameter = "41 mm"\nthickness = "6.3 mm"\n'
        self.assertEqual(self.keep("tray", tray, code=2, who="ida"), 'Person "ida" may look but not fire; a person who may fire must do this.\n')
        self.assertIn("is not entered in this store", self.keep("tray", tray, code=2, who="stranger"))
        self.keep("tray", tray, who="tom")
        self.assertIn("may not set up", self.keep("four", self.person("eve", "fire"), code=2, who="tom"))
        self.assertIn("Nobody could set up any more",
                      self.keep("one", self.person("mara", "release", may_set_up="true", left="true"), "--reason", "left", code=2))
        self.assertIn("may not set up", self.refused(2, "move", "elsewhere.sqlite", "--as", "tom"))

    def test_what_is_locked_is_not_changed(self):
        self.done("take-in", "lab")
        lock = '[lock]\nname = "tray-light"\nof_kind = "tray"\nof_name = "light"\nof_version = 1\nlocked = true\nreason = "weighed and proven"\n'
        self.keep("lock", lock)
        tray = self.lab / "tray-light.toml"
        tray.write_text(tray.read_text().replace('mass = "', 'mass = "1', 1))
        said = self.refused(2, "take-in", "lab", "--reason", "weighed again")
        self.assertIn("tray light is locked: weighed and proven. Nothing was kept", said)
        self.keep("lock", lock.replace("locked = true", "locked = false"), "--reason", "a new tray")
        self.assertEqual(self.json("take-in", "lab", "--reason", "weighed again")["changed"], ["tray light"])

    def test_nobody_releases_for_another(self):
        self.keep("one", self.person("mara", "release", may_set_up="true"))
        self.keep("two", self.person("tom", "fire"))
        deviation = ('[deviation]\nname = "d-1"\nfrom = "hold at most 1 min"\nfound = "held 2 min"\nfound_at = "2026-11-25T10:00:00Z"\n'
                     'found_by = "tom"\n')
        self.keep("deviation", deviation, who="tom")
        released = deviation + 'decision = "use as it is"\nreason = "tab is sound"\nreleased_at = "2026-11-25T11:00:00Z"\nreleased_by = "mara"\n'
        self.assertIn("may fire but not release", self.keep("deviation", released, "--reason", "judged", code=2, who="tom"))
        forged = released.replace('released_by = "mara"', 'released_by = "tom"')
        self.assertIn("nobody signs for another", self.keep("deviation", forged, "--reason", "judged", code=2))
        self.keep("deviation", released, "--reason", "judged")

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
