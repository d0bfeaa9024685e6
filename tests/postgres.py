"""A PostgreSQL server of Debian's package for proofs: own folder, loopback only, as an unprivileged user, stopped and removed whatever happens.

    with postgres.Server() as server:    # server.url; server.kill() and server.start() for proofs that kill it
        ...
    tests/postgres.py run COMMAND ...    # the command finds the server in HEATWORK_TEST_POSTGRES

Should this process be killed, a watcher at the other end of a pipe stops the server and removes its folder."""
import os
import pathlib
import pwd
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time

PROGRAMS = pathlib.Path("/usr/lib/postgresql/15/bin")
VARIABLE = "HEATWORK_TEST_POSTGRES"
SETTINGS = {"max_connections": "260", "unix_socket_permissions": "0700", "logging_collector": "off", "fsync": "on", "synchronous_commit": "on",
            "full_page_writes": "on", "log_min_messages": "warning", "max_wal_size": "4GB"}


class NoServer(RuntimeError):
    """Why no server can be started here, in one sentence."""


def unprivileged():
    """Name, user and group the server runs as; None: the caller himself, who is not root."""
    if os.geteuid() != 0:
        return None
    for name in ("postgres", "nobody"):
        try:
            entry = pwd.getpwnam(name)
            return name, entry.pw_uid, entry.pw_gid
        except KeyError:
            continue
    raise NoServer("PostgreSQL does not run as root, and there is neither a user postgres nor a user nobody.")


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def children_of(parent):
    found = []
    for entry in pathlib.Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                if int((entry / "stat").read_text().rsplit(")", 1)[1].split()[1]) == parent:
                    found.append(int(entry.name))
            except (OSError, IndexError, ValueError):
                continue
    return found


def send(process, which):
    try:
        os.kill(process, which)
    except ProcessLookupError:
        pass


def kill_family(parent):
    """The server and every process of it; stopped first, so that it makes no new one meanwhile."""
    send(parent, signal.SIGSTOP)
    family = [parent, *children_of(parent)]
    for process in family:
        send(process, signal.SIGKILL)
    return family


def wait_gone(processes, seconds=20):
    until = time.monotonic() + seconds
    while any(running(process) for process in processes):
        if time.monotonic() > until:
            raise NoServer("A killed server of PostgreSQL did not end.")
        time.sleep(0.005)


def running(process):
    try:
        return pathlib.Path(f"/proc/{process}/stat").read_text().rsplit(")", 1)[1].split()[0] not in ("Z", "X")
    except OSError:
        return False


