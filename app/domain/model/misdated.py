"""Dates that cannot be: what a phone with a wrong clock writes down, seen from the day on which it arrives."""
from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta, timezone
from enum import StrEnum

from app.domain.model.record import Stamp

#: No record is older than this: a phone whose battery was flat begins again in 1970 or 2000. [P]
FIRST_DAY = date(2020, 1, 1)
#: East of the desk it is tomorrow already; no place is further on.
AHEAD = timedelta(days=1)
#: A clock that is set right by less than this is no wrong one. [P]
SET_BACK = timedelta(hours=3)
#: Somebody may stay away for long; after this it is asked whether the date can be. [P]
LEAPT = timedelta(days=183)


class ClockFault(StrEnum):
    """What is doubtful about a device's clock."""

    BEHIND = "behind"
    """It stands before an entry that was made already."""
    LEAPT = "leapt"
    """It stands so long after the newest entry that it may have leapt."""


@dataclass(frozen=True)
class ClockDoubt:
    """Why a clock may be wrong, with the local time of the newest entry."""

    fault: ClockFault
    entry: datetime


def clock_doubt(stamps: Iterable[Stamp], now: datetime) -> ClockDoubt | None:
    """Whether a device's clock can be right, from what was written down on it. By instants, so travel is no doubt."""
    newest = max(stamps, key=lambda stamp: stamp.utc, default=None)
    if newest is None:
        return None
    entry = newest.utc.astimezone(timezone(timedelta(minutes=newest.offset_min)))
    if newest.utc > now + SET_BACK:
        return ClockDoubt(ClockFault.BEHIND, entry)
    return ClockDoubt(ClockFault.LEAPT, entry) if now - newest.utc > LEAPT else None


def is_misdated(stamp: Stamp, arrived: date) -> bool:
    """Whether what arrived on that day bears a day after the next one, or one from before this tool was."""
    days = stamp.local, stamp.utc.date()
    return max(days) > arrived + AHEAD or min(days) < FIRST_DAY


def no_later(said: datetime, arrived: datetime) -> datetime:
    """When something was made, or, where it says a time that cannot be yet, when it arrived."""
    return arrived if said > arrived + AHEAD else said
