"""A copy of everything on this device as one file, and such a file in the store's place."""
from __future__ import annotations

from pathlib import Path

from app.device.clock import Clock
from app.domain.errors import NotOurFile, PassphraseNeeded
from app.exchange.crypto.passphrase import COPY_SUFFIX, is_sealed_copy, open_copy, seal_copy
from app.exchange.crypto.passphrase import suggested_passphrase as suggested_passphrase
from app.storage.copies import copied_bytes
from app.storage.database import Store, open_store, replace_file, replace_store

#: The first bytes of every SQLite file.
SQLITE = b"SQLite format 3\x00"


def backup_of(store: Store, clock: Clock) -> tuple[str, bytes]:
    """A name and the bytes of a whole, consistent copy. It pushes out none of those that are made each day.

    Raises:
        NotOurFile: the store is no file.
        DamagedDatabase, NoRoom: it cannot be copied.
    """
    if store.path is None:
        raise NotOurFile(name=store.name)
    day = clock.local(clock.now()).day
    return f"evenload-{day}.db", copied_bytes(store.path)


async def sealed_backup_of(store: Store, clock: Clock, passphrase: str) -> tuple[str, bytes]:
    """The same under a passphrase. Without it nobody opens the file, its owner neither.

    Raises:
        EasyPassphrase: it would be guessed.
        NotOurFile, DamagedDatabase, NoRoom: as `backup_of`.
    """
    name, data = backup_of(store, clock)
    return f"{name.removesuffix('.db')}{COPY_SUFFIX}", await seal_copy(data, passphrase)


def asks_passphrase(data: bytes) -> bool:
    """Whether a copy is one that a passphrase opens."""
    return is_sealed_copy(data)


async def opened_backup(name: str, data: bytes, passphrase: str | None) -> bytes:
    """The copy itself, for `put_back`: as it came, or as the passphrase opens it.

    Raises:
        PassphraseNeeded: it is sealed, and there is none.
        WrongPassphrase, NewerFormat, DamagedFile: it does not open.
    """
    if not is_sealed_copy(data):
        return data
    if passphrase is None:
        raise PassphraseNeeded(name=name)
    return await open_copy(data, name, passphrase)


def put_back(store: Store, name: str, data: bytes) -> None:
    """Puts a copy in the store's place; what was there is set aside. It is verified and upgraded first.

    Raises:
        NotOurFile: it is no copy of a store.
        DamagedDatabase, NewerDatabase, NotOurStore, NoRoom: as they say; the store is as it was.
    """
    if store.path is None:
        raise NotOurFile(name=name)
    _require_sqlite(name, data)
    replace_store(store, data)


def put_file_back(path: Path, name: str, data: bytes) -> Path | None:
    """The same where no store is open, also where the one at `path` is damaged; gives what was set aside, if any.

    Raises:
        NotOurFile, DamagedDatabase, NewerDatabase, NotOurStore, NoRoom: as `put_back`.
    """
    _require_sqlite(name, data)
    aside = replace_file(path, data)
    open_store(path).close()  # brought up to date
    return aside


def _require_sqlite(name: str, data: bytes) -> None:
    if not data.startswith(SQLITE):
        raise NotOurFile(name=name)
