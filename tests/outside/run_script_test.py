"""./run as a person meets it: quick when nothing changed, without a network, its answers where they belong."""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import time
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "house"))
import house  # noqa: E402

BINARY = pathlib.Path(os.environ.get("HEATWORK_BINARY", house.ROOT / "build/release/heatwork"))
IS_RELEASE = BINARY.parent == house.ROOT / "build/release"


def run(*words, before=(), cwd=None):
    return subprocess.run([*before, str(house.ROOT / "run"), *words], cwd=cwd, stdin=subprocess.DEVNULL, capture_output=True, text=True)


@unittest.skipUnless(IS_RELEASE, "./run builds the release folder; this build is another")
class RunScript(unittest.TestCase):
    def test_with_words_it_is_heatwork(self):
        mine, direct = run("--version"), subprocess.run([BINARY, "--version"], capture_output=True, text=True)
        self.assertEqual((mine.returncode, mine.stdout, mine.stderr), (direct.returncode, direct.stdout, ""))

    def test_exit_codes_pass_through(self):
        self.assertEqual(run("rehearse", "no-such-file.toml").returncode, 2)
        self.assertEqual(run("no-such-verb").returncode, 2)

    def test_it_adds_less_than_a_second_when_nothing_changed(self):
        def best(command):
            times = []
            for _ in range(4):
                start = time.monotonic()
                subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, check=True)
                times.append(time.monotonic() - start)
            return min(times)
        self.assertLess(best([house.ROOT / "run", "--version"]) - best([BINARY, "--version"]), 1.0)

    def test_it_works_without_a_network(self):
        if not shutil.which("unshare") or subprocess.run(["unshare", "-rn", "true"], capture_output=True).returncode != 0:
            self.skipTest("this machine allows no network namespace")
        with tempfile.TemporaryDirectory() as folder:
            done = run(before=("unshare", "-rn"), cwd=folder)
            self.assertEqual(done.returncode, 0, done.stderr)

    def test_the_demo_leaves_files_and_pictures_and_says_where(self):
        with tempfile.TemporaryDirectory() as folder:
            done = run(cwd=folder)
            self.assertEqual(done.returncode, 0, done.stderr)
            demo = pathlib.Path(folder) / "heatwork-demo"
            for name in ("firing.toml", "firing-picture.svg", "firing-picture.png"):
                self.assertTrue((demo / name).is_file(), name)
                self.assertGreater((demo / name).stat().st_size, 100, name)
            self.assertIn("heatwork-demo/firing-picture.svg", done.stdout)
            changed = (demo / "firing.toml").read_text() + "# mine\n"
            (demo / "firing.toml").write_text(changed)
            again = run(cwd=folder)
            self.assertEqual(again.returncode, 0, again.stderr)
            self.assertEqual((demo / "firing.toml").read_text(), changed, "a file of the user is never written over")


if __name__ == "__main__":
    house.main()
