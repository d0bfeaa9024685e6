"""What was called kept is there, whole, whatever is killed, cut off or full; and the same look finds a store that breaks its word."""
import contextlib
import os
import pathlib
import random
import tempfile
import time
import unittest

import crash
import house
import postgres

KILLS = 1000 if crash.LONG else 50
SERVER_KILLS = 1000 if crash.LONG else 10
CUTS = 1000 if crash.LONG else 50
FULL_DISKS = 20 if crash.LONG else 2
KILLS_A_STORE = 20


class OnStores(unittest.TestCase):
    """Fresh stores on either engine."""

    def setUp(self):
        self.dice = random.Random(20251)
        self.stack = contextlib.ExitStack()
        self.addCleanup(self.stack.close)
        self.folder = pathlib.Path(self.stack.enter_context(tempfile.TemporaryDirectory(prefix="heatwork-kill-")))
        self.folder.chmod(0o755)  # a server that runs as another user finds its way through
        self.number = 0
        self.kept = 0

    def server(self, **settings):
        try:
            return self.stack.enter_context(postgres.Server(**settings))
        except postgres.NoServer as why:
            self.skipTest(str(why))

    def fresh(self, server=None, *wrong):
        self.number += 1
        address = server.database(f"kill_{self.number}") if server else str(self.folder / f"{self.number}.sqlite")
        return crash.Trials(address, self.dice, *wrong)

    def kill_programs(self, kills, server=None, *wrong):
        """Wrongs of the first trial that has any, and after how many kills."""
        for done in range(kills):
            if done % KILLS_A_STORE == 0:
                trials = self.fresh(server, *wrong)
            load = trials.load()
            crash.random_pause(self.dice, load)
            code = load.kill()
            before = len(trials.kept)
            lines = trials.remember(load)
            self.kept += len(trials.kept) - before
            self.assertEqual(code, -9, f"the load ended by itself: {lines[-1:]}")
            # A store whose making was killed is none yet, and nothing was called kept in it: looking makes it.
            if wrongs := trials.wrongs():
                return wrongs, done + 1
        return [], kills


class Killed(OnStores):
    def test_the_program_on_sqlite(self):
        wrongs, kills = self.kill_programs(KILLS)
        self.assertEqual(wrongs, [], f"after {kills} kills")
        self.assertGreater(self.kept, KILLS, "the kills came too early to show anything")
        house.figure(self, "kills of the program on SQLite without loss", kills, f"kills, {self.kept} lines called kept")

    def test_the_program_on_postgresql(self):
        wrongs, kills = self.kill_programs(KILLS, self.server())
        self.assertEqual(wrongs, [], f"after {kills} kills")
        self.assertGreater(self.kept, KILLS, "the kills came too early to show anything")
        house.figure(self, "kills of the program on PostgreSQL without loss", kills, f"kills, {self.kept} lines called kept")

    def test_the_server(self):
        server = self.server()
        for done in range(SERVER_KILLS):
            if done % KILLS_A_STORE == 0:
                server.drop(f"kill_{self.number}")  # a server brings every database to the disk before it comes up again
                trials = self.fresh(server)
            load = trials.load()
            crash.random_pause(self.dice, load)
            server.kill()
            code = load.end()
            lines = trials.remember(load)
            self.assertEqual(code, 3, lines[-1:])
            server.start()
            self.assertEqual(trials.wrongs(), [], f"after {done + 1} kills")
            self.kept += len(load.lines())
        self.assertGreater(self.kept, SERVER_KILLS, "the kills came too early to show anything")
        house.figure(self, "kills of PostgreSQL's server without loss", SERVER_KILLS, f"kills, {self.kept} lines called kept")


class CutOff(OnStores):
    def test_the_connection(self):
        server = self.server()
        proxy = crash.Proxy(server.port)
        self.addCleanup(proxy.close)
        cuts = found_cut = 0
        while cuts < CUTS:
            trials = self.fresh(server)
            through = trials.address.replace(f":{server.port}/", f":{proxy.port}/")
            for _ in range(4):
                load = trials.load("--go-on", address=through)
                begun = time.monotonic()
                load.wait_open()
                longest = max(0.1, 2 * (time.monotonic() - begun))  # a slow machine needs longer to keep anything between two cuts
                for _ in range(5):
                    time.sleep(self.dice.uniform(0, longest))
                    proxy.cut()
                    cuts += 1
                load.kill()
                found_cut += sum(line.startswith("stopped ") for line in trials.remember(load))
                self.assertEqual(trials.wrongs(), [], f"after {cuts} cuts")
            self.kept += len(trials.kept)
        self.assertGreater(found_cut, cuts / 4, "the cuts were hardly felt")
        self.assertGreater(self.kept, cuts, "the cuts came too early to show anything")
        house.figure(self, "cuts of the connection to PostgreSQL without loss", cuts, f"cuts, {self.kept} lines called kept")


class Full(OnStores):
    def fill(self, engine):
        kept = 0
        for trial in range(FULL_DISKS):
            folder = self.folder / f"disk-{trial}"
            folder.mkdir()
            told = crash.apart("full", engine, str(folder), str(trial))
            if told is None:
                return None
            self.assertEqual(told["wrong"], [], told)
            self.assertGreater(told["full"], 0, f"the disk never filled up: {told['ends']}")
            kept += told["kept"]
        return kept

    def test_disk_of_sqlite(self):
        kept = self.fill("sqlite")
        if kept is None:
            kept = self.limited_files()
        self.assertGreater(kept, FULL_DISKS)

    def limited_files(self):
        """Where no disk may be mounted: files that may not grow."""
        for trial in range(FULL_DISKS):
            trials = self.fresh()
            for _ in range(2):
                load = trials.load(limit=self.dice.randrange(300_000, 2_000_000))
                self.assertEqual(load.end(), 3)
                trials.remember(load)
                self.assertEqual(trials.wrongs(), [])
            self.kept += len(trials.kept)
        return self.kept

    def test_files_that_may_not_grow(self):
        self.assertGreater(self.limited_files(), FULL_DISKS)

    def test_disk_of_postgresql(self):
        self.server()
        kept = self.fill("postgresql")
        if kept is None:
            self.skipTest("this machine does not let a disk be mounted in a name space")
        self.assertGreater(kept, FULL_DISKS)


class TheLookCanFail(OnStores):
    """The same kills on a load that breaks its word."""

    def found(self, wrong, server=None):
        wrongs, kills = self.kill_programs(200, server, wrong)
        self.assertNotEqual(wrongs, [], f"{kills} kills of a load with {wrong} and nothing was noticed")

    def test_without_a_kill_nothing_is_noticed(self):
        for wrong in ("--split", "--print-first"):
            trials = self.fresh(None, wrong)
            load = trials.load("--changes", "150")
            self.assertEqual(load.end(), 0)
            trials.remember(load)
            self.assertGreater(len(trials.kept), 150)
            self.assertEqual(trials.wrongs(), [], wrong)

    def test_documents_and_trail_kept_apart(self):
        self.found("--split")

    def test_called_kept_before_it_is(self):
        self.found("--print-first")

    def test_documents_and_trail_kept_apart_on_postgresql(self):
        self.found("--split", self.server())

    def test_called_kept_before_it_is_on_postgresql(self):
        self.found("--print-first", self.server())


if __name__ == "__main__":
    house.main()
