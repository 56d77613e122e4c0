"""Which session is due, and where in the programme somebody stands.

A programme goes on with what was done and not with the calendar: nothing is skipped because of a cold, and a gap
is answered by the dose.
"""
from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from app.domain.model.programme import Programme, Week
from app.domain.model.record import Ending, SessionDone
from app.domain.model.thresholds import COUNTS_FROM


@dataclass(frozen=True)
class Due:
    """The next session: `week` counts from 1, `number` within the week from 1."""

    session: str
    week: int
    number: int
    of: int
    lighter: bool
    note: str = ""
    done_on: date | None = None
    """The day it was done; None: not yet."""
    repeats: bool = False
    """The programme is through; its last week goes round again."""


def counts(done: SessionDone) -> bool:
    """Whether a session moves the programme on: enough of it done, and not ended by a sign or by pain."""
    return done.completed >= COUNTS_FROM and done.ending not in (Ending.SIGN, Ending.PAIN)


def schedule(programme: Programme) -> tuple[Due, ...]:
    """Every session of the programme in order."""
    return tuple(
        Due(session, number, at, len(week.sessions), week.lighter, week.note)
        for number, week in enumerate(programme.weeks, 1)
        for at, session in enumerate(week.sessions, 1)
    )


def progress(programme: Programme, sessions: Sequence[SessionDone], strength: Collection[str]) -> tuple[Due, ...]:
    """The schedule with the day on which each was done. One session stands for another of its kind.

    Args:
        sessions: oldest first.
        strength: ids of sessions that hold strength work.
    """
    plan = list(schedule(programme))
    for done in sessions:
        if not counts(done):
            continue
        for at, due in enumerate(plan):
            if due.done_on is None:
                if due.session == done.plan.session or (due.session in strength) == (done.plan.session in strength):
                    plan[at] = _on(due, done.stamp.local)
                break
    return tuple(plan)


def _on(due: Due, day: date) -> Due:
    return Due(due.session, due.week, due.number, due.of, due.lighter, due.note, day)


def due_session(programme: Programme, sessions: Sequence[SessionDone], strength: Collection[str]) -> Due | None:
    """The next session, or None for an empty programme. After the end its last week goes round."""
    plan = progress(programme, sessions, strength)
    for due in plan:
        if due.done_on is None:
            return due
    week: Week | None = programme.weeks[-1] if programme.weeks else None
    if week is None or not week.sessions:
        return None
    extra = [s for s in sessions if counts(s)][len(plan):]
    at = len(extra) % len(week.sessions)
    return Due(week.sessions[at], len(programme.weeks), at + 1, len(week.sessions), week.lighter, week.note, None, True)
