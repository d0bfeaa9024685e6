"""Writes the evidence report from the results of the proofs. Usage: make_report.py RESULTS_FOLDER REPORT.md

A check takes part by recording properties: value, expected, tolerance, source, kind (verification, calibration or validation), and
unit if it has one; further checks of the same test carry a number, as in value_2. A check without tolerance or source is refused."""
import datetime
import pathlib
import re
import sys
import tomllib
import xml.etree.ElementTree as ElementTree

FIELDS = ("value", "expected", "tolerance", "source", "kind", "unit")
HEADS = {
    "verification": ("Verification: are the equations solved right?", "Closed forms, published tables and separate programs. Nothing measured decides here."),
    "calibration": ("Calibration: what the parameters were set by", "These values were used to choose a parameter. They show that the choice was carried out, never that the model is right."),
    "validation": ("Validation: does the model meet measurements it was not set by?", "Published measurements that no parameter was chosen by. What misses stays in the table."),
}


def properties_of(case):
    return {item.get("name"): item.get("value") for item in case.iter("property")}


def rows_of(path):
    """Each recorded check of one result file as a dict with the name of its test."""
    for suite in ElementTree.parse(path).getroot().iter("testsuite"):
        for case in suite.findall("testcase"):
            found = properties_of(case)
            numbers = sorted({match.group(2) or "" for key in found if (match := re.fullmatch(r"(" + "|".join(FIELDS) + r")(?:_(\d+))?", key))},
                             key=lambda number: int(number or 1))
            for number in numbers:
                tail = f"_{number}" if number else ""
                row = {field: found.get(field + tail, found.get(field) if field in ("source", "kind", "unit", "tolerance") else None) for field in FIELDS}
                if row["value"] is None and row["expected"] is None:
                    continue
                row["test"] = f"{case.get('classname')}.{case.get('name')}" + (f" ({number})" if number else "")
                row["failed"] = case.find("failure") is not None
                yield row


def allowed(tolerance, expected):
    """The greatest distance a tolerance such as '0.5', '0.5 K', '2 %' allows; None where it is no number."""
    found = re.match(r"^\s*(?:\+-|±)?\s*(\d+(?:\.\d*)?(?:[eE][+-]?\d+)?|\.\d+)\s*(%|percent)?", tolerance or "")
    if not found:
        return None
    return float(found.group(1)) * (abs(expected) / 100 if found.group(2) else 1)


def fault_of(row):
    for field in ("value", "expected", "tolerance", "source", "kind"):
        if row[field] in (None, ""):
            return f"{row['test']} records no {field}"
    if row["kind"] not in HEADS:
        return f"{row['test']} has the kind '{row['kind']}', allowed are {', '.join(HEADS)}"
    try:
        float(row["value"]), float(row["expected"])
    except ValueError:
        return f"{row['test']}: value and expected are numbers, not '{row['value']}' and '{row['expected']}'"
    if allowed(row["tolerance"], float(row["expected"])) is None:
        return f"{row['test']}: the tolerance '{row['tolerance']}' is no number; write '0.5' or '2 %'"
    return None


def met(row):
    value, expected = float(row["value"]), float(row["expected"])
    return abs(value - expected) <= allowed(row["tolerance"], expected) * (1 + 1e-9)


def cell(words):
    return str(words or "").replace("|", "\\|").replace("\n", " ")


def number(words):
    return f"{float(words):.6g}"


def table(rows):
    lines = ["| check | value | expected | tolerance | unit | met | source |", "|---|---|---|---|---|---|---|"]
    for row in sorted(rows, key=lambda row: row["test"]):
        lines.append(f"| {cell(row['test'])} | {number(row['value'])} | {number(row['expected'])} | {cell(row['tolerance'])} | {cell(row['unit'])} | "
                     f"{'yes' if met(row) else '**miss**'} | {cell(row['source'])} |")
    return lines


def long_lines(path, today):
    """The committed record of the long proofs and its age."""
    if not path.is_file():
        return ["No long run has been recorded."]
    with open(path, "rb") as file:
        record = tomllib.load(file)
    lines = ["| figure | value | unit | date | age | commit | machine |", "|---|---|---|---|---|---|---|"]
    for figure in record.get("figure", []):
        days = (today - figure["date"]).days
        lines.append(f"| {cell(figure['name'])} | {cell(figure['value'])} | {cell(figure['unit'])} | {figure['date']} | {days} days | {figure['commit']} | {cell(figure['machine'])} |")
    return lines


def report(rows, long_record, today):
    lines = ["# Evidence", "", "Made from the results of the proofs by `./test`; never edited by hand."]
    for kind, (head, words) in HEADS.items():
        mine = [row for row in rows if row["kind"] == kind]
        misses = sum(not met(row) for row in mine)
        lines += ["", f"## {head}", "", words, "", f"{len(mine)} checks, {misses} missed."]
        if mine:
            lines += ["", *table(mine)]
        if kind == "validation" and mine:
            relative = [float(row["value"]) / float(row["expected"]) - 1 for row in mine if float(row["expected"]) != 0]
            if relative:
                bias = sum(relative) / len(relative)
                spread = (sum((r - bias) ** 2 for r in relative) / max(len(relative) - 1, 1)) ** 0.5
                lines += ["", f"Over these checks the model is {100 * bias:+.1f} % off on average (bias), with a spread of {100 * spread:.1f} %."]
    lines += ["", "## The long proofs", "", *long_lines(long_record, today), ""]
    return "\n".join(lines)


def main():
    results, target = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    rows = [row for path in sorted(results.glob("*.xml")) for row in rows_of(path)]
    faults = [fault for row in rows if (fault := fault_of(row))]
    if faults:
        print("\n".join(["The evidence report refuses checks that do not say how far they may be off and where their number comes from:", *faults]), file=sys.stderr)
        return 1
    if not rows:
        print(f"No check in {results} recorded its evidence.", file=sys.stderr)
        return 1
    today = datetime.date.today()
    target.write_text(report(rows, pathlib.Path(__file__).with_name("long.toml"), today), encoding="utf-8")
    counts = ", ".join(f"{sum(row['kind'] == kind for row in rows)} {kind}" for kind in HEADS)
    print(f"evidence: {counts}; {sum(not met(row) for row in rows)} missed, kept in {target}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
