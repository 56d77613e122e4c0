"""What lies beside the store and goes when everything is erased: sources, brands, apps, shell, tracks, logs of errors.

A data directory may be somebody's home folder, so only what bears the program's mark is deleted.
"""
from __future__ import annotations

import contextlib
import re
import shutil
import zipfile
from collections.abc import Iterator
from pathlib import Path

from app import data_folder as names
from app.storage.driver_errors import named_disk_faults

_TRACK = re.compile(r"[A-Za-z0-9_-]{16,64}\.wav")
_MARKED = (
    (names.SOURCES, names.SOURCE_HEAD), (names.BRANDS, names.BRAND_HEAD), (names.APPS, names.APP_LISTING),
)


def erase_beside(path: Path) -> None:
    """Deletes what the program keeps beside the store at `path`, and the folders that are empty then.

    Raises:
        NoAccess: something of it cannot be deleted.
    """
    folder = path.parent
    with named_disk_faults(str(folder)):
        for place in list(_ours(folder)):
            if place.is_dir() and not place.is_symlink():
                shutil.rmtree(place)
            else:
                place.unlink(missing_ok=True)
        for name in (names.SOURCES, names.BRANDS, names.APPS, names.TRACKS):
            with contextlib.suppress(OSError):  # it holds something else
                (folder / name).rmdir()


def _ours(folder: Path) -> Iterator[Path]:
    for name, head in _MARKED:
        yield from (place.parent for place in (folder / name).glob(f"*/{head}"))
    yield from (p for p in (folder / names.APPS).glob("*.zip") if _holds(p, names.APP_LISTING))
    yield from (p for p in (folder / names.SHELL,) if _holds(p, names.SHELL_ABOUT))
    yield from (p for p in (folder / names.TRACKS).glob("*.wav") if _TRACK.fullmatch(p.name))
    yield from (p for p in (folder / names.OLD_KEY,) if p.is_file())
    yield from (p for p in folder.glob(f"{names.ERROR_LOG}*{names.ERROR_LOG_END}") if p.is_file())


def _holds(path: Path, entry: str) -> bool:
    try:
        with zipfile.ZipFile(path) as archive:
            return entry in archive.namelist()
    except (OSError, zipfile.BadZipFile, ValueError, NotImplementedError):
        return False
