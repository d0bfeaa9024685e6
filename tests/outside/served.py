"""A server of the real binary on a free port, with a store and settings of its own, and requests to it."""
import http.client
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
import house  # noqa: E402

BINARY = pathlib.Path(os.environ.get("HEATWORK_BINARY", house.ROOT / "build/release/heatwork"))


class Answer:
    def __init__(self, status, type_, body):
        self.status, self.type, self.bytes = status, type_, body

    @property
    def json(self):
        return json.loads(self.bytes)


class Server:
    """Begun in a folder of its own; `with` ends it."""

    def __init__(self, *words, store=None):
        self.folder = tempfile.TemporaryDirectory(prefix="heatwork-served-")
        root = pathlib.Path(self.folder.name)
        self.store = store or str(root / "lab.sqlite")
        self.environment = {**os.environ, "HOME": str(root), "XDG_DATA_HOME": str(root / "data"), "XDG_CONFIG_HOME": str(root / "config"),
                            "TZ": "Europe/Berlin", "HEATWORK_STORE": self.store}
        self.words = words
        self.process = None
        self.token = ""
        self.cookie = ""

    def heatwork(self, *words):
        done = subprocess.run([BINARY, *words], env=self.environment, stdin=subprocess.DEVNULL, capture_output=True, text=True)
        return done.returncode, done.stdout, done.stderr

    def __enter__(self):
        self.log = open(pathlib.Path(self.folder.name) / "log", "w+")
        self.process = subprocess.Popen([BINARY, "serve", "--port", "0", *self.words], env=self.environment, stdin=subprocess.DEVNULL,
                                        stdout=subprocess.PIPE, stderr=self.log, text=True)
        for line in self.process.stdout:
            found = re.search(r"127\.0\.0\.1:(\d+)", line)
            if found:
                self.port = int(found.group(1))
                break
        else:
            self.log.seek(0)
            raise AssertionError("the server did not begin: " + self.log.read())
        state = self.ask("GET", "/api/session")
        self.token = state.json["token"]
        return self

    def __exit__(self, *_):
        self.process.terminate()
        self.process.wait(timeout=20)
        self.process.stdout.close()
        self.log.close()
        self.folder.cleanup()

    def ask(self, method, path, body=None, **headers):
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
        sent = {"Accept-Language": "en", **{name.replace("_", "-"): value for name, value in headers.items()}}
        if self.cookie:
            sent["Cookie"] = self.cookie
        if method not in ("GET", "HEAD"):
            sent.setdefault("Heatwork-Token", self.token)
        if body is not None and not isinstance(body, bytes):
            body = json.dumps(body).encode()
            sent.setdefault("Content-Type", "application/json")
        try:
            line.request(method, path, body, sent)
        except (BrokenPipeError, ConnectionResetError):
            pass  # refused before it was whole; the answer is there all the same
        heard = line.getresponse()
        if heard.getheader("Set-Cookie"):
            self.cookie = heard.getheader("Set-Cookie").split(";")[0]
        answer = Answer(heard.status, heard.getheader("Content-Type") or "", heard.read())
        line.close()
        return answer
