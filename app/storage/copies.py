"""Copies of the SQLite file: made aside before an upgrade, offered when the file is damaged, and put back.

For `evenload.db`: `evenload.db.copy-0001-3` is the third copy, of tables at version 0001; `evenload.db.copying` is
one on its way. `evenload.db.damaged-1` and `evenload.db.replaced-1` were set aside; the program deletes them only when
somebody is erased who is in them.
"""
from __future__ import annotations

import os
import re
import sqlite3
import sys
from collections.abc import Iterable
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path

from app.domain.errors import DamagedDatabase, StorageError
from app.storage.driver_errors import named_disk_faults, named_faults
from app.storage.row_checks import changed_rows

KEEP = 3
#: SQLite's own files beside the database.
BESIDE = ("-wal", "-shm", "-journal")
#: A copy while it is written; it gets its name once it is whole, so a program that was cut off leaves none that is not.
COPYING = "copying"
#: A store that is being put in place.
INCOMING, RESTORING = "incoming", "restoring"
#: Why a file was set aside.
DAMAGED, REPLACED = "damaged", "replaced"


def copies(path: Path) -> tuple[Path, ...]:
    """The copies of the store at `path`, oldest first."""
    found = [(int(m[1]), p) for p in _beside(path) if (m := re.search(r"\.copy-\w*-(\d+)$", p.name))]
    return tuple(p for _, p in sorted(found))


def keep_copy(path: Path, version: str) -> Path:
    """Copies the store aside, named with the version of its tables; the newest three copies stay.

    It counts as a copy only once it was read through: every page, every index, every row that decides.

    Raises:
        DamagedDatabase: the store is not whole, so that a copy would only push out a good one.
        NoRoom: the disk is full; no part of a copy is left.
    """
    numbers = [int(p.name.rsplit("-", 1)[1]) for p in copies(path)]
    new = path.with_name(f"{path.name}.copy-{version}-{max(numbers, default=0) + 1}")
    part = _whole_part(path)
    with named_disk_faults(str(path)):
        part.replace(new)
    for old in copies(path)[:-KEEP]:
        old.unlink()
    return new


def copied_bytes(path: Path) -> bytes:
    """A whole copy that is not kept.

    Raises:
        DamagedDatabase, NoRoom: as `keep_copy`.
    """
    part = _whole_part(path)
    try:
        with named_disk_faults(str(path)):
            return part.read_bytes()
    finally:
        part.unlink(missing_ok=True)


def _whole_part(path: Path) -> Path:
    """A copy that was read through, under the name of one on its way."""
    _copy(path, part := _cut_off_removed(path))
    if not is_whole(part):
        part.unlink()
        raise DamagedDatabase(path=str(path), kept=str(path))
    return part


def last_good_copy(path: Path) -> Path | None:
    """The newest copy that is whole, or None."""
    return next((copy for copy in reversed(copies(path)) if is_whole(copy)), None)


def restore_copy(path: Path, copy: Path) -> Path | None:
    """Puts a copy in the store's place and returns where the store that was there now lies, if one was.

    Close the store first. The copy stays.

    Raises:
        DamagedDatabase: the copy is not whole.
        NoRoom: the disk is full; the store is as it was.
    """
    if not is_whole(copy):
        raise DamagedDatabase(path=str(copy), kept=str(copy))
    new = path.with_name(f"{path.name}.{RESTORING}")
    new.unlink(missing_ok=True)
    _copy(copy, new)
    aside = set_aside(path, REPLACED) if path.exists() else None
    try:
        with named_disk_faults(str(path)):
            new.replace(path)
    except StorageError:
        _put_back(aside, path)
        new.unlink(missing_ok=True)
        raise
    return aside


def finish_restoring(path: Path) -> None:
    """Puts in place what was on its way there when the program was cut off, with the old store set aside already."""
    new = path.with_name(f"{path.name}.{RESTORING}")
    if not path.exists() and is_whole(new):
        with named_disk_faults(str(path)):
            new.replace(path)


