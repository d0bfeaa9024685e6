"""The service under a real systemd: it starts with the package, is shut in as its unit says, comes back, ends in time, and leaves what is wrong alone."""
import os
import pathlib
import re
import subprocess
import sys
import time
import unittest

sys.path[:0] = [str(pathlib.Path(__file__).resolve().parents[1] / "house"), str(pathlib.Path(__file__).resolve().parent)]
import bare_root  # noqa: E402
import house  # noqa: E402

BUILD = pathlib.Path(os.environ.get("HEATWORK_BUILD", house.ROOT / "build/release")).resolve()
LONG = os.environ.get("HEATWORK_LONG")
HEALTH = (r"exec 3<>/dev/tcp/127.0.0.1/8110; printf 'GET /health HTTP/1.1\r\nHost: 127.0.0.1:8110\r\nConnection: close\r\n\r\n' >&3; cat <&3")
AS_SERVICE = "runuser -u heatwork -- env XDG_DATA_HOME=/var/lib XDG_CONFIG_HOME=/etc LC_ALL=C.UTF-8"
ADDRESS = "192.168.1.20"
# From another place of the same network: the page sends to the log-in, a wrong password is refused, the right one is let in.
SIGN_IN = """
import http.client, json, ssl, sys
context = ssl.create_default_context()
context.check_hostname, context.verify_mode = False, ssl.CERT_NONE
def ask(method, path, body=None):
    line = http.client.HTTPSConnection(sys.argv[1], 8110, context=context, timeout=20)
    line.request(method, path, json.dumps(body) if body else None, {"Content-Type": "application/json"} if body else {})
    answer = line.getresponse()
    return answer.status, answer.read()
print(ask("GET", "/")[0])
print(ask("POST", "/api/session", {"person": "mara", "password": "not the password"})[0])
status, said = ask("POST", "/api/session", {"person": "mara", "password": "maple leaf syrup"})
print(status, json.loads(said)["person"])
"""
# Of 0 (nothing may be done) to 10 (everything may): the network and its own store are what the server must have, a person's home what a backup must.
MOST_EXPOSED = {"heatwork.service": 1.5, "heatwork-back-up@mara.service": 2}


