"""The end of a person, or of everything: rows, freed pages, journal, copies, files set aside, and what lies beside.

The transaction that erases leaves a note of what is still to be swept. A program that was ended in between, or that
another one kept from emptying the journal, sweeps when the store is opened next.
"""
from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING

from sqlalchemy import Connection, delete, select

from app.domain.errors import EraseUnfinished, StorageError
from app.storage.beside import erase_beside
from app.storage.copies import discard_copies, discard_set_aside, keep_copy
from app.storage.driver_errors import named_disk_faults
from app.storage.schema import LINEAGE
from app.storage.settings import forget_setting, save_setting, setting
from app.storage.sqlite_file import outside_transactions
from app.storage.tables import choice, journal, key, mark, metadata, person, record, reply, run

if TYPE_CHECKING:
    from app.storage.database import Store

#: Setting: what was erased and is not swept yet.
UNSWEPT = "erased_unswept"
PERSON, EVERYTHING = "person", "everything"


def erase_person(db: Connection, person_id: str) -> None:
    """Erases a person with all that is kept of them, their keys too. See `sweep_after_erasing`."""
    theirs = select(run.c.id).where(run.c.person_id == person_id)
    db.execute(delete(journal).where(journal.c.run_id.in_(theirs)))
    for table in (run, record, mark, reply, choice):
        db.execute(delete(table).where(table.c.person_id == person_id))
    db.execute(delete(key).where(key.c.owner == person_id))
    db.execute(delete(person).where(person.c.id == person_id))
    if setting(db, UNSWEPT) != EVERYTHING:
        save_setting(db, UNSWEPT, PERSON)


def erase_everything(db: Connection) -> None:
    """Leaves an empty store. See `sweep_after_erasing`."""
    for table in reversed(metadata.sorted_tables):
        db.execute(delete(table))
    save_setting(db, UNSWEPT, EVERYTHING)


def sweep_after_erasing(store: Store) -> None:
    """Rids the journal, the copies and the files set aside of what was erased; then makes a fresh copy.

    Call it outside any transaction, after one that erased. Freed pages are zeroed as they are freed. Where nothing
    was erased but a secret taken out of a row, files set aside stay.

    Raises:
        EraseUnfinished: another program reads the store, so that its journal cannot be emptied. Everything else was
            swept; the rest is when the store is opened next.
    """
    store.read_once.forget()
    wanted = _unswept(store)
    if store.path is not None:
        is_busy = bool(outside_transactions(store.engine, store.name, "PRAGMA wal_checkpoint(TRUNCATE)")[0][0])
        with named_disk_faults(store.name):
            discard_copies(store.path)
            if wanted:
                discard_set_aside(store.path)
        if wanted == EVERYTHING:
            erase_beside(store.path)
        if is_busy:
            raise EraseUnfinished(path=store.name)
    if wanted:
        with store.begin() as db:
            forget_setting(db, UNSWEPT)
    if store.path is not None:
        keep_copy(store.path, LINEAGE.head)


def finish_erasing(store: Store) -> None:
    """Sweeps after an erasing that was cut off. What still hinders it does not hinder the app."""
    if is_unfinished(store):
        with contextlib.suppress(StorageError):
            sweep_after_erasing(store)


def is_unfinished(store: Store) -> bool:
    """Whether something was erased and not swept yet."""
    return bool(_unswept(store))


def _unswept(store: Store) -> str:
    with store.read() as db:
        return str(setting(db, UNSWEPT, ""))
