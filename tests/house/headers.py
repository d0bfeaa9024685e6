"""Reads what a header offers: functions at namespace scope and public members, each with the comment above it."""
import re
from collections import namedtuple

import house

Function = namedtuple("Function", "place name comment member_of statement")


def comment_above(lines, index):
    """The /// lines right above lines[index] (0-based), without their slashes; declarations on touching lines share the comment above them."""
    kept = []
    index -= 1
    while index >= 0 and re.search(r"[;}]\s*(///<.*)?$", lines[index]) and not re.match(r"\s*\}", lines[index]):
        index -= 1
    while index >= 0 and lines[index].lstrip().startswith("///"):
        kept.append(lines[index].lstrip()[3:].strip())
        index -= 1
    return "\n".join(reversed(kept))


def name_of(statement):
    """The name of the function a statement declares, or None where it declares none."""
    statement = re.sub(r"\[\[.*?\]\]", " ", statement)
    statement = re.sub(r"^\s*template\s*<.*?>(?=\s*[\w\[])", "", statement, flags=re.S).strip()
    head = statement.split("(")[0]
    if "(" not in statement or "=" in head or re.match(r"^(using|typedef|static_assert|friend|namespace|return|if|for|while)\b", statement):
        return None
    if re.search(r"\boperator\b", head) or re.search(r"=\s*(default|delete)\s*$", statement):
        return None
    found = re.search(r"(~?\w+)\s*$", head)
    return found.group(1) if found else None


def functions(path):
    original = house.text(path)
    lines = original.split("\n")
    code = house.code_without_comments(original)
    code = re.sub(r"^[ \t]*#.*$", lambda match: " " * len(match.group(0)), code, flags=re.M)
    scopes, start, found = [], 0, []

    def statement_ends(at):
        nonlocal start
        whole = code[start:at]
        first = start + len(whole) - len(whole.lstrip())
        whole = whole.strip()
        label = re.match(r"^(public|private|protected)\s*:", whole)
        while label:
            scopes[-1]["open"] = label.group(1) == "public"
            rest = whole[label.end():]
            first += label.end() + len(rest) - len(rest.lstrip())
            whole = rest.strip()
            label = re.match(r"^(public|private|protected)\s*:", whole)
        named = name_of(whole)
        visible = all(scope["kind"] in ("namespace", "type") and scope["open"] for scope in scopes)
        type_name = scopes[-1]["name"] if scopes and scopes[-1]["kind"] == "type" else None
        if named and visible and named.lstrip("~") != type_name:
            line = code.count("\n", 0, first)
            comment = comment_above(lines, line)
            found.append(Function(f"{path}:{line + 1}", named, comment, type_name, whole))
        start = at + 1
        return whole

    depth_of_round = 0
    for at, sign in enumerate(code):
        if sign == "(":
            depth_of_round += 1
        elif sign == ")":
            depth_of_round -= 1
        elif depth_of_round:
            continue
        elif sign == ";":
            statement_ends(at)
        elif sign == "{":
            whole = statement_ends(at)
            kind = re.search(r"\b(namespace|struct|class|union|enum)\b\s*((?:\w|::)*)", whole)
            if kind and "(" not in whole:
                what = "namespace" if kind.group(1) == "namespace" else "other" if kind.group(1) == "enum" else "type"
                scopes.append({"kind": what, "name": kind.group(2), "open": kind.group(1) != "class" and kind.group(2) not in ("", "detail")})
            else:
                scopes.append({"kind": "other", "name": "", "open": False})
        elif sign == "}":
            if scopes:
                scopes.pop()
            start = at + 1
    return found
