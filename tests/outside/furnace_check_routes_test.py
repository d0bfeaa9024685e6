"""A guided check over HTTP: asking keeps nothing, two people do not write over each other, roles hold, sentences come in the asked language."""
import getpass
import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import served  # noqa: E402
import house  # noqa: E402
from interface_requests import WIRE, WIRES  # noqa: E402

PATH = "/api/furnaces/corner/checks/temperature"


class FurnaceCheckRoutes(unittest.TestCase):
    maxDiff = None

    def setUp(self):
        self.server = served.Server()
        code, _, said = self.server.heatwork("demo", "--store", self.server.store)
        self.assertEqual(code, 0, said)

    def ask(self, body, kept=False, status=200, **headers):
        answer = self.server.ask("POST", PATH + ("/kept" if kept else ""), body, **headers)
        self.assertEqual(answer.status, status, answer.bytes)
        return answer.json

    def test_asking_keeps_nothing_and_a_check_goes_on_from_where_it_was_left(self):
        with self.server as server:
            before = server.ask("GET", "/api/store").json["versions"]
            told = self.ask({"answers": WIRE, "trials": WIRES})
            self.assertEqual((told["level"], told["kept"], told["version"], told["wrong"]), ("not good", False, None, True))
            self.assertEqual(server.ask("GET", "/api/store").json["versions"], before)
            kept = self.ask({"answers": WIRE, "trials": WIRES[:1]}, kept=True)
            self.assertEqual((kept["level"], kept["kept"], kept["version"], kept["finished"]), ("going on", True, 1, False))
            row = next(row for row in server.ask("GET", "/api/documents/check").json["rows"] if row["name"] == kept["check"])
            self.assertEqual((row["state"], row["furnace"], row["readings"]), ("going on", "corner", 1))
            shown = self.ask({"go_on": kept["check"]})
            self.assertEqual((shown["trials"], shown["next"]), (kept["trials"], kept["next"]))

    def test_two_at_one_check_do_not_write_over_each_other(self):
        with self.server:
            name = self.ask({"answers": WIRE, "trials": WIRES[:1]}, kept=True)["check"]
            self.ask({"go_on": name, "from": 1, "trials": WIRES[1:2]}, kept=True)
            refused = self.ask({"go_on": name, "from": 1, "trials": WIRES[2:3]}, kept=True, status=409)
            self.assertEqual(refused["sentence"], f'The check "{name}" was changed meanwhile: version 2 stands, yours was made from version 1. Nothing was kept.')
            self.assertEqual((refused["kind"], refused["from"], refused["newest"]), ("check", 1, 2))
            refused = self.ask({"go_on": name, "trials": WIRES[2:3]}, kept=True, status=422)
            self.assertIn("from", refused["sentence"])
            self.assertEqual(len(self.ask({"go_on": name})["trials"]), 2)

    def test_a_finished_check_is_shown_and_decided_and_takes_no_more(self):
        with self.server as server:
            told = self.ask({"answers": WIRE, "trials": WIRES}, kept=True)
            name, key = told["check"], told["keying"]["to_key_K"]
            for member, value in self.ask({"go_on": name})["found"].items():
                self.assertAlmostEqual(value, told["found"][member], places=6)
            refused = self.ask({"go_on": name, "from": 1, "trials": WIRES[:1]}, kept=True, status=409)
            self.assertEqual(refused["sentence"], f"Check {name} is finished and takes no more readings; begin a new one.")
            decided = self.ask({"go_on": name, "from": 1, "decision": "corrected", "reason": "keyed in"}, kept=True)
            self.assertEqual([document["kind"] for document in decided["documents"]], ["check", "furnace"])
            self.assertEqual(self.ask({"go_on": name})["decision"], "corrected")
            values = {value["key"]: value["typed"] for value in server.ask("GET", "/api/documents/furnace/corner").json["values"]}
            self.assertEqual(values["correction_keyed"], f"{key:g} K")

    def test_who_may_fire_checks_and_who_may_look_only_looks(self):
        with self.server as server:
            server.ask("POST", "/api/persons", {"code": getpass.getuser(), "role": "look", "may_set_up": True, "reason": "first"})
            self.assertEqual(self.ask({"answers": WIRE})["level"], "going on")
            refused = self.ask({"answers": WIRE, "trials": WIRES[:1]}, kept=True, status=403)
            self.assertEqual(refused["error"], "not_allowed")
            server.ask("PUT", f"/api/persons/{getpass.getuser()}", {"role": "fire", "reason": "passed"})
            told = self.ask({"answers": WIRE, "trials": WIRES}, kept=True)
            self.ask({"go_on": told["check"], "from": 1, "decision": "corrected", "reason": "keyed in"}, kept=True)
            self.assertEqual(server.ask("GET", "/api/documents/furnace/corner").json["version"], 2)

    def test_question_and_refusal_come_in_german(self):
        with self.server:
            told = self.ask({}, Accept_Language="de")
            self.assertEqual(told["question"]["sentence"], "Aus welchem Metall ist der Draht?")
            refused = self.ask({"answers": {**WIRE, "wire.purity": "92.5 %"}}, status=422, Accept_Language="de")
            self.assertIn("Sterlingsilber", refused["sentence"])


if __name__ == "__main__":
    house.main()
