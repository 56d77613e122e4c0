"""Runs the migrations on the connection that `app.storage.schema` hands over."""
from alembic import context

from app.storage.tables import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    render_as_batch=True,
)
context.run_migrations()
