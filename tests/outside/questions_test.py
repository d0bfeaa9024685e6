"""Questions an inspector asks, by the real binary, of a made-up lab whose counts are known: pieces of a lot, furnace, program; dues; the trail."""
import json
import pathlib
import re
import subprocess
import sys
import unittest
import uuid

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import house  # noqa: E402
from records_store_test import BINARY, SERVER, Place  # noqa: E402


def noun(table, **values):
    lines = [f"{key} = {json.dumps(value)}" for key, value in values.items()]
    return f"format = 1\n\n[{table}]\n" + "\n".join(lines) + "\n"


def firing(name, furnace, program, version, started, pieces):
    text = noun("firing", name=name, stage="dentine", tray="light", furnace=furnace, program=program)
    text += "".join(f'\n[[firing.piece]]\npiece = "{piece}"\n' for piece in pieces)
    if not started:
        return text + '\n[firing.record]\nstate = "planned"\nplanned_for = "2026-11-25T09:00:00Z"\n'
    text += f'\n[firing.record]\nstate = "started"\nstarted = "{started}"\nstarted_by = "mk"\n'
    return text + f'\n[[firing.record.used]]\nkind = "program"\nname = "{program}"\nversion = {version}\n'


def check(name, of, good, at):
    return noun("check", name=name, furnace="corner", of=of, good=good, at=at, person="mk")


def piece(name, case):
    text = house.text("data/demo/piece-crown-16.toml").replace('name = "crown-16"', f'name = "{name}"', 1)
    return re.sub(r"\nlabel = .*", lambda _: f"\nlabel = 'not \\ncase = \"k-1\"'\ncase = \"{case}\"", text, count=1)


FILES = {
    "firing-a": firing("a", "corner", "dentine", 1, "2026-11-20T23:30:00Z", ["crown-1", "crown-2"]),
    "firing-b": firing("b", "corner", "dentine", 2, "2026-11-21T10:00:00Z", ["crown-1"]),
    "firing-c": firing("c", "attic", "dentine", 2, "2026-11-22T10:00:00Z", ["crown-3"]),
    "firing-d": firing("d", "corner", "dentine", 2, "", ["crown-4"]),
    "check-1": check("wire-1", "temperature", True, "2026-11-21T06:00:00Z"),
    "check-2": check("wire-2", "temperature", False, "2026-11-23T06:00:00Z"),
    "check-3": check("pump-1", "vacuum", True, "2026-11-22T06:00:00Z"),
    "lot": noun("lot", name="jar-31", material="zirconia-veneer", expires="2020-01-31"),
    "step": noun("bench_step", name="s-1", work="build-up", pieces=["crown-1", "crown-2"], lots=["jar-31"], at="2026-11-20T12:00:00Z", person="mk"),
    "step-2": noun("bench_step", name="s-2", work="glaze", pieces=["crown-2"], lots=["jar-31", "jar-lost"], at="2026-11-22T12:00:00Z", person="mk"),
    "piece": piece("crown-2", "k-7"),
    "reference": noun("reference", name="wire", of="silver wire", expires="2999-05-31"),
}


