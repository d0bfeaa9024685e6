"""Shape of the tree: small files, honest names, nothing outside the build, nothing that ties the code to one machine."""
import json
import os
import pathlib
import re
import shutil
import subprocess
import unittest

import house

PAGE = (".ts", ".tsx", ".mjs", ".css", ".html")
CODE = (".h", ".cpp", ".py", ".sh", ".cmake", ".txt", ".json", ".toml", *PAGE)
FORBIDDEN_FOLDERS = {"utils", "util", "helpers", "helper", "common", "manager", "managers", "misc", "shared"}
# Tables of reference values that may lie beside the repository are looked up by these tests alone.
READS_BESIDE = re.compile(r"^tests/|_test\.cpp$|^bench/|^test$")


class Shape(unittest.TestCase):
    maxDiff = None

    def test_no_file_is_longer_than_500_lines(self):
        long = [f"{path}: {count} lines" for path in house.files(".h", ".cpp", ".py", ".sh", ".cmake", *PAGE)
                if (count := house.text(path).count("\n")) > 500]
        self.assertEqual(long, [])

    def test_no_folder_or_file_is_named_for_no_concept(self):
        bad = [str(path) for path in house.files() if FORBIDDEN_FOLDERS & set(path.parts[:-1]) or path.stem in FORBIDDEN_FOLDERS]
        self.assertEqual(bad, [])

    def test_names_are_lower_case_with_underscores(self):
        bad = [str(path) for path in house.files(".h", ".cpp", ".py") if not re.fullmatch(r"[a-z0-9_]+\.\w+", path.name)]
        self.assertEqual(bad, [])

    def test_every_header_begins_by_saying_what_it_is(self):
        silent = [str(path) for path in house.files(".h") if not re.match(r"// [\w\"].{12,}", house.text(path))]
        self.assertEqual(silent, [])

    def test_functions_fit_a_screen(self):
        """A function definition starts at the left margin of its namespace; its body ends with a brace in the same column."""
        long = []
        for path in house.files(".cpp", ".h"):
            lines = house.code_without_comments(house.text(path)).split("\n")
            start = None
            for number, line in enumerate(lines, 1):
                if re.match(r"^\w[^;=]*\)[^;]*\{\s*$|^TEST(_F|_P)?\(.*\{\s*$", line) and not re.match(r"^(namespace|struct|class|enum)\b", line):
                    start = number
                if line.startswith("}") and start:
                    if number - start > 80:
                        long.append(f"{path}:{start}: {number - start} lines")
                    start = None
        self.assertEqual(long, [])


class Built(unittest.TestCase):
    def test_every_test_is_in_a_target(self):
        build = os.environ.get("HEATWORK_BUILD")
        if not build:
            self.skipTest("no build folder is named in HEATWORK_BUILD")
        compiled = {os.path.realpath(row["file"]) for row in json.loads((pathlib.Path(build) / "compile_commands.json").read_text())}
        outside = [str(path) for path in house.files("_test.cpp") if os.path.realpath(house.ROOT / path) not in compiled]
        self.assertEqual(outside, [])

    def test_every_source_is_in_a_target(self):
        build = os.environ.get("HEATWORK_BUILD")
        if not build:
            self.skipTest("no build folder is named in HEATWORK_BUILD")
        compiled = {os.path.realpath(row["file"]) for row in json.loads((pathlib.Path(build) / "compile_commands.json").read_text())}
        outside = [str(path) for path in house.files(".cpp") if path.parts[0] in house.rooms() and not path.name.endswith("_fuzz.cpp")
                   and os.path.realpath(house.ROOT / path) not in compiled]
        self.assertEqual(outside, [])

    def test_every_script_test_is_run(self):
        build = os.environ.get("HEATWORK_BUILD")
        if not build:
            self.skipTest("no build folder is named in HEATWORK_BUILD")
        listed = (pathlib.Path(build) / "CTestTestfile.cmake").read_text()
        outside = [str(path) for path in house.files("_test.py") if str(house.ROOT / path) not in listed]
        outside += [str(path) for path in house.files("_test.mjs") if f'"{path.name}"' not in listed]
        self.assertEqual(outside, [])


