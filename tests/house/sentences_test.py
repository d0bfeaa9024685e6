"""Every sentence that a person can meet when something goes wrong has its German: what is thrown in the sources fits a pattern of
data/words/de/sentences/.

Seen are the texts that stand in a call that throws or hands on a mistake (THROWING): in one piece, as a format, or put together with + where one
of the pieces is a text. Not seen are texts handed on through a variable, and what a library says; they stay English unless a pattern was written."""
import functools
import re
import tomllib
import unittest

import house

THROWING = {"Failure", "FailureWith", "Mistake", "StoreError", "make_unexpected", "domain_error", "invalid_argument", "refuse", "refusal",
            "ChangedMeanwhile"}
# Parts of a sentence, of a log or of a mistake of ours: said only within another text, or to nobody.
PARTS = {
    "the newest is {}", "a lot is entered before it is used.", "enter it first, or give its file with the step.", "rehearse it and keep it first.",
    ' And {} more; "store verify" tells them.', ": pages count from 1.", "it has no {}s", "its {}s are {}", " nor ",
    '; did you mean "{}"?', ' (did you mean "{}"?)', '; its keys stand in its format page and in "heatwork {} show"', "none is kept yet", " Nothing was kept.",
    "; a file's name ends in .toml.", "{} stage {} asks for {:.1f} °C; this furnace's display never gets there (room {:.1f} °C).", "the input {} has no {}",
    "a thickness in metres", "a Young's modulus in pascals", "a Poisson's ratio", "from 0 and below 0.5", "an expansion",
    "person: {}", "{} Nothing was kept.",
}
ROOMS = ("quantity", "physics", "metrology", "trade", "furnace_care", "firing", "records", "desk", "server", "cli")
LITERAL = re.compile(r'"((?:[^"\\\n]|\\.)*)"')
GAP = re.compile(r"\{[a-z_]*[0-9]*\}")


def literals(source):
    """Texts of a source, those that follow one another joined: (from, to, text)."""
    found, at = [], 0
    while at < len(source):
        if source.startswith("//", at):
            at = source.find("\n", at) if "\n" in source[at:] else len(source)
        elif source.startswith("/*", at):
            at = source.find("*/", at) + 2
        elif source.startswith('R"', at):
            end = re.compile(r'R"(\w*)\(.*?\)\1"', re.S).match(source, at)
            at = end.end() if end else at + 2
        elif source[at] == "'" and re.compile(r"'(?:[^'\\]|\\.)+'").match(source, at) and not source[at - 1].isdigit():
            at = re.compile(r"'(?:[^'\\]|\\.)+'").match(source, at).end()
        elif source[at] == '"' and LITERAL.match(source, at):
            match = LITERAL.match(source, at)
            if found and source[found[-1][1]:at].strip() == "":
                found[-1] = (found[-1][0], match.end(), found[-1][2] + match.group(1))
            else:
                found.append((at, match.end(), match.group(1)))
            at = match.end()
        else:
            at += 1
    return found


def blanked(source, texts):
    """The source with its texts as blanks, so that brackets in them do not count."""
    kept, at = [], 0
    for start, end, _ in texts:
        kept += [source[at:start], " " * (end - start)]
        at = end
    return "".join([*kept, source[at:]])


def calls_around(plain, at):
    names, depth = [], 0
    for i in range(at - 1, max(0, at - 4000), -1):
        c = plain[i]
        if c in ")}]":
            depth += 1
        elif c in "({[":
            if depth:
                depth -= 1
                continue
            named = re.search(r"([A-Za-z_]\w*)\s*(?:<[^<>()]*>)?\s*$", plain[max(0, i - 80):i])
            if named:
                names.append(named.group(1))
        elif c == ";" and depth == 0:
            break
    return names


def thrown(source):
    texts = literals(source)
    plain = blanked(source, texts)
    for start, _, text in texts:
        words = re.findall(r"[A-Za-z]{2,}", text)
        if len(words) >= 2 and " " in text and THROWING.intersection(calls_around(plain, start)):
            yield source.count("\n", 0, start) + 1, text.encode().decode("unicode_escape").encode("latin-1").decode()


def parts_between(plain, start, end, mark):
    """Where the parts of a stretch of source begin and end that `mark` parts, brackets closed."""
    found, depth, last = [], 0, start
    for i in range(start, end):
        depth += (plain[i] in "([{") - (plain[i] in ")]}")
        if plain[i] == mark and depth == 0:
            found.append((last, i))
            last = i + 1
    return [*found, (last, end)]


def put_together(source):
    """Sentences of a THROWING call that + puts together of texts and values: (line, format)."""
    texts = literals(source)
    plain, text_at = blanked(source, texts), {start: (end, text) for start, end, text in texts}
    for call in re.finditer(rf"(?<!\w)(?:{'|'.join(sorted(THROWING))})\s*(?:<[^<>()]*>)?\s*[({{]", plain):
        end, depth = call.end(), 1
        while end < len(plain) and depth:
            depth += (plain[end] in "([{") - (plain[end] in ")]}")
            end += 1
        for start, stop in parts_between(plain, call.end(), end - 1, ","):
            pieces, said = parts_between(plain, start, stop, "+"), ""
            for begin, until in pieces:
                own = re.match(r"\s*(?:std::string\()?", source[begin:until]).end() + begin
                text_end, text = text_at.get(own, (0, None))
                said += text if text is not None and source[text_end:until].strip() in ("", ")") else "{}"
            if len(pieces) > 1 and re.search("[A-Za-z]", said):
                yield source.count("\n", 0, call.start()) + 1, said.encode().decode("unicode_escape").encode("latin-1").decode()


