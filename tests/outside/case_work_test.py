"""Firings kept, started, ended and told again, by the real binary: each answer, each refusal with its whole sentence."""
import json
import pathlib
import subprocess
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import house  # noqa: E402
from records_store_test import BINARY, Place  # noqa: E402


class Work(Place):
    def setUp(self):
        super().setUp()
        self.lab = self.place / "lab"
        self.heatwork("demo", "lab")

    def heatwork(self, *words, code=0, **more):
        done = subprocess.run([str(BINARY), *words], cwd=self.place, env=self.environment | more, stdin=subprocess.DEVNULL, capture_output=True,
                              text=True)
        self.assertEqual(done.returncode, code, done.stdout + done.stderr)
        return done.stdout if code in (0, 1) else done.stderr

    def answer(self, *words, code=0, **more):
        return json.loads(self.heatwork(*words, "--json", code=code, **more))

    def alter(self, file, old, new):
        path = self.lab / file
        text = path.read_text()
        self.assertIn(old, text)
        path.write_text(text.replace(old, new, 1))


class Kept(Work):
    def test_without_a_store_a_firing_is_rehearsed_from_files_alone(self):
        came_from = self.answer("rehearse", "lab/firing.toml")["came_from"]
        self.assertEqual({place.split(":")[0] for place in came_from.values()}, {"beside", "shipped"})
        self.assertFalse((self.place / "data").exists(), "nothing is made by looking")

    def test_a_store_that_is_named_must_stand(self):
        said = "There is no store at none.sqlite. \"heatwork store create\" makes one, \"heatwork store restore BACKUP\" brings one back.\n"
        self.assertEqual(self.heatwork("rehearse", "lab/firing.toml", "--store", "none.sqlite", code=2), said)
        self.assertEqual(self.heatwork("rehearse", "lab/firing.toml", code=2, HEATWORK_STORE="none.sqlite"), said)
        self.assertEqual(self.heatwork("rehearse", "lab/firing.toml", "--keep", "--store", "none.sqlite", code=2), said)

    def test_kept_once_and_found_by_name(self):
        kept = self.answer("rehearse", "lab/firing.toml", "--keep")["kept"]
        self.assertEqual((kept["firing"], kept["version"], kept["rehearsal"], kept["is_new"]), ("firing", 1, 1, True))
        self.assertEqual(kept["head"], self.json("status")["head"])
        again = self.answer("rehearse", "lab/firing.toml", "--keep")["kept"]
        self.assertEqual((again["is_new"], again["head"]), (False, kept["head"]))
        for name in ("firing", "firing@1"):
            by_name = self.answer("rehearse", name)
            self.assertEqual(by_name["came_from"]["tray light"], "store: tray light@1")
            from_files = self.answer("rehearse", "lab/firing.toml")
            self.assertEqual(by_name["inputs_hash"], from_files["inputs_hash"])
            self.assertEqual([each["sentence"] for each in by_name["findings"]], [each["sentence"] for each in from_files["findings"]])
        self.assertIn("nothing was altered", self.done("verify"))
        self.assertIsNone(self.answer("rehearse", "firing")["kept"])

    def test_what_cannot_be_found_or_kept_is_said(self):
        where = self.place / "data/heatwork/lab.sqlite"
        self.assertEqual(self.heatwork("rehearse", "firing", code=2),
                         f"Firing \"firing\" would stand in the store {where}, but there is none. A file's name ends in .toml.\n")
        self.heatwork("rehearse", "lab/firing.toml", "--keep")
        for word, said in [("firin", f"The store {where} keeps no firing \"firin\"; did you mean \"firing\"?\n"),
                           ("dentine", f"The store {where} keeps no firing \"dentine\"; a file's name ends in .toml.\n"),
                           ("firing@2", "Firing firing has no version 2; its newest is 1.\n"),
                           ("firing@", "\"firing@\" names no version; a firing of the store is NAME or NAME@VERSION, such as firing@1.\n"),
                           ("firing@0", "\"firing@0\" names no version; a firing of the store is NAME or NAME@VERSION, such as firing@1.\n")]:
            self.assertEqual(self.heatwork("rehearse", word, code=2), said)
        self.alter("firing.toml", 'place = "between"', 'place = "edge"')
        head = self.json("status")["head"]
        self.assertEqual(self.heatwork("rehearse", "lab/firing.toml", "--keep", code=2),
                         "Firing firing differs from version 1 in the store; nothing was kept. Say why with --reason, and it becomes version 2.\n")
        self.assertEqual(self.json("status")["head"], head)
        self.assertEqual(self.answer("rehearse", "lab/firing.toml", "--keep", "--reason", "moved")["kept"]["version"], 2)

    def test_a_damaged_store_is_never_passed_over(self):
        self.heatwork("rehearse", "lab/firing.toml", "--keep")
        where = self.place / "data/heatwork/lab.sqlite"
        whole = where.read_bytes()
        where.write_bytes(b"no store any more" + whole[17:])
        self.assertEqual(self.heatwork("rehearse", "lab/firing.toml", code=2),
                         f"The store {where} is no store of Heatwork: something else stands there.\n")
        where.write_bytes(whole[:4096] + b"\xff" * (len(whole) - 4096))
        self.assertIn(str(where), self.heatwork("rehearse", "lab/firing.toml", code=3))


# The class of the other file is for use here, not to be run twice.
del Place

if __name__ == "__main__":
    house.main()
