"""Dates that cannot be: what a phone with a wrong clock writes down, seen from the day on which it arrives."""
from __future__ import annotations

from datetime import date, datetime, timedelta

from app.domain.model.record import Stamp

#: No record is older than this: a phone whose battery was flat begins again in 1970 or 2000. [P]
FIRST_DAY = date(2020, 1, 1)
#: East of the desk it is tomorrow already; no place is further on.
AHEAD = timedelta(days=1)


def is_misdated(stamp: Stamp, arrived: date) -> bool:
    """Whether what arrived on that day bears a day after the next one, or one from before this tool was."""
    days = stamp.local, stamp.utc.date()
    return max(days) > arrived + AHEAD or min(days) < FIRST_DAY


def no_later(said: datetime, arrived: datetime) -> datetime:
    """When something was made, or, where it says a time that cannot be yet, when it arrived."""
    return arrived if said > arrived + AHEAD else said
