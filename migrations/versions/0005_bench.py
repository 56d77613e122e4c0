"""What a coach writes in the app: the shelf, drafts with every act, and the versions that were handed out.

Spelt out here and not taken from `app.storage.tables`, which moves on.
"""
from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None

_KEY, _KIND, _INSTANT = sa.String(64), sa.String(16), sa.String(27)


def upgrade() -> None:
    """Tables that nothing else refers to."""
    op.create_table(
        "shelf",
        sa.Column("source", _KEY, primary_key=True), sa.Column("kind", _KIND, primary_key=True),
        sa.Column("id", sa.String(200), primary_key=True),
        sa.Column("place", sa.Integer, nullable=False), sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("archived", sa.Boolean(create_constraint=False), nullable=False),
        sa.Column("content", sa.Text, nullable=False), sa.Column("utc", _INSTANT, nullable=False))
    op.create_table(
        "shelf_file",
        sa.Column("source", _KEY, primary_key=True), sa.Column("path", sa.String(400), primary_key=True),
        sa.Column("bytes", sa.LargeBinary, nullable=False))
    op.create_table(
        "draft",
        sa.Column("source", _KEY, primary_key=True), sa.Column("kind", _KIND, primary_key=True),
        sa.Column("id", sa.String(200), primary_key=True),
        sa.Column("base", sa.Integer, nullable=False), sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("start", sa.Text, nullable=False), sa.Column("content", sa.Text, nullable=False),
        sa.Column("utc", _INSTANT, nullable=False))
    op.create_table(
        "draft_act",
        sa.Column("source", _KEY, primary_key=True), sa.Column("kind", _KIND, primary_key=True),
        sa.Column("id", sa.String(200), primary_key=True),
        sa.Column("n", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("entry", sa.Text, nullable=False))
    op.create_table(
        "published",
        sa.Column("source", _KEY, primary_key=True),
        sa.Column("version", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("content", sa.Text, nullable=False), sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("note", sa.Text, nullable=False), sa.Column("utc", _INSTANT, nullable=False))
