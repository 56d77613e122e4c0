"""A copy of everything on this device as one file, and such a file in the store's place."""
from __future__ import annotations

from app.device.clock import Clock
from app.domain.errors import NotOurFile
from app.storage.copies import keep_copy
from app.storage.database import Store, replace_store
from app.storage.schema import LINEAGE

#: The first bytes of every SQLite file.
SQLITE = b"SQLite format 3\x00"


def backup_of(store: Store, clock: Clock) -> tuple[str, bytes]:
    """A name and the bytes of a whole, consistent copy.

    Raises:
        NotOurFile: the store is no file.
        DamagedDatabase, NoRoom: it cannot be copied.
    """
    if store.path is None:
        raise NotOurFile(name=store.name)
    day = clock.local(clock.now()).day
    return f"evenload-{day}.db", keep_copy(store.path, LINEAGE.head).read_bytes()


def put_back(store: Store, name: str, data: bytes) -> None:
    """Puts a copy in the store's place; what was there is set aside. It is verified and upgraded first.

    Raises:
        NotOurFile: it is no copy of a store.
        DamagedDatabase, NewerDatabase, NotOurStore, NoRoom: as they say; the store is as it was.
    """
    if store.path is None or not data.startswith(SQLITE):
        raise NotOurFile(name=name)
    replace_store(store, data)
