"""What a database driver says, as one of our errors."""
from __future__ import annotations

import errno
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy.exc import ArgumentError, DBAPIError

from app.domain.errors import DamagedDatabase, NoAccess, NoRoom, StorageError, StoreBusy, WrongValue
from app.storage.checked_text import ChangedRow

_BY_CODE: dict[int, type[StorageError]] = {
    sqlite3.SQLITE_FULL: NoRoom,
    sqlite3.SQLITE_BUSY: StoreBusy,
    sqlite3.SQLITE_LOCKED: StoreBusy,
    sqlite3.SQLITE_CORRUPT: DamagedDatabase,
    sqlite3.SQLITE_NOTADB: DamagedDatabase,
    sqlite3.SQLITE_CANTOPEN: NoAccess,
    sqlite3.SQLITE_READONLY: NoAccess,
    sqlite3.SQLITE_PERM: NoAccess,
    sqlite3.SQLITE_IOERR: NoAccess,
}

#: Rights, something else in the file's place, or a disk that fails.
_NO_ACCESS = (errno.EACCES, errno.EPERM, errno.EROFS, errno.ENOTDIR, errno.EISDIR, errno.EEXIST, errno.EIO)
#: SQLite's shared memory beside the store grows by this much at once.
LEAST_ROOM = 64 * 1024


def is_full(path: str) -> bool:
    """Whether the disk of a path has not even room for SQLite's smallest file; False where nobody can say."""
    try:
        return shutil.disk_usage(Path(path).parent).free < LEAST_ROOM
    except OSError:
        return False


@contextmanager
def named_faults(path: str) -> Iterator[None]:
    """Turns what the driver raises into NoRoom, StoreBusy, DamagedDatabase or NoAccess; a changed row is damage too.

    Anything else passes as it is: a mistake of ours should be seen.
    """
    try:
        yield
    except ChangedRow as changed:
        raise DamagedDatabase(path=path, kept=path) from changed
    except (DBAPIError, sqlite3.Error) as error:
        cause = error.orig if isinstance(error, DBAPIError) else error
        found = _BY_CODE.get((getattr(cause, "sqlite_errorcode", None) or 0) & 0xFF)
        if found is NoAccess and is_full(path):  # SQLite cannot say why a file could not be made or grown
            found = NoRoom
        if found is None:
            raise
        raise (found(path=path, kept=path) if found is DamagedDatabase else found(path=path)) from error


@contextmanager
def named_url_faults(words: str) -> Iterator[None]:
    """Turns what is wrong with a database URL, or a driver that is not installed, into WrongValue."""
    try:
        yield
    except (ArgumentError, ModuleNotFoundError, ValueError) as error:
        # what stands behind the scheme may be a password
        raise WrongValue(where="database URL", value=words.partition("://")[0],
                         expected="sqlite, or a kind of database whose driver is installed") from error


@contextmanager
def named_disk_faults(path: str) -> Iterator[None]:
    """The same for making folders and files."""
    try:
        yield
    except OSError as error:
        if error.errno in (errno.ENOSPC, errno.EDQUOT):
            raise NoRoom(path=path) from error
        if error.errno in _NO_ACCESS:
            raise NoAccess(path=path) from error
        raise
