"""Keeps the figures of a long run: usage keep_figures.py RESULTS_FOLDER long.toml

A test takes part by recording the properties figure (its name), figure_value and figure_unit; further figures of the same test carry a
number, as in figure_2, figure_value_2. A figure already kept is replaced."""
import datetime
import pathlib
import platform
import re
import subprocess
import sys
import tomllib
import xml.etree.ElementTree as ElementTree


def machine():
    model = platform.machine()
    try:
        for line in pathlib.Path("/proc/cpuinfo").read_text().splitlines():
            if line.startswith("model name"):
                model = line.split(":", 1)[1].strip()
                break
        cores = sum(line.startswith("processor") for line in pathlib.Path("/proc/cpuinfo").read_text().splitlines())
    except OSError:
        cores = 1
    return f"{model}, {cores} cores"


def figures(folder):
    for path in sorted(folder.glob("*.xml")):
        for case in ElementTree.parse(path).getroot().iter("testcase"):
            found = {item.get("name"): item.get("value") for item in case.iter("property")}
            if case.find("failure") is not None:
                continue
            for key in found:
                if re.fullmatch(r"figure(_\d+)?", key):
                    tail = key.removeprefix("figure")
                    yield {"name": found[key], "value": found.get("figure_value" + tail, ""), "unit": found.get("figure_unit" + tail, "")}


def quoted(words):
    return '"' + str(words).replace("\\", "\\\\").replace('"', '\\"') + '"'


def main():
    folder, record = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    kept = tomllib.loads(record.read_text(encoding="utf-8")).get("figure", []) if record.is_file() else []
    by_name = {figure["name"]: figure for figure in kept}
    commit = subprocess.run(["git", "rev-parse", "--short", "HEAD"], capture_output=True, text=True, check=True).stdout.strip()
    for figure in figures(folder):
        by_name[figure["name"]] = {**figure, "date": datetime.date.today(), "commit": commit, "machine": machine()}
    lines = ["# Figures of the long proofs, written by ./test --long; docs/evidence/README.md says what each key means.", "format = 1"]
    for figure in sorted(by_name.values(), key=lambda figure: figure["name"]):
        lines += ["", "[[figure]]", *(f"{key} = {quoted(figure[key])}" for key in ("name", "value", "unit")), f"date = {figure['date']}",
                  *(f"{key} = {quoted(figure[key])}" for key in ("commit", "machine"))]
    record.write_text("\n".join(lines) + "\n", encoding="utf-8")
    print(f"{len(by_name)} figures in {record}")


if __name__ == "__main__":
    main()
