"""The recorded lines in a pack."""
from __future__ import annotations

import zipfile
from collections.abc import Collection

from app.domain.errors import DamagedFile
from app.domain.sound.wav import BYTES, HEADER_BYTES, wav_header
from app.exchange.packs.archive import PackShelf


def clips_in(shelf: PackShelf, wanted: Collection[str]) -> dict[str, bytes]:
    """The samples of the wanted lines of a pack that was verified before, by path; those that it has not are left out.

    A line in another form than the one that `evenload pack` writes (`PACK.md`) is left out too.

    Raises:
        DamagedFile: it is no archive any more.
    """
    try:
        files = {path: file for path in wanted if (file := shelf.read(path)) is not None}
    except (zipfile.BadZipFile, OSError, ValueError) as error:
        raise DamagedFile(name="", why="archive") from error
    return {path: file[HEADER_BYTES:] for path, file in files.items() if is_clip(file)}


def is_clip(file: bytes) -> bool:
    """Whether a recording can be laid on a track as it is: mono, 16 bit, 16 kHz, and nothing beside the sound."""
    count = (len(file) - HEADER_BYTES) // BYTES
    return count > 0 and len(file) % BYTES == 0 and file[:HEADER_BYTES] == wav_header(count)
