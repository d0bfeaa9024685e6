"""Writes the pages, and parts of pages, that follow from the tree or the binary. Usage: generate.py [--binary HEATWORK] [--check] [--picture]

--check writes nothing and ends 1 where a page differs from what would be written; --picture draws README's picture of the demo firing anew."""
import argparse
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[1]


def purpose(header):
    """The first sentence of the comment a header begins with."""
    words = []
    for line in header.read_text(encoding="utf-8").split("\n"):
        if not line.startswith("//"):
            break
        words.append(line.strip("/ ").strip())
    sentence = re.split(r"(?<=[.!?])\s", " ".join(words))[0].rstrip(". ")
    return sentence if sentence.endswith("?") else sentence + "."


def tracked_headers(room):
    try:
        listed = subprocess.run(["git", "-C", str(ROOT), "ls-files", "-co", "--exclude-standard", room], capture_output=True, check=True, text=True).stdout
    except (OSError, subprocess.CalledProcessError):
        return sorted((ROOT / room).rglob("*.h"))
    return [ROOT / name for name in sorted(set(listed.split("\n"))) if name.endswith(".h") and (ROOT / name).is_file()]


def rooms_page():
    page = ROOT / "docs/rooms.md"

    def offers(match):
        room = match.group(1)
        lines = [f"- `{header.relative_to(ROOT)}`: {purpose(header)}" for header in tracked_headers(room)]
        return f"<!-- offers {room} -->\n" + "".join(line + "\n" for line in lines) + "<!-- end -->"
    return page, re.sub(r"<!-- offers (\w+) -->\n.*?<!-- end -->", offers, page.read_text(encoding="utf-8"), flags=re.S)


def ask(binary, *words):
    return subprocess.run([binary, *words], stdin=subprocess.DEVNULL, capture_output=True, text=True, check=True).stdout


def calculations_page(binary):
    """Every calculation as it describes itself."""
    names = [line.split()[0] for line in ask(binary, "calculate", "--list").split("\n") if re.match(r"[a-z]", line)]
    lines = ["# Calculations", "", "Every model of Heatwork by itself: one JSON object in, one out. `heatwork calculate NAME FILE`, or `-` for standard input;",
             "an array of objects gives an array of answers. This page is what each says of itself with `--describe`.", ""]
    for name in names:
        lines += [f"## {name}", "", "```", ask(binary, "calculate", name, "--describe").strip("\n"), "```", ""]
    return ROOT / "docs/calculations.md", "\n".join(lines)


def packages_tables():
    """README's tables of dependencies, from the lists that run and test install."""
    page = ROOT / "README.md"

    def table(match):
        rows = []
        for line in (ROOT / match.group(1)).read_text(encoding="utf-8").split("\n"):
            found = re.match(r"([a-z0-9][\w.+-]+)\s+(\S.*)", line)
            if found:
                rows.append(f"| `{found.group(1)}` | {found.group(2)} |\n")
        return f"<!-- packages {match.group(1)} -->\n| package | why |\n|---|---|\n{''.join(rows)}<!-- end -->"
    return page, re.sub(r"<!-- packages (\S+) -->\n.*?<!-- end -->", table, page.read_text(encoding="utf-8"), flags=re.S)


def draw_picture(binary):
    """README's picture. Not compared by --check: its pixels follow from the fonts of the machine as well."""
    with tempfile.TemporaryDirectory() as folder:
        ask(binary, "demo", folder)
        done = subprocess.run([binary, "rehearse", f"{folder}/firing.toml", "--picture", str(ROOT / "docs/firing-picture.png")], stdin=subprocess.DEVNULL, capture_output=True)
        if done.returncode not in (0, 1):
            sys.exit(done.stderr.decode())


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--binary", default=str(ROOT / "build/release/heatwork"))
    parser.add_argument("--check", action="store_true")
    parser.add_argument("--picture", action="store_true")
    chosen = parser.parse_args()
    if chosen.picture:
        draw_picture(chosen.binary)
    stale = []
    for make in (rooms_page, packages_tables, lambda: calculations_page(chosen.binary)):
        page, words = make()
        before = page.read_text(encoding="utf-8") if page.is_file() else None
        if before != words:
            stale.append(str(page.relative_to(ROOT)))
            if not chosen.check:
                page.write_text(words, encoding="utf-8")
    if stale and chosen.check:
        print("Not as docs/generate.py would write them: " + ", ".join(stale))
        return 1
    print("Written: " + ", ".join(stale) if stale else "All pages are as they should be.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
