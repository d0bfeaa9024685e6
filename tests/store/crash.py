"""Stores under load that are killed, cut off and run out of disk, and the look at what is left: shared by the proofs of this folder.

    crash.py full ENGINE FOLDER SEED    # in a name space of its own: a small disk is mounted at FOLDER and filled; prints what was wrong"""
import ctypes
import fcntl
import json
import os
import pathlib
import random
import select
import signal
import socket
import subprocess
import sys
import threading
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "tests"), str(ROOT / "tests/house")]
import postgres  # noqa: E402

LONG = os.environ.get("HEATWORK_LONG") == "1"
PIPE_SIZE = 1031  # F_SETPIPE_SZ, which Python 3.9 does not name


def program():
    named = os.environ.get("HEATWORK_STORE_LOAD")
    if not named:
        raise RuntimeError("HEATWORK_STORE_LOAD names no program; ctest sets it.")
    return named


class Load:
    """The loading program, and what it has said until now."""

    def __init__(self, address, *options, limit=None):
        def limited():
            if limit:
                import resource
                signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
                resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
        self.process = subprocess.Popen([program(), address, *options], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                                        preexec_fn=limited if limit else None)
        fcntl.fcntl(self.process.stdout, PIPE_SIZE, 1 << 20)
        self.said = b""

    def take(self, seconds):
        """Reads what comes within so long; False at the end."""
        if select.select([self.process.stdout], [], [], seconds)[0]:
            more = os.read(self.process.stdout.fileno(), 1 << 16)
            self.said += more
            return bool(more)
        return True

    def wait_open(self, seconds=60):
        until = time.monotonic() + seconds
        while b"open\n" not in self.said and time.monotonic() < until and self.take(0.5):
            pass

    def end(self, seconds=120):
        """Waits for its end; lines that were not finished do not count."""
        until = time.monotonic() + seconds
        while self.take(0.2):
            if time.monotonic() > until:
                self.process.kill()
                raise AssertionError(f"the load did not end within {seconds} s")
        code = self.process.wait()
        self.process.stdout.close()
        return code

    def kill(self):
        self.process.send_signal(signal.SIGKILL)
        return self.end()

    def lines(self):
        return self.said.decode().split("\n")[:-1]


class Trials:
    """One store that is hurt again and again; every line that was ever called kept must be true of it."""

    def __init__(self, address, dice, *wrong):
        self.address, self.dice, self.wrong = address, dice, wrong
        self.kept, self.runs = [], 0

    def load(self, *options, address=None, limit=None):
        self.runs += 1
        return Load(address or self.address, "--seed", str(self.dice.randrange(1 << 30)), "--run", str(self.runs), *self.wrong, *options, limit=limit)

    def remember(self, load):
        self.kept += [line for line in load.lines() if line.startswith("kept ")]
        return load.lines()

    def wrongs(self):
        """What is not as it was said, a sentence each."""
        done = subprocess.run([program(), self.address, "--check"], input="\n".join(self.kept) + "\n", capture_output=True, text=True, timeout=600)
        lines = done.stdout.split("\n")
        if done.returncode == 0:
            return []
        return [line for line in lines if line and not line.startswith("looked at")] or [f"the check ended with {done.returncode}: {done.stderr}"]


def random_pause(dice, load):
    """Some moments while it opens (and, at first, makes) the store, most while it works."""
    if dice.random() < 0.3:
        time.sleep(dice.uniform(0, 0.1))
    else:
        load.wait_open()
        time.sleep(dice.uniform(0, 0.08))


