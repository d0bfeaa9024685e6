"""The arrows between rooms point down: every include names a file of a room that the including room may use."""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest

import house

INCLUDE = re.compile(r'^[ \t]*#[ \t]*(?:include|import)\b[ \t]*(.*)$', re.M)
SOLVER = re.compile(r"<(?:sundials|cvodes?|idas?|arkode|kinsol|nvector|sunlinsol|sunmatrix|sunnonlinsol)\w*/")


def includes(path):
    source = house.text(path)
    for match in INCLUDE.finditer(source):
        yield source.count("\n", 0, match.start()) + 1, match.group(1).strip()


def wrong_includes():
    rooms = house.rooms()
    wrong = []
    for path in house.files(".h", ".hpp", ".cpp", ".cc", ".inc", ".ipp"):
        room = path.parts[0]
        if room not in rooms:
            continue
        for line, what in includes(path):
            named = re.match(r'[<"]([^>"]+)[>"]', what)
            if not named:
                wrong.append(f"{path}:{line}: the include is not a plain name: {what}")
                continue
            first = named.group(1).split("/")[0]
            if first in rooms and what.startswith("<"):
                wrong.append(f'{path}:{line}: a file of a room is included with quotes, as "{named.group(1)}"')
            if first in rooms and first != room and first not in rooms[room]:
                wrong.append(f"{path}:{line}: {room} may not see {first}; it may use {', '.join(sorted(rooms[room])) or 'no room'}")
            if what.startswith('"') and first not in rooms:
                wrong.append(f'{path}:{line}: a file is included by its room, as "room/name.h", not {what}')
            elif first in rooms and not (house.ROOT / named.group(1)).is_file():
                wrong.append(f"{path}:{line}: there is no {named.group(1)}")
    return wrong


class Arrows(unittest.TestCase):
    def test_every_include_points_to_a_room_in_use(self):
        self.assertEqual(wrong_includes(), [])

    def test_rooms_use_only_rooms_below_them(self):
        rooms = house.rooms()
        self.assertGreater(len(rooms), 5, "the build file declares the rooms")
        below = set()
        for room, uses in rooms.items():
            self.assertLessEqual(uses, below, f"{room} uses a room that is declared above it")
            below.add(room)

    def test_pure_rooms_use_nothing(self):
        for room in ("physics", "metrology", "quantity"):
            self.assertEqual(house.rooms()[room], set(), f"{room} is pure")

    def test_solver_headers_stand_in_one_file(self):
        users = [str(path) for path in house.files(".h", ".cpp") if path.parts[0] != "bench" and any(SOLVER.match(what) for _, what in includes(path))]
        self.assertLessEqual(len(users), 1, f"the solver is behind one file, not {users}")

    def test_whatever_a_lab_keeps_passes_roles_and_locks(self):
        """Store::keep is called in one file above the room of records; that file asks for roles, locks and signatures."""
        callers = sorted({str(path) for path in house.files(".h", ".cpp") if path.parts[0] in ("desk", "cli")
                          and not re.search(r"_(test|fuzz)\.cpp$|_for_tests\.h$", path.name) and re.search(r"(\.|->)\s*keep\s*\(", house.text(path))})
        self.assertEqual(callers, ["desk/lab/keep.cpp"], "what is kept elsewhere passes no roles")

    def test_tests_never_build_into_rooms(self):
        """Test libraries are included by tests, and by headers that only tests include; NAME_for_tests.h is one such by its name."""
        sources = [path for path in house.files(".h", ".cpp") if path.parts[0] in house.rooms()]
        tests = {str(path) for path in sources if re.search(r"_(test|fuzz)\.cpp$|_for_tests\.h$", path.name)}
        includers = {}
        for path in sources:
            for _, what in includes(path):
                includers.setdefault(what.strip('"'), set()).add(str(path))
        for path in sources:
            if path.name.endswith("_for_tests.h") or any(re.search(r"gtest/|rapidcheck|benchmark/", what) for _, what in includes(path)):
                users = includers.get(str(path), set()) if path.suffix == ".h" else {str(path)}
                self.assertLessEqual(users, tests, f"{path} brings a test library into a room")


@unittest.skipIf(os.environ.get("HEATWORK_ROOT"), "runs inside a planted copy")
class PlantedArrows(unittest.TestCase):
    """The test above must be able to fail: faults are planted in a copy of the tree."""

    def outcome(self, *planted):
        with tempfile.TemporaryDirectory() as folder:
            copy = pathlib.Path(folder)
            for path in house.files():
                if path.parts[0] in house.rooms() or str(path) == "CMakeLists.txt":
                    (copy / path).parent.mkdir(parents=True, exist_ok=True)
                    shutil.copy(house.ROOT / path, copy / path)
            for where, line in planted:
                (copy / where).parent.mkdir(parents=True, exist_ok=True)
                with open(copy / where, "a", encoding="utf-8") as file:
                    file.write(line + "\n")
            (copy / "trade" / "planted_noun.h").write_text("#pragma once\n")
            (copy / "cli" / "planted_screen.h").write_text("#pragma once\n")
            environment = dict(os.environ, HEATWORK_ROOT=str(copy))
            environment.pop("HEATWORK_RESULT", None)
            return subprocess.run([sys.executable, __file__], env=environment, capture_output=True, text=True)

    def test_an_untouched_copy_passes(self):
        done = self.outcome()
        self.assertEqual(done.returncode, 0, done.stderr)

    def test_an_upward_include_fails(self):
        for where, line in [("physics/planted.cpp", '#include "trade/planted_noun.h"'), ("trade/planted.h", '#include "cli/planted_screen.h"'),
                            ("metrology/planted.cpp", '  #  include "trade/planted_noun.h"'), ("physics/planted.h", "#include <trade/planted_noun.h>"),
                            ("physics/planted.cpp", '#include "../trade/planted_noun.h"')]:
            done = self.outcome((where, line))
            self.assertEqual(done.returncode, 1, f"{where}: {line}")
            self.assertIn(where, done.stderr)

    def test_a_second_solver_file_fails(self):
        done = self.outcome(("physics/planted.cpp", "#include <cvode/cvode.h>"), ("firing/planted.cpp", "#include <cvodes/cvodes.h>"))
        self.assertEqual(done.returncode, 1)
        self.assertIn("one file", done.stderr)

    def test_a_second_way_to_keep_fails(self):
        done = self.outcome(("desk/lab/planted.cpp", "void f() { store.keep(change); }"))
        self.assertEqual(done.returncode, 1)
        self.assertIn("passes no roles", done.stderr)


if __name__ == "__main__":
    house.main()
