"""Messages by who signed them, records whose dates cannot be, keys that coaches have replaced.

Spelt out here and not taken from `app.storage.tables`, which moves on.
"""
from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

_KEPT = "person_id, direction, number, payload, utc"


def upgrade() -> None:
    """Messages that are here already keep an empty signer: who signed them was not kept."""
    op.create_table(
        "reply_by_signer",
        sa.Column("person_id", sa.String(64), sa.ForeignKey("person.id"), primary_key=True),
        sa.Column("direction", sa.String(16), primary_key=True),
        sa.Column("signer", sa.String(200), primary_key=True),
        sa.Column("number", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("digest", sa.String(64), primary_key=True),
        sa.Column("payload", sa.Text, nullable=False),
        sa.Column("utc", sa.String(27), nullable=False),
    )
    op.execute(f"insert into reply_by_signer (signer, digest, {_KEPT}) select '', '', {_KEPT} from reply")
    op.drop_table("reply")
    op.rename_table("reply_by_signer", "reply")
    op.add_column("record", sa.Column("aside", sa.Boolean(create_constraint=False), nullable=False,
                                      server_default=sa.false()))
    op.add_column("pinned_coach", sa.Column("epoch", sa.BigInteger, nullable=False, server_default="0"))
    op.create_table(
        "retired_coach",
        sa.Column("signing_key", sa.String(200), primary_key=True),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("replaced_by", sa.String(200), nullable=False),
        sa.Column("utc", sa.String(27), nullable=False),
    )
