"""A mistake of the program's own: one sentence for the person, and for whoever mends it a log file without any records.

The log names places in the code and kinds of errors. What an error says, the values at hand and the arguments of the
command are left out: they may hold what somebody wrote in a diary.
"""
from __future__ import annotations

import argparse
import logging
import os
import platform
import sys
import tempfile
import traceback
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from app import __version__, data_folder
from app.domain.errors import AppError
from app.words.machine import commands as words

PREFIX, SUFFIX = data_folder.ERROR_LOG, data_folder.ERROR_LOG_END
#: Older ones in a data directory are removed.
MOST = 10


def report(error: BaseException, args: argparse.Namespace | None) -> str:
    """Writes the log, and gives the sentence to say."""
    return words.unexpected(_written("\n".join(log_lines(error, getattr(args, "command", None) or "")), args))


def log_lines(error: BaseException, command: str) -> Iterator[str]:
    """What the log holds."""
    yield f"Evenload {__version__}, Python {platform.python_version()}, {sys.platform}"
    yield f"{datetime.now(UTC).isoformat(timespec='seconds')}, command: {command or 'none'}"
    seen: set[int] = set()
    current: BaseException | None = error
    while current is not None and id(current) not in seen:
        seen.add(id(current))
        yield f"{type(current).__module__}.{type(current).__qualname__}"
        for frame, line in traceback.walk_tb(current.__traceback__):
            yield f"  {frame.f_globals.get('__name__', '?')}:{line} {frame.f_code.co_name}"
        current = current.__cause__ or current.__context__


def _written(text: str, args: argparse.Namespace | None) -> str:
    """Where it was written, for its owner alone; empty where it could not be."""
    for folder in _folders(args):
        try:
            handle, name = tempfile.mkstemp(prefix=PREFIX, suffix=SUFFIX, dir=folder)
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                file.write(text + "\n")
        except OSError:
            continue
        return name
    return ""


def _folders(args: argparse.Namespace | None) -> Iterator[Path]:
    """The data directory if there is one, else where temporary files lie."""
    # it brings the store along, which many commands do without
    from app.commands.data_directory import data_dir

    try:
        own = data_dir(args or argparse.Namespace(data=None))
    except AppError:
        own = None
    if own is not None and own.is_dir():
        for old in sorted(own.glob(f"{PREFIX}*{SUFFIX}"), key=lambda path: path.stat().st_mtime)[:-MOST + 1]:
            old.unlink(missing_ok=True)
        yield own
    yield Path(tempfile.gettempdir())


class CommandLog(logging.Handler):
    """What the program and its libraries log, as lines on standard error; an error with a trace as any other."""

    def __init__(self, args: argparse.Namespace) -> None:
        super().__init__(logging.INFO if args.verbose else logging.WARNING)
        self._args = args

    def emit(self, record: logging.LogRecord) -> None:
        """Never raises, and never shows a trace."""
        error = record.exc_info[1] if record.exc_info else None
        said = report(error, self._args) if error else record.getMessage().partition("\n")[0]
        print(said, file=sys.stderr, flush=True)
