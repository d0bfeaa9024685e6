"""Many clients at once on loopback, reading and rehearsing: no error, how long they wait, and memory that does not grow.

In the suite 24 clients for 6 s; with HEATWORK_LONG=1 200 clients for 60 s, and its figures are kept."""
import http.client
import json
import os
import pathlib
import random
import threading
import time
import unittest

import served
import house  # noqa: E402

LONG = os.environ.get("HEATWORK_LONG") == "1"
CLIENTS, SECONDS = (200, 60) if LONG else (24, 6)
READS = ("/api/today", "/api/documents/program", "/api/documents/firing/metal-ceramic-firing", "/api/help/pores", "/api/store")


def resident_kB(process):
    for line in pathlib.Path(f"/proc/{process}/status").read_text().splitlines():
        if line.startswith("VmRSS:"):
            return int(line.split()[1])
    return 0


class Client(threading.Thread):
    """Reads four times as often as it rehearses, a breath between requests, on a line that stays open."""

    def __init__(self, server, number, until):
        super().__init__(daemon=True)
        self.server, self.until, self.dice = server, until, random.Random(number)
        self.number, self.waited, self.wrong, self.edit = number, [], [], 0

    def run(self):
        line = http.client.HTTPConnection("127.0.0.1", self.server.port, timeout=60)
        while time.monotonic() < self.until:
            rehearsing = self.dice.random() < 0.2
            began = time.monotonic()
            try:
                if rehearsing:
                    self.edit += 1
                    body = json.dumps({"firing": "metal-ceramic-firing", "edit": 0, "picture": True, "pane": {"width": 560},
                                       "set": {"program": {"heating[1].to": f"{self.dice.randint(930, 950)} °C"}}}).encode()
                    line.request("POST", "/api/rehearse", body, {"Content-Type": "application/json", "Heatwork-Token": self.server.token,
                                                                 "Cookie": self.server.cookie})
                else:
                    line.request("GET", self.dice.choice(READS), headers={"Cookie": self.server.cookie})
                heard = line.getresponse()
                heard.read()
                if heard.status != 200:
                    self.wrong.append(heard.status)
            except OSError as error:
                self.wrong.append(repr(error))
                line.close()
            self.waited.append((rehearsing, time.monotonic() - began))
            time.sleep(self.dice.uniform(0.2, 1.0) * (CLIENTS / 40))
        line.close()


def p(share, values):
    return sorted(values)[min(len(values) - 1, int(share * len(values)))] if values else 0


def keep(figures):
    """As the C++ proofs leave theirs, for docs/evidence/keep_figures.py."""
    units = {"ms": "ms", "over_middle": "of the middle third"}
    items = []
    for count, (name, value) in enumerate(figures.items(), 1):
        tail = "" if count == 1 else f"_{count}"
        unit = next((said for ending, said in units.items() if name.endswith(ending)), "")
        items += [f'<property name="figure{tail}" value="server load, {name.replace("_", " ")}"/>',
                  f'<property name="figure_value{tail}" value="{value}"/>', f'<property name="figure_unit{tail}" value="{unit}"/>']
    results = served.BINARY.parent / "results"
    results.mkdir(exist_ok=True)
    text = f'<testsuites><testsuite><testcase name="load"><properties>{"".join(items)}</properties></testcase></testsuite></testsuites>'
    (results / "server_load.xml").write_text(text, encoding="utf-8")


class Load(unittest.TestCase):
    def test_many_clients_read_and_rehearse(self):
        server = served.Server()
        code, _, said = server.heatwork("demo", "--store", server.store)
        self.assertEqual(code, 0, said)
        with server:
            until = time.monotonic() + SECONDS
            clients = [Client(server, i, until) for i in range(CLIENTS)]
            for client in clients:
                client.start()
            memory = []
            while time.monotonic() < until:
                memory.append(resident_kB(server.process.pid))
                time.sleep(0.2)
            for client in clients:
                client.join()
        self.assertEqual([each for client in clients for each in client.wrong], [])
        reads = [s for client in clients for rehearsing, s in client.waited if not rehearsing]
        rehearsals = [s for client in clients for rehearsing, s in client.waited if rehearsing]
        third = len(memory) // 3
        middle, last = sum(memory[third:2 * third]) / third, sum(memory[-third:]) / third
        figures = {"clients": CLIENTS, "seconds": SECONDS, "reads": len(reads), "rehearsals": len(rehearsals),
                   "reads_p99_ms": round(1000 * p(0.99, reads)), "rehearsals_p50_ms": round(1000 * p(0.5, rehearsals)),
                   "rehearsals_p99_ms": round(1000 * p(0.99, rehearsals)), "memory_last_over_middle": round(last / middle, 3)}
        print(json.dumps(figures))
        self.assertGreater(len(rehearsals), CLIENTS // 4)
        if LONG:
            keep(figures)
            self.assertLess(last / middle, 1.05)
            self.assertGreater(last / middle, 0.90)


if __name__ == "__main__":
    house.main()
