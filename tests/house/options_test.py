"""What the rooms under the screens say names values by words, not by options of the command line: the same sentence is told by HTTP."""
import re
import unittest

import house
import sentences_test

ROOMS = ("quantity", "trade", "firing", "records", "desk", "server")
# Asked, or told, on the command line alone.
COMMAND_LINE_ALONE = ("desk/calibrate.cpp", "desk/calculations/registry.cpp", "records/backup.cpp", "server/serve.cpp", "server/connections.cpp")
# Texts for people at the command line, never part of an answer in JSON.
TEXTS = ("store verify --head HASH", "store verify --store BACKUP", '\\"--store\\", HEATWORK_STORE', "add --as {}")
# How a person was named, shown to who asks on the command line.
WORDS = ("--as",)
OPTION = re.compile(r"(?<![\w-])--[a-z]")


def options_said(text):
    return [said for _, _, said in sentences_test.literals(text) if OPTION.search(said)]


class Options(unittest.TestCase):
    def test_no_sentence_of_a_route_names_one(self):
        found = []
        for room in ROOMS:
            for path in sorted((house.ROOT / room).rglob("*.cpp")) + sorted((house.ROOT / room).rglob("*.h")):
                name = str(path.relative_to(house.ROOT))
                if name.endswith(("_test.cpp", "_fuzz.cpp")) or name in COMMAND_LINE_ALONE:
                    continue
                found += [f"{name}: {said}" for said in options_said(path.read_text(encoding="utf-8"))
                          if said not in WORDS and not any(text in said for text in TEXTS)]
        self.assertEqual(found, [])

    def test_one_that_is_named_is_seen(self):
        self.assertEqual(options_said('throw Failure(bad, "Say why with --reason, "\n "and it is kept."); --at;'), ["Say why with --reason, and it is kept."])
        self.assertEqual(options_said('f("--at {} lies");'), ["--at {} lies"])
        self.assertEqual(options_said('f("a--b", "it is so -- really");'), [])


if __name__ == "__main__":
    house.main()
