"""Which session is due, and where in the programme somebody stands.

A programme goes on with what was done and not with the calendar: nothing is skipped because of a cold, and a gap
is answered by the dose. A week that was much harder than meant is done once more before the next; after the end the
last full weeks go round, never a lighter one for ever, until somebody chooses what comes next. [P]
"""
from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from app.domain.model.programme import Programme, Week
from app.domain.model.record import Ending, SessionDone
from app.domain.model.thresholds import COUNTS_FROM, ROUND_WEEKS, WEEK_OVER


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
    """The programme is through; its last full weeks go round."""
    again: int = 0
    """So often its week has been begun once more, since its strength sessions were much harder than meant."""
    lap: int = 0
    """How often the week has come round since the end of the programme; 0 before it."""


def counts(done: SessionDone) -> bool:
    """Whether a session moves the programme on: enough of it done, and not ended by a sign or by pain."""
    return done.completed >= COUNTS_FROM and done.ending not in (Ending.SIGN, Ending.PAIN)


def schedule(programme: Programme) -> tuple[Due, ...]:
    """Every session of the programme in order."""
    return tuple(due for number, week in enumerate(programme.weeks, 1) for due in _week(number, week))


def _week(number: int, week: Week) -> tuple[Due, ...]:
    return tuple(Due(session, number, at, len(week.sessions), week.lighter, week.note)
                 for at, session in enumerate(week.sessions, 1))


def going_round(programme: Programme) -> tuple[int, ...]:
    """Numbers of the weeks that go round after the end: the last three full ones; where none is full, the last three.

    Empty where no week holds a session.
    """
    held = [number for number, week in enumerate(programme.weeks, 1) if week.sessions]
    full = [number for number in held if not programme.weeks[number - 1].lighter]
    return tuple((full or held)[-ROUND_WEEKS:])


def _unending(programme: Programme) -> Iterator[tuple[Due, ...]]:
    """The weeks in the order in which they come due: those of the programme, then its last full ones round and round.

    Weeks without a session are passed over; nothing comes where there are no others.
    """
    for number, week in enumerate(programme.weeks, 1):
        if week.sessions:
            yield _week(number, week)
    numbers, lap = going_round(programme), 0
    while numbers:
        lap += 1
        for number in numbers:
            yield tuple(replace(due, repeats=True, lap=lap) for due in _week(number, programme.weeks[number - 1]))


@dataclass
class _Walk:
    """A programme being followed: the week under way, what was done of it, and what was done of the programme."""

    weeks: Iterator[tuple[Due, ...]]
    strength: Collection[str]
    week: tuple[Due, ...] = ()
    done: list[SessionDone] = field(default_factory=list)
    on: dict[tuple[int, int], Due] = field(default_factory=dict)
    """Sessions of the programme by week and number, as they stand."""

    def take(self, done: SessionDone) -> None:
        """One more session, if it stands for the one that is due."""
        if not self.week:
            return
        due = self.week[len(self.done)]
        if due.session != done.plan.session and (due.session in self.strength) != (done.plan.session in self.strength):
            return
        self.done.append(done)
        self._mark(replace(due, done_on=done.stamp.local))
        if len(self.done) < len(self.week):
            return
        self.week = self._once_more() if _was_too_hard(self.done) else next(self.weeks)
        self.done = []

    def _once_more(self) -> tuple[Due, ...]:
        """The same week, to be done anew."""
        week = tuple(replace(due, again=due.again + 1) for due in self.week)
        for due in week:
            self._mark(due)
        return week

    def _mark(self, due: Due) -> None:
        if not due.lap:
            self.on[due.week, due.number] = due


def _was_too_hard(week: Sequence[SessionDone]) -> bool:
    """Whether its strength sessions were on average so much harder than meant that the week is done once more.

    A session whose effort was not told says nothing here.
    """
    over = [done.rpe - done.plan.target_rpe for done in week if done.plan.strength and done.rpe is not None]
    return bool(over) and sum(over) >= WEEK_OVER * len(over)


def _walked(programme: Programme, sessions: Sequence[SessionDone], strength: Collection[str]) -> _Walk:
    weeks = _unending(programme)
    walk = _Walk(weeks, strength, next(weeks, ()))
    for done in filter(counts, sessions):
        walk.take(done)
    return walk


def progress(programme: Programme, sessions: Sequence[SessionDone], strength: Collection[str]) -> tuple[Due, ...]:
    """The schedule with the day on which each was done. One session stands for another of its kind.

    A week that is done once more stands open again.

    Args:
        sessions: oldest first.
        strength: ids of sessions that hold strength work.
    """
    on: Mapping[tuple[int, int], Due] = _walked(programme, sessions, strength).on
    return tuple(on.get((due.week, due.number), due) for due in schedule(programme))


def due_session(programme: Programme, sessions: Sequence[SessionDone], strength: Collection[str]) -> Due | None:
    """The next session, or None for an empty programme. After the end its last full weeks go round."""
    walk = _walked(programme, sessions, strength)
    return walk.week[len(walk.done)] if walk.week else None
