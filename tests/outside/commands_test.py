"""Every command that README, the how-tos and the page on roles show is run as shown, by the real binary, in an empty folder.

A fence ```sh holds commands, one a line (a line ending in a backslash goes on). A fence ```text right after it holds lines that the commands'
output must contain; a line of three dots stands for any. A command may end 0, or 1 where it rehearses or checks a furnace: a fault is expected, or the check failed."""
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
import house  # noqa: E402

BINARY = pathlib.Path(os.environ.get("HEATWORK_BINARY", house.ROOT / "build/release/heatwork"))
FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.M | re.S)
MAY_END_1 = re.compile(r"\brehearse\b|\bfurnace check\b")


def pages():
    alone = ("README.md", "docs/records/persons-and-roles.md")
    return [path for path in house.files(".md") if str(path) in alone or path.parts[:2] == ("docs", "how-to")]


def steps(page):
    """The commands of a page with what they must print: (line number, commands, expected lines)."""
    source = house.text(page)
    found = []
    for match in FENCE.finditer(source):
        line = source.count("\n", 0, match.start()) + 1
        if match.group(1) == "sh":
            found.append([line, re.sub(r"\\\n\s*", "", match.group(2)).strip().split("\n"), []])
        elif match.group(1) == "text" and found and source[:match.start()].rstrip().endswith("```"):
            found[-1][2] = [row for row in match.group(2).rstrip("\n").split("\n") if row.strip() and row.strip() not in ("...", "…")]
    return found


class Commands(unittest.TestCase):
    maxDiff = None

    def run_page(self, page):
        with tempfile.TemporaryDirectory() as folder:
            place = pathlib.Path(folder)
            # Of the project the reader has the two scripts at hand and, by `./run`, the binary; all else must come from the commands themselves.
            (place / "run").symlink_to(house.ROOT / "run")
            for name in ("HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME"):
                (place / "home" / name).mkdir(parents=True)
            environment = dict(os.environ, PATH=f"{BINARY.parent}:{os.environ['PATH']}", NO_COLOR="1", LC_ALL="C.UTF-8", HOME=str(place / "home/HOME"),
                               XDG_DATA_HOME=str(place / "home/XDG_DATA_HOME"), XDG_CONFIG_HOME=str(place / "home/XDG_CONFIG_HOME"))
            for line, commands, expected in steps(page):
                printed = ""
                for command in commands:
                    if command.startswith("./test"):
                        # This very run is that command; started by hand the test cannot know, and must not start itself.
                        continue
                    done = subprocess.run(["bash", "-c", command], cwd=place, env=environment, stdin=subprocess.DEVNULL, capture_output=True, text=True)
                    wanted = (0, 1) if MAY_END_1.search(command) else (0,)
                    self.assertIn(done.returncode, wanted, f"{page}:{line}: {command}\n{done.stdout[-1500:]}{done.stderr[-1500:]}")
                    printed += done.stdout
                for row in expected:
                    self.assertIn(" ".join(row.split()), " ".join(printed.split()), f"{page}:{line}: {commands}")

    def test_there_are_commands(self):
        self.assertGreater(sum(len(steps(page)) for page in pages()), 5)

    def test_readme_names_the_two_commands(self):
        shown = [command for _, commands, _ in steps(pathlib.PurePosixPath("README.md")) for command in commands]
        self.assertIn("./run", shown)
        self.assertIn("./test", shown)


def add_page(page):
    def test(self):
        self.run_page(page)
    test.__doc__ = None
    setattr(Commands, "test_commands_of_" + re.sub(r"\W+", "_", str(page).lower()), test)


for each in pages():
    add_page(each)

if __name__ == "__main__":
    house.main()
