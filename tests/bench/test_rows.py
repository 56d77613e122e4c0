"""Every script measures what its row says, in a small size; how fast anything is is printed and never asserted."""
from __future__ import annotations

import sys
from pathlib import Path
from typing import ClassVar

import pytest

from tests.bench.__main__ import order_of, parser
from tests.bench.rows import ROWS, Found, Order, attention, by_turns, compiling, cues, intake, lines, track
from tests.bench.versions import HERE, ROOT, CannotMeasure, Samples, Version

SMALL = Order((HERE,), 1, 20, 3, "", tuple(ROWS))


def test_compiling_is_of_a_long_session_over_a_large_library() -> None:
    """At least 45 steps, 500 exercises and three years of records; the floor is one frame."""
    found = HERE.measure("compiling", 1)
    assert found.facts["exercises"] == 500 and found.facts["steps"] >= 45 and found.facts["records"] > 1000
    assert found.spent[0] > 0 and found.floor[0] > 0
    assert compiling(SMALL).floor == pytest.approx([16.667], abs=0.001)


def test_the_track_has_25_minutes_with_300_cues_and_no_large_array() -> None:
    """As many bytes as the silence, and on Linux under 20 MiB more than the process had."""
    facts = HERE.measure("cue_track", 1).facts
    assert (facts["minutes"], facts["cues"]) == (25, 300) and facts["bytes"] > 48_000_000
    if sys.platform == "linux":
        assert 0 < facts["extra_mib"] < 20
    assert "300 cues" in track(SMALL).facts


def test_an_intake_takes_in_everything_that_was_sent() -> None:
    """Three returns of a fortnight: a check-in each day and four sessions."""
    line = intake(SMALL)
    assert line.facts == "3 returns, 54 records" and line.what == "intake of 3 returns"
    assert min(line.spent["this"]) > 0 and min(line.floor) > 0 and not line.why_not


def test_the_attention_list_is_over_three_years_of_everybody() -> None:
    """Some 360 check-ins and as many sessions each; somebody is on it."""
    line = attention(SMALL)
    clients, records, listed = (int(words.split()[0].replace(",", "")) for words in line.facts.split(", "))
    assert clients == 20 and 20 * 700 < records < 20 * 740 and listed > 0


def test_no_cue_of_half_an_hour_is_off_by_a_sample() -> None:
    """Heard by the ear of the tests, which shares nothing with the writer."""
    line = cues(SMALL)
    assert line.spent == {"this": [0]} and line.facts == "360 cues, 30 minutes"


class Counting(Version):
    """Measures nothing, and gives how often any version was asked."""

    asked: ClassVar[list[str]] = []

    def measure(self, script: str, *arguments: object) -> Samples:
        self.asked.append(self.name)
        return Samples((len(self.asked),), (10 * len(self.asked),), {"n": 1})


def test_versions_take_turns() -> None:
    """This, other, this, other; the floors of both are one list."""
    versions = (Counting("this", ROOT), Counting("other", ROOT))
    found = by_turns(Order(versions, 2, 0, 0, "", ()), "any")
    assert Counting.asked == ["this", "other", "this", "other"]
    assert found == Found({"this": [1, 3], "other": [2, 4]}, [10, 20, 30, 40], {"this": {"n": 1}, "other": {"n": 1}})


def test_a_version_that_cannot_be_measured_says_why_and_the_other_is(tmp_path: Path) -> None:
    """A checkout without a program."""
    (tmp_path / "app").mkdir()
    (tmp_path / "app" / "__init__.py").touch()
    order = Order((HERE, Version("other", tmp_path)), 1, 0, 0, "", ("cues",))
    (line,) = lines(order, lambda _: None)
    assert line.spent["this"] == [0] and "other" not in line.spent
    assert "is in this checkout" in line.why_not["other"]
    with pytest.raises(CannotMeasure, match=r"other, measured\.nothing"):
        order.versions[1].run("measured.nothing")


def test_the_sizes_are_those_of_the_rows_unless_others_are_asked_for() -> None:
    """5,000 clients and 1,000 returns; fewer in a quick run."""
    usual = order_of(parser().parse_args([]))
    assert (usual.clients, usual.returns, usual.versions, usual.only) == (5_000, 1_000, (HERE,), tuple(ROWS))
    quick = order_of(parser().parse_args(["--quick", "--against", str(ROOT), "--only", "cues"]))
    assert quick.clients < 1_000 and quick.versions[1].root == ROOT and quick.only == ("cues",)
