"""The evidence report must refuse a check that does not say how far it may be off or where its number comes from, and keep what misses."""
import importlib.util
import pathlib
import subprocess
import sys
import tempfile
import unittest

import house

SCRIPT = house.ROOT / "docs/evidence/make_report.py"


def made(properties):
    """Exit code, report and complaint for one result file with one test that recorded these properties."""
    with tempfile.TemporaryDirectory() as folder:
        inside = "".join(f'<property name="{name}" value="{value}"/>' for name, value in properties.items())
        (pathlib.Path(folder) / "sample.xml").write_text(
            f'<testsuites><testsuite name="Sample"><testcase name="one" classname="Sample"><properties>{inside}</properties></testcase></testsuite></testsuites>')
        target = pathlib.Path(folder) / "evidence.md"
        done = subprocess.run([sys.executable, str(SCRIPT), folder, str(target)], capture_output=True, text=True)
        return done.returncode, target.read_text() if target.is_file() else "", done.stderr


FULL = {"value": "10.2", "expected": "10", "tolerance": "0.3", "source": "closed form", "kind": "verification", "unit": "K"}


class Report(unittest.TestCase):
    def test_a_full_check_is_printed(self):
        code, report, _ = made(FULL)
        self.assertEqual(code, 0)
        self.assertIn("| Sample.one | 10.2 | 10 | 0.3 | K | yes | closed form |", report)

    def test_three_heads_stand_in_every_report(self):
        _, report, _ = made(FULL)
        for head in ("## Verification", "## Calibration", "## Validation"):
            self.assertIn(head, report)

    def test_a_miss_is_kept(self):
        for changed in ({"tolerance": "0.1"}, {"tolerance": "1 %"}):
            code, report, _ = made({**FULL, "kind": "validation", **changed})
            self.assertEqual(code, 0)
            self.assertIn("**miss**", report)
            self.assertIn("1 checks, 1 missed", report)

    def test_a_percentage_is_of_the_expected_value(self):
        self.assertNotIn("miss**", made({**FULL, "tolerance": "2 %"})[1])

    def test_a_check_without_tolerance_source_or_kind_is_refused(self):
        for missing in ("tolerance", "source", "kind", "value", "expected"):
            code, report, complaint = made({name: value for name, value in FULL.items() if name != missing})
            self.assertEqual((code, report), (1, ""), missing)
            self.assertIn(f"records no {missing}", complaint)

    def test_an_unknown_kind_or_a_tolerance_in_words_is_refused(self):
        self.assertIn("allowed are", made({**FULL, "kind": "fit"})[2])
        self.assertIn("is no number", made({**FULL, "tolerance": "about right"})[2])

    def test_a_second_check_of_a_test_has_its_own_row(self):
        code, report, _ = made({**FULL, "value_2": "7", "expected_2": "7.1"})
        self.assertEqual(code, 0)
        self.assertIn("| Sample.one (2) | 7 | 7.1 | 0.3 | K | yes |", report)

    def test_the_record_of_long_proofs_is_readable(self):
        specification = importlib.util.spec_from_file_location("make_report", SCRIPT)
        module = importlib.util.module_from_spec(specification)
        specification.loader.exec_module(module)
        import datetime
        lines = module.long_lines(house.ROOT / "docs/evidence/long.toml", datetime.date.today())
        self.assertTrue(lines)


if __name__ == "__main__":
    house.main()