class Proxy:
    """Passes bytes on to a server until it is told to cut, in the middle of whatever is under way."""

    def __init__(self, port):
        self.to = port
        self.listener = socket.create_server(("127.0.0.1", 0))
        self.port = self.listener.getsockname()[1]
        self.open, self.lock = [], threading.Lock()
        threading.Thread(target=self.accept, daemon=True).start()

    def accept(self):
        while True:
            try:
                near = self.listener.accept()[0]
                far = socket.create_connection(("127.0.0.1", self.to))
            except OSError:
                return
            with self.lock:
                self.open += [near, far]
            for pair in ((near, far), (far, near)):
                threading.Thread(target=self.pump, args=pair, daemon=True).start()

    @staticmethod
    def pump(source, target):
        try:
            while data := source.recv(1 << 16):
                target.sendall(data)
        except OSError:
            pass
        for end in (source, target):
            try:
                end.shutdown(socket.SHUT_RDWR)
            except OSError:
                pass
            end.close()

    def cut(self):
        with self.lock:
            ends, self.open = self.open, []
        for end in ends:
            try:
                end.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, b"\1\0\0\0\0\0\0\0")
                end.shutdown(socket.SHUT_RDWR)
                end.close()
            except OSError:
                pass

    def close(self):
        self.listener.close()
        self.cut()


def mount_small_disk(folder, size):
    """Only in a name space of its own."""
    libc = ctypes.CDLL(None, use_errno=True)
    if libc.mount(b"none", b"/", None, 0x44000, None) != 0 or libc.mount(b"tmpfs", str(folder).encode(), b"tmpfs", 0, f"size={size},mode=755".encode()) != 0:
        raise OSError(ctypes.get_errno(), "a small disk cannot be mounted")


def apart(*arguments):
    """Runs this file in a name space where a disk may be mounted; what it printed as JSON. None: the machine does not allow it."""
    unshare = ["unshare", "--mount"] if os.geteuid() == 0 else ["unshare", "--user", "--mount", "--map-current-user", "--keep-caps"]
    done = subprocess.run([*unshare, sys.executable, os.path.abspath(__file__), *arguments], stdin=subprocess.DEVNULL, capture_output=True, text=True)
    if done.returncode == 77 or "unshare" in done.stderr:
        return None
    if done.returncode != 0:
        raise AssertionError(f"the proof on a full disk ended with {done.returncode}: {done.stderr[-2000:]}")
    return json.loads(done.stdout)


def fill_sqlite(folder, dice):
    """A disk that fills up, is given a little room, and fills up again."""
    told = {"wrong": [], "full": 0, "kept": 0, "ends": []}
    ballast = folder / "ballast"
    ballast.write_bytes(b"x" * dice.randrange(200_000, 1_500_000))
    trials = Trials(str(folder / "lab.sqlite"), dice)
    for _ in range(3):
        load = trials.load()
        code = load.end()
        lines = trials.remember(load)
        told["ends"].append(f"{code} {lines[-1] if lines else ''}")
        told["full"] += code == 3 and "disk is full" in lines[-1]
        told["wrong"] += trials.wrongs()
        size = ballast.stat().st_size
        os.truncate(ballast, size // 2)
    told["kept"] = len(trials.kept)
    return told


def fill_postgresql(folder, dice):
    told = {"wrong": [], "full": 0, "kept": 0, "ends": []}
    with postgres.Server(folder, max_wal_size="32MB", min_wal_size="32MB", wal_init_zero="off", wal_recycle="off") as server:
        ballast = folder / "ballast"
        used = os.statvfs(folder)
        room = used.f_bavail * used.f_frsize
        ballast.write_bytes(b"x" * (room - dice.randrange(17_000_000, 26_000_000)))
        trials = Trials(server.database("full"), dice)
        for _ in range(2):
            load = trials.load()
            code = load.end()
            lines = trials.remember(load)
            told["ends"].append(f"{code} {lines[-1] if lines else ''}")
            told["full"] += code == 3
            # The server may have stopped itself where not even its log could grow; with room again it must come back.
            os.truncate(ballast, max(0, ballast.stat().st_size - 20_000_000))
            time.sleep(0.5)
            if server.process.poll() is not None:
                server.start()
            told["wrong"] += trials.wrongs()
        told["kept"] = len(trials.kept)
    return told


def main():
    folder = pathlib.Path(sys.argv[3])
    engine, seed = sys.argv[2], int(sys.argv[4])
    try:
        mount_small_disk(folder, 4_000_000 if engine == "sqlite" else 200_000_000)
    except OSError:
        sys.exit(77)
    dice = random.Random(seed)
    print(json.dumps(fill_sqlite(folder, dice) if engine == "sqlite" else fill_postgresql(folder, dice)))


if __name__ == "__main__":
    main()
