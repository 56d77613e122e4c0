"""Words of the plan: its weeks, and where one is. Knows no Flet."""
from __future__ import annotations

from datetime import date

from app.words.client.today import Pair, day_words

PLAN_TITLE = "Plan"
PLAN_NOT: Pair = (
    "It follows what you do, not the calendar: a week off with a cold costs nothing.",
    "It follows what {name} does, not the calendar: a week off with a cold costs nothing.",
)
NEXT_ONE = "Next"
LIGHTER = "Lighter week"
PLAN_THROUGH: Pair = (
    "You have finished the programme. Its last full weeks repeat until your coach sends another.",
    "{name} has finished the programme. Its last full weeks repeat until {name}’s coach sends another.",
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
    """The way to the sessions outside the programme."""
    return f"All {number} other sessions from the coach"


def where_one_is(week: int, weeks: int, done: int, of: int) -> str:
    """`Week 6 of 6. 17 of 18 sessions done.`"""
    return f"Week {week} of {weeks}. {done} of {of} sessions done."


def week_done(done: int, of: int, *, lighter: bool, here: bool) -> str:
    """At the end of a week's line: `done`, `2 of 3`, `lighter`; nothing for one to come."""
    if done == of:
        return "done"
    return f"{done} of {of}" if done or here else "lighter" if lighter else ""


def week_spoken(week: int, done: int, of: int, *, lighter: bool, here: bool) -> str:
    """The same for a screen reader: `Week 4: 0 of 3 done, lighter, now`."""
    return f"Week {week}: {done} of {of} done{', lighter' if lighter else ''}{', now' if here else ''}"
