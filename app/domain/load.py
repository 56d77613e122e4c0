"""Training load from session RPE × minutes. Foster et al. 2001, J Strength Cond Res 15:109–115."""
from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from app.domain.record import SessionDone


def session_load(done: SessionDone) -> int | None:
    """Session RPE × minutes, arbitrary units, rounded down; None while the effort was not told."""
    return None if done.rpe is None else done.rpe * done.took_s // 60


def week_load(sessions: Sequence[SessionDone], end: date) -> int:
    """Sum of session loads over the 7 days ending `end`, inclusive. Arbitrary units."""
    first = end - timedelta(days=6)
    return sum(session_load(s) or 0 for s in sessions if first <= s.stamp.local <= end)


def weekly_loads(sessions: Sequence[SessionDone], end: date, weeks: int) -> tuple[tuple[date, int], ...]:
    """(last day, load) of the latest `weeks` weeks, oldest first."""
    ends = [end - timedelta(days=7 * back) for back in range(weeks - 1, -1, -1)]
    return tuple((day, week_load(sessions, day)) for day in ends)
