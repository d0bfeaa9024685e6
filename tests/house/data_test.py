"""Every shipped number has a unit, a standing and a source; the reader refuses others, and this looks a second time, without the reader."""
import re
import tomllib
import unittest

import house

STANDINGS = {"measured", "computed", "memory", "assumed", "none found"}
SOURCED = ("materials", "limits", "liquids", "alloys")


def tables(value, path=()):
    """Every table in a TOML value with the path to it."""
    if isinstance(value, dict):
        yield path, value
        for key, inside in value.items():
            yield from tables(inside, path + (key,))
    elif isinstance(value, list):
        for number, inside in enumerate(value):
            yield from tables(inside, path + (str(number),))


def shipped():
    for path in house.files(".toml"):
        if path.parts[0] == "data" and path.parts[1] != "words":  # words have no values; their own tests hold them
            yield path, tomllib.loads(house.text(path))


def bibliography():
    return set(re.findall(r"^\*\*([a-z0-9][a-z0-9-]*)\*\* ", house.text("docs/bibliography.md"), re.M))


class Data(unittest.TestCase):
    maxDiff = None

    def test_every_file_names_its_format(self):
        self.assertEqual([str(path) for path, content in shipped() if content.get("format") != 1], [])

    def test_every_value_has_standing_and_source(self):
        wrong, seen = [], 0
        for path, content in shipped():
            for where, table in tables(content):
                if not {"standing", "value", "first"} & set(table):
                    continue
                seen += 1
                place = f"{path}: {'.'.join(where)}"
                standing = table.get("standing")
                if standing not in STANDINGS:
                    wrong.append(f"{place} has the standing {standing!r}")
                elif standing != "none found" and not str(table.get("source", "")).strip():
                    wrong.append(f"{place} names no source")
        self.assertEqual(wrong, [])
        self.assertGreater(seen, 20)

    def test_no_bare_number_stands_where_values_are_sourced(self):
        """In materials, alloys, liquids and limits a number outside a sourced table would escape the check above."""
        wrong = []
        for path, content in shipped():
            if path.parts[1] in SOURCED:
                for where, table in tables(content):
                    if not {"standing", "value", "first"} & set(table):
                        wrong += [f"{path}: {'.'.join(where + (key,))}" for key, value in table.items()
                                  if isinstance(value, (int, float)) and not isinstance(value, bool) and key != "format"]
        self.assertEqual(wrong, [])

    def test_a_source_begins_with_a_key_of_the_bibliography(self):
        known = bibliography()
        wrong = []
        for path, content in shipped():
            for where, table in tables(content):
                if "standing" in table and table.get("source"):
                    key = re.split(r"[,;: ]", table["source"], maxsplit=1)[0]
                    if key not in known:
                        wrong.append(f"{path}: {'.'.join(where)}: {key}")
        self.assertEqual(wrong, [])

    def test_the_demo_lab_says_that_it_is_invented(self):
        silent = [str(path) for path, _ in shipped() if path.parts[1] == "demo" and "invent" not in house.text(path).lower()]
        self.assertEqual(silent, [])

    def test_the_page_calls_each_kind_as_sentences_do(self):
        """In German one thing has one name: what the page calls a kind of thing is what findings, errors and sheets call it."""
        nouns = tomllib.loads(house.text("data/words/de/choices.toml"))
        page = tomllib.loads(house.text("data/words/page/de/records.toml"))
        one = {kind: name for kind, name in page["one"].items() if kind in nouns["noun"]}
        self.assertGreater(len(one), 15)
        self.assertEqual(one, {kind: nouns["noun"][kind] for kind in one})
        several = {kind: name for kind, name in page["kinds"].items() if kind in nouns["nouns"]}
        self.assertGreater(len(several), 5)
        self.assertEqual(several, {kind: nouns["nouns"][kind] for kind in several})

    def test_demo_programs_have_odd_numbers(self):
        """No heating rate and no temperature of a demo program is a round number of ten: none can equal a published chart by chance."""
        wrong = []
        for path, _ in shipped():
            if path.parts[1] == "demo" and "program" in str(path):
                for number, line in enumerate(house.text(path).split("\n"), 1):
                    for value, unit in re.findall(r'"(\d+) (°C|C|K/min)"', line.split("#")[0]):
                        if int(value) % 10 == 0 and int(value) > 0:
                            wrong.append(f"{path}:{number}: {value} {unit}")
        self.assertEqual(wrong, [])


if __name__ == "__main__":
    house.main()
