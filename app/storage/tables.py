"""The tables. The shape in a store is what the migrations build; a test holds the two together.

Instants are text of fixed width (`codec.utc_text`), so that they sort the same in every database; JSON is
canonical text; key material and media are rows, since a browser's store is one file and its journal.
"""
from __future__ import annotations

import json
from datetime import datetime
from typing import Any

from sqlalchemy import (
    BigInteger,
    Boolean,
    Column,
    Date,
    Dialect,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
    Text,
    text,
)
from sqlalchemy.types import TypeDecorator

from app.storage.checked_text import with_check, without_check
from app.storage.codec import canonical, parse_utc, utc_text


class Instant(TypeDecorator[datetime]):
    """A UTC instant as text of fixed width."""

    impl = String(27)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:
        """To text."""
        return None if value is None else utc_text(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> datetime | None:
        """From text."""
        return None if value is None else parse_utc(value)


class Json(TypeDecorator[Any]):
    """JSON data in its canonical spelling."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> str:
        """To text; None is JSON's null, which is a value."""
        return canonical(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> Any:
        """From text."""
        return None if value is None else json.loads(value)


class CheckedText(TypeDecorator[str]):
    """A JSON object as text that carries its digest; reading one that has changed raises `ChangedRow`."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:
        """With its digest."""
        return None if value is None else with_check(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> str | None:
        """Without it, once it was compared."""
        return None if value is None else without_check(value)


class CheckedJson(TypeDecorator[Any]):
    """The same for JSON data."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> str:
        """To text."""
        text = canonical(value)
        return with_check(text) if text.startswith("{") else text

    def process_result_value(self, value: str | None, dialect: Dialect) -> Any:
        """From text."""
        return None if value is None else json.loads(without_check(value))


metadata = MetaData()

person = Table(
    "person", metadata,
    Column("id", String(64), primary_key=True),
    Column("name", Text, nullable=False),
    Column("here", Boolean(create_constraint=False), nullable=False),       # trains on this device
    Column("payload", CheckedText, nullable=False),
    Column("created_utc", Instant, nullable=False),
    Column("signing_key", String(200)),                                     # pinned at the first return
    Column("sealing_key", String(200)),
    Column("last_return_utc", Instant),
    Column("last_return_number", Integer),
    Index("person_by_signing_key", "signing_key"),
)

record = Table(
    "record", metadata,
    # the person is part of the key, so that nobody's return can touch another's records
    Column("person_id", String(64), ForeignKey("person.id"), primary_key=True),
    Column("id", String(64), primary_key=True),
    Column("kind", String(16), nullable=False),
    Column("revision", Integer, nullable=False),
    Column("utc", Instant, nullable=False),
    Column("local_date", Date, nullable=False),
    Column("offset_min", Integer, nullable=False),
    Column("deleted", Boolean(create_constraint=False), nullable=False),
    Column("payload", Text, nullable=False),
    Column("hash", String(64), nullable=False),
    # narrow copies for the desk, which reads thousands of rows and no payload
    Column("session", String(200)),
    Column("pain", Integer),
    Column("rpe", Integer),
    Column("target_rpe", Integer),
    Column("completed", Integer),
    Column("took_s", Integer),
    Column("ending", String(16)),
    Column("sign", Text),
    Column("by_hand", Text),
    # arrived with a date that cannot be: ordered by its arrival, and never read as what was told last
    Column("aside", Boolean(create_constraint=False), nullable=False, default=False),
    # more narrow copies, of what is looked at over some weeks
    Column("strength", Boolean(create_constraint=False)),
    Column("slept", Integer),
    Column("energy", Integer),
    Column("calm", Integer),
    Column("soreness", Integer),
    # (name, number) each: where it hurt, and the step of each station
    Column("spots", Text),
    Column("steps", Text),
    Column("week_again", Integer),
    Index("record_by_day", "person_id", "kind", "deleted", "local_date"),
    Index("record_by_date", "local_date"),
    # on PostgreSQL by the migration alone: said here, it would load all of that dialect at each start
    Index("record_by_sign", "person_id", "utc", sqlite_where=text("sign IS NOT NULL")),
)

run = Table(
    "run", metadata,
    Column("id", String(64), primary_key=True),
    Column("person_id", String(64), ForeignKey("person.id"), nullable=False),
    Column("pack", String(64), nullable=False),
    Column("state", String(16), nullable=False),
    Column("started_utc", Instant, nullable=False),
    Column("started_mono_ms", BigInteger, nullable=False),
    Column("plan", CheckedText, nullable=False),
    Column("about", CheckedJson, nullable=False),
    Column("position_ms", BigInteger, nullable=False),
    Column("beat_utc", Instant, nullable=False),
    Column("beat_mono_ms", BigInteger, nullable=False),
    Index("run_by_person", "person_id", "state"),
)

journal = Table(
    "journal", metadata,
    Column("run_id", String(64), ForeignKey("run.id"), primary_key=True),
    Column("seq", Integer, primary_key=True, autoincrement=False),
    Column("utc", Instant, nullable=False),
    Column("mono_ms", BigInteger, nullable=False),
    Column("position_ms", BigInteger, nullable=False),
    Column("event", Json, nullable=False),
)

pack = Table(
    "pack", metadata,
    Column("sha256", String(64), primary_key=True),
    Column("coach_key", String(200), nullable=False),
    Column("coach", Text, nullable=False),
    Column("version", Integer, nullable=False),
    Column("title", Text, nullable=False),
    Column("content", CheckedText, nullable=False),
    Column("imported_utc", Instant, nullable=False),
    Index("pack_by_coach", "coach_key", "version"),
)

# apart from `pack`, so that reading a pack's content never pages through its media
pack_file = Table(
    "pack_file", metadata,
    Column("sha256", String(64), ForeignKey("pack.sha256"), primary_key=True),
    Column("bytes", LargeBinary, nullable=False),
)

pinned_coach = Table(
    "pinned_coach", metadata,
    Column("signing_key", String(200), primary_key=True),
    Column("name", Text, nullable=False),
    Column("sealing_key", String(200), nullable=False),
    Column("recovery_keys", Json, nullable=False),
    Column("words_confirmed", Boolean(create_constraint=False), nullable=False),
    Column("first_seen_utc", Instant, nullable=False),
    Column("epoch", BigInteger, nullable=False, default=0),                 # of the last statement about the keys
)

retired_coach = Table(
    "retired_coach", metadata,
    Column("signing_key", String(200), primary_key=True),
    Column("name", Text, nullable=False),
    Column("replaced_by", String(200), nullable=False),
    Column("utc", Instant, nullable=False),
)

key = Table(
    "key", metadata,
    Column("owner", String(64), primary_key=True),
    Column("kind", String(32), primary_key=True),
    Column("private", LargeBinary, nullable=False),
    Column("public", LargeBinary, nullable=False),
    Column("made_utc", Instant, nullable=False),
)

setting = Table(
    "setting", metadata,
    Column("name", String(200), primary_key=True),
    Column("value", Json, nullable=False),
)

mark = Table(
    "mark", metadata,
    Column("person_id", String(64), ForeignKey("person.id"), primary_key=True),
    Column("reason", String(64), primary_key=True),
    Column("evidence", String(200), primary_key=True),
    Column("state", String(16), nullable=False),
    Column("until", Date),
    Column("utc", Instant, nullable=False),
)

reply = Table(
    "reply", metadata,
    Column("person_id", String(64), ForeignKey("person.id"), primary_key=True),
    Column("direction", String(16), primary_key=True),
    # empty in what was kept before it was noted who signed
    Column("signer", String(200), primary_key=True),
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("digest", String(64), primary_key=True),
    Column("payload", CheckedJson, nullable=False),
    Column("utc", Instant, nullable=False),
)

choice = Table(
    "choice", metadata,
    Column("person_id", String(64), ForeignKey("person.id"), primary_key=True),
    Column("written", String(200), primary_key=True),
    Column("chosen", String(200), primary_key=True),
    Column("times", Integer, nullable=False),
    Column("last_utc", Instant, nullable=False),
)

__all__ = [
    "CheckedJson", "CheckedText", "Instant", "Json", "choice", "journal", "key", "mark", "metadata", "pack",
    "pack_file", "person", "pinned_coach", "record", "reply", "retired_coach", "run", "setting",
]
