"""Whether somebody trains steadily and yet nothing moves on: since when, and what holds it. Decides nothing. [P]"""
from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from typing import NamedTuple

from app.domain.dosing.way_back import sessions_of
from app.domain.model import thresholds as at
from app.domain.model.level import Level
from app.domain.model.plan import Part, Timeline
from app.domain.model.programme import Programme
from app.domain.model.record import Ending, SessionDone


class StallKind(StrEnum):
    """What half of the sessions show, or their effort on average; the graver one first where two hold."""

    PAIN = "pain"
    TOO_HARD = "too_hard"
    CUT_SHORT = "cut_short"
    EASED = "eased"
    """Eased by how they slept and felt, or by a gap."""
    UNANSWERED = "unanswered"
    """Begun on a morning of which something was left unsaid, so that nothing was added."""
    CEILING = "ceiling"
    """They went well, and nothing is left to be added as it is written."""


class SessionInBrief(NamedTuple):
    """What one strength session says of moving on."""

    on: date
    completed: int
    over: int | None
    """Effort above what was meant, points; None: not told."""
    hurts: bool
    """Pain from which nothing moves on."""
    ended_early: bool
    steps: tuple[tuple[str, int], ...]
    """The step at which each station was planned; empty on a day that was eased."""
    session: str = ""
    """Its id."""
    unanswered: bool = False
    """Whether the check-in before it, a part of it, or how hard a session was, was left out."""


@dataclass(frozen=True)
class Stall:
    """Nothing has moved on since that day."""

    kind: StallKind
    since: date
    sessions: int
    """Strength sessions in the last three weeks."""


def steps_planned(plan: Timeline) -> tuple[tuple[str, int], ...]:
    """(exercise as written, step) of every station of a strength session; none on a day that was eased."""
    if not plan.strength or plan.dose.level > Level.HOLD:
        return ()
    standing = {move.to or move.exercise: move for move in plan.moves}
    written = dict.fromkeys(s.written or s.exercise or "" for s in plan.steps if s.is_effort and s.part is Part.MAIN)
    moved = ((standing[i].exercise, standing[i].step) if i in standing else (i, 0) for i in written if i)
    return tuple(sorted(dict(moved).items()))


def in_brief(done: SessionDone) -> SessionInBrief:
    """A session as it was kept."""
    over = None if done.rpe is None else done.rpe - done.plan.target_rpe
    early = done.completed < at.WHOLE_FROM or done.ending is not Ending.FINISHED
    hurts = (done.worst_pain or 0) >= at.PAIN_HOLDS or bool(done.hurts)
    return SessionInBrief(done.stamp.local, done.completed, over, hurts, early, steps_planned(done.plan),
                          done.plan.session, any(reason.missing for reason in done.plan.dose.reasons))


def stall_of(sessions: Sequence[SessionInBrief], today: date, due: int | None = None) -> Stall | None:
    """The stall that somebody is in, or None. Oldest first; of strength sessions alone.

    Args:
        due: how many strength sessions were due in three weeks; None: not known.
    """
    known = [s for s in sessions if s.completed > 0 and s.on <= today and (today - s.on).days <= at.STALL_LOOK_DAYS]
    lately = [s for s in known if (today - s.on).days < at.STALL_DAYS]
    if len(lately) < at.STALL_SESSIONS or (due is not None and len(lately) * 100 < at.STALL_DONE * due):
        return None
    since = _last_move(known)
    if today - since < timedelta(days=at.STALL_DAYS):
        return None
    kind = _kind(lately)
    # while all goes well, the next session of the programme is a step on by itself
    goes_on = kind is StallKind.CEILING and {s.session for s in lately} - {s.session for s in known if s not in lately}
    return None if goes_on else Stall(kind, since, len(lately))


def stalled(sessions: Sequence[SessionDone], today: date, due: int | None = None) -> Stall | None:
    """The same from whole records, in any order."""
    return stall_of([in_brief(s) for s in sessions_of(sessions) if s.plan.strength], today, due)


def strength_due(programme: Programme, strength: Collection[str]) -> int:
    """How many strength sessions such a programme asks for in three weeks, rounded down."""
    weeks = [sum(s in strength for s in week.sessions) for week in programme.weeks if week.sessions]
    return sum(weeks) * at.STALL_DAYS // (7 * len(weeks)) if weeks else 0


def _last_move(known: Sequence[SessionInBrief]) -> date:
    """The day on which a station last stood higher than ever before, or of the first session."""
    highest: dict[str, int] = {}
    since = known[0].on
    for done in known:
        for exercise, step in done.steps:
            if step > highest.setdefault(exercise, step):
                highest[exercise], since = step, done.on
    return since


def _kind(lately: Sequence[SessionInBrief]) -> StallKind:
    half, over = len(lately) / 2, [s.over for s in lately if s.over is not None]
    found = (
        (StallKind.PAIN, sum(s.hurts for s in lately) >= half),
        (StallKind.TOO_HARD, bool(over) and sum(over) >= at.MEAN_OVER * len(over)),
        (StallKind.CUT_SHORT, sum(s.ended_early for s in lately) >= half),
        (StallKind.EASED, sum(not s.steps for s in lately) >= half),
        (StallKind.UNANSWERED, sum(s.unanswered for s in lately) >= half),
    )
    return next((kind for kind, holds in found if holds), StallKind.CEILING)
