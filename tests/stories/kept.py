"""What a data directory holds after a story."""
from __future__ import annotations

from pathlib import Path

from app.actions import people
from app.domain.model.record import SessionDone
from app.storage import records
from app.storage.database import open_store
from app.storage.export import logical_dump


def kept_sessions(data: Path) -> list[SessionDone]:
    """The sessions that were written down."""
    store = open_store(data)
    person = people.current_person(store)
    assert person
    with store.read() as db:
        found = [r for r in records.all_records(db, person.id) if isinstance(r, SessionDone)]
    store.close()
    return found


def dump(data: Path) -> str:
    """Everything that is kept there."""
    store = open_store(data)
    with store.read() as db:
        found = logical_dump(db)
    store.close()
    return found
