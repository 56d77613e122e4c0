"""Records that an item of the attention list rests on, whole, many people's at once."""
from __future__ import annotations

from collections.abc import Iterator, Sequence

from sqlalchemy import Connection, select

from app.domain.model.record import Record
from app.domain.model.record_kinds import BY_KEPT
from app.storage.checked_text import unchanged
from app.storage.codec import from_text
from app.storage.tables import record as table
from app.storage.upsert import chunks


def told_in_full(db: Connection, keys: Sequence[tuple[str, str]]) -> Iterator[Record]:
    """The records of these (person, id), in no particular order; those taken back are passed over."""
    c = table.c
    asked = set(keys)
    for some in chunks(sorted(asked)):
        people, ids = {person for person, _ in some}, {record_id for _, record_id in some}
        wanted = select(c.person_id, c.id, c.kind, c.payload, c.hash).where(
            c.person_id.in_(sorted(people)), c.id.in_(sorted(ids)), c.deleted.is_(False))
        for person_id, record_id, kind, text, told in db.execute(wanted):
            if (person_id, record_id) in asked:
                yield from_text(BY_KEPT[kind].of, unchanged(text, told))
