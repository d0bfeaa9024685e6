"""Persons and deviations by the real binary, on both engines: who may do what, what is shown of whom, what is erased and what stays."""
import json
import pathlib
import re
import subprocess
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import house  # noqa: E402
from records_store_test import BINARY, SERVER, Place  # noqa: E402

NOT_SET_UP = 'Person "tom" may not set up; a person who may set up must do this.\n'
NOT_RELEASE = 'Person "tom" may fire but not release; a person who may release must do this.\n'
FIRST = ("The first person entered must be one who may set up (may_set_up = true); else nobody could enter the next. "
         "Nothing was kept.\n")
LAST = "Nobody could set up any more: one person at least has may_set_up = true and has not left. Nothing was kept.\n"


class Lab:
    """On either engine; self.where names the store."""

    def call(self, *words):
        return subprocess.run([str(BINARY), *words, "--store", self.where], cwd=self.place, env=self.environment, stdin=subprocess.DEVNULL,
                              capture_output=True, text=True)

    def done(self, *words):
        answer = self.call(*words)
        self.assertEqual((answer.returncode, answer.stderr), (0, ""), answer.stdout)
        self.assertLessEqual(max(len(line) for line in answer.stdout.splitlines() if "Store" not in line), 100)
        return answer.stdout

    def json(self, *words):
        told = json.loads(self.done(*words, "--json"))
        self.assertEqual(list(told)[0], "format")
        return told

    def refused(self, *words):
        """The one sentence of a refusal; nothing was kept."""
        before = self.json("store", "status")
        answer = self.call(*words)
        self.assertEqual((answer.returncode, answer.stdout), (2, ""), answer.stderr)
        self.assertEqual(self.json("store", "status")["head"], before["head"])
        return answer.stderr

    def enter_two(self):
        self.done("person", "add", "mara", "--role", "release", "--may-set-up", "--name", "Mara Muster")
        self.done("person", "add", "tom", "--role", "fire", "--name", "Tom Beispiel", "--contact", "tom@example.org", "--as", "mara")

    def test_the_first_person_must_be_able_to_set_up(self):
        self.assertEqual(self.refused("person", "add", "mara", "--role", "release"), FIRST)
        said = self.done("person", "add", "mara", "--role", "release", "--may-set-up", "--as", "somebody")
        self.assertEqual(re.sub(r"[0-9a-f]{64}", "HASH", said),
                         "Kept         person mara, version 1\n"
                         "Role         release: also decides and releases deviations, locks and unlocks\n"
                         "May set up   yes: enters persons, erases their data and photos, moves the store\n"
                         "Left         no\n"
                         "Head hash    HASH\n"
                         "From now on  roles are in force, and somebody (named) may only read: add --as mara, or write person\n"
                         "             = \"mara\" into the settings.\n")
        self.assertEqual(self.refused("person", "add", "tom", "--role", "fire", "--as", "somebody"),
                         'Person "somebody" (named) is not entered in this store and may only read.\n')
        self.assertNotIn("From now on", self.done("person", "add", "tom", "--role", "fire", "--as", "mara"))

    def test_who_may_set_up_is_asked_and_never_lacks(self):
        self.enter_two()
        self.assertEqual(self.refused("person", "add", "eve", "--role", "look", "--as", "tom"), NOT_SET_UP)
        self.assertEqual(self.refused("person", "change", "tom", "--role", "release", "--reason", "me", "--as", "tom"), NOT_SET_UP)
        for words in (("--left",), ("--may-set-up", "no")):
            self.assertEqual(self.refused("person", "change", "mara", *words, "--reason", "away", "--as", "mara"), LAST)
        self.done("person", "change", "tom", "--may-set-up", "yes", "--reason", "stands in", "--as", "mara")
        told = self.json("person", "change", "mara", "--left", "--reason", "away", "--as", "mara")
        self.assertEqual((told["version"], told["left"]), (2, True))
        self.assertEqual(self.refused("person", "change", "tom", "--role", "release", "--reason", "x", "--as", "mara"),
                         'Person "mara" has left and may only read.\n')
        self.assertFalse(self.json("person", "change", "mara", "--came-back", "--reason", "here again", "--as", "tom")["left"])

    def test_a_person_who_only_sets_up_enters_persons_and_keeps_nothing_else(self):
        self.done("person", "add", "ida", "--role", "look", "--may-set-up")
        self.done("person", "add", "tom", "--role", "fire", "--as", "ida")
        self.assertEqual(self.refused("deviation", "open", "d-1", "--from", "a", "--found", "b", "--as", "ida"),
                         'Person "ida" may look but not fire; a person who may fire must do this.\n')

    def test_bad_words_are_refused(self):
        self.enter_two()
        for words, said in (
                (("add", "eve m", "--role", "look"), 'Code of a person: "eve m" is not a name; allowed are up to 60 letters a to z, digits, - and _\n'),
                (("add", "eve", "--role", "boss"), 'The role is "boss"; allowed are look, fire, release.\n'),
                (("add", "tom", "--role", "fire"), 'The person "tom" stands already, in version 1. Nothing was kept.\n'),
                (("add", "eve", "--role", "look", "--name", "a\nb"), "The name must be one line of at most 200 bytes. Nothing was kept.\n"),
                (("change", "eve", "--left", "--reason", "x"),
                 'No person "eve" is entered. Nothing was kept; enter the person first.\n'),
                (("change", "tom", "--role", "fire", "--reason", "x"), 'Person "tom" is so already, in version 1. Nothing was kept.\n'),
                (("change", "tom", "--may-set-up", "perhaps", "--reason", "x"), '"May set up" is "perhaps"; allowed are yes, no.\n'),
                (("personal", "tom", "--name", "", "--contact", "", "--reason", "x"),
                 'Neither name nor contact would be left. Nothing was kept; both are erased where the person is forgotten.\n'),
                (("forget", "eve", "--reason", "x"), "There is no personal data of eve to erase. Nothing was kept.\n"),
                (("show", "eve"), 'No person "eve" is entered.\n')):
            self.assertEqual(self.refused("person", *words, "--as", "mara"), said)

    def test_words_that_do_not_go_together_are_refused(self):
        self.enter_two()
        for words, said in ((("add", "eve"), "--role is missing: look, fire or release"),
                            (("change", "tom", "--reason", "x"), "say what changes: --role, --may-set-up, --left or --came-back"),
                            (("change", "tom", "--left", "--came-back", "--reason", "x"), "--left and --came-back exclude each other"),
                            (("change", "tom", "--left"), "--reason is missing"),
                            (("personal", "tom", "--reason", "x"), "say what is kept: --name or --contact")):
            verb = f"heatwork person {words[0]}"
            self.assertEqual(self.refused("person", *words, "--as", "mara"), f'{verb}: {said}; "{verb} --help" shows how it is used.\n')

    def test_name_and_contact_are_shown_to_few(self):
        self.enter_two()
        self.assertIn("Name         kept apart; shown to mara and to those who may set up\n", self.done("person", "show", "mara", "--as", "tom"))
        hidden = self.json("person", "show", "mara", "--as", "tom")
        self.assertEqual((hidden["personal_data"], "name" in hidden), (True, False))
        for who in ("tom", "mara"):
            told = self.json("person", "show", "tom", "--as", who)
            self.assertEqual((told["name"], told["contact"]), ("Tom Beispiel", "tom@example.org"))
        self.done("person", "change", "tom", "--left", "--reason", "away", "--as", "mara")
        self.assertNotIn("name", self.json("person", "show", "tom", "--as", "tom"))

    def test_own_data_is_changed_by_oneself_and_that_of_others_is_not(self):
        self.enter_two()
        self.done("person", "personal", "tom", "--contact", "tom@example.com", "--reason", "moved", "--as", "tom")
        told = self.json("person", "show", "tom", "--as", "tom")
        self.assertEqual((told["name"], told["contact"]), ("Tom Beispiel", "tom@example.com"), "what is not given stays")
        self.assertEqual(self.refused("person", "personal", "mara", "--name", "X", "--reason", "fun", "--as", "tom"), NOT_SET_UP)
        self.assertEqual(self.refused("person", "forget", "tom", "--reason", "asked", "--as", "tom"), NOT_SET_UP)

    def test_what_is_erased_is_gone_and_the_chain_holds(self):
        self.enter_two()
        before = self.json("store", "status")["head"]
        said = self.done("person", "forget", "tom", "--reason", "asked for it", "--as", "mara")
        self.assertEqual(re.sub(r"[0-9a-f]{64}", "HASH", said),
                         "Erased       name and contact of tom, and the salt of their hash\n"
                         "Stays        the code tom in records and trail, what it may do, and that and why its data was\n"
                         "             erased: trail entry 6\n"
                         "Beware       Backups and exports made before still hold them.\n"
                         "Head hash    HASH\n")
        self.assertFalse(self.json("store", "verify", "--head", before)["altered"])
        self.done("store", "export", "after.json")
        exported = (self.place / "after.json").read_text()
        for word in ("Beispiel", "tom@example.org"):
            self.assertNotIn(word, exported)
            if "://" not in self.where:
                for path in self.place.glob(self.where + "*"):
                    self.assertNotIn(word.encode(), path.read_bytes(), path)
        for word in ("Mara Muster", "asked for it", "personal data erased"):
            self.assertIn(word, exported)
        told = self.json("person", "show", "tom", "--as", "mara")
        self.assertEqual((told["personal_data"], told["role"]), (False, "fire"))

    def test_who_one_is_taken_for(self):
        settings = self.place / "settings/heatwork"
        settings.mkdir(parents=True)
        told = self.json("person", "whoami")
        self.assertEqual((told["known_by"], told["entered"], told["role"], told["may_set_up"]), ("log-in name", False, "release", True))
        self.enter_two()
        self.assertEqual(self.done("person", "whoami", "--as", "tom"),
                         "You are      tom, by --as\nYou may      fire: keeps firings, bench steps, checks and files; set up: no\n")
        self.assertEqual(self.done("person", "whoami", "--as", "eve"),
                         "You are      eve, by --as\nYou may      only read: you are not entered in this store; name a person who is\n")
        (settings / "settings.toml").write_text('format = 1\n\n[settings]\nperson = "mara"\n')
        self.assertEqual(self.done("person", "whoami"),
                         "You are      mara, by the setting\n"
                         "You may      release: also decides and releases deviations, locks and unlocks; set up: yes\n")
        self.done("person", "change", "tom", "--left", "--reason", "away")
        self.assertEqual(self.done("person", "whoami", "--as", "tom"), "You are      tom, by --as\nYou may      only read: you have left\n")

    def open(self, *more, who="tom"):
        return self.json("deviation", "open", "d-1", "--from", "hold at most 1 min", "--found", "held 2 min", "--as", who, *more)

    def test_a_deviation_is_opened_decided_and_released(self):
        self.enter_two()
        told = self.open("--at", "2026-11-25T10:00:00Z")
        self.assertEqual((told["decision"], told["found_at"], told["found_by"], told["released_by"]), ("open", "2026-11-25T10:00:00Z", "tom", ""))
        decide = ("deviation", "decide", "d-1", "--decision", "use as it is", "--reason", "gloss as wanted", "--trial", "tab stood")
        self.assertEqual(self.refused("deviation", "release", "d-1", "--as", "mara"),
                         'Nothing is decided of deviation d-1 yet, so nothing is released. Nothing was kept; the decision '
                         'comes first.\n')
        self.assertEqual(self.refused(*decide, "--as", "tom"), NOT_RELEASE)
        self.done(*decide, "--as", "mara")
        self.assertEqual(self.refused("deviation", "release", "d-1", "--as", "tom"), NOT_RELEASE)
        said = self.done("deviation", "release", "d-1", "--as", "mara")
        self.assertEqual(re.sub(r"[0-9a-f]{64}|(?<=mara )on .*", "…", said),
                         "Kept         deviation d-1, version 3\nLeft         hold at most 1 min\nFound        held 2 min\n"
                         "Decision     use as it is\nReason       gloss as wanted\nTrial        tab stood\nReleased     by mara …\nHead hash    …\n")
        for again in (("deviation", "release", "d-1"), ("deviation", "decide", "d-1", "--decision", "reject", "--reason", "x")):
            self.assertRegex(self.refused(*again, "--as", "mara"),
                             r"^Deviation d-1 was released by mara on \S+ \S+ \(\S+\), in version 3\. Nothing was kept\.\n$")
        self.assertFalse(self.json("store", "verify")["altered"])

    def test_what_a_deviation_cannot_be_is_said(self):
        self.enter_two()
        words = ("deviation", "open", "d-1", "--from", "a", "--found", "b", "--as", "tom")
        self.assertEqual(self.refused(*words, "--piece", "crown-61"), 'No piece "crown-61" is kept in this store. Nothing was kept.\n')
        self.assertEqual(self.refused(*words, "--firing", "f-9"), 'No firing "f-9" is kept in this store. Nothing was kept.\n')
        self.open()
        self.assertEqual(self.refused(*words), 'The deviation "d-1" stands already, in version 1. Nothing was kept.\n')
        self.assertEqual(self.refused("deviation", "decide", "d-1", "--decision", "use as is", "--reason", "x", "--as", "mara"),
                         'The decision is "use as is"; allowed are open, use as it is, fire again, make again, reject (did you mean "use as it '
                         'is"?). Nothing was kept.\n')
        self.assertEqual(self.refused("deviation", "release", "d-2", "--as", "mara"), 'No deviation "d-2" is kept. Nothing was kept.\n')

    def test_a_deviation_names_what_is_kept(self):
        subprocess.run([str(BINARY), "demo", str(self.place / "lab")], check=True, capture_output=True, env=self.environment)
        self.done("store", "take-in", "lab")
        piece, firing = (sorted((self.place / "lab").glob(f"{kind}*.toml"))[0] for kind in ("piece", "firing"))
        named = [re.search(r'^name = "([^"]+)"', path.read_text(), re.M).group(1) for path in (piece, firing)]
        self.assertEqual(self.open("--piece", named[0], "--firing", named[1])["version"], 1)


class OnAFile(Lab, Place):
    def setUp(self):
        super().setUp()
        self.where = "lab.sqlite"
        self.done("store", "create")


@unittest.skipUnless(SERVER, "no PostgreSQL was started for this test")
class OnAServer(Lab, Place):
    def setUp(self):
        super().setUp()
        database = re.sub(r"\W", "_", f"persons_{self.place.name.lower()}")
        subprocess.run(["psql", SERVER, "-qc", f'create database "{database}"'], check=True, capture_output=True)
        self.where = SERVER.rsplit("/", 1)[0] + "/" + database
        self.done("store", "create")


# The class of the other file is for use here, not to be run twice.
del Place

if __name__ == "__main__":
    house.main()
