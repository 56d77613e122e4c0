"""The clock of a check: the signal, its end, and only what lies between them."""
from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.checks.check_clock import (
    CheckClock,
    check_cues,
    count_in_ms,
    moved_on,
    started,
    stopped,
    with_one_more,
)
from app.domain.checks.functional_checks import LONGEST_MS
from app.domain.model.record import FunctionalCheck
from app.domain.sound.cues import CueKind


def test_a_check_begins_with_a_count_in_but_for_one_leg() -> None:
    """There the press is the signal."""
    for check, lead in ((FunctionalCheck.CHAIR_STAND, 3_000), (FunctionalCheck.WALK, 3_000),
                        (FunctionalCheck.ONE_LEG, 0)):
        clock = started(CheckClock(check), 10_000)
        assert (clock.at(10_000), clock.is_running, count_in_ms(check)) == (-lead, True, lead)


def test_the_chair_stand_ends_after_half_a_minute() -> None:
    """To the millisecond, and the time stays what it is."""
    clock = started(CheckClock(FunctionalCheck.CHAIR_STAND), 0)
    assert moved_on(clock, 32_999).is_running
    over = moved_on(clock, 33_000)
    assert (over.is_running, over.took_ms, over.at(99_000)) == (False, 30_000, 30_000)


def test_stands_count_between_the_signal_and_the_end() -> None:
    """Neither in the count-in nor afterwards."""
    clock = started(CheckClock(FunctionalCheck.CHAIR_STAND), 0)
    assert with_one_more(clock, 3_000).stands == 0
    once = with_one_more(clock, 3_001)
    assert once.stands == 1 and with_one_more(once, 32_999).stands == 2
    assert with_one_more(once, 33_000).stands == 1 and with_one_more(once, 33_000).took_ms == 30_000
    assert with_one_more(CheckClock(FunctionalCheck.CHAIR_STAND), 5).stands == 0


def test_stop_before_the_signal_is_as_if_nothing_had_been_pressed() -> None:
    """After it, it is the time."""
    clock = started(CheckClock(FunctionalCheck.WALK), 1_000)
    assert stopped(clock, 4_000) == CheckClock(FunctionalCheck.WALK)
    assert stopped(clock, 13_300).took_ms == 9_300
    assert stopped(stopped(clock, 13_300), 20_000).took_ms == 9_300
    assert stopped(clock, 500_000).took_ms == LONGEST_MS[FunctionalCheck.WALK]
    assert stopped(CheckClock(FunctionalCheck.WALK), 5) == CheckClock(FunctionalCheck.WALK)


@given(st.sampled_from(FunctionalCheck), st.lists(st.integers(0, 20_000), max_size=12), st.integers(0, 200_000))
def test_no_time_is_longer_than_its_longest(check: FunctionalCheck, presses: list[int], end: int) -> None:
    """However it is pressed; and once over it does not change."""
    clock, now = started(CheckClock(check), 0), 0
    for wait in presses:
        now += wait
        clock = with_one_more(clock, now)
    over = stopped(clock, now + end)
    assert over.took_ms is None or 0 < over.took_ms <= LONGEST_MS[check]
    assert over.stands <= len(presses)
    if over.took_ms is not None:
        assert stopped(over, now + end + 1) == over == moved_on(over, now + end + 1) == with_one_more(over, now + end)


@pytest.mark.parametrize("check", FunctionalCheck)
def test_what_is_heard_lies_between_count_in_and_end(check: FunctionalCheck) -> None:
    """In order; the signal at 0, the last at the end."""
    cues = check_cues(check)
    assert [c.at_ms for c in cues] == sorted(c.at_ms for c in cues)
    assert cues[-1].kind is CueKind.FINISH and cues[-1].at_ms == LONGEST_MS[check]
    assert [c.at_ms for c in cues if c.kind is CueKind.WORK] == [0]
    assert sum(c.kind is CueKind.COUNT for c in cues) == count_in_ms(check) // 1000
