"""The files of the programme that is in use, opened once: pages ask at every turn, and a pack never changes."""
from __future__ import annotations

import zipfile
from functools import lru_cache

from app.exchange.packs.archive import Shelf
from app.storage import packs
from app.storage.database import Store


@lru_cache(maxsize=2)
def pack_shelf(store: Store, pack: str) -> Shelf | None:
    """The files of a pack that was taken in, by its SHA-256; None where it is not here."""
    with store.read() as db:
        data = packs.pack_file(db, pack)
    try:
        return None if data is None else Shelf(data)
    except zipfile.BadZipFile:  # it was whole when it was taken in; a session never ends for want of a picture
        return None
