"""${message}"""
from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = ${repr(up_revision)}
down_revision = ${repr(down_revision)}
branch_labels = ${repr(branch_labels)}
depends_on = ${repr(depends_on)}


def upgrade() -> None:
    """One way only: an older program refuses a newer store, and the copy made before stays."""
    ${upgrades if upgrades else "pass"}
