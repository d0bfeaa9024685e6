"""The examples of docs/server-interface.md, run as one session of a shell, on a free port in place of the usual one."""
import os
import pathlib
import shutil
import socket
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import commands_test  # noqa: E402
import house  # noqa: E402

PAGE = pathlib.PurePosixPath("docs/server-interface.md")


def free_port():
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        return str(listening.getsockname()[1])


@unittest.skipIf(shutil.which("curl") is None, "curl is not installed")
class InterfacePage(unittest.TestCase):
    maxDiff = None

    def test_each_example_prints_what_the_page_shows(self):
        told = commands_test.steps(PAGE)
        self.assertGreater(len(told), 6)
        script = "set -e\ntrap 'kill %1 2>/dev/null || true' EXIT\n"
        for number, (_, commands, _) in enumerate(told):
            script += f"echo '=== step {number}'\n" + "\n".join(commands) + "\n"
        with tempfile.TemporaryDirectory() as folder:
            environment = dict(os.environ, PATH=f"{commands_test.BINARY.parent}:{os.environ['PATH']}", LC_ALL="C.UTF-8",
                               **{name: folder for name in ("HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME")})
            done = subprocess.run(["bash", "-c", script.replace("8110", free_port())], cwd=folder, env=environment, stdin=subprocess.DEVNULL,
                                  capture_output=True, text=True, timeout=120)
        self.assertEqual(done.returncode, 0, done.stdout[-2000:] + done.stderr[-2000:])
        printed = done.stdout.split("=== step ")[1:]
        self.assertEqual(len(printed), len(told))
        for (line, commands, expected), answer in zip(told, printed):
            for row in expected:
                self.assertIn(" ".join(row.split()), " ".join(answer.split()), f"{PAGE}:{line}: {commands}")


if __name__ == "__main__":
    house.main()
