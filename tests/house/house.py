"""What the house tests share: the files of the project, the rooms as the build declares them, and results as XML."""
import os
import pathlib
import re
import subprocess
import sys
import unittest
from xml.sax.saxutils import quoteattr

ROOT = pathlib.Path(os.environ.get("HEATWORK_ROOT") or pathlib.Path(__file__).resolve().parents[2])


def files(*endings):
    """Paths relative to the root of all files that belong to the project, sorted."""
    try:
        listed = subprocess.run(["git", "-C", str(ROOT), "ls-files", "-co", "--exclude-standard", "-z"], capture_output=True, check=True)
        names = listed.stdout.decode().split("\0")
    except (OSError, subprocess.CalledProcessError):
        names = [str(path.relative_to(ROOT)) for path in ROOT.rglob("*") if path.is_file()]
        names = [name for name in names if not name.startswith((".git/", "build/"))]
    return [pathlib.PurePosixPath(name) for name in sorted(set(names)) if name.endswith(endings or ("",)) and name and (ROOT / name).is_file()]


def text(path):
    return (ROOT / path).read_text(encoding="utf-8")


def rooms():
    """Room name to the set of rooms it may use, in the order of the build file, which is from the ground up."""
    found = {}
    for name, rest in re.findall(r"^heatwork_room\((\w+)([^)]*)\)", text("CMakeLists.txt"), re.M):
        uses = re.search(r"\bUSES\s+([\w\s]*?)(?:\bLIBRARIES\b|$)", rest)
        found[name] = set(uses.group(1).split()) if uses else set()
    return found


def code_without_comments(source):
    """The source with comments and the insides of strings blanked, line numbers kept."""
    def blank(match):
        kept = match.group(0)
        if kept.startswith(('"', "'")):
            return kept[0] + kept[0]
        return re.sub(r"[^\n]", " ", kept)
    return re.sub(r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"|(?<![0-9a-fA-F])\'(?:\\.|[^\'\\\n])+\'', blank, source, flags=re.S)


FIGURES = {}


def figure(test, name, value, unit):
    """A figure that a test came to; one from a long run is kept in docs/evidence/long.toml. A test may have several."""
    FIGURES.setdefault(test.id(), []).append((name, value, unit))


def properties_of(test):
    rows = []
    for number, (name, value, unit) in enumerate(FIGURES.get(test.id(), []), 1):
        tail = f"_{number}" if number > 1 else ""
        rows += [(f"figure{tail}", name), (f"figure_value{tail}", value), (f"figure_unit{tail}", unit)]
    inside = "".join(f"<property name={quoteattr(key)} value={quoteattr(str(value))}/>" for key, value in rows)
    return f"<properties>{inside}</properties>" if rows else ""


class Recorded(unittest.TextTestResult):
    """Keeps what passed, so that checks can be counted like those of the rooms."""

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.passed = []

    def addSuccess(self, test):
        super().addSuccess(test)
        self.passed.append(test)


def write_results(path, result):
    def row(test, inside=""):
        name = test.id().removeprefix("__main__.")
        return f"  <testcase name={quoteattr(name)}>{inside}{properties_of(test)}</testcase>\n"
    bad = [(test, said) for test, said in result.failures + result.errors]
    rows = [row(test) for test in result.passed]
    rows += [row(test, f"<failure message={quoteattr(said[-400:])}/>") for test, said in bad]
    rows += [row(test, f"<skipped message={quoteattr(why)}/>") for test, why in result.skipped]
    path = pathlib.Path(path)
    path.parent.mkdir(parents=True, exist_ok=True)
    suite = pathlib.Path(sys.argv[0]).stem
    path.write_text(f'<testsuites><testsuite name="{suite}" tests="{len(rows)}" failures="{len(bad)}">\n' + "".join(rows) + "</testsuite></testsuites>\n", encoding="utf-8")


def main():
    suite = unittest.defaultTestLoader.loadTestsFromModule(sys.modules["__main__"])
    result = unittest.TextTestRunner(verbosity=1, resultclass=Recorded).run(suite)
    if os.environ.get("HEATWORK_RESULT"):
        write_results(os.environ["HEATWORK_RESULT"], result)
    for test, why in result.skipped:
        print(f"skipped {test.id().removeprefix('__main__.')}: {why}")
    sys.exit(0 if result.wasSuccessful() else 1)
