"""An index over what stopped somebody, so that an open stop is found however old it is.

Spelt out here and not taken from `app.storage.tables`, which moves on.
"""
from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Stops are few among the records, so that the index holds them alone."""
    told = sa.text("sign IS NOT NULL")
    op.create_index("record_by_sign", "record", ["person_id", "utc"], sqlite_where=told, postgresql_where=told)
