"""Servers of the real binary with persons who sign in, and visitors with cookies and tokens, as browsers are, from this machine or its address in a network."""
import http.client
import json
import os
import pathlib
import re
import ssl
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import served  # noqa: E402

PASSWORDS = {"mara": "correct horse battery", "ida": "only for setting up", "tom": "fires every morning", "eve": "looks and looks again"}
PINS = {"mara": "4711", "tom": "2580"}


def second_address():
    """An address of this machine that is not loopback; empty where it has none."""
    try:
        said = subprocess.run(["hostname", "-I"], capture_output=True, text=True, check=True).stdout.split()
    except (OSError, subprocess.CalledProcessError):
        return ""
    return next((address for address in said if "." in address), "")


class Place:
    """A store with four persons: mara releases and sets up, ida looks and sets up, tom fires, eve looks; and servers of it."""

    def __init__(self, persons=True):
        self.folder = tempfile.TemporaryDirectory(prefix="heatwork-visited-")
        self.root = pathlib.Path(self.folder.name)
        self.store = str(self.root / "lab.sqlite")
        self.environment = {**os.environ, "HOME": str(self.root), "XDG_DATA_HOME": str(self.root / "data"), "XDG_CONFIG_HOME": str(self.root / "config"),
                            "TZ": "Europe/Berlin", "HEATWORK_STORE": self.store}
        self.running = []
        self.heatwork("store", "create")
        if persons:
            self.heatwork("person", "add", "mara", "--role", "release", "--may-set-up")
            for code, role, more in (("ida", "look", ["--may-set-up"]), ("tom", "fire", []), ("eve", "look", [])):
                self.heatwork("person", "add", code, "--role", role, *more, "--as", "mara")
            for code, password in PASSWORDS.items():
                self.heatwork("person", "password", code, "--as", "mara", said=password)
            for code, pin in PINS.items():
                self.heatwork("person", "pin", code, "--as", "mara", said=pin)

    def heatwork(self, *words, said=None, fails=False):
        done = subprocess.run([served.BINARY, *words], env=self.environment, input=said, stdin=None if said else subprocess.DEVNULL, capture_output=True, text=True)
        assert fails or done.returncode == 0, done.stderr
        return done

    def serve(self, *words):
        """(process, port); its log stands in self.log."""
        self.log = self.root / f"log-{len(self.running)}"
        process = subprocess.Popen([served.BINARY, "serve", *(() if "--port" in words else ("--port", "0")), *words], env=self.environment, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                                   stderr=open(self.log, "w"), text=True)
        self.running.append(process)
        for line in process.stdout:
            found = re.search(r"https?://\S*:(\d+)/", line)
            if found:
                self.said = line
                return process, int(found.group(1))
        raise AssertionError("the server did not begin: " + self.log.read_text())

    def close(self):
        for process in self.running:
            if process.poll() is None:
                process.kill()
            process.wait()
            process.stdout.close()
        self.folder.cleanup()


class Visitor:
    def __init__(self, port, host="127.0.0.1", tls=False):
        self.port, self.host, self.tls = port, host, tls
        self.cookies, self.token, self.headers = {}, None, {}

    def line(self, timeout=30):
        if not self.tls:
            return http.client.HTTPConnection(self.host, self.port, timeout=timeout)
        trusting = ssl.create_default_context()
        trusting.check_hostname, trusting.verify_mode = False, ssl.CERT_NONE
        return http.client.HTTPSConnection(self.host, self.port, timeout=timeout, context=trusting)

    def ask(self, method, path, body=None, token=True, **headers):
        """Status, what was said (JSON where it is), headers of the answer."""
        sent = {"Accept-Language": "en"}
        if self.cookies:
            sent["Cookie"] = "; ".join(f"{name}={value}" for name, value in self.cookies.items())
        if token and self.token and method not in ("GET", "HEAD"):
            sent["Heatwork-Token"] = self.token
        if body is not None and not isinstance(body, bytes):
            body = json.dumps(body).encode()
            sent["Content-Type"] = "application/json"
        sent.update({name.replace("_", "-"): value for name, value in headers.items()})
        line = self.line()
        line.request(method, path, body, sent)
        answer = line.getresponse()
        said = answer.read()
        line.close()
        for name, value in answer.getheaders():
            if name == "Set-Cookie":
                cookie, content = value.split(";")[0].split("=", 1)
                self.cookies[cookie] = content
        if said and (answer.getheader("Content-Type") or "").startswith("application/json"):
            said = json.loads(said)
            if "token" in said:
                self.token = said["token"]
        return answer.status, said, answer

    def sign_in(self, person, password=None, pin=None):
        secret = {"pin": pin} if pin else {"password": password or PASSWORDS[person]}
        return self.ask("POST", "/api/session", {"person": person, **secret}, token=False)
