"""The page on backing up and restoring, followed to the letter: on an empty home, and in full counts on a bare Debian from package and backup alone."""
import contextlib
import os
import pathlib
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time
import unittest

sys.path[:0] = [str(pathlib.Path(__file__).resolve().parents[1] / "house"), str(pathlib.Path(__file__).resolve().parent)]
import bare_root  # noqa: E402
import house  # noqa: E402

BINARY = pathlib.Path(os.environ.get("HEATWORK_BINARY", house.ROOT / "build/release/heatwork")).resolve()
BUILD = pathlib.Path(os.environ.get("HEATWORK_BUILD", BINARY.parent)).resolve()
LONG = os.environ.get("HEATWORK_LONG")
PAGE = "docs/how-to/back-up-and-restore.md"
FILLED_FIRINGS = 20_000
OLDEST = house.ROOT / "tests/records/formats/format-1.sqlite"
MOST_SECONDS = 600


def commands(section, language):
    """The commands of a section of the page, in their order."""
    text = house.text(PAGE).split(f"\n## {section}\n", 1)[1].split("\n## ", 1)[0]
    return [line for block in re.findall(rf"^```{language}\n(.*?)^```$", text, re.M | re.S) for line in block.strip().split("\n")]


def newest_entry(path):
    with contextlib.closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as store:
        return store.execute("select hash from trail order by sequence desc limit 1").fetchone()[0]


def after(words, what):
    """The hash that stands after a word."""
    return re.search(what + r"\s+([0-9a-f]{64})", words).group(1)


class Home:
    """An empty home in which `heatwork` is a command."""

    def __init__(self, folder):
        self.place = pathlib.Path(folder)
        self.place.mkdir(exist_ok=True)
        self.environment = {key: value for key, value in os.environ.items() if not key.startswith(("HEATWORK_STORE", "XDG_"))}
        self.environment |= {"HOME": str(self.place), "PATH": f"{BINARY.parent}:{os.environ['PATH']}", "LC_ALL": "C.UTF-8", "NO_COLOR": "1"}

    def run(self, command):
        return subprocess.run(["bash", "-c", command], cwd=self.place, env=self.environment, stdin=subprocess.DEVNULL, capture_output=True, text=True)


def filled_home(folder, test, first="heatwork store create"):
    """A home with a store, with backups made as the page says, and the export hash that was printed."""
    home = Home(folder)
    done = home.run(f"{first} && mkdir backups && {commands('Back up', 'sh')[1]}")
    test.assertEqual(done.returncode, 0, done.stdout + done.stderr)
    return home, after(done.stdout.split("Backup ")[1], "Export hash")


def lab_home(folder, test):
    """The same with the records of a small lab: the oldest kept store, brought to the current format."""
    return filled_home(folder, test, f"heatwork store restore {OLDEST}")


def great_home(folder, test):
    """The same with the records of some months of a group of labs, made by the program that the proofs of the store load with."""
    fill = BUILD / "store_load"
    test.assertTrue(fill.is_file(), "the proofs of the store are not built")
    home = Home(folder)
    done = home.run(f"{fill} .local/share/heatwork/lab.sqlite --years {FILLED_FIRINGS}")
    test.assertEqual(done.returncode, 0, done.stdout + done.stderr)
    return filled_home(folder, test, "heatwork store status")


