"""What ./test does after the set-up: build, prove, count. Results are read from the XML that every proof leaves behind."""
import argparse
import contextlib
import os
import pathlib
import re
import shutil
import subprocess
import sys
import time
import xml.etree.ElementTree as ElementTree

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import postgres  # noqa: E402

ROOT = pathlib.Path(__file__).resolve().parents[1]
KINDS = ("analytic", "reference", "validation", "identity", "peers", "faults", "planted", "outside", "store", "page", "browser", "house")
PARTS = ("counts", "store", "sanitizers", "fuzzers", "tidy")
# What speaks to a server of PostgreSQL, where one can be started.
WITH_SERVER = ("records", "desk", "outside", "store")
# Where a fuzzer begins that has no folder of its own; the others begin with every shipped and every broken file.
SEEDS = {"trade_firing_fuzz": ("data/demo",), "trade_limits_fuzz": ("data/limits",), "trade_words_fuzz": ("data/words/en", "data/words/de")}


class Count:
    """Checks that passed, failed (with their place) and were skipped (with their reason)."""

    def __init__(self):
        self.passed, self.failed, self.skipped = 0, [], []

    def add(self, other):
        self.passed += other.passed
        self.failed += other.failed
        self.skipped += other.skipped

    def line(self):
        return f"{self.passed} passed, {len(self.failed)} failed" + (f", {len(self.skipped)} skipped" if self.skipped else "")


def say(words):
    print(words, flush=True)


def shell(script):
    """The same build steps as ./run, from packages/build.sh."""
    done = subprocess.run(["bash", "-c", f"set -euo pipefail; source packages/build.sh; {script}"], cwd=ROOT, stdin=subprocess.DEVNULL)
    return done.returncode


def build(preset, what, targets, options=""):
    if not shell(f"configure_folder {preset} {options} && build_targets build/{preset} {what!r} {' '.join(targets)}") == 0:
        sys.exit(1)


def build_page():
    """The page, so that the binary that is proven carries it."""
    if not shell("source packages/ensure.sh; source packages/node.sh; source packages/page.sh; build_page") == 0:
        sys.exit(1)


@contextlib.contextmanager
def server(count):
    """Lets the proofs find a server of PostgreSQL of their own, or counts why there is none."""
    with contextlib.ExitStack() as stack:
        if not os.environ.get(postgres.VARIABLE):
            try:
                os.environ[postgres.VARIABLE] = stack.enter_context(postgres.Server()).url
                stack.callback(os.environ.pop, postgres.VARIABLE)
            except (postgres.NoServer, OSError) as why:
                count.skipped.append(("PostgreSQL", str(why)))
        yield


def count_cases(path):
    """Checks in one XML result; None where it cannot be read."""
    try:
        suites = ElementTree.parse(path).getroot()
    except (OSError, ElementTree.ParseError):
        return None
    count = Count()
    for case in suites.iter("testcase"):
        name = ".".join(filter(None, [case.get("classname"), case.get("name")]))
        skipped = case.find("skipped")
        if case.find("failure") is not None or case.find("error") is not None:
            count.failed.append(name)
        elif skipped is not None or case.get("result") == "skipped" or case.get("status") == "notrun":
            reason = (skipped.get("message") or "" if skipped is not None else "") or "no reason given"
            count.skipped.append((name, reason.strip().split("\n")[-1]))
        else:
            count.passed += 1
    return count


def ctest(preset, what, chosen, environment=None):
    """Runs proofs of one build folder and counts the checks inside them."""
    folder = ROOT / "build" / preset
    shutil.rmtree(folder / "results", ignore_errors=True)
    start = time.monotonic()
    command = ["ctest", "--test-dir", str(folder), "-j2", "--output-on-failure", "--output-junit", str(folder / "ctest.xml"), *chosen]
    done = subprocess.run(command, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace",
                          env=dict(os.environ, **(environment or {})))
    (folder / "ctest.log").write_text(done.stdout)
    total = Count()
    programs = 0
    for case in ElementTree.parse(folder / "ctest.xml").getroot().iter("testcase"):
        programs += 1
        name = case.get("name")
        count = count_cases(folder / "results" / f"{name}.xml")
        if count is None:
            count = Count()
            count.failed.append(f"{name} ended without results ({case.get('status')})")
        elif case.get("status") == "fail" and not count.failed:
            count.failed.append(f"{name} failed after its checks")
        total.add(count)
    if programs == 0:
        total.failed.append(f"{what}: no proof was found")
    if total.failed:
        say(failures_only(done.stdout))
    say(f"{what}: {total.line()} in {programs} programs, {time.monotonic() - start:.0f} s")
    return total


