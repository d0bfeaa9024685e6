"""Documents that agree with the tree: rooms, links, generated pages, symbols, packages."""
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

import headers
import house


class Rooms(unittest.TestCase):
    maxDiff = None

    def test_every_room_has_its_paragraph_and_no_other_has(self):
        page = house.text("docs/rooms.md")
        headed = re.findall(r"^## ([a-z_]+)$", page, re.M)
        self.assertEqual(headed, list(house.rooms()), "in the order of the build file")
        for room in headed:
            paragraph = page.split(f"## {room}\n", 1)[1].split("<!--", 1)[0]
            self.assertGreater(len(paragraph.split()), 15, f"the paragraph of {room} says something")
            self.assertTrue((house.ROOT / room).is_dir(), room)

    def test_every_folder_of_code_is_a_room_or_named_around_the_rooms(self):
        around = set(re.findall(r"`(\w+)/`", house.text("docs/rooms.md").split("## Around the rooms")[1]))
        folders = {path.parts[0] for path in house.files() if len(path.parts) > 1 and not path.parts[0].startswith(".")}
        self.assertEqual(sorted(folders - set(house.rooms()) - around), [])
        self.assertEqual(sorted(name for name in around if not (house.ROOT / name).is_dir()), [])


class Links(unittest.TestCase):
    def test_every_link_and_every_named_file_exists(self):
        broken = []
        for page in house.files(".md"):
            source = re.sub(r"^```.*?^```$", "", house.text(page), flags=re.M | re.S)
            for target in re.findall(r"\]\(([^)#\s]+)[^)]*\)", source):
                if "://" not in target and not (house.ROOT / page).parent.joinpath(target).exists():
                    broken.append(f"{page}: {target}")
            top = "|".join(list(house.rooms()) + ["docs", "tests", "cmake", "packages", "data", "bench"])
            for target in re.findall(r"`((?:" + top + r")/[\w./-]+)`", source):
                if not (house.ROOT / target).exists():
                    broken.append(f"{page}: {target}")
        self.assertEqual(broken, [])


class Generated(unittest.TestCase):
    def test_generated_pages_are_what_the_generator_writes(self):
        binary = os.environ.get("HEATWORK_BINARY", str(house.ROOT / "build/release/heatwork"))
        done = subprocess.run([sys.executable, str(house.ROOT / "docs/generate.py"), "--check", "--binary", binary], capture_output=True, text=True)
        self.assertEqual(done.returncode, 0, done.stdout + done.stderr[-600:])


class Symbols(unittest.TestCase):
    def test_short_names_of_the_pure_rooms_are_on_the_list(self):
        """A parameter of one or two letters in a header of physics or metrology is a symbol that docs/symbols.md explains."""
        listed = set(re.findall(r"^\| `(\w+)` \|", house.text("docs/symbols.md"), re.M))
        self.assertGreater(len(listed), 8)
        wrong = set()
        for path in house.files(".h"):
            if path.parts[0] in ("physics", "metrology"):
                for function in headers.functions(path):
                    parameters = re.split(r"\b" + function.name + r"\s*\(", function.statement, maxsplit=1)[1]
                    wrong |= {f"{function.place}: {function.name}: {name}" for name in re.findall(r"\bdouble\s*[&*]?\s*([A-Za-z]\w?)\s*(?=[,)=])", parameters)
                              if name not in listed}
        self.assertEqual(sorted(wrong), [])


class Packages(unittest.TestCase):
    def test_every_package_has_a_reason_and_stands_once(self):
        names = []
        for path in house.files(".txt"):
            if path.parts[0] == "packages":
                for line in house.text(path).split("\n"):
                    if line and not line.startswith("#"):
                        self.assertRegex(line, r"^[a-z0-9][a-z0-9.+-]+ +\w.{8,}$", f"{path}: {line}")
                        names.append(line.split()[0])
        self.assertEqual(len(names), len(set(names)))

    def test_every_library_is_used_and_every_used_library_is_listed(self):
        """Headers of a library against the package that brings them."""
        brings = {"fmt/": "libfmt-dev", "spdlog/": "libspdlog-dev", "toml++/": "libtomlplusplus-dev", "nlohmann/": "nlohmann-json3-dev", "CLI/": "libcli11-dev",
                  "tl/": "libexpected-dev", "sodium": "libsodium-dev", "librsvg/": "librsvg2-dev", "cvode": "libsundials-dev", "sundials/": "libsundials-dev",
                  "boost/": "libboost-dev", "tbb/": "libtbb-dev", "oneapi/": "libtbb-dev", "Eigen/": "libeigen3-dev", "gtest/": "libgtest-dev",
                  "rapidcheck": "librapidcheck-dev", "benchmark/": "libbenchmark-dev", "soci/": "libsoci-dev", "sqlite3.h": "libsqlite3-dev",
                  "date/": "libhowardhinnant-date-dev"}
        # Headers that include those of another library, which their own package does not bring.
        brings_too = {"soci/": "libboost-dev", "soci/postgresql/": "libpq-dev"}
        listed = set(re.findall(r"^([a-z0-9][\w.+-]+)  ", house.text("packages/build.txt") + house.text("packages/test.txt"), re.M))
        used = {}
        for path in house.files(".h", ".cpp"):
            for header in re.findall(r"^#\s*include\s*<([^>]+)>", house.text(path), re.M):
                for start, package in [*brings.items(), *brings_too.items()]:
                    if header.startswith(start):
                        used.setdefault(package, str(path))
        self.assertEqual({package: path for package, path in used.items() if package not in listed}, {}, "used, but not listed")
        self.assertEqual(sorted(package for package in {*brings.values(), *brings_too.values()} & listed if package not in used), [], "listed, but used nowhere")

    def setting_up(self, program, *, path):
        """Runs a set-up script with only a pretended package system: (exit code, words)."""
        with tempfile.TemporaryDirectory() as folder:
            place = pathlib.Path(folder)
            (place / "list.txt").write_text("made-up-package  a reason\n")
            for name, words in path.items():
                (place / name).write_text("#!/bin/bash\n" + words + "\n")
                (place / name).chmod(0o755)
            script = f"set -euo pipefail; cd {place}; source {house.ROOT}/packages/ensure.sh; ensure_packages list.txt {program}"
            environment = dict(os.environ, PATH=f"{place}:/usr/bin:/bin")
            done = subprocess.run(["bash", "-c", script], env=environment, stdin=subprocess.DEVNULL, capture_output=True, text=True)
            return done.returncode, done.stdout + done.stderr

    def test_a_failing_installer_ends_3_and_prints_the_line(self):
        code, words = self.setting_up("trying", path={"dpkg-query": "exit 1", "apt-get": "echo no such package; exit 100", "sudo": "exit 1"})
        self.assertEqual(code, 3)
        self.assertIn("apt-get install -y -q --no-install-recommends made-up-package", words)

    def test_an_installed_list_is_quiet(self):
        code, words = self.setting_up("trying", path={"dpkg-query": "echo made-up-package installed", "apt-get": "exit 1"})
        self.assertEqual((code, words), (0, ""))

    def test_what_is_missing_is_said_and_installed(self):
        code, words = self.setting_up("trying", path={"dpkg-query": "exit 1", "apt-get": "exit 0", "sudo": "shift 0; exec \"$@\""})
        self.assertEqual(code, 0, words)
        self.assertIn("made-up-package", words)


if __name__ == "__main__":
    house.main()
