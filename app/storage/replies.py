"""Replies, numbered by who signed them for each person: those sent from this desk and those that came."""
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
    signer: str = ""
    """The signing key, hex; empty in what was kept before it was noted."""
    digest: str = ""
    """SHA-256 of what was signed, hex; empty likewise."""


def keep_reply(db: Connection, reply: Reply) -> Reply:
    """Keeps a reply; where the very same is here already it stays, and what is kept is returned.

    The same: of one that came, signer, number and digest; of one sent from here, its number.
    """
    known = next((r for r in replies(db, reply.person, reply.direction) if _same(r, reply)), None)
    if known is None:
        db.execute(insert(table).values(
            person_id=reply.person, direction=reply.direction.value, signer=reply.signer, number=reply.number,
            digest=reply.digest, payload=dict(reply.content), utc=reply.utc,
        ))
    return known or reply


def _same(one: Reply, other: Reply) -> bool:
    if one.direction is Direction.SENT:
        return one.number == other.number
    return (one.signer, one.number, one.digest) == (other.signer, other.number, other.digest)


def replies(db: Connection, person_id: str, direction: Direction) -> tuple[Reply, ...]:
    """A person's replies of one direction in the order of their numbers."""
    c = table.c
    wanted = select(c.number, c.payload, c.utc, c.signer, c.digest).where(
        c.person_id == person_id, c.direction == direction.value)
    return tuple(
        Reply(person_id, direction, *row) for row in db.execute(wanted.order_by(c.number, c.utc, c.signer, c.digest))
    )


def next_number(db: Connection, person_id: str, told: int = 0) -> int:
    """The number for the next reply to a person, from 1 on, and above the highest that they told of."""
    c = table.c
    here = c.person_id == person_id, c.direction == Direction.SENT.value
    return max(int(db.execute(select(func.max(c.number)).where(*here)).scalar() or 0), told) + 1
