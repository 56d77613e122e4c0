"""The table's arithmetic, on figures worked out by hand."""
from __future__ import annotations

import pytest

from tests.bench.table import Line, cells, heading, printed, ratio, short, value

SPENT = {"this": (30, 90, 40), "other": (20, 20, 21)}
LINE = Line("intake", "json and rows", "ms", "≤ 3", SPENT, (10, 1, 10, 90, 10, 2), "3 returns")


def test_a_ratio_is_of_the_medians() -> None:
    """40 ÷ 10, although the mean is another."""
    assert ratio((30, 90, 40), (10, 1, 10, 90, 10, 2)) == 4
    assert ratio((), (1,)) is None and ratio((1,), ()) is None and ratio((1,), (0,)) is None


def test_one_version_stands_beside_its_floor() -> None:
    """Name, floor with its own figure, value, ratio, aim."""
    assert cells(LINE, ["this"]) == ["intake", "json and rows (10.0 ms)", "40.0 ms", "4.00", "≤ 3"]
    assert heading(["this"]) == ["what", "floor", "this", "this ÷ floor", "aim"]


def test_two_versions_share_the_floor_and_are_divided() -> None:
    """The other takes 20 ms, so that this takes twice as long."""
    assert cells(LINE, ["this", "other"])[2:] == ["40.0 ms", "4.00", "20.0 ms", "2.00", "2.00", "≤ 3"]
    assert len(heading(["this", "other"])) == len(cells(LINE, ["this", "other"]))


def test_what_could_not_be_measured_is_a_dash_and_is_said() -> None:
    """Never a nought, which would read as very fast."""
    line = Line("cues", "the sample clock", "samples", "0", {"this": (0,)}, why_not={"other": "it did not start"})
    told = list(printed([line], ["this", "other"]))
    assert told[2] == "| cues | the sample clock | 0 samples | – | – | – | – | 0 |"
    assert told[3:] == ["cues: NOT MEASURED for other: it did not start"]


@pytest.mark.parametrize(("number", "words"), [(0, "0"), (0.1234, "0.12"), (12.34, "12.3"), (1234.5, "1,234")])
def test_numbers_have_three_digits(number: float, words: str) -> None:
    """And no more than they are worth."""
    assert short(number) == words and value((number,), "ms") == f"{words} ms"