@unittest.skipUnless(LONG, "a Debian with a systemd of its own takes some minutes: full counts only")
class UnderSystemd(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        if reason := bare_root.lacking_to_boot():
            raise unittest.SkipTest(reason)
        cls.lab = cls.enterClassContext(bare_root.BootedRoot())
        place = cls.lab.root / "lab"
        place.mkdir()
        package = bare_root.package_of(BUILD, place)
        fetched = cls.lab.run(f"apt-get update && apt-get install -y --no-install-recommends --download-only ./{package.name}")
        assert fetched.returncode == 0, fetched.stderr
        cls.package = package.name
        cls.lab.boot()
        cls.does(f"cd /lab && apt-get install -y --no-install-recommends ./{cls.package}")

    @classmethod
    def does(cls, command, code=0):
        done = cls.lab.inside(command)
        assert done.returncode == code, f"{command}: {done.returncode}\n{done.stdout[-3000:]}{done.stderr[-3000:]}"
        return done.stdout.strip()

    def shown(self, name, unit="heatwork.service"):
        return self.does(f"systemctl show --value -p {name} {unit}")

    def wait_for(self, holds, what):
        for _ in range(200):
            if holds():
                return
            time.sleep(0.1)
        self.fail(f"{what}\n{self.does('journalctl -u heatwork.service --no-pager | tail -n 30')}")

    def answers(self):
        return '"running"' in self.lab.inside(HEALTH).stdout

    def settings(self, words):
        (self.lab.root / "etc/heatwork/settings.toml").write_text(words)
        self.addCleanup(self.does, "rm -f /etc/heatwork/settings.toml; systemctl reset-failed heatwork.service; systemctl restart heatwork.service")

    def test_it_runs_after_the_install_and_starts_with_the_machine(self):
        self.wait_for(self.answers, "nothing answers after the install")
        self.assertEqual(self.does("systemctl is-active heatwork.service; systemctl is-enabled heatwork.service"), "active\nenabled")
        self.assertEqual(self.does("systemctl --failed --plain --no-legend"), "")

    def test_it_is_shut_in_as_the_unit_says(self):
        self.wait_for(self.answers, "nothing answers")
        process = self.shown("MainPID")
        status = dict(re.findall(r"^(\w+):\s*(.*)$", self.does(f"cat /proc/{process}/status"), re.M))
        self.assertEqual((status["NoNewPrivs"], status["Seccomp"], status["CapEff"], status["CapBnd"]), ("1", "2", "0" * 16, "0" * 16))
        self.assertEqual(self.does(f"stat -c %U /proc/{process}"), "heatwork")
        seen = f"nsenter --target {process} --mount "
        for place in ("/etc/heatwork/x", "/usr/bin/x", "/var/x", "/lab/x"):
            self.assertIn("Read-only file system", self.lab.inside(f"{seen} touch {place}").stderr, place)
        for place in ("home", "root"):
            self.does(f"touch /{place}/seen-by-its-owner")
            self.assertEqual(self.does(f"{seen} ls -A /{place}"), "", "what is at home there is not seen")
        self.does(f"{seen} touch /var/lib/heatwork/x && {seen} rm /var/lib/heatwork/x")
        self.assertEqual(self.does("stat -c '%U %a' /var/lib/heatwork"), "heatwork 750")

    def test_both_services_are_little_exposed(self):
        for unit, most in MOST_EXPOSED.items():
            said = self.does(f"systemd-analyze security --no-pager {unit}")
            level = float(re.search(r"Overall exposure level for \S+: ([\d.]+)", said).group(1))
            house.figure(self, f"exposure of {unit} as systemd counts it, from 0 to 10", level, "of 10")
            self.assertGreater(said.count("\n"), 50)
            self.assertLessEqual(level, most, unit)

    def test_killed_it_comes_back(self):
        self.wait_for(self.answers, "nothing answers")
        before = self.shown("MainPID")
        self.does(f"kill -9 {before}")
        start = time.monotonic()
        self.wait_for(lambda: self.shown("MainPID") not in ("0", before) and self.answers(), "it did not come back")
        house.figure(self, "service answers again after it was killed", round(time.monotonic() - start, 1), "s")

    def test_stopped_it_ends_by_itself(self):
        self.wait_for(self.answers, "nothing answers")
        start = time.monotonic()
        self.does("systemctl stop heatwork.service")
        self.assertLess(time.monotonic() - start, 10)
        self.assertEqual((self.shown("ActiveState"), self.shown("Result"), self.shown("ExecMainStatus")), ("inactive", "success", "0"))
        self.does("systemctl start heatwork.service")
        self.wait_for(self.answers, "it did not start again")

    def test_a_mistake_in_its_settings_is_told_and_not_tried_again(self):
        self.settings('format = 1\n\n[settings]\nlanguage = "latin"\n')
        self.lab.inside("systemctl restart heatwork.service")
        self.wait_for(lambda: self.shown("ActiveState") == "failed", "it did not fail")
        time.sleep(6)
        self.assertEqual((self.shown("ActiveState"), self.shown("ExecMainStatus"), self.shown("NRestarts")), ("failed", "2", "0"))
        self.assertIn('/etc/heatwork/settings.toml:4:12: language is "latin"', self.does("journalctl -u heatwork.service --no-pager"))

    def test_it_keeps_its_own_store(self):
        self.does(f"test -e /var/lib/heatwork/lab.sqlite || {AS_SERVICE} heatwork store create")
        self.does("systemctl restart heatwork.service")
        self.wait_for(self.answers, "nothing answers")
        self.does(f"{AS_SERVICE} heatwork store verify")

    def test_the_network_of_the_lab_is_let_in_as_the_page_says(self):
        """The steps of docs/how-to/open-the-page.md: persons as the service's user, a drop-in with the address, log-in over TLS."""
        self.does(f"ip address add {ADDRESS}/24 dev lo")
        (self.lab.root / "etc/systemd/system/heatwork.service.d").mkdir(parents=True)
        (self.lab.root / "etc/systemd/system/heatwork.service.d/override.conf").write_text(f'[Service]\nEnvironment="HEATWORK_SERVE=--listen {ADDRESS}"\n')
        self.addCleanup(self.does, "rm -r /etc/systemd/system/heatwork.service.d && systemctl daemon-reload && systemctl restart heatwork.service")
        self.lab.inside("systemctl daemon-reload && systemctl restart heatwork.service")
        self.wait_for(lambda: self.shown("ActiveState") == "failed", "nobody has a password, and it is let out all the same")
        self.does(f"{AS_SERVICE} heatwork person add mara --role release --may-set-up")
        self.does(f"echo 'maple leaf syrup' | {AS_SERVICE} heatwork person password mara --as mara")
        self.does("systemctl restart heatwork.service")
        self.wait_for(lambda: f"https://{ADDRESS}:8110/" in self.does("journalctl -u heatwork.service --no-pager"), "it does not say where it is")
        self.assertIn("/var/lib/heatwork/certificate.pem", self.does("journalctl -u heatwork.service --no-pager"))
        self.assertEqual(self.does("stat -c %U /var/lib/heatwork/certificate.pem"), "heatwork")
        signed = subprocess.run(["nsenter", "--net", "--target", str(self.lab.first), sys.executable, "-c", SIGN_IN, ADDRESS], capture_output=True, text=True)
        self.assertEqual((signed.returncode, signed.stdout.split()), (0, ["303", "401", "200", "mara"]), signed.stderr)

    def test_the_timer_of_a_person_backs_up(self):
        self.does("getent passwd mara || useradd --create-home mara")
        home = self.does("getent passwd mara | cut -d: -f6")
        settings = self.lab.root / home.lstrip("/") / ".config/heatwork/settings.toml"
        settings.parent.mkdir(parents=True)
        settings.write_text(f'format = 1\n\n[settings]\nbackups = "{home}/copies"\nbackups_every = "24 h"\n')
        self.does(f"mkdir {home}/copies && chown -R mara: {home} && runuser -u mara -- env HOME={home} LC_ALL=C.UTF-8 heatwork store create")
        self.does("systemctl enable --now heatwork-back-up@mara.timer")
        self.assertIn("heatwork-back-up@mara.timer", self.does("systemctl list-timers --no-pager --no-legend"))
        self.does("systemctl start heatwork-back-up@mara.service || { sleep 1; journalctl -u heatwork-back-up@mara.service --no-pager >&2; false; }")
        self.assertEqual(self.shown("Result", "heatwork-back-up@mara.service"), "success")
        self.assertEqual(self.does(f"ls {home}/copies | grep -c 'sqlite$'"), "1")
        self.does("systemctl start heatwork-back-up@mara.service")
        self.assertEqual(self.does(f"ls {home}/copies | grep -c 'sqlite$'"), "1", "none is due")

    def test_removed_it_ends_and_the_records_stay(self):
        self.wait_for(self.answers, "nothing answers")
        self.does("apt-get remove -y heatwork")
        self.assertEqual(self.lab.inside("systemctl is-active heatwork.service").stdout.strip(), "inactive")
        self.assertFalse(self.answers())
        self.does("test -d /var/lib/heatwork")
        self.does(f"cd /lab && apt-get install -y --no-install-recommends ./{self.package}")
        self.wait_for(self.answers, "it did not start after it was installed again")


if __name__ == "__main__":
    house.main()
