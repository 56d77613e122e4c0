"""The days of a week beside what guidelines speak of. A frame and no target.

Source: WHO 2020: strengthening on 2 days or more, and balance with strength work on 3 days or more.
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from app.domain.dosing.way_back import sessions_of
from app.domain.measures.week_minutes import Frame, week_frame
from app.domain.measures.weeks import monday_of
from app.domain.model.exercise import Axis, Exercise, Pattern
from app.domain.model.record import Record, SessionDone

GUIDE_BALANCE_DAYS = 3
#: From this rating on an exercise asks for balance clearly.
BALANCE_DEMAND = 2


@dataclass(frozen=True)
class WeekGuide:
    """One calendar week: its minutes, and the days with balance work, and with either that or strength work."""

    frame: Frame
    balance_days: int
    balance_or_strength_days: int


def trains_balance(done: SessionDone, library: Mapping[str, Exercise]) -> bool:
    """Whether any move that was done is balance work or asks for balance clearly; unknown exercises do not count."""
    moves = (library[d.exercise] for d in done.done if d.done_ms > 0 and d.exercise in library)
    return any(e.pattern is Pattern.BALANCE or e.asks(Axis.SINGLE_LEG_BALANCE) >= BALANCE_DEMAND for e in moves)


def week_guide(records: Sequence[Record], day: date, library: Mapping[str, Exercise]) -> WeekGuide:
    """The week that a day lies in."""
    monday = monday_of(day)
    sessions = [s for s in sessions_of(records) if monday_of(s.stamp.local) == monday and s.completed > 0]
    balance = {s.stamp.local for s in sessions if trains_balance(s, library)}
    strength = {s.stamp.local for s in sessions if s.plan.strength}
    return WeekGuide(week_frame(records, day), len(balance), len(balance | strength))


def week_guides(records: Sequence[Record], today: date, library: Mapping[str, Exercise], weeks: int
                ) -> tuple[WeekGuide, ...]:
    """The last weeks up to this one, the latest first."""
    return tuple(week_guide(records, today - timedelta(weeks=back), library) for back in range(weeks))
