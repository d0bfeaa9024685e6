"""`heatwork serve` by the real binary: how it starts, what it says, what it refuses, how it stops, and that a kill loses nothing that was answered."""
import json
import os
import pathlib
import re
import shutil
import signal
import socket
import subprocess
import sys
import threading
import time
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import served  # noqa: E402
import visitor  # noqa: E402
from visitor import Visitor  # noqa: E402
import house  # noqa: E402

KILLS = 5


class Serve(unittest.TestCase):
    maxDiff = None

    def place(self, persons=False):
        made = visitor.Place(persons)
        self.addCleanup(made.close)
        return made

    def refused(self, place, *words):
        done = place.heatwork("serve", *words, fails=True)
        return done.returncode, done.stderr

    def test_it_says_where_it_is_and_ends_cleanly(self):
        for how in (signal.SIGTERM, signal.SIGINT):
            place = self.place()
            process, port = place.serve()
            self.assertEqual(place.said, f"Heatwork is at http://127.0.0.1:{port}/ for this machine alone; Ctrl-C ends it.\n")
            self.assertEqual(Visitor(port).ask("GET", "/health")[1], {"format": 1, "status": "running", "version": "0.1.0", "store": "reached"})
            idle = socket.create_connection(("127.0.0.1", port))
            begun = time.monotonic()
            process.send_signal(how)
            self.assertEqual(process.wait(timeout=10), 0)
            self.assertLess(time.monotonic() - begun, 2, "an open line does not hold it up")
            idle.close()
            self.assertEqual(process.stdout.read(), "")

    def test_its_log_is_one_object_a_line_and_names_nobody(self):
        place = self.place(persons=True)
        process, port = place.serve()
        mara = Visitor(port)
        mara.sign_in("mara")
        mara.ask("POST", "/api/documents/tray", {"name": "private-name", "set": {}, "reason": "secret reason"})
        mara.ask("GET", "/api/documents/tray/private-name?word=private-word")
        process.terminate()
        process.wait()
        lines = [line for line in place.log.read_text().splitlines() if line.startswith("{")]
        told = [json.loads(line) for line in lines]
        self.assertEqual([each["event"] for each in told], ["started", "answer", "answer", "answer", "stopped"])
        self.assertEqual([each.get("route") for each in told[1:4]], ["sign_in", "add_document", "show_document"])
        self.assertEqual({key for each in told[1:4] for key in each}, {"at", "event", "method", "route", "status", "ms", "bytes"})
        for word in ("mara", "private", "secret", "127.0.0.1", *visitor.PASSWORDS.values()):
            self.assertNotIn(word, "\n".join(lines))

    def test_bad_use_is_refused_in_one_sentence(self):
        place = self.place()
        shown = '; "heatwork serve --help" shows how it is used.\n'
        self.assertEqual(self.refused(place, "--port", "70000"), (2, "heatwork serve: --port is \"70000\", but must be a whole number from 0 to 65535" + shown))
        self.assertEqual(self.refused(place, "--json"), (2, "heatwork serve: --json goes with --routes" + shown))
        self.assertEqual(self.refused(place, "--certificate", "a.pem"), (2, "--certificate and --key are given together or not at all.\n"))
        self.assertEqual(self.refused(place, "--listen", "127.0.0.x"), (2, '"127.0.0.x" is no address; one is 127.0.0.1, another ::1.\n'))
        taken = socket.socket()
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = str(taken.getsockname()[1])
        self.assertEqual(self.refused(place, "--port", port),
                         (3, f"Cannot listen at 127.0.0.1 port {port}: another program has it; --port names another, 0 takes any that is free.\n"))
        taken.close()
        for address in ("0.0.0.0", "::", "192.0.2.1"):
            self.assertEqual(self.refused(place, "--listen", address),
                             (2, "Other machines are let in only where persons sign in, and nobody has a password yet: \"heatwork person add CODE --role ROLE\" enters one, "
                                 "\"heatwork person password CODE\" gives a password; then start again.\n"))

    def test_a_port_is_free_again_at_once(self):
        place = self.place()
        process, port = place.serve()
        Visitor(port).ask("GET", "/health")
        process.terminate()
        process.wait()
        _, again = place.serve("--port", str(port))
        self.assertEqual(again, port)

    def test_a_store_that_does_not_stand_is_made_and_one_that_goes_is_told(self):
        place = self.place()
        os.unlink(place.store)
        _, port = place.serve()
        self.assertTrue(os.path.exists(place.store))
        self.assertIn("Made", place.log.read_text())
        visiting = Visitor(port)
        self.assertEqual(visiting.ask("GET", "/api/today")[0], 200)
        os.rename(place.store, place.store + ".away")
        status, said, _ = visiting.ask("GET", "/api/today")
        self.assertEqual((status, said["error"]), (404, "no_store"))
        time.sleep(2.1)
        self.assertEqual(visiting.ask("GET", "/health")[1]["store"], "not reached")

    def test_a_store_of_an_older_format_is_copied_and_brought_along_at_the_start(self):
        place = self.place()
        shutil.copy(house.ROOT / "tests/records/formats/format-1.sqlite", place.store)
        _, port = place.serve()
        self.assertRegex(place.log.read_text(), r"Brought +the store \S+ to format 3; as it was it lies at\s+\S+before-format-3\S*")
        self.assertEqual(len(list(place.root.glob("*before-format-3*"))), 1)
        self.assertEqual(Visitor(port).ask("GET", "/api/today")[0], 200)

    def test_what_is_no_store_ends_it_at_the_start(self):
        place = self.place()
        pathlib.Path(place.store).write_bytes(b"no store at all" * 1000)
        self.assertEqual(self.refused(place, "--port", "0"), (2, f"The store {place.store} is no store of Heatwork: something else stands there.\n"))

    def test_settings_with_a_mistake_end_it_at_the_start(self):
        place = self.place()
        (place.root / "config/heatwork").mkdir(parents=True)
        (place.root / "config/heatwork/settings.toml").write_text("format = 1\n\n[settings]\nlanguage = \"latin\"\n")
        code, said = self.refused(place, "--port", "0")
        self.assertEqual(code, 2)
        self.assertIn("settings.toml:4:", said)

    def test_a_certificate_of_its_own_is_kept_and_made_anew_where_it_does_not_fit(self):
        place = self.place()
        process, port = place.serve("--tls")
        self.assertTrue(place.said.startswith(f"Heatwork is at https://127.0.0.1:{port}/"))
        said = place.log.read_text()
        self.assertRegex(said, r"^Certificate made in \S+/certificate\.pem, good until \d{4}-\d\d-\d\d; a browser that asks shows this SHA-256 fingerprint:\n  ([0-9A-F]{2}:){31}[0-9A-F]{2}\n")
        folder = place.root / "data/heatwork"
        self.assertEqual(os.stat(folder / "certificate-key.pem").st_mode & 0o777, 0o600)
        self.assertEqual(Visitor(port, tls=True).ask("GET", "/health")[0], 200)
        first = (folder / "certificate.pem").read_bytes()
        for words, same in (((), True), (("--name", "bench.example"), False), (("--name", "bench.example"), True)):
            process.terminate()
            process.wait()
            process, port = place.serve("--tls", *words)
            now = (folder / "certificate.pem").read_bytes()
            self.assertEqual(now == first, same, words)
            first = now
        self.assertEqual(Visitor(port, tls=True).ask("GET", "/health", Host="bench.example:1")[0], 200)
        given = place.heatwork("serve", "--port", "0", "--certificate", str(folder / "certificate.pem"), "--key", str(folder / "certificate.pem"), fails=True)
        self.assertEqual((given.returncode, given.stderr), (2, f"{folder}/certificate.pem is no key in PEM that can be read; it must stand there without a password.\n"))
        _, port = place.serve("--certificate", str(folder / "certificate.pem"), "--key", str(folder / "certificate-key.pem"))
        self.assertEqual(Visitor(port, tls=True).ask("GET", "/health")[0], 200)

    def test_a_broken_greeting_of_tls_harms_nobody(self):
        place = self.place()
        _, port = place.serve("--tls")
        for bytes_ in (b"GET / HTTP/1.1\r\n\r\n", b"\x16\x03\x01\xff\xff" + b"x" * 3000, b"\x16", b""):
            with socket.create_connection(("127.0.0.1", port)) as line:
                line.sendall(bytes_)
                line.shutdown(socket.SHUT_WR)
                line.recv(4096)
        self.assertEqual(Visitor(port, tls=True).ask("GET", "/health")[0], 200)

    def test_the_routes_are_printed_for_people_and_programs(self):
        place = self.place()
        lines = place.heatwork("serve", "--routes").stdout.splitlines()
        told = json.loads(place.heatwork("serve", "--routes", "--json").stdout)["routes"]
        self.assertEqual(len(lines), len(told))
        self.assertLessEqual(max(map(len, lines)), 100)
        self.assertEqual(lines[0].split(), ["GET", "/health", "health", "nothing"])
        for each in told:
            self.assertRegex(each["path"], r"^/(health|api/[a-z./{}-]+)$")

    def test_a_kill_loses_nothing_that_was_answered(self):
        place = self.place()
        answered = []
        for number in range(KILLS):
            process, port = place.serve()
            here = Visitor(port)
            here.ask("GET", "/api/session")

            def keep():
                for count in range(10_000):
                    name = f"tray-{number}-{count}"
                    try:
                        status, _, _ = here.ask("POST", "/api/documents/tray", {"name": name, "set": {"material": "alumina-fibre", "diameter": "69 mm", "thickness": "7.8 mm", "mass": "20 g"}})
                    except OSError:
                        return
                    except Exception:  # the line was cut in the middle of an answer
                        return
                    if status == 200:
                        answered.append(name)
            keeping = threading.Thread(target=keep)
            keeping.start()
            time.sleep(0.7 + 0.13 * number)
            process.kill()
            process.wait()
            keeping.join()
        self.assertGreater(len(answered), 5 * KILLS)
        pages = range(1, 2 + len(answered) // 1000)
        kept = {name for page in pages for name in re.findall(r'"name": "(tray-\d+-\d+)"', place.heatwork("tray", "list", "--page", str(page), "--json", fails=True).stdout)}
        self.assertEqual([name for name in answered if name not in kept], [])
        self.assertLessEqual(len(kept) - len(answered), KILLS, "one a kill may be kept and not have been answered")
        place.heatwork("store", "verify")
        print(f"{len(answered)} kept trays answered for, {KILLS} kills, none lost")


if __name__ == "__main__":
    house.main()