class Questions:
    def setUp(self):
        super().setUp()
        self.environment |= {"TZ": "Europe/Berlin", "HEATWORK_STORE": self.where}
        (self.place / "lab").mkdir()
        for name, text in FILES.items():
            (self.place / "lab" / f"{name}.toml").write_text(text)
        self.ask("store", "create", "--as", "kr")
        self.ask("store", "take-in", "lab", "--as", "kr")

    def ask(self, *words, code=0):
        answer = subprocess.run([str(BINARY), *words], cwd=self.place, env=self.environment, stdin=subprocess.DEVNULL, capture_output=True, text=True)
        self.assertEqual(answer.returncode, code, answer.stdout + answer.stderr)
        return answer.stdout if code == 0 else answer.stderr

    def pieces(self, *words):
        told = json.loads(self.ask(*words, "--json"))
        self.assertEqual(list(told)[0], "format")
        self.assertEqual(told["count"], len(told["pieces"]))
        return [(row["piece"], row["times"]) for row in told["pieces"]]

    def test_pieces_of_a_lot(self):
        self.assertEqual(self.ask("lot", "pieces", "jar-31"), """\
Lot          jar-31
Pieces       2, in order of first meeting
Times        in the zone Europe/Berlin

PIECE    CASE  FIRST             LAST              TIMES
crown-1  -     2026-11-20 13:00  2026-11-20 13:00      1
crown-2  k-7   2026-11-20 13:00  2026-11-22 13:00      2
""")
        self.assertIn("No lot is kept under this name; other records name it.", self.ask("lot", "pieces", "jar-lost"))
        self.assertEqual(self.ask("lot", "pieces", "jar-32", code=2), 'No lot "jar-32" is kept; did you mean "jar-31"?\n')
        self.assertIn("Pieces       2; page 2 is beyond the last, which is 1\n", self.ask("lot", "pieces", "jar-31", "--page", "2"))
        self.assertEqual(self.ask("lot", "pieces", "jar-31@1", code=2), 'Pieces meet a lot whatever its version: name it without "@".\n')

    def test_the_case_of_a_piece_is_found_at_either_of_the_two(self):
        cases = {"k-8": ["crown-2", "crown-1"], "k-9": ["crown-1"]}
        for name, pieces in cases.items():
            (self.place / "lab" / f"{name}.toml").write_text(noun("case", name=name, pieces=pieces))
        self.ask("store", "take-in", "lab", "--as", "kr")
        told = json.loads(self.ask("lot", "pieces", "jar-31", "--json"))
        self.assertEqual([(row["piece"], row["case"]) for row in told["pieces"]], [("crown-1", "k-8"), ("crown-2", "k-7")])
        told = json.loads(self.ask("furnace", "pieces", "attic", "--json"))
        self.assertEqual([row["case"] for row in told["pieces"]], [None])

    def test_pieces_of_a_furnace(self):
        self.assertEqual(self.pieces("furnace", "pieces", "corner"), [("crown-1", 2), ("crown-2", 1)])
        # 23:30 UTC is the next day in the lab.
        self.assertEqual(self.pieces("furnace", "pieces", "corner", "--to", "2026-11-20"), [])
        self.assertEqual(self.pieces("furnace", "pieces", "corner", "--from", "2026-11-21", "--to", "2026-11-21"), [("crown-1", 2), ("crown-2", 1)])
        self.assertEqual(self.ask("furnace", "pieces", "corner", "--from", "2026-13-01", code=2), '"2026-13-01" is no day such as 2026-11-25.\n')
        self.assertEqual(self.ask("furnace", "pieces", "corner", "--from", "2026-11-22", "--to", "2026-11-21", code=2),
                         "The day 2026-11-21 is before 2026-11-22: the first is the earlier one.\n")
        self.assertIn('No furnace "attik" is kept; none is kept yet', self.ask("furnace", "pieces", "attik", code=2))

    def test_pieces_since_the_last_good_check(self):
        self.assertEqual(self.ask("furnace", "since-good-check", "corner"), """\
Furnace      corner
Last good    check of temperature: wire-1, 2026-11-21 07:00 by mk
             No furnace is kept under this name; other records name it.
Pieces       1, in order of first meeting
Times        in the zone Europe/Berlin

PIECE    CASE  FIRST             LAST              TIMES
crown-1  -     2026-11-21 11:00  2026-11-21 11:00      1
""")
        self.assertIn("Last good    none: no good check of vacuum is kept", self.ask("furnace", "since-good-check", "attic", "--of", "vacuum"))
        self.assertEqual(self.pieces("furnace", "since-good-check", "attic"), [("crown-3", 1)])
        self.assertIn('There is no check of "colour"; there are checks of: temperature,', self.ask("furnace", "since-good-check", "corner", "--of", "colour", code=2))

    def test_pieces_of_a_program(self):
        self.assertEqual(self.pieces("program", "pieces", "dentine@2"), [("crown-1", 1), ("crown-3", 1)])
        self.assertEqual(self.pieces("program", "pieces", "dentine"), [("crown-1", 2), ("crown-2", 1), ("crown-3", 1)])
        self.assertIn("names no version", self.ask("program", "pieces", "dentine@x", code=2))

    def test_what_is_due(self):
        text = self.ask("store", "due")
        self.assertIn("Due          2\nOverdue      1\n\n2020-01-31  overdue  lot jar-31: expires\n2999-05-31           reference wire: expires\n", text)
        self.assertIn("Due          until 2020-01-30: 0\n", self.ask("store", "due", "--until", "2020-01-30"))
        self.assertIn("give --until or --within, not both", self.ask("store", "due", "--until", "2020-01-30", "--within", "3 days", code=2))
        self.assertIn("is no number of days", self.ask("store", "due", "--within", "soon", code=2))

    def test_the_trail(self):
        head = json.loads(self.ask("store", "status", "--json"))["head"]
        text = self.ask("store", "trail")
        self.assertIn(f"Entries      {len(FILES) + 1}, times in the zone Europe/Berlin\n", text)
        self.assertTrue(text.endswith(f"Head hash    {head}\n"))
        newest = json.loads(self.ask("store", "trail", "--newest-first", "--json"))
        self.assertEqual((newest["entries"][0]["hash"], newest["head"]), (head, head))
        self.assertEqual(json.loads(self.ask("store", "trail", "--from", "5", "--json"))["count"], len(FILES) - 3)
        self.assertEqual(json.loads(self.ask("store", "trail", "bench-step", "s-1", "--json"))["count"], 1)
        self.assertIn('There is no kind "lto"', self.ask("store", "trail", "lto", code=2))
        self.assertIn("nothing was altered", self.ask("store", "verify"))


class OnSqlite(Questions, Place):
    where = "lab.sqlite"


@unittest.skipUnless(SERVER, "HEATWORK_TEST_POSTGRES names no server")
class OnPostgresql(Questions, Place):
    def setUp(self):
        self.database = "heatwork_questions_" + uuid.uuid4().hex[:12]
        subprocess.run(["psql", "-q", "-d", SERVER, "-c", f"create database {self.database}"], check=True, capture_output=True)
        self.addCleanup(subprocess.run, ["psql", "-q", "-d", SERVER, "-c", f"drop database {self.database} with (force)"], capture_output=True)
        start, _, rest = SERVER.partition("://")
        host, _, options = rest.partition("?")
        self.where = f"{start}://{host.split('/')[0]}/{self.database}" + (f"?{options}" if options else "")
        super().setUp()


if __name__ == "__main__":
    house.main()
