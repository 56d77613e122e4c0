"""Records by calendar week, Monday to Sunday, of the training days where the person was."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from app.domain.dosing.way_back import sessions_of
from app.domain.model.record import Record, SessionDone
from app.domain.model.trained_time import trained_s

WEEKS_SHOWN = 6


@dataclass(frozen=True)
class DiaryDay:
    """One training day with its records, the newest first."""

    day: date
    records: tuple[Record, ...]


@dataclass(frozen=True)
class CalendarWeek:
    """One week with the days on which something was written down, the newest first."""

    monday: date
    days: tuple[DiaryDay, ...]

    @property
    def sessions(self) -> tuple[SessionDone, ...]:
        """What was done in it."""
        return tuple(r for day in self.days for r in day.records if isinstance(r, SessionDone))


def monday_of(day: date) -> date:
    """The Monday of that day's week."""
    return day - timedelta(days=day.weekday())


def weeks_of(records: Sequence[Record]) -> tuple[CalendarWeek, ...]:
    """Weeks in which something was written down, the newest first; without what was taken back."""
    kept = sorted((r for r in records if not r.stamp.deleted), key=lambda r: (r.stamp.local, r.stamp.utc, r.stamp.id),
                  reverse=True)
    weeks: dict[date, dict[date, list[Record]]] = {}
    for record in kept:
        day = record.stamp.local
        weeks.setdefault(monday_of(day), {}).setdefault(day, []).append(record)
    return tuple(
        CalendarWeek(monday, tuple(DiaryDay(day, tuple(found)) for day, found in days.items())) for monday,
        days in weeks.items()
    )


def weekly_minutes(records: Sequence[Record], today: date, weeks: int = WEEKS_SHOWN) -> tuple[tuple[date, int], ...]:
    """(Monday, whole minutes of training) of the last weeks up to this one, the oldest first; 0 where none."""
    first = monday_of(today) - timedelta(weeks=weeks - 1)
    seconds = {first + timedelta(weeks=n): 0 for n in range(weeks)}
    for done in sessions_of(records):
        monday = monday_of(done.stamp.local)
        if monday in seconds:
            seconds[monday] += trained_s(done)
    return tuple((monday, (total + 30) // 60) for monday, total in seconds.items())
