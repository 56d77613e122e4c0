"""What one station amounts to after the dose: seconds, repetitions, holds, rests and weights, by hand."""
from __future__ import annotations

import pytest

from app.domain.compile.prescription import Amounts, eased_hold_s, eased_reps, eased_work_s, longer_rest_s, owned_load_g
from app.domain.model.plan import StepKind


@pytest.mark.parametrize(("written", "percent", "seconds"), [
    (30, 100, 30), (33, 100, 33), (30, 90, 25), (40, 90, 35), (50, 90, 45), (30, 80, 20), (30, 70, 20), (20, 70, 15),
    (30, 50, 15), (20, 50, 15), (15, 50, 15), (12, 50, 12), (12, 90, 12), (5, 50, 5), (100, 50, 50)])
def test_work_rounds_down_to_five_seconds_and_keeps_its_floor(written: int, percent: int, seconds: int) -> None:
    """Never under 15 s, or what was written if that is less."""
    assert eased_work_s(written, percent) == seconds


@pytest.mark.parametrize(("written", "percent", "seconds"), [
    (30, 90, 25), (20, 70, 10), (20, 50, 10), (15, 50, 10), (10, 50, 10), (8, 50, 8), (25, 100, 25), (60, 50, 30)])
def test_holds_are_eased_as_work_with_a_floor_of_ten_seconds(written: int, percent: int, seconds: int) -> None:
    """Or what was written if that is less."""
    assert eased_hold_s(written, percent) == seconds


@pytest.mark.parametrize(("written", "percent", "count"), [
    (12, 90, 10), (10, 90, 9), (10, 80, 8), (8, 70, 5), (6, 50, 5), (5, 50, 5), (4, 50, 4), (1, 50, 1), (20, 50, 10)])
def test_repetitions_round_down_and_keep_five(written: int, percent: int, count: int) -> None:
    """Or what was written if that is less."""
    assert eased_reps(written, percent) == count


@pytest.mark.parametrize(("written", "percent", "seconds"), [
    (30, 100, 30), (33, 100, 33), (30, 110, 35), (40, 110, 45), (50, 110, 55), (30, 125, 40), (30, 150, 45),
    (60, 150, 90), (61, 150, 90), (80, 150, 90), (90, 150, 90), (95, 150, 95), (120, 150, 120), (0, 150, 0),
    (1, 110, 5)])
def test_rest_rounds_up_to_five_seconds_and_stops_at_ninety(written: int, percent: int, seconds: int) -> None:
    """Unless it was longer already."""
    assert longer_rest_s(written, percent) == seconds


@pytest.mark.parametrize(("load", "percent", "owned", "grams"), [
    (4000, 100, (2000, 4000), 4000), (4000, 90, (2000, 4000), 2000), (4000, 80, (3000, 3200, 3500), 3200),
    (3000, 100, (2000, 4000), 2000), (1000, 100, (2000,), 0), (4000, 0, (2000,), 0), (4000, 100, (), 0),
    (4000, 100, None, 4000), (4000, 90, None, 3500), (1250, 100, None, 1250)])
def test_load_goes_down_to_a_weight_that_is_owned(load: int, percent: int, owned: tuple[int, ...] | None, grams: int
                                                  ) -> None:
    """Never up; nothing where none is light enough."""
    assert owned_load_g(load, percent, owned) == grams


@pytest.mark.parametrize(("seconds", "cap", "parts"), [
    (30, 10, (10, 10, 10)), (25, 10, (9, 8, 8)), (10, 10, (10,)), (11, 10, (6, 5)), (7, 10, (7,)), (20, None, (20,)),
    (45, 30, (23, 22))])
def test_a_long_hold_is_done_in_nearly_equal_parts(seconds: int, cap: int | None, parts: tuple[int, ...]) -> None:
    """None over the cap, all of it held."""
    got = Amounts(StepKind.HOLD, seconds * 1000, most_hold_s=cap).parts_ms()
    assert got == tuple(p * 1000 for p in parts)
