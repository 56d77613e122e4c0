"""Training load from session RPE × minutes, in arbitrary units (AU).

Session and weekly load, monotony and strain: FOSTER_2001. Averages that forget: WILLIAMS_2017. Cut-offs
published for monotony, strain and the ratio come from athletes;
nothing here is decided by them.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from statistics import mean, stdev

from app.domain.model.record import SessionDone
from app.domain.model.trained_time import trained_s

ACUTE_DAYS, CHRONIC_DAYS = 7, 28
WEEK_DAYS = 7
ONE_DAY = timedelta(days=1)

Loads = Mapping[date, Fraction]
"""Load of each day, AU; a day that is not in it had none. Exact, so that the order of summing cannot matter."""


@dataclass(frozen=True)
class WeekLoad:
    """One week, Monday to Sunday. Without any variation there is no monotony and no strain."""

    start: date
    load: float
    """Sum of the 7 daily loads, AU."""
    monotony: float | None
    """Mean ÷ sample standard deviation (n − 1) of the 7 daily loads."""
    strain: float | None
    """Load × monotony, AU."""


@dataclass(frozen=True)
class DayLoad:
    """One day with its exponentially weighted averages, AU."""

    day: date
    load: float
    acute: float
    """Over about 7 days."""
    chronic: float
    """Over about 28 days."""
    ratio: float | None
    """Acute ÷ chronic; None before the 28th day, and where nothing was done yet."""


def session_load(done: SessionDone) -> int | None:
    """Session RPE × minutes, arbitrary units, rounded down; None while the effort was not told."""
    return None if done.rpe is None else done.rpe * trained_s(done) // 60


def week_load(sessions: Sequence[SessionDone], end: date) -> int:
    """Sum of session loads over the 7 days ending `end`, inclusive. Arbitrary units."""
    first = end - timedelta(days=6)
    return sum(session_load(s) or 0 for s in sessions if first <= s.stamp.local <= end)


def weekly_loads(sessions: Sequence[SessionDone], end: date, weeks: int) -> tuple[tuple[date, int], ...]:
    """(last day, load) of the latest `weeks` weeks, oldest first."""
    ends = [end - timedelta(days=7 * back) for back in range(weeks - 1, -1, -1)]
    return tuple((day, week_load(sessions, day)) for day in ends)


# ------------------------------------------------------------------ from day to day

def daily_loads(sessions: Iterable[tuple[date, Fraction, Fraction]]) -> dict[date, Fraction]:
    """Minutes × RPE of (day, minutes, RPE), summed for each day on which there was a session."""
    loads: dict[date, Fraction] = {}
    for day, minutes, rpe in sessions:
        loads[day] = loads.get(day, Fraction(0)) + minutes * rpe
    return loads


def calendar_weeks(loads: Loads) -> tuple[WeekLoad, ...]:
    """Every whole week from the first to the last day with a session, the oldest first."""
    if not loads:
        return ()
    first, last = min(loads), max(loads)
    monday = first - timedelta(days=first.weekday())
    count = (last - monday).days // WEEK_DAYS + 1
    return tuple(_week(loads, monday + timedelta(weeks=n)) for n in range(count))


def _week(loads: Loads, monday: date) -> WeekLoad:
    days = [loads.get(monday + timedelta(days=n), Fraction(0)) for n in range(WEEK_DAYS)]
    load, spread = sum(days, Fraction(0)), stdev(days)
    monotony = float(mean(days)) / float(spread) if spread else None
    return WeekLoad(monday, float(load), monotony, None if monotony is None else float(load) * monotony)


def days_with_averages(loads: Loads) -> tuple[DayLoad, ...]:
    """Every day from the first to the last with a session: E_t = λ·load + (1 − λ)·E_(t−1), λ = 2 ÷ (N + 1).

    Both averages start with the first day's load.
    """
    if not loads:
        return ()
    day, last = min(loads), max(loads)
    acute = chronic = float(loads[day])
    found = [DayLoad(day, acute, acute, chronic, None)]
    while day < last:
        day += ONE_DAY
        load = float(loads.get(day, 0))
        acute, chronic = _next(acute, load, ACUTE_DAYS), _next(chronic, load, CHRONIC_DAYS)
        told = len(found) + 1 >= CHRONIC_DAYS and chronic > 0
        found.append(DayLoad(day, load, acute, chronic, acute / chronic if told else None))
    return tuple(found)


def _next(before: float, load: float, days: int) -> float:
    weight = 2 / (days + 1)
    return weight * load + (1 - weight) * before
