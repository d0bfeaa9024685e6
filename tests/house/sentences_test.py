"""Every sentence that a person can meet when something goes wrong has its German: what is thrown in the sources fits a pattern of
data/words/de/sentences/.

Seen are the texts that stand in a call that throws or hands on a mistake (THROWING), in one piece or as a format. Not seen are texts that are
put together with + from pieces, texts handed on through a variable, and what a library says; they stay English unless a pattern was written."""
import re
import tomllib
import unittest

import house

THROWING = {"Failure", "FailureWith", "Mistake", "StoreError", "make_unexpected", "domain_error", "invalid_argument", "refuse", "refusal",
            "ChangedMeanwhile"}
# Said on the command line alone, of single models, of settings and of Heatwork's own files: English for now.
ENGLISH_YET = ("desk/calculations/", "desk/calibrate.cpp", "desk/json_read.cpp", "desk/materials.cpp", "desk/schema.cpp", "desk/demo.cpp",
               "desk/folder_files.cpp", "desk/lab/settings.cpp", "desk/lab/exact_numbers.cpp", "desk/lab/index_of.cpp",
               "desk/lab/rehearsal_document_text.cpp", "desk/lab/kept_text.cpp", "trade/limits.cpp", "trade/lab_limits.cpp",
               "trade/deciding_inputs.cpp", "trade/relaxation.cpp",
               "trade/words.cpp", "trade/sentences.cpp", "trade/pattern.cpp", "firing/calibrated_range.cpp",
               "firing/chamber_change.cpp", "firing/trial.cpp", "records/export_rows.cpp", "records/import.cpp", "records/in_order.h",
               "records/hash.cpp", "records/verify.cpp")
# Parts of a sentence, of a log or of a mistake of ours: said only within another text, or to nobody.
PARTS = {
    "the newest is {}", "a lot is entered before it is used.", "enter it first, or give its file with the step.", "rehearse it and keep it first.",
    ' And {} more; "store verify" tells them.', ": pages count from 1.", "it has no {}s", "its {}s are {}", " nor ",
    '; did you mean "{}"?', ' (did you mean "{}"?)', '; its keys stand in its format page and in "heatwork {} show"', "none is kept yet", " Nothing was kept.",
    "; a file's name ends in .toml.", "{} stage {} asks for {:.1f} °C; this furnace's display never gets there (room {:.1f} °C).", "the input {} has no {}",
}
ROOMS = ("quantity", "trade", "furnace_care", "firing", "records", "desk", "server")
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
    for start, end, _ in texts:
        source = source[:start] + " " * (end - start) + source[end:]
    return source


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


def patterns():
    english = []
    for path in sorted((house.ROOT / "data/words/de/sentences").glob("*.toml")):
        english += tomllib.loads(path.read_text())["sentences"]
    return english


def letters(text, gap):
    return len(re.sub(r"\W", "", gap.sub("", text)))


def fits(text, english, room="trade"):
    """A format fits a pattern where each place for a value stands for a gap, or for a gap and its unit. From desk upwards, and in records, a
    sentence has a full stop: what has none is a part, which some pattern holds."""
    places = re.compile(r"(?<!\{)\{[^{}]*\}(?!\})")
    plain = places.sub("7", text).replace("{{", "{").replace("}}", "}")
    spelled = re.compile(".*".join(re.escape(part.replace("{{", "{").replace("}}", "}")) for part in places.split(text)), re.S)
    if room in ("records", "desk", "server") and not re.search(r"^\W*[A-Z{-].*[.?:}]$", text, re.S):
        return any(spelled.search(one) for one in english)
    for one in english:
        if spelled.fullmatch(one):
            return True
        if letters(one, GAP) >= 0.6 * letters(text, places) and \
                re.fullmatch(".+".join(map(re.escape, GAP.split(one))), plain, re.S):
            return True
    return False


class Sentences(unittest.TestCase):
    maxDiff = None

    def test_all_that_is_thrown_has_its_german(self):
        english, count, wrong = patterns(), 0, []
        for path in house.files(".h", ".cpp"):
            name = str(path)
            if path.parts[0] not in ROOMS or name.startswith(ENGLISH_YET) or name.endswith(("_test.cpp", "_fuzz.cpp")) or "_for_test" in name:
                continue
            for line, text in thrown(house.text(path)):
                count += 1
                if text not in PARTS and "a mistake of ours" not in text and not fits(text, english, path.parts[0]):
                    wrong.append(f"{path}:{line}: no German for: {text}")
        self.assertEqual(wrong, [])
        self.assertGreater(count, 300)

    def test_a_new_sentence_is_found(self):
        source = 'throw Failure(ErrorWord::bad_value,\n  fmt::format("The moon {} is out: "\n  "look at it.", name));'
        self.assertEqual(list(thrown(source)), [(2, "The moon {} is out: look at it.")])
        self.assertFalse(fits("The moon {} is out: look at it.", patterns()))
        self.assertTrue(fits('"{}" is out of range; allowed is {}', patterns()))

    def test_both_sides_have_the_same_gaps(self):
        for path in sorted((house.ROOT / "data/words/de/sentences").glob("*.toml")):
            for english, german in tomllib.loads(path.read_text())["sentences"].items():
                self.assertLessEqual(set(GAP.findall(german)), set(GAP.findall(english)), english)
                self.assertNotEqual(re.sub(r"\{[a-z0-9_]*\}|\W", "", english) or "gap", re.sub(r"\{[a-z0-9_]*\}|\W", "", german), english)


if __name__ == "__main__":
    house.main()