def failures_only(output):
    """What the failing checks said, without the roll of those that passed."""
    quiet = re.compile(r"^\s*\d+/\d+ Test +#\d+:.*Passed|^\s*Start +\d+:|^\[ +(RUN|OK) +\]|^\[-+\]|^$")
    return "\n".join(line for line in output.splitlines() if not quiet.match(line))[-12000:]


def rooms():
    return re.findall(r"^heatwork_room\((\w+)", (ROOT / "CMakeLists.txt").read_text(), re.M)


def rooms_with_units():
    return [room for room in rooms() if list((ROOT / room).rglob("*_test.cpp"))]


# How many inputs a fuzzer gets in the long run, where the time alone does not say enough.
LONG_RUNS = {"server_request_fuzz": 1_000_000}


def fuzzers(seconds, long=False):
    count = Count()
    if not shutil.which("clang++-14"):
        count.skipped.append(("fuzzers", "clang++-14 is not installed"))
        return count
    build("fuzz", "the fuzzers", ["fuzzers"])
    programs = sorted((ROOT / "build/fuzz/fuzzers").glob("*_fuzz"))
    for program in programs:
        room, name = program.name.split("_", 1)
        own = ROOT / room / name
        seeds = [own] if own.is_dir() else [ROOT / folder for folder in SEEDS.get(program.name, ("data", "tests/faults/broken"))]
        found = ROOT / "build/fuzz/found" / program.name
        found.mkdir(parents=True, exist_ok=True)
        bound = f"-runs={LONG_RUNS[program.name]}" if long and program.name in LONG_RUNS else f"-max_total_time={seconds}"
        begun = time.monotonic()
        command = [str(program), bound, "-seed=20251", "-max_len=8192", "-timeout=10", "-rss_limit_mb=2048",
                   f"-artifact_prefix={found}/broke-", str(found), *map(str, seeds)]
        done = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, text=True, errors="replace", cwd=ROOT)
        runs = re.findall(r"^Done (\d+) runs", done.stderr, re.M)
        share = re.findall(r"\(([\d.]+) %\) past the router", done.stderr)
        if share and float(share[-1]) < 50:
            count.failed.append(f"fuzzer {program.name}: only {share[-1]} % came past the router")
        if done.returncode == 0 and runs:
            count.passed += 1
            said = re.findall(r"^\d+ requests, .*", done.stderr, re.M)
            say(f"fuzzer {program.name}: {runs[-1]} inputs in {time.monotonic() - begun:.0f} s" + (f"; {said[-1]}" if said else ""))
        else:
            count.failed.append(f"fuzzer {program.name}")
            say(done.stderr[-3000:])
    if not programs:
        count.skipped.append(("fuzzers", "no room has a fuzzer"))
    return count


def tidy():
    """clang-tidy over every source of the rooms."""
    count = Count()
    sources = [str(path.relative_to(ROOT)) for room in rooms() for path in sorted((ROOT / room).rglob("*.cpp"))
               if not path.name.endswith(("_test.cpp", "_fuzz.cpp"))]
    running = []

    def finish(source, process):
        words = process.communicate()[0]
        if process.returncode == 0:
            count.passed += 1
        else:
            count.failed.append(f"clang-tidy {source}")
            say("\n".join(line for line in words.splitlines() if "warning" in line or "error" in line)[-3000:])

    for source in sources:
        if len(running) == 2:
            finish(*running.pop(0))
        running.append((source, subprocess.Popen(["clang-tidy-14", "-p", "build/release", "--quiet", source], cwd=ROOT, stdout=subprocess.PIPE,
                                                 stderr=subprocess.STDOUT, text=True, errors="replace")))
    for entry in running:
        finish(*entry)
    say(f"clang-tidy: {count.line()}")
    return count


