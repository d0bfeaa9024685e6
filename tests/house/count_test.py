"""The count of ./test must tell passed, failed and skipped checks apart, and never take a program without results for a passed one."""
import importlib.util
import pathlib
import subprocess
import sys
import tempfile
import unittest

import house

SPECIFICATION = importlib.util.spec_from_file_location("prove", house.ROOT / "tests/prove.py")
prove = importlib.util.module_from_spec(SPECIFICATION)
SPECIFICATION.loader.exec_module(prove)


def counted(words):
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "results.xml"
        path.write_text(words)
        return prove.count_cases(path)


def suite(*cases):
    return "<testsuites><testsuite name='Some'>" + "".join(cases) + "</testsuite></testsuites>"


class Counts(unittest.TestCase):
    def test_each_kind_of_check_is_counted(self):
        count = counted(suite("<testcase name='a' classname='Some' status='run' result='completed'/>",
                              "<testcase name='b' classname='Some'><failure message='no'/></testcase>",
                              "<testcase name='c' classname='Some' result='skipped'><skipped message='file.cpp:3&#x0A;no peer here'/></testcase>",
                              "<testcase name='d' classname='Some' status='notrun' result='suppressed'/>"))
        self.assertEqual((count.passed, count.failed), (1, ["Some.b"]))
        self.assertEqual(count.skipped, [("Some.c", "no peer here"), ("Some.d", "no reason given")])
        self.assertEqual(count.line(), "1 passed, 1 failed, 2 skipped")

    def test_the_line_without_skips(self):
        self.assertEqual(counted(suite("<testcase name='a'/>")).line(), "1 passed, 0 failed")

    def test_no_or_broken_results_are_no_pass(self):
        self.assertIsNone(prove.count_cases(pathlib.Path("no-such-file.xml")))
        self.assertIsNone(counted("<testsuites><testsuite"))

    def test_an_unknown_room_is_refused_in_one_sentence(self):
        done = subprocess.run([sys.executable, str(house.ROOT / "tests/prove.py"), "attic"], capture_output=True, text=True, cwd=house.ROOT)
        self.assertEqual(done.returncode, 1)
        self.assertIn("There is no room or kind of proof named attic", done.stderr)

    def test_the_submission_runs_the_same_proofs(self):
        self.assertRegex(house.text(".ci/run"), r"(?m)^exec \./test$")


if __name__ == "__main__":
    house.main()
