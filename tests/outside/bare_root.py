"""A bare Debian 12 in a folder, and the package of Heatwork: what proofs of installing need."""
import os
import pathlib
import re
import shutil
import subprocess
import tempfile
import unittest


def apt_source():
    """The place this machine takes its own packages from."""
    words = "".join(path.read_text() for path in [pathlib.Path("/etc/apt/sources.list"), *sorted(pathlib.Path("/etc/apt/sources.list.d").glob("*"))] if path.is_file())
    found = re.findall(r"\bhttps?:" + r"//[^\s]*/debian/?(?=\s)", words)
    return found[0] if found else ""


class BareRoot:
    """A Debian 12 with nothing but its package manager, gone at the end."""

    def __init__(self):
        self.root = pathlib.Path(tempfile.mkdtemp(prefix="heatwork-bare-"))
        self.mounted = []

    def __enter__(self):
        try:
            self.make()
        except BaseException:
            self.__exit__()
            raise
        return self

    def make(self):
        source = apt_source()
        self.root.chmod(0o755)  # other users than root live in it as well
        subprocess.run(["debootstrap", "--variant=minbase", "--no-check-gpg", "bookworm", self.root, *([source] if source else [])], check=True, capture_output=True)
        for name in ("etc/resolv.conf", "etc/ssl/certs", "usr/local/share/ca-certificates", "etc/apt/apt.conf.d"):
            if pathlib.Path("/", name).is_dir():
                shutil.copytree(pathlib.Path("/", name), self.root / name, dirs_exist_ok=True)
            elif pathlib.Path("/", name).is_file():
                shutil.copy(pathlib.Path("/", name), self.root / name)
        if source:
            (self.root / "etc/apt/sources.list").write_text(f"deb {source} bookworm main\n")
        for name in ("proc", "sys", "dev"):
            subprocess.run(["mount", "--bind", f"/{name}", self.root / name], check=True)
            self.mounted.append(self.root / name)

    def __exit__(self, *_):
        for place in reversed(self.mounted):
            subprocess.run(["umount", "-l", place], check=True)
        self.mounted = []
        shutil.rmtree(self.root, ignore_errors=True)

    def run(self, command):
        kept = {key: value for key, value in os.environ.items() if re.fullmatch(r"(?i)(https?|no)_proxy|SSL_CERT_\w+", key)}
        bare = {"HOME": "/lab", "PATH": "/usr/sbin:/usr/bin:/sbin:/bin", "LC_ALL": "C.UTF-8", "DEBIAN_FRONTEND": "noninteractive", **kept}
        return subprocess.run(["chroot", self.root, "bash", "-c", f"cd /lab && {command}"], env=bare, stdin=subprocess.DEVNULL, capture_output=True, text=True)


def lacking():
    """Why no such root can be made here; empty where it can."""
    if os.geteuid() != 0:
        return "a root of its own needs the rights of root"
    missing = [program for program in ("debootstrap", "cpack", "dpkg-shlibdeps") if not shutil.which(program)]
    return f"{missing[0]} is not installed" if missing else ""


def package_of(build, folder, version=None):
    """The package that a build folder gives, made in `folder`; under another version where one is given."""
    words = ["cpack", "--config", build / "CPackConfig.cmake", "-B", folder, *(["-R", version] if version else [])]
    packed = subprocess.run(words, cwd=folder, capture_output=True, text=True)
    if packed.returncode != 0:
        raise RuntimeError(packed.stdout + packed.stderr)
    return next(pathlib.Path(folder).glob("heatwork_*.deb"))


class Proof(unittest.TestCase):
    """What needs such a root, with a folder of its own; skipped with the reason where none can be made."""

    def setUp(self):
        if lacking():
            self.skipTest(lacking())
        place = tempfile.TemporaryDirectory()
        self.addCleanup(place.cleanup)
        self.place = pathlib.Path(place.name)
