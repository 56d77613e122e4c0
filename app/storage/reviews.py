"""What the attention list is made from, over everybody at once and in few queries."""
from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection, Select, func, select

from app.storage.people import on_desk
from app.storage.summaries import COLUMNS, Summary, summary
from app.storage.tables import person as person_table
from app.storage.tables import record as table


@dataclass(frozen=True)
class Standing:
    """Somebody on the desk and when they were last heard of."""

    person: str
    name: str
    added: datetime
    last_session: date | None
    last_check_in: date | None
    last_return: datetime | None


def standings(db: Connection) -> tuple[Standing, ...]:
    """Everybody whom the desk lists, by name. Two aggregates over an index, however many records there are."""
    sessions, check_ins = _last_day("session").subquery(), _last_day("check_in").subquery()
    p = person_table.c
    wanted = (
        select(p.id, p.name, p.created_utc, sessions.c.day, check_ins.c.day, p.last_return_utc)
        .outerjoin(sessions, sessions.c.person_id == p.id)
        .outerjoin(check_ins, check_ins.c.person_id == p.id)
        .where(on_desk())
        .order_by(p.name, p.id)
    )
    return tuple(Standing(*row) for row in db.execute(wanted))


def desk_summaries(db: Connection, since: date) -> dict[str, tuple[Summary, ...]]:
    """Records in brief from a training day on, oldest first, by person, for everybody whom the desk lists."""
    wanted = _briefs().join(person_table, person_table.c.id == table.c.person_id)
    found: dict[str, list[Summary]] = {}
    for row in db.execute(wanted.where(on_desk(), table.c.local_date >= since)):
        found.setdefault(row[0], []).append(summary(row))
    return {person: tuple(briefs) for person, briefs in found.items()}


def summaries(db: Connection, person_id: str, since: date = date.min) -> tuple[Summary, ...]:
    """One person's records in brief from a training day on, oldest first, without those taken back."""
    wanted = _briefs().where(table.c.person_id == person_id, table.c.local_date >= since)
    return tuple(summary(row) for row in db.execute(wanted))


def _briefs() -> Select[Any]:
    c = table.c
    return select(*COLUMNS).where(c.deleted.is_(False)).order_by(c.local_date, c.utc, c.id)


def _last_day(kind: str) -> Select[Any]:
    c = table.c
    wanted = select(c.person_id, func.max(c.local_date).label("day"))
    return wanted.where(c.kind == kind, c.deleted.is_(False)).group_by(c.person_id)