class OnAnEmptyHome(unittest.TestCase):
    def setUp(self):
        place = tempfile.TemporaryDirectory()
        self.addCleanup(place.cleanup)
        self.place = pathlib.Path(place.name)

    def restored(self, backups):
        """Follows the section for a bare machine but for the package itself; what each command printed."""
        home = Home(self.place / "bare")
        shutil.copytree(backups, home.place / "backups")
        printed = {}
        for command in commands("On a bare machine", "bash"):
            if not command.startswith("apt-get"):
                done = home.run(command)
                self.assertEqual(done.returncode, 0, f"{command}\n{done.stdout}{done.stderr}")
                printed[command.split(" --")[0]] = done.stdout
        return home, printed

    def test_the_backup_alone_gives_the_same_export_hash(self):
        self.prove_same_export_hash(*filled_home(self.place / "lab", self))

    def test_the_backup_of_a_lab_gives_the_same_export_hash(self):
        self.prove_same_export_hash(*lab_home(self.place / "lab", self))

    def prove_same_export_hash(self, lab, export_hash):
        _, printed = self.restored(lab.place / "backups")
        self.assertEqual(after(printed["heatwork store restore backups"], "Export hash"), export_hash)
        self.assertIn("the same export hash as when the backup was made", " ".join(printed["heatwork store restore backups"].split()))
        self.assertEqual(printed["b2sum"].split()[0], export_hash)

    def test_the_oldest_kept_format_comes_back_with_its_trail(self):
        (self.place / "old").mkdir()
        shutil.copy(OLDEST, self.place / "old/heatwork-2e74559c-20261125T171104Z.sqlite")
        home, _ = self.restored(self.place / "old")
        done = home.run(f"heatwork store verify --head {newest_entry(OLDEST)}")
        self.assertEqual(done.returncode, 0, done.stdout + done.stderr)

    def test_an_altered_backup_is_refused(self):
        lab, _ = filled_home(self.place / "lab", self)
        copy = next((lab.place / "backups").glob("*.sqlite"))
        with contextlib.closing(sqlite3.connect(copy)) as store, store:
            self.assertEqual(store.execute("update trail set person = person || 'x' where sequence = 1").rowcount, 1)
        home = Home(self.place / "bare")
        done = home.run(f"heatwork store restore {copy}")
        self.assertEqual((done.returncode, done.stdout), (3, ""), done.stderr)
        self.assertEqual(home.run("heatwork store status").returncode, 2, "nothing stands there")

    def test_the_timer_runs_what_the_page_says(self):
        service, timer = (house.text(f"packages/systemd/heatwork-back-up@.{kind}") for kind in ("service", "timer"))
        self.assertIn("ExecStart=/usr/bin/heatwork store back-up --if-due\n", service)
        self.assertIn("OnUnitActiveSec=1h", timer)
        if shutil.which("systemd-analyze"):
            units = [self.place / f"heatwork-back-up@mara.{kind}" for kind in ("service", "timer")]
            units[0].write_text(service.replace("/usr/bin/heatwork", "/bin/true").replace("User=%i", "User=root"))
            units[1].write_text(timer)
            done = subprocess.run(["systemd-analyze", "verify", "--man=no", *units], capture_output=True, text=True)
            self.assertNotIn("heatwork-back-up", done.stderr, "systemd understands every line")


@unittest.skipUnless(LONG, "a bare Debian takes some minutes: full counts only")
class OnABareDebian(bare_root.Proof):
    def follow(self, bare, backups):
        """Follows the page; seconds without downloads, and what was printed."""
        (bare.root / "lab").mkdir()
        shutil.copytree(backups, bare.root / "lab/backups")
        (self.place / "package").mkdir(exist_ok=True)
        shutil.copy(bare_root.package_of(BUILD, self.place / "package"), bare.root / "lab")
        page = commands("On a bare machine", "bash")
        fetched = bare.run("apt-get update && " + page[0].replace("install", "install --download-only"))
        self.assertEqual(fetched.returncode, 0, fetched.stdout[-2000:] + fetched.stderr[-2000:])
        start, printed = time.monotonic(), ""
        for command in page:
            done = bare.run(command)
            self.assertEqual(done.returncode, 0, f"{command}\n{done.stdout[-2000:]}{done.stderr[-2000:]}")
            printed += done.stdout
        return time.monotonic() - start, printed

    def test_package_and_backup_of_a_small_lab_give_the_same_export_hash(self):
        self.prove_same_export_hash(*lab_home(self.place / "lab", self), "a small lab")

    def test_package_and_backup_of_many_firings_give_the_same_export_hash(self):
        self.prove_same_export_hash(*great_home(self.place / "lab", self), f"{FILLED_FIRINGS} firings")

    def prove_same_export_hash(self, lab, export_hash, of):
        with bare_root.BareRoot() as bare:
            seconds, printed = self.follow(bare, lab.place / "backups")
            self.assertEqual(printed.rstrip().split("\n")[-1].split()[0], export_hash)
            self.assertLess(seconds, MOST_SECONDS)
            house.figure(self, f"{of} restored on a bare Debian from package and backup, downloads not counted", round(seconds, 1), "s")
            self.assertEqual(bare.run("test -f '/usr/lib/systemd/system/heatwork-back-up@.timer' && test -f /usr/lib/heatwork/heatwork_raster.so").returncode, 0)

    def test_the_oldest_kept_format_comes_back_with_its_trail(self):
        (self.place / "old").mkdir()
        shutil.copy(OLDEST, self.place / "old/heatwork-2e74559c-20261125T171104Z.sqlite")
        with bare_root.BareRoot() as bare:
            seconds, _ = self.follow(bare, self.place / "old")
            done = bare.run(f"heatwork store verify --head {newest_entry(OLDEST)}")
            self.assertEqual(done.returncode, 0, done.stdout + done.stderr)
            self.assertLess(seconds, MOST_SECONDS)
            house.figure(self, "the oldest kept format restored on a bare Debian, downloads not counted", round(seconds, 1), "s")


if __name__ == "__main__":
    house.main()