def evidence():
    """The evidence report; a check recorded without tolerance or source counts as failed."""
    count = Count()
    done = subprocess.run([sys.executable, "docs/evidence/make_report.py", "build/release/results", "build/evidence.md"], cwd=ROOT, text=True,
                          stdin=subprocess.DEVNULL, capture_output=True)
    say(done.stdout.strip())
    if done.returncode == 0:
        count.passed += 1
    else:
        say(done.stderr.strip())
        count.failed.append("evidence report")
    return count


def one_room(name):
    if name in rooms():
        if name not in rooms_with_units():
            sys.exit(f"The room {name} has no proofs of its own yet.")
        build("release", "the proofs", [f"{name}_test"], "-DHEATWORK_TESTS=ON")
        return with_server(name, ["-R", f"^{name}$"])
    if name in KINDS:
        if name in ("page", "browser"):
            build_page()
        targets = ["heatwork"] + ([f"tests_{name}"] if name == "store" or list((ROOT / "tests" / name).rglob("*_test.cpp")) else [])
        build("release", "the proofs", targets, "-DHEATWORK_TESTS=ON")
        return with_server(name, ["-R", f"^(tests_{name}$|{name}_)"])
    sys.exit(f"There is no room or kind of proof named {name}; there are {', '.join(rooms() + list(KINDS))}.")


def with_server(name, chosen):
    total = Count()
    with server(total) if name in WITH_SERVER else contextlib.nullcontext():
        total.add(ctest("release", name, chosen))
    return total


def everything():
    total = Count()
    build_page()
    build("release", "the proofs", ["all"], "-DHEATWORK_TESTS=ON -DHEATWORK_BENCH=ON")
    with server(total):
        total.add(ctest("release", "release", []))
        total.add(evidence())
        if not total.failed:
            build("sanitizers", "the rooms with sanitizers", [f"{room}_test" for room in rooms_with_units()], "-DHEATWORK_TESTS=ON")
            total.add(ctest("sanitizers", "sanitizers", ["-L", "^room$"]))
            total.add(fuzzers(10))
    return total


def long_run(part):
    total = Count()
    build_page()
    build("release", "the proofs", ["all"], "-DHEATWORK_TESTS=ON -DHEATWORK_BENCH=ON")
    with server(total):
        if part in (None, "counts"):
            total.add(ctest("release", "release, full counts", ["-LE", "^store$"], {"HEATWORK_LONG": "1"}))
            total.add(evidence())
            keep_figures()
        if part in (None, "store"):
            total.add(ctest("release", "store, full counts", ["-L", "^store$"], {"HEATWORK_LONG": "1"}))
            keep_figures()
        if part in (None, "sanitizers"):
            build("sanitizers", "everything with sanitizers", ["all"], "-DHEATWORK_TESTS=ON")
            total.add(ctest("sanitizers", "sanitizers over everything", ["-LE", "^(house|store|page|browser)$"]))
        if part in (None, "fuzzers"):
            total.add(fuzzers(60, long=True))
        if part in (None, "tidy"):
            total.add(tidy())
    total.failed += [f"{name} was skipped: {why}" for name, why in total.skipped]
    return total


def keep_figures():
    subprocess.run([sys.executable, "docs/evidence/keep_figures.py", "build/release/results", "docs/evidence/long.toml"], cwd=ROOT, check=True)


def main():
    parser = argparse.ArgumentParser(prog="./test")
    parser.add_argument("room", nargs="?", help="a room or a kind of proof")
    parser.add_argument("--long", action="store_true", help="full counts, sanitizers over everything, clang-tidy")
    chosen = parser.parse_args()
    if chosen.long and chosen.room and chosen.room not in PARTS:
        parser.error(f"--long has the parts {', '.join(PARTS)}, not {chosen.room}")
    os.environ["HEATWORK_PROVING"] = "1"
    total = long_run(chosen.room) if chosen.long else one_room(chosen.room) if chosen.room else everything()
    for name, why in total.skipped:
        say(f"skipped: {name}: {why}")
    for name in total.failed:
        say(f"failed: {name}")
    say(total.line())
    sys.exit(1 if total.failed else 0)


if __name__ == "__main__":
    main()