class Portable(unittest.TestCase):
    def all_code(self):
        for path in house.files(*CODE, "run", "test"):
            if path.suffix or path.name in ("run", "test"):
                yield path, house.text(path)

    def hits(self, pattern, skip=lambda path: False):
        found = []
        for path, source in self.all_code():
            if skip(str(path)):
                continue
            found += [f"{path}:{source.count(chr(10), 0, match.start()) + 1}: {match.group(0)}" for match in re.finditer(pattern, source)]
        return found

    def test_no_path_of_one_machine(self):
        self.assertEqual(self.hits(r"(?<![\w.])/" + r"(?:work|home|root|Users|mnt)/\w+"), [])

    def test_no_registry_or_other_outside_address(self):
        allowed = r"(?!www\.w3\.org/|json-schema\.org/|(?:[\w-]+\.)*example\b|127\.0\.0\.1\b|localhost\b)"
        self.assertEqual(self.hits("https?" + "://" + allowed + r"[\w.-]+", lambda path: path.startswith("docs/")), [])
        self.assertEqual(self.hits(r"\b(?:deb\.deb" + r"ian\.org|registry\.np" + r"mjs\.org|pypi\.o" + r"rg)\b"), [])

    def test_what_lies_beside_the_repository_is_read_by_tests_alone(self):
        self.assertEqual(self.hits(r"\.\./sha" + r"red", lambda path: bool(READS_BESIDE.search(path))), [])

    def test_nothing_is_left_to_do(self):
        pattern = "TO" + "DO|FIX" + "ME|XX" + "X\\b|HA" + "CK|not imple" + "mented|DISABLED" + "_"
        self.assertEqual(self.hits(r"\b(?:" + pattern + ")"), [])

    def test_generated_randomness_and_clocks_stay_out_of_the_answer(self):
        pattern = r"\bstd::random_device\b|\bsrand\(|(?<![\w.>:])rand\(\)|system_clock::now|\btime\((?:nullptr|NULL|0)\)"
        rooms = set(house.rooms()) - {"cli"}
        the_clock = "desk/lab/clock.cpp:"  # the one place that knows what time it is: records are of a moment, answers are not
        found = [hit for hit in self.hits(pattern) if hit.split("/")[0] in rooms and "_test.cpp" not in hit and "_plugin.cpp" not in hit
                 and not hit.startswith(the_clock)]
        self.assertEqual(found, [])


class Layout(unittest.TestCase):
    maxDiff = None

    def test_code_is_laid_out_by_clang_format(self):
        program = shutil.which("clang-format-14") or shutil.which("clang-format")
        if not program:
            self.skipTest("clang-format is not installed")
        sources = [str(house.ROOT / path) for path in house.files(".h", ".cpp")]
        done = subprocess.run([program, "--dry-run", "-Werror", *sources], capture_output=True, text=True)
        places = sorted({str(pathlib.Path(line.split(":")[0]).relative_to(house.ROOT)) for line in done.stderr.splitlines() if ": error" in line})
        self.assertEqual(places, [], "clang-format -i mends them")


class Names(unittest.TestCase):
    def test_no_trade_name_stands_anywhere(self):
        script = house.ROOT.parent / "shared" / "tools" / "check-names"
        if not script.is_file():
            self.skipTest("the hashed list of trade names lies beside the repository where it is worked on, and is not here")
        done = subprocess.run(["/usr/bin/python3", str(script), str(house.ROOT)], capture_output=True, text=True)
        self.assertEqual((done.returncode, done.stdout), (0, ""), done.stderr)


if __name__ == "__main__":
    house.main()
