"""Falls, illness and pauses on the attention list."""
from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.domain.measures.attention import attention, flags_of
from app.domain.measures.attention_summary import AttentionReason, PersonSummary
from tests.domain.measures.test_attention import TODAY, line, told, why


def happened(days_ago: int, what: str, sign: str = "") -> list[AttentionReason]:
    """Why somebody is listed who told of that."""
    return why(told(1), told(days_ago, "event", what=what, sign=sign))


def test_a_fall_and_an_illness_are_harm() -> None:
    """Also without a stop; what else happened is not."""
    assert happened(3, "fall") == [AttentionReason.FALL] and happened(3, "illness") == [AttentionReason.ILLNESS]
    assert happened(28, "fall") == []
    for what in ("activity", "medicine", "goal", "pause"):
        assert happened(3, what) == []


def test_a_fall_that_stopped_somebody_is_told_once() -> None:
    """As the stop that it is; a later stop hides no fall."""
    assert happened(3, "fall", "fall_head") == [AttentionReason.SIGN]
    fell, later = told(3, "event", what="fall", sign="fall"), told(2, "check_in", sign="dizziness")
    assert why(fell, later) == [AttentionReason.SIGN, AttentionReason.FALL]


def test_falls_are_counted_and_stand_before_pain() -> None:
    """Two in four weeks weigh more than one."""
    twice = line(told(9, "event", what="fall"), told(2, "event", what="fall"), name="Bo")
    once, pain = line(told(2, "event", what="fall"), name="Ada"), line(told(1, pain=9), name="Cy")
    harm, *_ = attention([pain, once, twice], TODAY)
    assert [(f.name, f.because, f.numbers) for f in harm] == [
        ("Bo", AttentionReason.FALL, (2,)), ("Ada", AttentionReason.FALL, (1,)), ("Cy", AttentionReason.PAIN, (9,))]


def paused(one: PersonSummary, *pauses: tuple[int, int]) -> list[AttentionReason]:
    """Why, with pauses in days before today (first, last)."""
    days = tuple((TODAY - timedelta(days=a), TODAY - timedelta(days=b)) for a, b in pauses)
    return [f.because for f in flags_of(replace(one, pauses=days), TODAY)]


@pytest.mark.parametrize(("pauses", "missed"), [
    ([], True), ([(20, 0)], False), ([(20, -7)], False), ([(20, 13)], False), ([(20, 14)], True), ([(-1, -8)], True),
    ([(40, 30), (20, 5)], False)])
def test_nobody_is_missed_during_a_pause_and_the_days_count_anew_after_it(
    pauses: list[tuple[int, int]], missed: bool
) -> None:
    """One that is still to come explains nothing."""
    assert (AttentionReason.FORTNIGHT in paused(line(told(20)), *pauses)) is missed


def test_nothing_back_is_no_news_during_a_pause() -> None:
    """Until three weeks after its end."""
    one = line(told(40), heard=30)
    assert paused(one) == [AttentionReason.NOTHING_BACK]
    assert paused(one, (25, 0)) == [] and paused(one, (29, 20)) == [AttentionReason.FORTNIGHT]
    assert paused(one, (29, 21)) == [AttentionReason.NOTHING_BACK]


def test_harm_is_told_during_a_pause() -> None:
    """A pause hides silence and nothing else."""
    assert paused(line(told(2, pain=8)), (5, -5)) == [AttentionReason.PAIN]
    assert isinstance(TODAY, date)