def patterns():
    english = []
    for path in sorted((house.ROOT / "data/words/de/sentences").glob("*.toml")):
        english += tomllib.loads(path.read_text())["sentences"]
    return english


@functools.cache
def pattern_as_read(one):
    """How many letters of its own a pattern has, and what it reads."""
    return letters(one, GAP), re.compile(".+".join(map(re.escape, GAP.split(one))), re.S)


def letters(text, gap):
    return len(re.sub(r"\W", "", gap.sub("", text)))


def fits(text, english, room="trade"):
    """A format fits a pattern where each place for a value stands for a gap, or for a gap and its unit. From desk upwards, and in records, a
    sentence has a full stop: what has none is a part, which some pattern holds. Physics calls a quantity by its name, which stands for a gap."""
    places = re.compile(r"(?<!\{)\{[^{}]*\}(?!\})")
    if room == "physics":
        text = re.sub(r"\b[a-z]+[_.]\w+", "{}", text)
    plain = places.sub("7", text).replace("{{", "{").replace("}}", "}")
    spelled = re.compile(".*".join(re.escape(part.replace("{{", "{").replace("}}", "}")) for part in places.split(text)), re.S)
    if room in ("records", "desk", "server") and not re.search(r"^\W*[A-Z{-].*[.?:}]$", text, re.S):
        return any(spelled.search(one) for one in english)
    least = 0.6 * letters(text, places)
    for one in english:
        own, reads = pattern_as_read(one)
        if spelled.fullmatch(one) or (own >= least and reads.fullmatch(plain)):
            return True
    return False


class Sentences(unittest.TestCase):
    maxDiff = None

    def test_all_that_is_thrown_has_its_german(self):
        english, count, wrong = patterns(), 0, []
        for path in house.files(".h", ".cpp"):
            name = str(path)
            if path.parts[0] not in ROOMS or name.endswith(("_test.cpp", "_fuzz.cpp")) or "_for_test" in name:
                continue
            source = house.text(path)
            together = list(put_together(source))
            pieces = "\n".join(text for _, text in together)
            alone = [(line, text) for line, text in thrown(source) if text not in pieces]
            for line, text in alone + together:
                count += 1
                if text not in PARTS and "a mistake of ours" not in text and not fits(text, english, path.parts[0]):
                    wrong.append(f"{path}:{line}: no German for: {text}")
        self.assertEqual(wrong, [])
        self.assertGreater(count, 900)

    def test_what_is_asked_to_lie_within_a_range_has_its_german(self):
        """metrology/range.cpp says one sentence of many things, each named where it is called."""
        english, named = patterns(), set()
        for path in house.files(".cpp"):
            if path.parts[0] == "metrology" and not path.name.endswith("_test.cpp"):
                named.update(re.findall(r'require_within\([^;]*?"([^"]+)"\)', house.text(path)))
        self.assertGreater(len(named), 15)
        self.assertEqual([each for each in sorted(named) if f"{each} must be from {{number}} to {{number2}}, not {{number3}}." not in english], [])

    def test_a_new_sentence_is_found(self):
        source = 'throw Failure(ErrorWord::bad_value,\n  fmt::format("The moon {} is out: "\n  "look at it.", name));'
        self.assertEqual(list(thrown(source)), [(2, "The moon {} is out: look at it.")])
        self.assertFalse(fits("The moon {} is out: look at it.", patterns()))
        self.assertTrue(fits('"{}" is out of range; allowed is {}', patterns()))

    def test_a_sentence_put_together_is_found(self):
        source = 'throw std::domain_error(std::string("The moon of ") + name(1, 2) + " is " + out + ".");\nrefuse(at, "no " + word);'
        self.assertEqual(list(put_together(source)), [(1, "The moon of {} is {}."), (2, "no {}")])
        self.assertTrue(fits("The moon {} is {}.", ["The moon {name} is {number}."], "desk"))
        self.assertFalse(fits("The moon {} is {}.", ["The sun {name} is {number}."], "desk"))

    def test_both_sides_have_the_same_gaps(self):
        for path in sorted((house.ROOT / "data/words/de/sentences").glob("*.toml")):
            for english, german in tomllib.loads(path.read_text())["sentences"].items():
                self.assertLessEqual(set(GAP.findall(german)), set(GAP.findall(english)), english)
                self.assertNotEqual(re.sub(r"\{[a-z0-9_]*\}|\W", "", english) or "gap", re.sub(r"\{[a-z0-9_]*\}|\W", "", german), english)


if __name__ == "__main__":
    house.main()
