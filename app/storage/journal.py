"""The running session: what was planned, every event before it is shown, and where it stands each second."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Any

from sqlalchemy import Connection, func, insert, select, update

from app.domain.model.plan import Timeline
from app.storage.codec import from_text, to_text
from app.storage.tables import journal as journal_table
from app.storage.tables import run as table


class RunState(StrEnum):
    """Whether a session is going on."""

    RUNNING = "running"
    ENDED = "ended"
    ABANDONED = "abandoned"
    """Another was started over it, or the client did not go on with it."""


@dataclass(frozen=True)
class SavedPosition:
    """Where a session stood, by both clocks."""

    position_ms: int
    utc: datetime
    mono_ms: int


@dataclass(frozen=True)
class JournalEntry:
    """One event, numbered from 1 on; `event` is JSON data."""

    seq: int
    beat: SavedPosition
    event: Any


@dataclass(frozen=True)
class Run:
    """A session being done. `about` is JSON data that the caller wants back; `beat` is the last heartbeat."""

    id: str
    person: str
    pack: str
    plan: Timeline
    started: datetime
    started_mono_ms: int
    beat: SavedPosition
    about: Mapping[str, Any]
    state: RunState = RunState.RUNNING
    entries: tuple[JournalEntry, ...] = ()


def start_run(
    db: Connection, run_id: str, person_id: str, plan: Timeline, pack: str, about: Mapping[str, Any],
    start: SavedPosition
) -> None:
    """Begins a session; one that was still running for the same person is left as abandoned."""
    c = table.c
    going_on = c.person_id == person_id, c.state == RunState.RUNNING.value
    db.execute(update(table).where(*going_on).values(state=RunState.ABANDONED.value))
    db.execute(insert(table).values(
        id=run_id, person_id=person_id, pack=pack, state=RunState.RUNNING.value, started_utc=start.utc,
        started_mono_ms=start.mono_ms, plan=to_text(plan), about=dict(about), **_beaten(start),
    ))


def append_event(db: Connection, run_id: str, event: Any, at: SavedPosition) -> int:
    """Keeps an event, JSON data, and returns its number. Commit before showing what it did."""
    c = journal_table.c
    seq = int(db.execute(select(func.max(c.seq)).where(c.run_id == run_id)).scalar() or 0) + 1
    db.execute(insert(journal_table).values(
        run_id=run_id, seq=seq, utc=at.utc, mono_ms=at.mono_ms, position_ms=at.position_ms, event=event,
    ))
    beat(db, run_id, at)
    return seq


def beat(db: Connection, run_id: str, at: SavedPosition) -> None:
    """Keeps where the session stands, each second.

    Raises:
        KeyError: there is no such session.
    """
    if db.execute(update(table).where(table.c.id == run_id).values(**_beaten(at))).rowcount == 0:
        raise KeyError(run_id)


def running(db: Connection, person_id: str) -> Run | None:
    """The session that this person is in, with its events, or None."""
    c = table.c
    wanted = select(table).where(c.person_id == person_id, c.state == RunState.RUNNING.value)
    row = db.execute(wanted.order_by(c.started_utc.desc()).limit(1)).mappings().one_or_none()
    return None if row is None else _run(db, row)


def replace_plan(db: Connection, run_id: str, plan: Timeline) -> None:
    """Keeps the plan as it stands after a change on the way."""
    db.execute(update(table).where(table.c.id == run_id).values(plan=to_text(plan)))


def end_run(db: Connection, run_id: str, state: RunState = RunState.ENDED) -> None:
    """Ends a session; in the same transaction as the record of it."""
    db.execute(update(table).where(table.c.id == run_id).values(state=state.value))


def _beaten(at: SavedPosition) -> dict[str, Any]:
    return {"position_ms": at.position_ms, "beat_utc": at.utc, "beat_mono_ms": at.mono_ms}


def _run(db: Connection, row: Mapping[Any, Any]) -> Run:
    c = journal_table.c
    wanted = select(c.seq, c.position_ms, c.utc, c.mono_ms, c.event).where(c.run_id == row["id"]).order_by(c.seq)
    return Run(
        id=row["id"], person=row["person_id"], pack=row["pack"], plan=from_text(Timeline, row["plan"]),
        started=row["started_utc"], started_mono_ms=row["started_mono_ms"], about=row["about"],
        beat=SavedPosition(row["position_ms"], row["beat_utc"], row["beat_mono_ms"]), state=RunState(row["state"]),
        entries=tuple(JournalEntry(seq, SavedPosition(ms, utc, mono), event) for seq, ms, utc, mono,
                      event in db.execute(wanted)),
    )
