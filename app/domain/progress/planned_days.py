"""Days that somebody chose for the sessions that are due, and what may follow at the end of a programme."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from app.domain.dosing.way_back import sessions_of
from app.domain.model.person import Person
from app.domain.model.programme import Programme
from app.domain.model.record import Record, SessionDone
from app.domain.model.source import Source
from app.domain.model.thresholds import FORTNIGHT_DAYS, STRENGTH_GAP_DAYS
from app.domain.progress.due_session import Due

DAYS_AHEAD = FORTNIGHT_DAYS
"""For so long a day may be chosen."""


def planned_key(programme: str, due: Due) -> str:
    """Under which a chosen day is kept; a week that is done once more, or comes round, has days of its own."""
    anew = f"/{due.lap}.{due.again}" if due.lap or due.again else ""
    return f"{programme}/{due.week}/{due.number}{anew}"


def planned_day(planned: Mapping[str, str], programme: str, due: Due | None) -> date | None:
    """The day that was chosen for a session that is due, or None."""
    text = planned.get(planned_key(programme, due)) if due else None
    return date.fromisoformat(text) if text else None


def with_day(planned: Mapping[str, str], programme: str, due: Due, day: date | None) -> dict[str, str]:
    """The chosen days with one more, changed or, for None, taken away."""
    key = planned_key(programme, due)
    kept = {other: text for other, text in planned.items() if other != key}
    return kept if day is None else kept | {key: day.isoformat()}


def too_soon(records: Sequence[Record], day: date) -> bool:
    """Whether strength work on that day would follow strength work without a day between."""
    strength = (s.stamp.local for s in sessions_of(records) if s.plan.strength and s.completed > 0)
    return any(timedelta(0) <= day - done < timedelta(days=STRENGTH_GAP_DAYS) for done in strength)


def in_block(person: Person, sessions: Sequence[SessionDone]) -> tuple[SessionDone, ...]:
    """The sessions since the programme was begun that is followed now."""
    return tuple(s for s in sessions if person.started is None or s.stamp.local >= person.started)


def next_blocks(source: Source, programme: str) -> tuple[Programme, ...]:
    """What may follow at the end of a programme: the coach's others, those after it in the coach's order first."""
    ids = [p.id for p in source.programmes]
    at = ids.index(programme) + 1 if programme in ids else 0
    turned = (*source.programmes[at:], *source.programmes[:at])
    return tuple(p for p in turned if p.id != programme and p.session_ids())
