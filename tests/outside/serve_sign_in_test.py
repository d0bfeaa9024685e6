"""Signing in at the page by the real binary: sessions and how they end, tokens, PINs, passwords said again, guessing slowed, nothing kept in the clear."""
import pathlib
import re
import sqlite3
import statistics
import sys
import time
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import visitor  # noqa: E402
from visitor import PASSWORDS, PINS, Visitor  # noqa: E402

SIGN_IN = "Sign in first: nobody is signed in on this device, or the session has ended."
AGAIN = 'To release or to set up, person "mara" must say the password again. Nothing was kept.'
TOKEN = "What changes something must carry the header Heatwork-Token that GET /api/session gives, and the cookie that came with it."


class SignIn(unittest.TestCase):
    maxDiff = None

    @classmethod
    def setUpClass(cls):
        cls.place = visitor.Place()
        cls.addClassCleanup(cls.place.close)
        _, cls.port = cls.place.serve()

    def refused(self, answer, status, sentence):
        self.assertEqual((answer[0], answer[1]["sentence"]), (status, sentence))

    def test_whoever_is_not_signed_in_is_told_so_and_nothing_else(self):
        stranger = Visitor(self.port)
        status, said, _ = stranger.ask("GET", "/api/session")
        self.assertEqual((status, said), (401, {"format": 1, "error": "sign_in_needed", "sentence": SIGN_IN, "sign_in_needed": True}))
        self.assertEqual(stranger.cookies, {})
        self.refused(stranger.ask("GET", "/api/today"), 401, SIGN_IN)
        self.refused(stranger.ask("GET", "/api/no-such-thing"), 401, SIGN_IN)
        status, _, answer = stranger.ask("GET", "/")
        self.assertEqual((status, answer.getheader("Location")), (303, "/sign-in/"))
        for asked, to in (("/firing/crown-16?piece=a%20b&x=1", "?to=%2Ffiring%2Fcrown-16%3Fpiece%3Da%2520b%26x%3D1"), ("//evil", ""), ("/index.html", ""), ("/" + "a" * 600, "")):
            status, _, answer = stranger.ask("GET", asked)
            self.assertEqual((status, answer.getheader("Location")), (303, "/sign-in/" + to), asked)

    def test_a_session_begins_and_ends(self):
        mara = Visitor(self.port)
        status, said, answer = mara.sign_in("mara")
        self.assertEqual((status, said["person"], said["known_by"], said["by"], said["role"], said["may_set_up"]), (200, "mara", "password", "password", "release", True))
        for cookie in (value for name, value in answer.getheaders() if name == "Set-Cookie"):
            self.assertRegex(cookie, r"^heatwork-(session|device)-\d+=[0-9a-f]{64}; Path=/; HttpOnly; SameSite=Strict(; Max-Age=2592000)?$")
        self.assertEqual(mara.ask("GET", "/api/today")[0], 200)
        held = dict(mara.cookies)
        self.refused(mara.ask("DELETE", "/api/session", token=False), 403, TOKEN)
        self.assertEqual(mara.ask("DELETE", "/api/session")[0], 200)
        mara.cookies = held
        self.refused(mara.ask("GET", "/api/today"), 401, SIGN_IN)

    def test_signing_in_anew_ends_the_session_before(self):
        tom = Visitor(self.port)
        tom.sign_in("tom")
        before = Visitor(self.port)
        before.cookies = dict(tom.cookies)
        tom.sign_in("tom")
        self.assertEqual(before.ask("GET", "/api/today")[0], 401)
        self.assertEqual(tom.ask("GET", "/api/today")[0], 200)

    def test_a_strange_page_changes_nothing(self):
        tom = Visitor(self.port)
        tom.sign_in("tom")
        own = f"http://127.0.0.1:{self.port}"
        for headers in ({"Origin": "http://example.net"}, {"Origin": "null"}, {"Origin": own.replace("http", "https")}, {"Sec_Fetch_Site": "cross-site"},
                        {"Sec_Fetch_Site": "same-site"}):
            self.refused(tom.ask("DELETE", "/api/session", **headers), 403, "What changes something must come from the page of this server itself, not from another one.")
        for host in ("pages.example", "127.0.0.1.pages.example", ""):
            self.refused(tom.ask("GET", "/api/today", Host=host), 403, 'This server does not answer to the name it was asked by; whoever starts it tells it its names.')
        self.assertEqual(tom.ask("GET", "/api/today", Host=f"LOCALHOST:{self.port}")[0], 200)
        self.refused(tom.ask("DELETE", "/api/session", Heatwork_Token="0" * 64), 403, TOKEN)
        other = Visitor(self.port)
        other.sign_in("eve")
        self.refused(tom.ask("DELETE", "/api/session", Heatwork_Token=other.token), 403, TOKEN)
        self.assertEqual(tom.ask("DELETE", "/api/session", Origin=own, Sec_Fetch_Site="same-origin")[0], 200)

    def test_a_form_of_a_page_cannot_sign_in(self):
        """Signing in carries no token: it must be JSON, which no form of another page sends."""
        status, said, _ = Visitor(self.port).ask("POST", "/api/session", b'{"person": "tom", "password": "fires every morning"}', Content_Type="text/plain")
        self.assertEqual((status, said["sentence"]), (400, "The body must be JSON, and the header Content-Type say application/json."))

    def test_a_pin_is_for_a_known_device_and_neither_releases_nor_sets_up(self):
        tablet = Visitor(self.port)
        self.refused(tablet.sign_in("tom", pin=PINS["tom"]), 403, "A PIN is for a device on which somebody has signed in by password before; sign in by password.")
        tablet.sign_in("eve")
        status, said, _ = tablet.sign_in("mara", pin=PINS["mara"])
        self.assertEqual((status, said["by"], said["known_by"], said["password_until"], said["role"]), (200, "PIN", "PIN", None, "release"))
        self.refused(tablet.ask("POST", "/api/persons", {"code": "new", "role": "look"}), 403, AGAIN)
        status, said, _ = tablet.ask("PUT", "/api/deviations/none/release", {})
        self.assertEqual((status, said["error"]), (403, "password_needed"), said)
        self.refused(tablet.ask("POST", "/api/session/password", {"password": "wrong wrong wrong"}), 403, 'The password of "mara" is wrong. Nothing was kept.')
        status, said, _ = tablet.ask("POST", "/api/session/password", {"password": PASSWORDS["mara"]})
        self.assertEqual((status, said["by"]), (200, "password"))
        self.assertRegex(said["password_until"], r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$")
        self.assertEqual(tablet.ask("POST", "/api/persons", {"code": "new", "role": "look"})[0], 200)

    def test_wrong_pins_make_the_device_a_stranger_again(self):
        tablet = Visitor(self.port)
        tablet.sign_in("eve")
        seen = set()
        for _ in range(40):
            status, said, _ = tablet.sign_in("tom", pin="9999")
            seen.add((status, said["error"]))
            if status == 403:
                break
            if status == 429:
                time.sleep(1.05)
        self.assertEqual(seen, {(401, "sign_in_needed"), (429, "too_often"), (403, "not_allowed")})

    def test_guessing_is_slowed_and_says_how_long(self):
        guesser, answers, begun = Visitor(self.port), [], time.monotonic()
        while len(answers) < 60 and time.monotonic() - begun < 8:
            answers.append(guesser.sign_in("ida", f"guess number {len(answers)}"))
        computed = [said for status, said, _ in answers if status == 401]
        self.assertLessEqual(len(computed), 6, "three at once, then after 1, 2, 4 s")
        waits = [said["sentence"] for status, said, _ in answers if status == 429]
        self.assertTrue(waits)
        for said in waits:
            self.assertRegex(said, r"^It was tried wrongly too often; try again in \d+ seconds?\.$")
        self.assertEqual(guesser.sign_in("ida")[0], 429, "the right one must wait too: else waiting would tell")

    def test_strangers_cannot_lock_somebody_out_of_his_own_device(self):
        own = Visitor(self.port)
        own.sign_in("tom")
        for _ in range(4):
            Visitor(self.port).sign_in("tom", "wrong wrong wrong")
        self.assertEqual(own.sign_in("tom")[0], 200)

    def test_an_unknown_person_is_refused_as_a_wrong_password_is_and_in_the_same_time(self):
        place = visitor.Place()
        self.addCleanup(place.close)
        _, port = place.serve()
        took = {"tom": [], "no-such-person": []}
        for person in list(took) * 2:
            begun = time.monotonic()
            status, said, _ = Visitor(port).sign_in(person, "wrong wrong wrong")
            took[person].append(time.monotonic() - begun)
            self.assertEqual((status, said["sentence"]), (401, "The person or the password is wrong."))
        known, unknown = (statistics.mean(times) for times in took.values())
        self.assertTrue(0.4 < known / unknown < 2.5, f"{known:.3f} s, {unknown:.3f} s")

    def test_sessions_end_when_the_password_changes_or_the_person_leaves(self):
        place = visitor.Place()
        self.addCleanup(place.close)
        _, port = place.serve()
        here, there, eve = Visitor(port), Visitor(port), Visitor(port)
        here.sign_in("tom")
        there.sign_in("tom")
        eve.sign_in("eve")
        self.refused(here.ask("PUT", "/api/persons/tom/password", {"password": "quite another one", "now": "wrong wrong wrong"}), 403,
                     'The password of "tom" is wrong. Nothing was kept.')
        self.assertEqual(here.ask("PUT", "/api/persons/tom/password", {"password": "quite another one", "now": PASSWORDS["tom"]})[0], 200)
        self.assertEqual(here.ask("GET", "/api/today")[0], 200, "who changed it stays")
        self.assertEqual(there.ask("GET", "/api/today")[0], 401)
        place.heatwork("person", "password", "tom", "--as", "mara", said="changed from outside")
        place.heatwork("person", "change", "eve", "--left", "--reason", "moved away", "--as", "mara")
        time.sleep(1.2)
        self.assertEqual(here.ask("GET", "/api/today")[0], 401, "changed by the command line")
        self.assertEqual(eve.ask("GET", "/api/today")[0], 401)
        self.assertEqual(eve.sign_in("eve")[0], 401)

    def test_rules_for_passwords_and_pins_are_said(self):
        mara = Visitor(self.port)
        mara.sign_in("mara")
        guessed = "is guessed first; choose another. Nothing was kept."
        for path, key, typed, sentence in (
                ("ida/password", "password", "short", "A password has at least 10 letters; this one has 5. Nothing was kept."),
                ("ida/password", "password", "ää" * 4, "A password has at least 10 letters; this one has 8. Nothing was kept."),
                ("ida/password", "password", "a" * 10, "A password of one letter throughout " + guessed),
                ("ida/password", "password", "x\n" * 10, "A password is one line of at most 200 bytes. Nothing was kept."),
                ("ida/pin", "pin", "123", "A PIN is 4 to 12 digits. Nothing was kept."),
                ("ida/pin", "pin", "12a4", "A PIN is 4 to 12 digits. Nothing was kept."),
                ("ida/pin", "pin", "4567", "A PIN of one digit throughout, or of digits in a row, " + guessed),
                ("ida/pin", "pin", "", '"pin" of the body is empty. Nothing was kept.'),
                ("nobody/pin", "pin", "4711", 'No person "nobody" is entered. Nothing was kept; enter the person first.')):
            status, said, _ = mara.ask("PUT", f"/api/persons/{path}", {key: typed})
            self.assertEqual((status // 100, said["sentence"]), (4, sentence))
        self.refused(mara.ask("PUT", "/api/persons/ida/pin", {"pim": "4711"}), 422, '"pim" is not a key of the body (did you mean "pin"?); its keys are pin, password, reason.')
        tom = Visitor(self.port)
        tom.sign_in("tom")
        self.refused(tom.ask("PUT", "/api/persons/mara/pin", {"pin": "4711"}), 403, 'Person "tom" may not set up; a person who may set up must do this.')

    def test_nothing_of_a_password_is_kept_or_told_in_the_clear(self):
        mara = Visitor(self.port)
        mara.sign_in("mara")
        self.place.heatwork("store", "export", str(self.place.root / "export.json"))
        secrets = [*PASSWORDS.values()]
        for path in self.place.root.iterdir():
            if path.is_file():
                for secret in secrets:
                    self.assertNotIn(secret.encode(), path.read_bytes(), path)
        rows = sqlite3.connect(self.place.store).execute("select body from personal").fetchall()
        self.assertTrue(all(re.search(r'"password": "\$argon2id\$v=19\$m=65536,t=2,p=1\$', row[0]) for row in rows), rows)
        for path in ("/api/persons/tom", "/api/documents/person/tom", "/api/trail", "/api/session"):
            self.assertNotIn("argon2", str(mara.ask("GET", path)[1]), path)
        log = self.place.log.read_text()
        for word in ("mara", "tom", "argon2", *secrets):
            self.assertNotIn(word, log)


class FirstPerson(unittest.TestCase):
    def test_a_lab_without_passwords_asks_for_none_on_its_own_machine(self):
        place = visitor.Place(persons=False)
        self.addCleanup(place.close)
        _, port = place.serve()
        here = Visitor(port)
        status, said, _ = here.ask("GET", "/api/session")
        self.assertEqual((status, said["by"], said["signed_in"], said["role"], said["may_set_up"]), (200, "this machine", False, "release", True))
        self.assertEqual(here.ask("POST", "/api/persons", {"code": "mara", "role": "release", "may_set_up": True})[0], 200)
        self.assertEqual(here.ask("PUT", "/api/persons/mara/password", {"password": PASSWORDS["mara"]})[0], 200)
        self.assertEqual(here.ask("GET", "/api/today")[0], 401, "from now on")
        self.assertEqual(here.sign_in("mara")[0], 200)
        self.assertEqual(here.ask("POST", "/api/persons", {"code": "tom", "role": "fire"})[0], 200)


if __name__ == "__main__":
    import house
    house.main()
