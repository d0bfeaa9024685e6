"""A server that is killed and begun again: sessions, known devices and the demo lab go on, nothing that opens them stands on the disk, and they end as before."""
import json
import pathlib
import signal
import socket
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import visitor  # noqa: E402
from visitor import PASSWORDS, PINS, Visitor  # noqa: E402
import house  # noqa: E402


def free_port():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return taken.getsockname()[1]


class Restart(unittest.TestCase):
    maxDiff = None

    def setUp(self):
        self.place = visitor.Place()
        self.addCleanup(self.place.close)
        self.port = free_port()
        self.process, _ = self.place.serve("--port", str(self.port))

    def again(self, how=signal.SIGKILL):
        self.process.send_signal(how)
        self.process.wait(20)
        self.process, _ = self.place.serve("--port", str(self.port))

    @property
    def file(self):
        return self.place.root / "data/heatwork" / f"sessions-{self.port}.json"

    def test_who_signed_in_goes_on_after_a_kill(self):
        mara, eve = Visitor(self.port), Visitor(self.port)
        self.assertEqual(mara.sign_in("mara")[0], 200)
        self.assertEqual(eve.sign_in("eve")[0], 200)
        self.assertEqual(eve.ask("DELETE", "/api/session")[0], 200)
        self.again()
        tray = {"name": "broad", "set": {"material": "alumina-fibre", "diameter": "6,9 cm", "thickness": "7.8 mm"}, "reason": "bought"}
        status, said, _ = mara.ask("POST", "/api/documents/tray", tray)
        self.assertEqual(status, 200, said)
        status, said, _ = mara.ask("GET", "/api/session")
        self.assertEqual((status, said["person"], said["by"]), (200, "mara", "password"))
        self.assertIsNotNone(said["password_until"])
        self.assertEqual(eve.ask("GET", "/api/today")[0], 401, "who signed out stays out")

    def test_a_known_device_takes_a_pin_and_wrong_ones_count_on(self):
        tablet = Visitor(self.port)
        self.assertEqual(tablet.sign_in("mara")[0], 200)
        self.again(signal.SIGTERM)
        self.assertEqual(tablet.sign_in("tom", pin=PINS["tom"])[0], 200)
        self.again()
        self.assertEqual(tablet.ask("GET", "/api/session")[1]["by"], "PIN")
        self.assertEqual(Visitor(self.port).sign_in("tom", pin=PINS["tom"])[0], 403, "a device that saw no password")
        for _ in range(3):
            self.assertEqual(tablet.sign_in("tom", pin="9999")[0], 401)
        self.again()
        for _ in range(2):
            self.assertEqual(tablet.sign_in("tom", pin="9999")[0], 401)
        self.assertEqual(tablet.sign_in("tom", pin=PINS["tom"])[0], 403, "five wrong ones in all: the device is forgotten")

    def test_what_stands_on_the_disk_opens_nothing(self):
        mara = Visitor(self.port)
        self.assertEqual(mara.sign_in("mara")[0], 200)
        self.assertEqual(self.file.stat().st_mode & 0o777, 0o600)
        kept = self.file.read_text()
        for secret in (*mara.cookies.values(), mara.token, *PASSWORDS.values()):
            self.assertNotIn(secret, kept)
        thief = Visitor(self.port)
        name = next(each for each in mara.cookies if "session" in each)
        thief.cookies[name] = json.loads(kept)["sessions"][0]["key"]
        self.assertEqual(thief.ask("GET", "/api/today")[0], 401)

    def test_a_changed_password_ends_a_session_over_a_restart(self):
        mara = Visitor(self.port)
        self.assertEqual(mara.sign_in("mara")[0], 200)
        self.process.kill()
        self.process.wait()
        self.place.heatwork("person", "password", "mara", "--as", "mara", said="another horse battery")
        self.process, _ = self.place.serve("--port", str(self.port))
        self.assertEqual(mara.ask("GET", "/api/today")[0], 401)

    def test_the_demo_lab_is_played_in_on(self):
        tom = Visitor(self.port)
        self.assertEqual(tom.sign_in("tom")[0], 200)
        self.assertEqual(tom.ask("PUT", "/api/session/demo", {"demo": True})[0], 200)
        self.again()
        status, said, _ = tom.ask("GET", "/api/session")
        self.assertEqual((status, said["demo"], said["lab"]["demo"]), (200, True, True))
        self.assertEqual(tom.ask("PUT", "/api/session/demo", {"demo": False})[0], 200)
        self.again()
        self.assertFalse(tom.ask("GET", "/api/session")[1]["demo"])

    def test_a_torn_file_asks_to_sign_in_and_no_more(self):
        mara = Visitor(self.port)
        self.assertEqual(mara.sign_in("mara")[0], 200)
        self.process.kill()
        self.process.wait()
        self.file.write_text(self.file.read_text()[:50])
        self.process, _ = self.place.serve("--port", str(self.port))
        self.assertEqual(mara.ask("GET", "/api/today")[0], 401)
        self.assertEqual(mara.sign_in("mara")[0], 200)


if __name__ == "__main__":
    house.main()
