"""The days of a week beside what guidelines speak of."""
from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from app.domain.measures.week_guide import trains_balance, week_guide, week_guides
from app.domain.model.exercise import Axis, Pattern
from app.domain.model.record import DoneStep, How
from tests.domain import past
from tests.domain.compile.test_timeline import exercise

LIBRARY = {e.id: e for e in (
    exercise("a"), exercise("stand", pattern=Pattern.BALANCE),
    exercise("lunge", demand={Axis.SINGLE_LEG_BALANCE: 2}), exercise("walk", demand={Axis.SINGLE_LEG_BALANCE: 1}))}
MONDAY = past.T0.date()
LOOSE = replace(past.plan(), strength=False)


def of(exercise_id: str, ms: int = 30_000) -> tuple[DoneStep, ...]:
    """One bout of it."""
    return (DoneStep(0, exercise_id, ms, How.FULL),)


def test_balance_counts_by_what_was_done() -> None:
    """Balance work, or a clear demand; not what was skipped, not what nobody knows."""
    told = {one: trains_balance(past.session(done=of(one)), LIBRARY) for one in ("stand", "lunge", "walk", "a", "x")}
    assert told == {"stand": True, "lunge": True, "walk": False, "a": False, "x": False}
    assert not trains_balance(past.session(done=of("stand", 0)), LIBRARY)


def test_days_are_counted_once_and_within_their_week() -> None:
    """Strength on Monday twice, balance on Monday and Wednesday, strength on Saturday, balance on the next Monday."""
    days = [past.session(0, "x", done=of("a")), past.session(0, "y", done=of("stand")),
            past.session(2, "z", timeline=LOOSE, done=of("stand")), past.session(5, "v", done=of("a")),
            past.session(7, "w", timeline=LOOSE, done=of("stand"))]
    got = week_guide(days, MONDAY + timedelta(days=3), LIBRARY)
    assert (got.frame.monday, got.frame.strength_days, got.balance_days, got.balance_or_strength_days) == (
        MONDAY, 2, 2, 3)
    assert got.frame.minutes == 4 * 15
    weeks = week_guides(days, MONDAY + timedelta(days=8), LIBRARY, 3)
    assert [(w.frame.monday, w.balance_days) for w in weeks] == [
        (MONDAY + timedelta(7), 1), (MONDAY, 2), (MONDAY - timedelta(7), 0)]


def test_a_session_of_which_nothing_was_done_counts_for_no_day() -> None:
    """Opened and closed again."""
    got = week_guide([past.session(0, done=())], MONDAY, LIBRARY)
    assert (got.frame.strength_days, got.balance_or_strength_days) == (0, 0)
