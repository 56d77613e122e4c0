"""A studio's own app from its brand and the brandless shell: a folder for any web host."""
from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from app.domain.errors import UnreadableSource, WrongValue
from app.exchange.brands.brand_file import BrandFiles
from app.exchange.brands.icons import site_files
from app.exchange.brands.web_shell import ABOUT, LISTING, brand_shell
from app.exchange.packs.archive import MOST_BYTES, is_safe_path, read_archive
from app.storage.driver_errors import named_disk_faults

_A_SHELL = "a shell made by build/web.py"
#: Written last: it is what tells browsers that there is a new version.
_LAST = ("sw.js", LISTING)


@dataclass(frozen=True)
class Made:
    """What was written."""

    folder: Path
    files: int
    size: int
    """Bytes of all files."""


def _unwatched(_done: int, _of: int) -> None:
    """Nobody asks how far it is."""


def make_app(whole: BrandFiles, shell: Path, folder: Path, wrote: Callable[[int, int], None] = _unwatched) -> Made:
    """Writes the app into a new or empty folder, or over an earlier version of it; other files there stay.

    `wrote` hears how many files are written, and of how many.

    Raises:
        UnreadableSource, WrongValue, NotOurFile, NewerFormat, DamagedFile, TooLarge, UnsafeEntry: the shell is none
            of ours, or the folder holds something else. Nothing was written.
        NoRoom, NoAccess: it cannot be written.
    """
    files = brand_shell(read_shell(shell), whole, site_files(whole))
    before = _listed(folder)
    if before is None and folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise WrongValue(where=str(folder), value="something else", expected="a new or an empty folder")
    strays = sorted(name for name in files if not _stays_in(folder, name))
    if strays:
        raise WrongValue(where=str(folder / strays[0]), value="a link", expected="a place in the folder itself")
    with named_disk_faults(str(folder)):
        for done, name in enumerate((*sorted(files.keys() - set(_LAST)), *_LAST), 1):
            _write(folder / name, files[name])
            wrote(done, len(files))
        for name in (before or set()) - files.keys():
            (folder / name).unlink(missing_ok=True)
    return Made(folder, len(files), sum(map(len, files.values())))


def read_shell(path: Path) -> dict[str, bytes]:
    """The files of a shell by path. It is read as a pack is: by its rule for paths, and within its bounds.

    Raises:
        UnreadableSource, WrongValue: it is not there, or is no shell.
        TooLarge, UnsafeEntry, DamagedFile: over a limit, a path that leads elsewhere, or anything else that is not
            as `build/web.py` writes it.
    """
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise UnreadableSource(where=str(path), why=error.strerror or "it cannot be read") from error
    files = read_archive(data, 0, path.name) if data.startswith(b"PK") else {}
    if ABOUT not in files:
        raise WrongValue(where=path.name, value="another file", expected=_A_SHELL)
    return files


def _listed(folder: Path) -> set[str] | None:
    """What an earlier version wrote there; None if there is none."""
    try:
        listed = json.loads((folder / LISTING).read_bytes())
    except (OSError, ValueError, RecursionError):
        return None
    if not isinstance(listed, dict):
        return None
    # a listing that was tampered with shall delete nothing elsewhere, nor by way of a link
    return {name for name in listed if is_safe_path(name) and _stays_in(folder, name)}


def _stays_in(folder: Path, name: str) -> bool:
    return (folder / name).resolve().is_relative_to(folder.resolve())


def _write(place: Path, data: bytes) -> None:
    if place.is_file() and place.read_bytes() == data:
        return
    place.parent.mkdir(parents=True, exist_ok=True)
    beside = place.with_name(place.name + ".part")
    beside.write_bytes(data)
    beside.replace(place)
