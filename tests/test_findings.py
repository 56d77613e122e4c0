"""Every finding has its row and its tests, and every test that bears a number stands in its row (`findings.md`)."""
from __future__ import annotations

import re
from collections import defaultdict

from tests.test_layers import ROOT

#: How many findings each section holds.
SECTIONS = {"a": 9, "b": 9, "c": 16, "d": 4, "e": 10, "f": 11, "g": 10}
ROW = re.compile(r"(?m)^\| ([A-G]\d+) \| ([^|]+) \| ((?:`test_\w+` ?)+) \| ([^|]+) \|$")


def named() -> dict[str, set[str]]:
    """Tests that bear a number, by finding."""
    found: dict[str, set[str]] = defaultdict(set)
    for path in (ROOT / "tests").rglob("test_*.py"):
        for name, finding in re.findall(r"(?m)^def (test_([a-g]\d+)_\w+)\(", path.read_text("utf-8")):
            found[finding].add(name)
    return found


def test_every_finding_has_a_row_with_the_tests_that_bear_its_number() -> None:
    """All of them, and no test that is not there."""
    rows = {finding.lower(): set(re.findall(r"`(\w+)`", tests))
            for finding, _, tests, _ in ROW.findall((ROOT / "tests" / "findings.md").read_text("utf-8"))}
    assert set(rows) == {f"{letter}{n}" for letter, most in SECTIONS.items() for n in range(1, most + 1)}
    assert rows == named()
