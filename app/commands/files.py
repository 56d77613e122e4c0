"""Files in and out, whole or not at all. `-` is standard input or output, in bytes."""
from __future__ import annotations

import errno
import logging
import os
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import BinaryIO, TextIO

from app.domain.errors import NoAccess, NoRoom, TooLarge, UnreadableSource, WrongValue
from app.words.machine import commands as words

LIMIT = 200 * 1024 * 1024
STANDARD = "-"
#: Rights of a file that is written.
FOR_ALL, OWNER_ALONE = 0o644, 0o600
log = logging.getLogger(__name__)


def is_standard(path: Path) -> bool:
    """Whether it stands for standard input or output."""
    return path == Path(STANDARD)


def name_of(path: Path) -> str:
    """What a file to be read is called in a sentence."""
    return words.STANDARD_INPUT if is_standard(path) else path.name


def written_name(path: Path) -> str:
    """What a file that was written is called at the beginning of a sentence."""
    return words.STANDARD_OUTPUT if is_standard(path) else path.name


def said_beside(output: Path) -> TextIO:
    """Where a command says what it wrote: standard error, if standard output is what it wrote to."""
    return sys.stderr if is_standard(output) else sys.stdout


def read_file(path: Path) -> bytes:
    """The bytes of a file.

    Raises:
        UnreadableSource: it is not there or cannot be read.
        TooLarge: over 200 MB, before any of it is read; of standard input, before more is.
    """
    try:
        if is_standard(path):
            data = sys.stdin.buffer.read(LIMIT + 1)
            size = len(data)
        else:
            size = path.stat().st_size
            data = path.read_bytes() if size <= LIMIT else b""
    except OSError as error:
        raise UnreadableSource(where=str(path), why=error.strerror or "it cannot be read") from error
    if size > LIMIT:
        raise TooLarge(name=name_of(path), limit="200 MB", found=f"{size // 1_000_000} MB")
    log.info(words.was_read(name_of(path), size))
    return data


def read_text(path: Path) -> str:
    """The text of a small file.

    Raises:
        UnreadableSource, TooLarge: as `read_file`, or it is no text.
    """
    try:
        return read_file(path).decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise UnreadableSource(where=name_of(path), why="it is no text in UTF-8") from error


def require_place(path: Path) -> None:
    """To be asked before long work.

    Raises:
        WrongValue: nothing can be written there: no such folder, a folder itself, or the bytes would fill a terminal.
    """
    if is_standard(path):
        if sys.stdout.isatty():
            raise WrongValue(where="-o", value=STANDARD, expected="a file or a pipe, since this is a terminal")
        return
    if path.is_dir():
        raise WrongValue(where=str(path), value="a folder", expected="the name of a file")
    if not path.parent.is_dir():
        raise WrongValue(where=str(path), value="No such folder", expected="a folder that can be written to")


def write_file(path: Path, data: bytes, rights: int = FOR_ALL) -> None:
    """Writes beside, then puts it in place: there is the old file or the new one, never half of one.

    `rights`: who may read it, `FOR_ALL` or `OWNER_ALONE`.

    Raises:
        WrongValue: the folder is not there or may not be written.
        NoRoom: the disk is full.
        NoAccess: it cannot be put in place.
    """
    def whole(file: BinaryIO) -> None:
        file.write(data)

    write_stream(path, whole, rights)


def write_stream(path: Path, write: Callable[[BinaryIO], None], rights: int = FOR_ALL) -> None:
    """The same for what is written piece by piece.

    Raises:
        WrongValue, NoRoom, NoAccess: as `write_file`.
    """
    require_place(path)
    if is_standard(path):
        _to_standard_output(write)
        return
    try:
        handle, beside = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent or Path())
    except OSError as error:
        raise WrongValue(where=str(path), value=error.strerror, expected="a folder that can be written to") from error
    try:
        with os.fdopen(handle, "wb") as file:
            write(file)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(beside, rights)
        os.replace(beside, path)
    except OSError as error:
        raise (NoRoom if error.errno in (errno.ENOSPC, errno.EDQUOT) else NoAccess)(path=str(path)) from error
    finally:
        Path(beside).unlink(missing_ok=True)
    log.info(words.was_written(str(path)))


def _to_standard_output(write: Callable[[BinaryIO], None]) -> None:
    sys.stdout.flush()
    try:
        write(sys.stdout.buffer)
        sys.stdout.buffer.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise NoRoom(path=STANDARD) from error
