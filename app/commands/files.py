"""Files in and out, whole or not at all."""
from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import BinaryIO

from app.domain.errors import NoRoom, TooLarge, UnreadableSource, WrongValue

LIMIT = 200 * 1024 * 1024


def read_file(path: Path) -> bytes:
    """The bytes of a file.

    Raises:
        UnreadableSource: it is not there or cannot be read.
        TooLarge: over 200 MB, before any of it is read.
    """
    try:
        if path.stat().st_size > LIMIT:
            raise TooLarge(name=path.name, limit="200 MB", found=f"{path.stat().st_size // 1_000_000} MB")
        return path.read_bytes()
    except OSError as error:
        raise UnreadableSource(where=str(path), why=error.strerror or "it cannot be read") from error


def write_file(path: Path, data: bytes) -> None:
    """Writes beside, then puts it in place: there is the old file or the new one, never half of one.

    Raises:
        WrongValue: the folder is not there or may not be written.
        NoRoom: the disk is full.
    """
    def whole(file: BinaryIO) -> None:
        file.write(data)

    write_stream(path, whole)


def write_stream(path: Path, write: Callable[[BinaryIO], None]) -> None:
    """The same for what is written piece by piece.

    Raises:
        WrongValue, NoRoom: as `write_file`.
    """
    try:
        handle, beside = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent or Path())
    except OSError as error:
        raise WrongValue(where=str(path), value=error.strerror, expected="a folder that can be written to") from error
    try:
        with os.fdopen(handle, "wb") as file:
            write(file)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(beside, 0o644)
        os.replace(beside, path)
    except OSError as error:
        if path.is_dir():
            raise WrongValue(where=str(path), value="a folder", expected="the name of a file") from error
        raise NoRoom(path=str(path)) from error
    finally:
        Path(beside).unlink(missing_ok=True)
