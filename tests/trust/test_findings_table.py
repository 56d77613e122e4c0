"""Every finding of an attacker's reading has its row, and every test in a row is there (`findings.md`)."""
from __future__ import annotations

import re
from functools import cache

from tests.test_layers import ROOT

#: How many findings there are of each kind; of some there are parts: `1a`, `1b`.
KINDS = {"": 15, "L": 7, "T": 11, "R": 5}
ROW = re.compile(r"(?m)^\| ([LTR]?\d+)([a-z]?) \| ([^|]+) \| ([^|]+) \| ([^|]+) \|$")
PLACED = re.compile(r"(?:`[a-z_/]+\.py`(?: `test_\w+`)+ ?)+")
PAGE = (ROOT / "tests" / "trust" / "findings.md").read_text("utf-8")
ROWS = ROW.findall(PAGE)


@cache
def names_in(file: str) -> frozenset[str]:
    """The tests of a file below `tests/`."""
    return frozenset(re.findall(r"(?m)^def (test_\w+)\(", (ROOT / "tests" / file).read_text("utf-8")))


def test_every_finding_has_its_rows() -> None:
    """In order, each part once; and no line of a table is passed over for its form."""
    assert len(ROWS) == len([line for line in PAGE.splitlines() if re.match(r"\| [^|]*\d", line)])
    assert list(dict.fromkeys(number for number, *_ in ROWS)) == [
        f"{kind}{n}" for kind, most in KINDS.items() for n in range(1, most + 1)]
    for number in {number for number, *_ in ROWS}:
        parts = [part for row, part, *_ in ROWS if row == number]
        assert parts in ([""], list("abcdefgh"[:len(parts)])), number


def test_every_row_names_tests_that_are_there() -> None:
    """Each in the file that stands before it."""
    for number, part, _, tests, _ in ROWS:
        assert PLACED.fullmatch(tests), number + part
        for file, named in re.findall(r"`([a-z_/]+\.py)` ((?:`test_\w+` ?)+)", tests):
            assert set(re.findall(r"`(\w+)`", named)) <= names_in(file), (number + part, file)


def test_what_is_open_is_said_at_rest_alone() -> None:
    """A row that is open again must be counted here, or be mended."""
    assert [number + part for number, part, _, _, before in ROWS if "**Open**" in before] == ["R1", "R2b", "R3"]
