"""Slow, silent, greedy and broken connections to the real server: each is cut in time and harms nobody else."""
import pathlib
import socket
import statistics
import sys
import threading
import time
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import visitor  # noqa: E402
from visitor import Visitor  # noqa: E402
import house  # noqa: E402

SLOW, OTHERS = 200, 20
CONNECTIONS = 512


def line_to(port):
    return socket.create_connection(("127.0.0.1", port), timeout=40)


def all_of(line):
    got = b""
    try:
        while piece := line.recv(65536):
            got += piece
    except ConnectionResetError:
        pass
    return got


def status_of(said):
    return int(said.split(b" ", 2)[1]) if said.startswith(b"HTTP/1.1 ") else None


class Limits(unittest.TestCase):
    maxDiff = None

    @classmethod
    def setUpClass(cls):
        cls.place = visitor.Place(persons=False)
        cls.addClassCleanup(cls.place.close)
        cls.process, cls.port = cls.place.serve()

    def sent(self, *pieces, pause=0.0):
        """What is answered to these bytes, and how long it took till the line was closed."""
        begun = time.monotonic()
        with line_to(self.port) as line:
            try:
                for piece in pieces:
                    line.sendall(piece)
                    time.sleep(pause)
            except (BrokenPipeError, ConnectionResetError):
                pass
            return all_of(line), time.monotonic() - begun

    def head(self, *lines, method="GET", path="/health"):
        return "\r\n".join([f"{method} {path} HTTP/1.1", f"Host: 127.0.0.1:{self.port}", *lines, "", ""]).encode()

    def test_200_slow_or_silent_connections_harm_no_other(self):
        stop, lines = threading.Event(), []

        def drip():
            while not stop.wait(2):
                for number, line in enumerate(lines):
                    try:
                        if number % 2:
                            line.send(b"X")
                    except OSError:  # cut in time: another one takes its place
                        line.close()
                        lines[number] = line_to(self.port)
        for number in range(SLOW):
            line = line_to(self.port)
            if number % 2:
                line.sendall(self.head()[:-2] + b"X-Drip: ")
            lines.append(line)
        dripping = threading.Thread(target=drip)
        dripping.start()
        times, failed = [], []

        def other():
            here = Visitor(self.port)
            for _ in range(40):
                begun = time.monotonic()
                status, _, _ = here.ask("GET", "/health")
                times.append(time.monotonic() - begun)
                if status != 200:
                    failed.append(status)
                time.sleep(0.1)
        others = [threading.Thread(target=other) for _ in range(OTHERS)]
        for one in others:
            one.start()
        for one in others:
            one.join()
        stop.set()
        dripping.join()
        for line in lines:
            line.close()
        self.assertEqual(failed, [])
        p99 = statistics.quantiles(times, n=100)[98]
        print(f"99 % of {len(times)} answers within {p99 * 1000:.0f} ms, with {SLOW} slow or silent connections open")
        house.figure(self, f"99 % of {len(times)} answers to {OTHERS} others, with {SLOW} slow or silent connections open", round(p99 * 1000), "ms")
        self.assertLess(p99, 0.5)

    def test_a_silent_line_is_closed(self):
        said, took = self.sent(b"")
        self.assertEqual(said, b"")
        self.assertTrue(8 < took < 14, took)

    def test_a_request_that_drips_is_cut_as_a_whole(self):
        said, took = self.sent(*[bytes([letter]) for letter in self.head()[:60]], pause=0.4)
        self.assertEqual(status_of(said), 408, said)
        self.assertIn(b"The request did not come whole in time.", said)
        self.assertLess(took, 30)
        body = self.head("Content-Type: application/json", "Content-Length: 40", method="POST", path="/api/session")
        said, took = self.sent(body, *[b"{"] * 30, pause=0.4)
        self.assertEqual(status_of(said), 408, said)
        self.assertLess(took, 20)

    def test_what_is_too_large_is_refused_before_it_is_read(self):
        for request, status, words in (
                (self.head(*[f"X-{n}: {'x' * 1000}" for n in range(20)]), 431, b"longer than this server reads"),
                (f"GET /{'a' * 20000} HTTP/1.1\r\n\r\n".encode(), 431, b"longer than this server reads"),
                (self.head("Content-Length: 1048577", method="POST", path="/api/session"), 413, b"carries 1048577 bytes; here at most 1048576 are read"),
                (self.head("Content-Length: 10485761", method="POST", path="/api/firings/x/photos"), 413, b"here at most 10485760 are read"),
                (self.head("Content-Length: 99999999999999999999", method="POST", path="/api/session"), 400, b"given once, as a whole number"),
                (self.head("Content-Length: -1", method="POST", path="/api/session"), 400, b"given once, as a whole number"),
                (self.head("Content-Length: 2", "Content-Length: 3", method="POST", path="/api/session"), 400, b"given once, as a whole number"),
                (self.head("Transfer-Encoding: chunked", method="POST", path="/api/session"), 411, b"not in chunks"),
                (self.head("Content-Encoding: gzip", "Content-Length: 2", method="POST", path="/api/session"), 415, b"without Content-Encoding"),
                (b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n", 400, b"not HTTP"), (b"SAY hello\r\n\r\n", 400, b"not HTTP"),
                (b"GET /health HTTP/9.9\r\n\r\n", 400, b"not HTTP")):
            said, took = self.sent(request)
            self.assertEqual(status_of(said), status, (request[:80], said[:300]))
            self.assertIn(words, said)
            self.assertIn(b"Content-Security-Policy: default-src 'none'", said)
            self.assertLess(took, 5, request[:80])

    def test_nothing_after_a_refused_body_is_taken_for_a_request(self):
        hidden = self.head()
        said, _ = self.sent(self.head("Content-Length: 2000000", method="POST", path="/api/session") + hidden)
        self.assertEqual(said.count(b"HTTP/1.1 "), 1)

    def test_several_requests_on_one_line_are_answered_in_order(self):
        said, _ = self.sent(self.head() + self.head(path="/api/none") + self.head("Connection: close"))
        self.assertEqual([part[:3] for part in said.split(b"HTTP/1.1 ")[1:]], [b"200", b"404", b"200"])

    def test_a_body_may_wait_for_leave(self):
        begun = time.monotonic()
        with line_to(self.port) as line:
            line.sendall(self.head("Content-Type: application/json", "Content-Length: 2", "Expect: 100-continue", method="POST", path="/api/session"))
            self.assertEqual(line.recv(4096), b"HTTP/1.1 100 Continue\r\n\r\n")
            line.sendall(b"{}")
            self.assertEqual(status_of(line.recv(65536)), 422)
        self.assertLess(time.monotonic() - begun, 3)

    def test_a_range_or_packing_that_is_asked_for_changes_nothing(self):
        whole = Visitor(self.port).ask("GET", "/health")
        part = Visitor(self.port).ask("GET", "/health", Range="bytes=0-3", Accept_Encoding="gzip, br")
        self.assertEqual((part[0], part[1], part[2].getheader("Content-Encoding")), (200, whole[1], None))

    def test_a_head_has_no_body(self):
        status, said, answer = Visitor(self.port).ask("HEAD", "/health")
        self.assertEqual((status, said), (200, b""))
        self.assertGreater(int(answer.getheader("Content-Length")), 50)


class Caps(unittest.TestCase):
    def test_one_connection_too_many_is_told_so_and_room_is_given_again(self):
        place = visitor.Place(persons=False)
        self.addCleanup(place.close)
        _, port = place.serve()
        lines = [line_to(port) for _ in range(CONNECTIONS)]
        time.sleep(0.5)
        with line_to(port) as one_more:
            said = all_of(one_more)
        self.assertEqual(status_of(said), 503, said)
        self.assertIn(b"Too many connections are open; try again in some seconds.", said)
        for line in lines:
            line.close()
        time.sleep(0.5)
        self.assertEqual(Visitor(port).ask("GET", "/health")[0], 200)


if __name__ == "__main__":
    house.main()
