"""One running app to a data directory. The system lets go of it when the process ends, however it ends."""
from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Iterator
from pathlib import Path

from app.data_folder import LOCK, WAY_IN
from app.domain.errors import AlreadyOpen, NoAccess


@contextlib.contextmanager
def held(folder: Path) -> Iterator[None]:
    """Holds the folder, made if it is not there, until the block ends.

    Some network file systems lock nothing; there two programs can be open at once, and the store alone keeps them
    from mixing up a transaction.

    Raises:
        AlreadyOpen: another process holds it.
        NoAccess: the folder cannot be written.
    """
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        handle = os.open(folder / LOCK, os.O_RDWR | os.O_CREAT, 0o600)
    except OSError as error:
        raise NoAccess(path=str(folder)) from error
    try:
        if not _locked(handle):
            page = folder / WAY_IN
            raise AlreadyOpen(path=str(folder), page=str(page) if page.is_file() else "")
        yield
    finally:
        os.close(handle)


def _locked(handle: int) -> bool:
    """False where another process has it; True also where the file system knows no locks."""
    try:
        if sys.platform == "win32":
            import msvcrt
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    except OSError:
        return True
    return True
