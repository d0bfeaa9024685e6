"""A bare Debian 12 in a folder, with a systemd of its own running in it where that is wanted, and the package of Heatwork: what proofs of
installing need."""
import os
import pathlib
import re
import shutil
import signal
import subprocess
import tempfile
import time
import unittest

BARE = {"HOME": "/lab", "PATH": "/usr/sbin:/usr/bin:/sbin:/bin", "LC_ALL": "C.UTF-8", "DEBIAN_FRONTEND": "noninteractive"}


def apt_source():
    """The place this machine takes its own packages from."""
    words = "".join(path.read_text() for path in [pathlib.Path("/etc/apt/sources.list"), *sorted(pathlib.Path("/etc/apt/sources.list.d").glob("*"))] if path.is_file())
    found = re.findall(r"\bhttps?:" + r"//[^\s]*/debian/?(?=\s)", words)
    return found[0] if found else ""


class BareRoot:
    """A Debian 12 with nothing but its package manager and what is included, gone at the end."""

    include = ()

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
        included = [f"--include={','.join(self.include)}"] if self.include else []
        subprocess.run(["debootstrap", "--variant=minbase", "--no-check-gpg", *included, "bookworm", self.root, *([source] if source else [])], check=True, capture_output=True)
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

    def unmount(self):
        for place in reversed(self.mounted):
            subprocess.run(["umount", "-l", place], check=True)
        self.mounted = []

    def __exit__(self, *_):
        self.unmount()
        shutil.rmtree(self.root, ignore_errors=True)

    def run(self, command):
        kept = {key: value for key, value in os.environ.items() if re.fullmatch(r"(?i)(https?|no)_proxy|SSL_CERT_\w+", key)}
        return subprocess.run(["chroot", self.root, "bash", "-c", f"cd /lab && {command}"], env=BARE | kept, stdin=subprocess.DEVNULL, capture_output=True, text=True)


# Run as the first process of its own spaces: the root with fresh mounts, then systemd in its place. What it may not alter of the machine is read only.
BOOT = r"""
set -e
root=$1
mount --make-rprivate /
mount --bind "$root" "$root"
mount -t proc proc "$root/proc"
mount --bind "$root/proc/sys" "$root/proc/sys"
mount -o remount,ro,bind "$root/proc/sys"
mount -t sysfs -o ro sysfs "$root/sys"
mount -t cgroup2 cgroup2 "$root/sys/fs/cgroup"
mount -t tmpfs -o mode=755 tmpfs "$root/run"
mount -t tmpfs -o mode=755 tmpfs "$root/dev"
for device in null zero full random urandom tty; do
  touch "$root/dev/$device"
  mount --bind "/dev/$device" "$root/dev/$device"
done
mkdir "$root/dev/pts" "$root/dev/shm" "$root/.outside"
mount -t devpts -o newinstance,ptmxmode=0666 devpts "$root/dev/pts"
ln -s pts/ptmx "$root/dev/ptmx"
mount -t tmpfs -o mode=1777 tmpfs "$root/dev/shm"
cd "$root"
pivot_root . .outside
umount -l /.outside
exec env -i container=proof PATH=/usr/sbin:/usr/bin:/sbin:/bin /lib/systemd/systemd
"""
SPACES = ("--mount", "--pid", "--uts", "--ipc", "--cgroup", "--net", "--fork", "--kill-child")


def control_groups():
    """Where this machine has its control groups of version 2; None where it has none."""
    for line in pathlib.Path("/proc/mounts").read_text().splitlines():
        _, place, kind, *_ = line.split()
        if kind == "cgroup2":
            return pathlib.Path(place)
    return None


class BootedRoot(BareRoot):
    """A bare root in which a real systemd runs as the first process, with processes, mounts, network and control groups of its own."""

    include = ("systemd", "systemd-sysv", "dbus", "iproute2")

    def __init__(self):
        super().__init__()
        self.process = self.group = self.first = None

    def boot(self):
        """Starts it; what has to come over the network comes before."""
        self.unmount()
        self.group = control_groups() / f"heatwork-proof-{os.getpid()}"
        self.group.mkdir()
        (self.root / "etc/machine-id").write_text("")
        into_group = f'echo $$ > "{self.group}/cgroup.procs" && exec unshare {" ".join(SPACES)} bash -c "$1" boot "$2"'
        self.process = subprocess.Popen(["bash", "-c", into_group, "boot", BOOT, str(self.root)], stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
        for _ in range(600):
            children = pathlib.Path(f"/proc/{self.process.pid}/task/{self.process.pid}/children")
            self.first = int((children.read_text().split() or [0])[0]) if children.exists() else 0
            if self.process.poll() is not None:
                raise RuntimeError(f"systemd ended: {self.process.stderr.read()}")
            if self.first and pathlib.Path(f"/proc/{self.first}/comm").read_text().strip() == "systemd" and self.inside("systemctl is-system-running").stdout.strip() in ("running", "degraded"):
                self.inside("ip link set lo up")
                return
            time.sleep(0.1)
        raise RuntimeError(f"systemd did not come up: {self.inside('systemctl list-jobs; journalctl -b --no-pager | tail -n 20').stdout}")

    def inside(self, command):
        """Runs a command beside that systemd."""
        return subprocess.run(["nsenter", "--all", "--target", str(self.first), "bash", "-c", command], env=BARE, stdin=subprocess.DEVNULL, capture_output=True, text=True)

    def __exit__(self, *_):
        if self.process is not None and self.process.poll() is None:
            if self.first:
                os.kill(self.first, signal.SIGKILL)
            self.process.wait()
        if self.group is not None:
            for group in sorted(self.group.rglob("*/"), reverse=True):
                group.rmdir()
            self.group.rmdir()
        super().__exit__()


def lacking_to_boot():
    """Why no systemd can be started in a root here; empty where it can."""
    if lacking():
        return lacking()
    if control_groups() is None:
        return "this machine has no control groups of version 2"
    tried = subprocess.run(["unshare", *SPACES, "mount", "--make-rprivate", "/"], capture_output=True, text=True)
    return "" if tried.returncode == 0 else f"no spaces of its own can be made: {tried.stderr.strip()}"


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
