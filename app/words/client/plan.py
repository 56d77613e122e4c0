"""Words of the plan: its weeks, and where one is. Knows no Flet."""
from __future__ import annotations

from datetime import date

from app.words.client.today import Pair, day_words

PLAN_TITLE = "Plan"
PLAN_NOT: Pair = (
    "It goes on with what you do, not with the calendar: a week with a cold loses nothing.",
    "It goes on with what {name} does, not with the calendar: a week with a cold loses nothing.",
)
NEXT_ONE = "Next"
LIGHTER = "Lighter week"
PLAN_THROUGH: Pair = (
    "The programme is through. Its last full weeks come round until your coach sends another.",
    "The programme is through. Its last full weeks come round until {name}’s coach sends another.",
)


def week_head(week: int) -> str:
    """`Week 2`."""
    return f"Week {week}"


def plan_name(week: int, number: int, name: str) -> str:
    """The spoken name of a session in the plan: `Week 2, session 1: First steps`."""
    return f"Week {week}, session {number}: {name}"


def done_on(day: date) -> str:
    """`Done, Monday 2 March`."""
    return f"Done, {day_words(day)}"


def all_sessions(number: int) -> str:
    """The way to the sessions that are not of one's own programme."""
    return f"All {number} other sessions of your coach"