class Server:
    """settings: further lines of postgresql.conf, for instance fsync="off" for a proof that only looks at answers."""

    def __init__(self, folder=None, **settings):
        self.settings = {**SETTINGS, **settings}
        self.where = folder
        self.folder = self.process = self.watcher = None
        self.port = 0

    def __enter__(self):
        try:
            self.make()
            self.start()
        except BaseException:
            self.remove()
            raise
        return self

    def __exit__(self, *_):
        self.remove()

    @property
    def url(self):
        return f"postgresql://heatwork@127.0.0.1:{self.port}/postgres"

    def database(self, name):
        """URL of an empty database made now."""
        done = self.run("createdb", "-h", "127.0.0.1", "-p", str(self.port), "-U", "heatwork", name)
        if done.returncode != 0:
            raise NoServer(f"No database could be made: {done.stderr.strip()}")
        return self.url.rsplit("/", 1)[0] + "/" + name

    def drop(self, name):
        self.run("dropdb", "-h", "127.0.0.1", "-p", str(self.port), "-U", "heatwork", "--if-exists", "--force", name)

    def as_user(self):
        user = unprivileged()
        return {"user": user[1], "group": user[2], "extra_groups": []} if user else {}

    def run(self, program, *arguments):
        return subprocess.run([str(PROGRAMS / program), *arguments], stdin=subprocess.DEVNULL, capture_output=True, text=True, cwd=self.folder,
                              env={**os.environ, "LC_ALL": "C", "LANGUAGE": "C"}, **self.as_user())

    def make(self):
        if not (PROGRAMS / "initdb").is_file():
            raise NoServer("PostgreSQL 15 is not installed (Debian's package postgresql-15).")
        user = unprivileged()
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="heatwork-postgres-", dir=self.where))
        if user:
            os.chown(self.folder, user[1], user[2])
        self.watcher = subprocess.Popen([sys.executable, os.path.abspath(__file__), "watch", str(self.folder)], stdin=subprocess.PIPE,
                                        stdout=subprocess.DEVNULL, start_new_session=True)
        data = self.folder / "data"
        try:
            self.run("initdb", "--version")
        except PermissionError:
            raise NoServer(f"PostgreSQL does not run as root, and nobody but root gets to {PROGRAMS} here.") from None
        done = self.run("initdb", "--pgdata", str(data), "--username", "heatwork", "--auth", "reject", "--encoding", "UTF8", "--locale", "C.UTF-8",
                        "--no-sync")
        if done.returncode != 0:
            raise NoServer(f"initdb failed: {(done.stderr or done.stdout).strip()[-400:]}")
        (data / "pg_hba.conf").write_text("local all heatwork trust\nhost all heatwork 127.0.0.1/32 trust\n")
        with open(data / "postgresql.auto.conf", "a") as file:
            file.writelines(f"{key} = '{value}'\n" for key, value in self.settings.items())

    def start(self):
        """Starts it, or starts it again after kill(); returns when it answers."""
        for _ in range(5):
            self.port = self.port or free_port()
            with open(self.folder / "log", "ab") as log:
                self.process = subprocess.Popen(
                    [str(PROGRAMS / "postgres"), "-D", str(self.folder / "data"), "-c", "listen_addresses=127.0.0.1", "-c", f"port={self.port}",
                     "-c", f"unix_socket_directories={self.folder}"], stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=log,
                    start_new_session=True, cwd=self.folder, env={**os.environ, "LC_ALL": "C"}, **self.as_user())
            if self.answers():
                return
            wait_gone(kill_family(self.process.pid))
            self.process.wait()
            self.port = 0
        raise NoServer(f"PostgreSQL did not start: {(self.folder / 'log').read_text(errors='replace').strip()[-400:]}")

    def answers(self):
        """Whether it came up; its own status line says so without a program to ask for it."""
        until = time.monotonic() + 120
        while time.monotonic() < until and self.process.poll() is None:
            try:
                lines = (self.folder / "data/postmaster.pid").read_text().splitlines()
                if len(lines) > 7 and int(lines[0]) == self.process.pid and lines[7].strip() == "ready":
                    return True
            except (OSError, ValueError):
                pass
            time.sleep(0.01)
        return False

    def kill(self):
        """Server and all its processes end at once, as in a crash of the machine whose disk cache survives."""
        family = kill_family(self.process.pid)
        self.process.wait()
        wait_gone(family)
        self.process = None

    def remove(self):
        if self.process:
            stop(self.process.pid)
            self.process.wait()
            self.process = None
        if self.folder:
            shutil.rmtree(self.folder, ignore_errors=True)
            self.folder = None
        if self.watcher:
            self.watcher.stdin.close()
            self.watcher.wait()
            self.watcher = None


def stop(process):
    """An orderly end where it comes soon, else the other one."""
    send(process, signal.SIGINT)
    until = time.monotonic() + 15
    while running(process) and time.monotonic() < until:
        time.sleep(0.01)
        try:  # its parent may be this very process
            os.waitpid(process, os.WNOHANG)
        except ChildProcessError:
            pass
    if running(process):
        kill_family(process)


def watch(folder):
    """Waits until whoever started the server is gone, then clears up after him."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    sys.stdin.buffer.read()
    try:
        process = int((folder / "data/postmaster.pid").read_text().splitlines()[0])
        if str(folder).encode() in pathlib.Path(f"/proc/{process}/cmdline").read_bytes():
            stop(process)
    except (OSError, ValueError, IndexError):
        pass
    shutil.rmtree(folder, ignore_errors=True)


def main():
    if len(sys.argv) == 3 and sys.argv[1] == "watch":
        watch(pathlib.Path(sys.argv[2]))
    elif len(sys.argv) > 2 and sys.argv[1] == "run":
        signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))
        try:
            with Server() as server:
                sys.exit(subprocess.run(sys.argv[2:], env={**os.environ, VARIABLE: server.url}).returncode)
        except NoServer as why:
            print(why, file=sys.stderr)
            sys.exit(3)
    else:
        print(__doc__)
        sys.exit(2)


if __name__ == "__main__":
    main()
