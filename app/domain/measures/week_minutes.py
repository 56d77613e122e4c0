"""The week in minutes: sessions and moving about beside what guidelines speak of. A frame and no target.

Source: WHO 2020, 150 to 300 min of moderate effort a week, strengthening on 2 days or more; ACSM/AHA 2007.
"""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from app.domain.dosing.events import events_of
from app.domain.dosing.way_back import sessions_of
from app.domain.measures.weeks import monday_of
from app.domain.model.record import EventKind, Record
from app.domain.model.trained_time import trained_s

GUIDE_MINUTES = (150, 300)
GUIDE_STRENGTH_DAYS = 2


@dataclass(frozen=True)
class Frame:
    """One calendar week, Monday to Sunday, by the days where the person was; minutes are whole."""

    monday: date
    session_minutes: int
    activity_minutes: int
    strength_days: int

    @property
    def minutes(self) -> int:
        """Both together."""
        return self.session_minutes + self.activity_minutes


def week_frame(records: Sequence[Record], day: date) -> Frame:
    """The week that a day lies in."""
    monday = monday_of(day)
    days = {monday + timedelta(days=n) for n in range(7)}
    sessions = [s for s in sessions_of(records) if s.stamp.local in days]
    activities = [e for e in events_of(records, EventKind.ACTIVITY) if (e.since or e.stamp.local) in days]
    strength = {s.stamp.local for s in sessions if s.plan.strength and s.completed > 0}
    return Frame(monday, (sum(trained_s(s) for s in sessions) + 30) // 60, sum(e.minutes or 0 for e in activities),
                 len(strength))