def set_aside(path: Path, why: str) -> Path:
    """Moves the file and SQLite's own files beside it to a free name ending in `why` and a number."""
    number = 1
    while any(path.with_name(f"{path.name}.{why}-{number}{end}").exists() for end in ("", *BESIDE)):
        number += 1
    kept = path.with_name(f"{path.name}.{why}-{number}")
    with named_disk_faults(str(path)):
        # the journals first: without them the file could be opened and would look older than it is
        for end in (*BESIDE, ""):
            part = path.with_name(path.name + end)
            if part.exists():
                part.rename(kept.with_name(kept.name + end))
    return kept


def _put_back(aside: Path | None, path: Path) -> None:
    """The other way: what was set aside stands where it stood."""
    for end in (*BESIDE, ""):
        part = aside.with_name(aside.name + end) if aside else None
        if part is not None and part.exists():
            part.rename(path.with_name(path.name + end))


def last_set_aside(path: Path) -> Path | None:
    """The damaged store that was set aside last, or None."""
    found = {int(m[1]): p for p in path.parent.glob(f"{_literal(path.name)}.{DAMAGED}-*")
             if (m := re.search(r"-(\d+)$", p.name))}
    return found[max(found)] if found else None


def discard_copies(path: Path) -> int:
    """Deletes the copies, because somebody was erased who is still in them. Returns how many there were."""
    found = copies(path)
    for copy in found:
        copy.unlink()
    _cut_off_removed(path)
    return len(found)


def discard_set_aside(path: Path) -> int:
    """Deletes what was set aside and what was cut off on its way in. Returns how many files there were."""
    found = [p for p in path.parent.glob(f"{_literal(path.name)}.*") if _is_aside(p.name[len(path.name) + 1:])]
    for file in found:
        file.unlink()
    return len(found)


def is_whole(path: Path) -> bool:
    """Whether every page and every index of the file can be read, and every row that decides is as it was written."""
    if not path.is_file() or path.stat().st_size == 0:
        return False
    try:
        with named_faults(str(path)), closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)) as db:
            return bool(db.execute("PRAGMA integrity_check(1)").fetchone()[0] == "ok") and not changed_rows(db)
    except DamagedDatabase:
        return False


def made_on(copy: Path) -> date:
    """The day, in UTC, on which a copy was made."""
    return datetime.fromtimestamp(copy.stat().st_mtime, UTC).date()


def make_private_file(path: Path) -> None:
    """An empty file that its owner alone may read and write, where there is none."""
    with named_disk_faults(str(path)):
        os.close(os.open(path, os.O_CREAT | os.O_RDWR, 0o600))


def keep_private(path: Path) -> None:
    """Takes away the rights that anybody but the owner has to an existing file."""
    with named_disk_faults(str(path)):
        if sys.platform != "win32" and path.stat().st_mode & 0o077:
            path.chmod(0o600)


def _copy(source: Path, target: Path) -> None:
    """SQLite's own online copy, which takes what is still in the journal along."""
    make_private_file(target)
    try:
        with (
            named_faults(str(source)),
            closing(sqlite3.connect(source)) as old,
            closing(sqlite3.connect(target)) as new,
        ):
            old.backup(new)
            # one file, without a journal beside it
            new.execute("PRAGMA journal_mode = DELETE")
    except BaseException:
        target.unlink(missing_ok=True)
        raise


def _cut_off_removed(path: Path) -> Path:
    """Where a copy is written; what an earlier one that was cut off left there is deleted."""
    part = path.with_name(f"{path.name}.{COPYING}")
    with named_disk_faults(str(path)):
        for end in ("", *BESIDE):
            part.with_name(part.name + end).unlink(missing_ok=True)
    return part


def _beside(path: Path) -> Iterable[Path]:
    return (p for p in path.parent.glob(f"{_literal(path.name)}.copy-*") if p.is_file())


def _is_aside(end: str) -> bool:
    return re.fullmatch(rf"(({DAMAGED}|{REPLACED})-\d+|{INCOMING}|{RESTORING})({'|'.join(BESIDE)})?", end) is not None


def _literal(name: str) -> str:
    return re.sub(r"([*?\[])", r"[\1]", name)
