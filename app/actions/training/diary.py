"""What is said after a session, corrections, and what is taken back."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from app.domain.model.body import Spot
from app.domain.model.record import CheckIn, Ending, Record, SessionDone
from app.storage import records
from app.storage.database import Store


def save_afterwards(store: Store, done: SessionDone, *,
                    rpe: int | None, pain: Mapping[Spot, int] | None, note: str = "",
                    ending: Ending | None = None) -> SessionDone:
    """Keeps how hard it was (0–10), what hurt, a note, and why it was cut short if it was."""
    told = replace(done, rpe=rpe, pain=pain, note=note.strip(), ending=ending or done.ending)
    with store.begin() as db:
        return records.save_record(db, told)


def correct(store: Store, record: CheckIn | SessionDone) -> CheckIn | SessionDone:
    """Keeps a corrected record as its next revision."""
    with store.begin() as db:
        return records.save_record(db, record)


def take_back(store: Store, record: Record) -> None:
    """Empties a record; that it was taken back is kept, so that other copies learn of it."""
    with store.begin() as db:
        records.take_back(db, record.stamp.person, record.stamp.id)


def put_back(store: Store, record: Record) -> Record:
    """Undoes a taking back, with the record as it was."""
    with store.begin() as db:
        return records.save_record(db, replace(record, stamp=replace(record.stamp, deleted=False)))
