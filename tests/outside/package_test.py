"""The package on a bare Debian: it installs, serves the page, upgrades over the version before with a backup first, and goes away without the records."""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import time
import unittest

sys.path[:0] = [str(pathlib.Path(__file__).resolve().parents[1] / "house"), str(pathlib.Path(__file__).resolve().parent)]
import bare_root  # noqa: E402
import house  # noqa: E402

BINARY = pathlib.Path(os.environ.get("HEATWORK_BINARY", house.ROOT / "build/release/heatwork")).resolve()
BUILD = pathlib.Path(os.environ.get("HEATWORK_BUILD", BINARY.parent)).resolve()
LONG = os.environ.get("HEATWORK_LONG")
SCRIPTS = sorted((house.ROOT / "packages/debian").iterdir())
FORMATS = house.ROOT / "tests/records/formats"
AS_SERVICE = "runuser -u heatwork -- env XDG_DATA_HOME=/var/lib XDG_CONFIG_HOME=/etc LC_ALL=C.UTF-8"
PORT = 8489


def after(words, what):
    return re.search(what + r"\s+([0-9a-f]{64})", words).group(1)


class Scripts(unittest.TestCase):
    """What the package runs as root is read by a shell first; the rest needs a machine that may be spoiled."""

    def test_a_plain_shell_reads_each(self):
        self.assertEqual([script.name for script in SCRIPTS], ["postinst", "postrm", "preinst", "prerm"])
        for script in SCRIPTS:
            done = subprocess.run(["sh", "-n", script], capture_output=True, text=True)
            self.assertEqual((done.returncode, done.stderr), (0, ""), script.name)

    def test_none_deletes_what_a_lab_kept(self):
        for script in SCRIPTS:
            self.assertNotRegex(script.read_text(), r"\brm\b|\bunlink\b|--delete|userdel", script.name)


@unittest.skipUnless(LONG, "a bare Debian takes some minutes: full counts only")
class OnABareDebian(bare_root.Proof):
    def package(self, name, version):
        folder = self.place / name
        folder.mkdir()
        return bare_root.package_of(BUILD, folder, version)

    def does(self, bare, command, code=0):
        done = bare.run(command)
        self.assertEqual(done.returncode, code, f"{command}\n{done.stdout[-3000:]}{done.stderr[-3000:]}")
        return done.stdout + done.stderr

    def serves(self, bare):
        """Starts the server as the service would, asks for health, page and manual, and ends it."""
        asked = (f"({AS_SERVICE} heatwork serve --port {PORT} >/lab/serve.out 2>&1 & echo $! >/lab/serve.pid); "
                 f"for i in $(seq 100); do bash -c ': </dev/tcp/127.0.0.1/{PORT}' 2>/dev/null && break; sleep 0.1; done; "
                 f"for path in /health /; do exec 3<>/dev/tcp/127.0.0.1/{PORT}; printf 'GET %s HTTP/1.1\\r\\nHost: 127.0.0.1:{PORT}\\r\\nConnection: close\\r\\n\\r\\n' $path >&3; cat <&3 | tr -d '\\0'; exec 3>&-; done; "
                 "kill $(cat /lab/serve.pid); sleep 1; cat /lab/serve.out >&2")
        words = self.does(bare, asked)
        self.assertIn('"status": "running"', words.replace('":"', '": "'))
        self.assertIn("<!doctype html>", words.lower())
        return words

    def test_installs_serves_upgrades_and_leaves_the_records(self):
        before, now = self.package("before", "0.0.9"), self.package("now", None)
        with bare_root.BareRoot() as bare:
            (bare.root / "lab").mkdir()
            for deb in (before, now):
                shutil.copy(deb, bare.root / "lab")
            self.does(bare, f"apt-get update && apt-get install -y --no-install-recommends --download-only ./{before.name}")
            start = time.monotonic()
            self.does(bare, f"apt-get install -y --no-install-recommends ./{before.name}")
            house.figure(self, "package installed on a bare Debian, downloads not counted", round(time.monotonic() - start, 1), "s")
            self.does(bare, f"{AS_SERVICE} heatwork store create")
            self.serves(bare)
            # A store of an older format stands there, as a lab would have it that upgrades late.
            shutil.copy(FORMATS / "format-1.sqlite", bare.root / "var/lib/heatwork/lab.sqlite")
            self.does(bare, "chown heatwork:heatwork /var/lib/heatwork/lab.sqlite")
            start = time.monotonic()
            words = self.does(bare, f"apt-get install -y --no-install-recommends ./{now.name}")
            house.figure(self, "package upgraded over the version before, with its backup", round(time.monotonic() - start, 1), "s")
            export_hash = after(words, "Export hash")
            self.assertEqual(self.does(bare, "ls /var/lib/heatwork/backups | grep -c 'sqlite$'").strip(), "1")
            self.serves(bare)
            self.does(bare, f"{AS_SERVICE} heatwork store verify")
            self.does(bare, f"{AS_SERVICE} heatwork store restore /var/lib/heatwork/backups --store /var/lib/heatwork/tried.sqlite | grep {export_hash}")
            self.does(bare, "test -s /usr/share/bash-completion/completions/heatwork && gzip -t /usr/share/man/man1/heatwork.1.gz && test -f /usr/lib/systemd/system/heatwork.service")
            self.does(bare, "apt-get remove -y heatwork && ! command -v heatwork")
            purged = self.does(bare, "apt-get purge -y heatwork")
            self.assertIn("/var/lib/heatwork stays as it is", purged)
            self.does(bare, "test -s /var/lib/heatwork/lab.sqlite && ls /var/lib/heatwork/backups/*.sqlite")

    def test_without_a_good_backup_nothing_is_upgraded(self):
        before, now = self.package("before", "0.0.9"), self.package("now", None)
        with bare_root.BareRoot() as bare:
            (bare.root / "lab").mkdir()
            for deb in (before, now):
                shutil.copy(deb, bare.root / "lab")
            self.does(bare, f"apt-get update && apt-get install -y --no-install-recommends ./{before.name}")
            (bare.root / "var/lib/heatwork/lab.sqlite").write_bytes(b"no store at all" * 1000)
            self.does(bare, "chown heatwork:heatwork /var/lib/heatwork/lab.sqlite")
            words = self.does(bare, f"apt-get install -y --no-install-recommends ./{now.name}", code=100)
            self.assertIn("is no store of Heatwork", words)
            self.assertIn("could not be backed up, so nothing was upgraded", words)
            self.assertIn("0.0.9", self.does(bare, "dpkg-query -W heatwork"))


if __name__ == "__main__":
    house.main()
