"""The first tables.

Spelt out here and not taken from `app.storage.tables`, which moves on.
"""
from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

INSTANT = sa.String(27)
ID = sa.String(64)
SLUG = sa.String(200)
WORD = sa.String(16)
YES_NO = sa.Boolean(create_constraint=False)


def upgrade() -> None:
    """From an empty store."""
    _people()
    _records()
    _running_sessions()
    _packs_and_keys()
    _desk()


def _people() -> None:
    op.create_table(
        "person",
        sa.Column("id", ID, primary_key=True),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("here", YES_NO, nullable=False),
        sa.Column("payload", sa.Text, nullable=False),
        sa.Column("created_utc", INSTANT, nullable=False),
        sa.Column("signing_key", SLUG),
        sa.Column("sealing_key", SLUG),
        sa.Column("last_return_utc", INSTANT),
        sa.Column("last_return_number", sa.Integer),
    )
    op.create_index("person_by_signing_key", "person", ["signing_key"])
    op.create_table(
        "choice",
        sa.Column("person_id", ID, sa.ForeignKey("person.id"), primary_key=True),
        sa.Column("written", SLUG, primary_key=True),
        sa.Column("chosen", SLUG, primary_key=True),
        sa.Column("times", sa.Integer, nullable=False),
        sa.Column("last_utc", INSTANT, nullable=False),
    )


def _records() -> None:
    op.create_table(
        "record",
        sa.Column("person_id", ID, sa.ForeignKey("person.id"), primary_key=True),
        sa.Column("id", ID, primary_key=True),
        sa.Column("kind", WORD, nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("utc", INSTANT, nullable=False),
        sa.Column("local_date", sa.Date, nullable=False),
        sa.Column("offset_min", sa.Integer, nullable=False),
        sa.Column("deleted", YES_NO, nullable=False),
        sa.Column("payload", sa.Text, nullable=False),
        sa.Column("hash", sa.String(64), nullable=False),
        sa.Column("session", SLUG),
        sa.Column("pain", sa.Integer),
        sa.Column("rpe", sa.Integer),
        sa.Column("target_rpe", sa.Integer),
        sa.Column("completed", sa.Integer),
        sa.Column("took_s", sa.Integer),
        sa.Column("ending", WORD),
        sa.Column("sign", sa.Text),
        sa.Column("by_hand", sa.Text),
    )
    op.create_index("record_by_day", "record", ["person_id", "kind", "deleted", "local_date"])
    op.create_index("record_by_date", "record", ["local_date"])


def _running_sessions() -> None:
    op.create_table(
        "run",
        sa.Column("id", ID, primary_key=True),
        sa.Column("person_id", ID, sa.ForeignKey("person.id"), nullable=False),
        sa.Column("pack", sa.String(64), nullable=False),
        sa.Column("state", WORD, nullable=False),
        sa.Column("started_utc", INSTANT, nullable=False),
        sa.Column("started_mono_ms", sa.BigInteger, nullable=False),
        sa.Column("plan", sa.Text, nullable=False),
        sa.Column("about", sa.Text, nullable=False),
        sa.Column("position_ms", sa.BigInteger, nullable=False),
        sa.Column("beat_utc", INSTANT, nullable=False),
        sa.Column("beat_mono_ms", sa.BigInteger, nullable=False),
    )
    op.create_index("run_by_person", "run", ["person_id", "state"])
    op.create_table(
        "journal",
        sa.Column("run_id", ID, sa.ForeignKey("run.id"), primary_key=True),
        sa.Column("seq", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("utc", INSTANT, nullable=False),
        sa.Column("mono_ms", sa.BigInteger, nullable=False),
        sa.Column("position_ms", sa.BigInteger, nullable=False),
        sa.Column("event", sa.Text, nullable=False),
    )


def _packs_and_keys() -> None:
    op.create_table(
        "pack",
        sa.Column("sha256", sa.String(64), primary_key=True),
        sa.Column("coach_key", SLUG, nullable=False),
        sa.Column("coach", sa.Text, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("title", sa.Text, nullable=False),
        sa.Column("content", sa.Text, nullable=False),
        sa.Column("imported_utc", INSTANT, nullable=False),
    )
    op.create_index("pack_by_coach", "pack", ["coach_key", "version"])
    op.create_table(
        "pack_file",
        sa.Column("sha256", sa.String(64), sa.ForeignKey("pack.sha256"), primary_key=True),
        sa.Column("bytes", sa.LargeBinary, nullable=False),
    )
    op.create_table(
        "pinned_coach",
        sa.Column("signing_key", SLUG, primary_key=True),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("sealing_key", SLUG, nullable=False),
        sa.Column("recovery_keys", sa.Text, nullable=False),
        sa.Column("words_confirmed", YES_NO, nullable=False),
        sa.Column("first_seen_utc", INSTANT, nullable=False),
    )
    op.create_table(
        "key",
        sa.Column("owner", ID, primary_key=True),
        sa.Column("kind", sa.String(32), primary_key=True),
        sa.Column("private", sa.LargeBinary, nullable=False),
        sa.Column("public", sa.LargeBinary, nullable=False),
        sa.Column("made_utc", INSTANT, nullable=False),
    )
    op.create_table(
        "setting",
        sa.Column("name", SLUG, primary_key=True),
        sa.Column("value", sa.Text, nullable=False),
    )


def _desk() -> None:
    op.create_table(
        "mark",
        sa.Column("person_id", ID, sa.ForeignKey("person.id"), primary_key=True),
        sa.Column("reason", sa.String(64), primary_key=True),
        sa.Column("evidence", SLUG, primary_key=True),
        sa.Column("state", WORD, nullable=False),
        sa.Column("until", sa.Date),
        sa.Column("utc", INSTANT, nullable=False),
    )
    op.create_table(
        "reply",
        sa.Column("person_id", ID, sa.ForeignKey("person.id"), primary_key=True),
        sa.Column("direction", WORD, primary_key=True),
        sa.Column("number", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("payload", sa.Text, nullable=False),
        sa.Column("utc", INSTANT, nullable=False),
    )
