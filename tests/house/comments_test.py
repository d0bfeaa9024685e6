"""Comments that carry weight: units, sources and theory equations named in code, and nothing named that is not there."""
import re
import unittest

import headers
import house

PURE = ("physics", "metrology")
UNIT = re.compile(r"\[[^\]\n]+\]")
EQUATION = re.compile(r"\(([a-z][a-z-]*\.\d+[a-z]?)\)")


def pure_headers():
    return [path for path in house.files(".h") if path.parts[0] in PURE]


def bibliography():
    return re.findall(r"^\*\*([a-z0-9][a-z0-9-]*)\*\* ", house.text("docs/bibliography.md"), re.M)


def keys_after(word, source):
    """All keys of lines such as `source: a, b` in a comment; words that follow the keys (a page, theory:) are no keys."""
    for match in re.finditer(r"\b" + word + r":[ \t]*([a-z0-9][\w-]*(?:[ \t]*,[ \t]*[a-z][a-z0-9-]*-[\w-]+)*)", source):
        for key in match.group(1).split(","):
            yield key.strip(), source.count("\n", 0, match.start()) + 1


def gives_numbers(function):
    """What returns a number, or numbers, has a unit; what checks, sets or returns a whole state has none."""
    return bool(re.search(r"\b(double|float)\b", re.split(r"\b" + function.name + r"\s*\(", function.statement)[0]))


class Units(unittest.TestCase):
    maxDiff = None

    def test_every_public_function_of_the_pure_rooms_names_its_unit(self):
        wrong = []
        for path in pure_headers():
            for function in headers.functions(path):
                if not function.comment:
                    wrong.append(f"{function.place}: {function.name} has no comment")
                elif gives_numbers(function) and not UNIT.search(" ".join(function.comment.split("\n")[:2])):
                    wrong.append(f"{function.place}: {function.name}: the brief of at most two lines ends in no [unit]")
        self.assertEqual(wrong, [])

    def test_every_free_function_of_the_pure_rooms_names_its_source(self):
        wrong = [f"{function.place}: {function.name} names no source" for path in pure_headers() for function in headers.functions(path)
                 if function.comment and not function.member_of and not re.search(r"\bsource: ", function.comment)]
        self.assertEqual(wrong, [])

    def test_the_reader_of_headers_finds_functions(self):
        found = [function for path in pure_headers() for function in headers.functions(path)]
        self.assertGreater(len(found), 20)


class Sources(unittest.TestCase):
    def test_no_key_stands_twice(self):
        keys = bibliography()
        self.assertGreater(len(keys), 5)
        self.assertEqual(sorted(key for key in set(keys) if keys.count(key) > 1), [])

    def test_every_key_named_in_code_is_in_the_bibliography(self):
        known = set(bibliography())
        missing = [f"{path}:{line}: {key}" for path in house.files(".h", ".cpp") if path.parts[0] in house.rooms()
                   for comment_line, comment in comments(path) for key, line in keys_after("source", comment) if key not in known
                   for line in [comment_line]]
        self.assertEqual(missing, [])


def comments(path):
    """Line number and text of each comment line of a file."""
    for number, line in enumerate(house.text(path).split("\n"), 1):
        at = line.find("//")
        if at >= 0:
            yield number, line[at:]


def equations_in_code():
    named = {}
    for path in house.files(".h", ".cpp"):
        if path.parts[0] not in house.rooms():
            continue
        for number, line in comments(path):
            if "theory:" in line:
                for equation in EQUATION.findall(line.split("theory:", 1)[1]):
                    named.setdefault(equation, f"{path}:{number}")
    return named


def equations_on_pages():
    stands = {}
    for path in house.files(".md"):
        if path.parts[:2] == ("docs", "theory"):
            for number, line in enumerate(house.text(path).split("\n"), 1):
                found = re.match(r"\*\*\(([a-z][a-z-]*\.\d+[a-z]?)\)\*\*", line)
                if found:
                    stands.setdefault(found.group(1), []).append(f"{path}:{number}")
    return stands


class Theory(unittest.TestCase):
    maxDiff = None

    def test_every_equation_named_in_code_stands_on_its_page(self):
        pages = equations_on_pages()
        missing = [f"{place}: ({equation})" for equation, place in sorted(equations_in_code().items()) if equation not in pages]
        self.assertEqual(missing, [])

    def test_every_equation_on_a_page_is_named_in_code(self):
        code = equations_in_code()
        missing = [f"{places[0]}: ({equation})" for equation, places in sorted(equations_on_pages().items()) if equation not in code]
        self.assertEqual(missing, [])

    def test_an_equation_stands_once_and_on_the_page_of_its_name(self):
        wrong = []
        for equation, places in sorted(equations_on_pages().items()):
            page = places[0].split(":")[0]
            if len(places) > 1 or page != f"docs/theory/{equation.split('.')[0]}.md":
                wrong.append(f"({equation}) at {', '.join(places)}")
        self.assertEqual(wrong, [])

    def test_there_are_equations(self):
        self.assertGreater(len(equations_on_pages()), 10)


class Constants(unittest.TestCase):
    def test_constants_of_nature_stand_once(self):
        """A number such as the gas constant is named where it is defined and used by name elsewhere."""
        wrong = {}
        for what, pattern in {"gas constant": r"\b8\.314\d*", "Stefan-Boltzmann": r"\b5\.67\d*e-0?8", "Boltzmann": r"\b1\.3806\d*e-23",
                              "Avogadro": r"\b6\.022\d*e\+?23", "zero of the Celsius scale": r"\b273\.15\b"}.items():
            for path in house.files(".h", ".cpp"):
                if path.parts[0] in house.rooms() and not path.name.endswith("_test.cpp"):
                    for number, line in enumerate(house.code_without_comments(house.text(path)).split("\n"), 1):
                        if re.search(pattern, line):
                            wrong.setdefault(what, []).append(f"{path}:{number}" + ("" if "constexpr" in line else " (not a named constant)"))
        stray = {what: places for what, places in wrong.items()
                 if any("not a named" in place for place in places) or len({place.split("/")[0] for place in places}) != len(places)}
        self.assertEqual(stray, {}, "each constant once in a room, as a named constexpr")


if __name__ == "__main__":
    house.main()
