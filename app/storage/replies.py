"""Replies, numbered for each person: those sent from this desk and those that came."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Any

from sqlalchemy import Connection, func, insert, select

from app.storage.tables import reply as table


class Direction(StrEnum):
    """Which way a reply went."""

    SENT = "sent"
    RECEIVED = "received"


@dataclass(frozen=True)
class Reply:
    """One reply. `content` is JSON data as the file's format has it."""

    person: str
    direction: Direction
    number: int
    content: Mapping[str, Any]
    utc: datetime


def keep_reply(db: Connection, reply: Reply) -> Reply:
    """Keeps a reply; where that number is here already it stays, and what is kept is returned."""
    known = next((r for r in replies(db, reply.person, reply.direction) if r.number == reply.number), None)
    if known is None:
        db.execute(insert(table).values(
            person_id=reply.person, direction=reply.direction.value, number=reply.number,
            payload=dict(reply.content), utc=reply.utc,
        ))
    return known or reply


def replies(db: Connection, person_id: str, direction: Direction) -> tuple[Reply, ...]:
    """A person's replies of one direction in the order of their numbers."""
    c = table.c
    wanted = select(c.number, c.payload, c.utc).where(c.person_id == person_id, c.direction == direction.value)
    return tuple(
        Reply(person_id, direction, number, content, utc)
        for number, content, utc in db.execute(wanted.order_by(c.number))
    )


def next_number(db: Connection, person_id: str) -> int:
    """The number for the next reply to a person, from 1 on."""
    c = table.c
    here = c.person_id == person_id, c.direction == Direction.SENT.value
    return int(db.execute(select(func.max(c.number)).where(*here)).scalar() or 0) + 1
