"""A disk that fails on demand: the C library's own file operations, counted and made to fail (`failing_disk.c`).

It needs Linux and a C compiler; where there is none, a process can only be ended at one of its SQL statements.
"""
from __future__ import annotations

import ctypes
import os
import shutil
import subprocess
import sys
from enum import Enum
from pathlib import Path

from sqlalchemy import Engine, event

from tests.trust.small_disk import MOST_FREE

CODE = Path(__file__).parent / "failing_disk.c"
#: Exit status of a process that was ended on purpose.
ENDED = 86


class Fault(Enum):
    """What happens at the n-th operation; with the kind of operation that is counted for it, -1 for all."""

    NOTHING = ("nothing", 0, -1)
    KILL = ("the process is ended", 1, -1)
    TEAR = ("half of a write arrives, then it is ended", 2, 0)
    WRITE = ("a write fails", 3, 0)
    SYNC = ("an fsync fails", 4, 1)
    RENAME = ("a rename fails", 5, 2)
    NO_ROOM = ("there is no more room", 6, 0)
    STATEMENT = ("the process is ended at an SQL statement", 0, -2)
    FULL = ("a real small disk is full", 0, -3)

    def __init__(self, words: str, number: int, counted: int) -> None:
        self.words, self.number, self.counted = words, number, counted


def built(folder: Path) -> Path | None:
    """The library to put before the C library, or None where it cannot be made."""
    compiler = shutil.which("cc") or shutil.which("gcc")
    if not sys.platform.startswith("linux") or compiler is None:
        return None
    made = folder / "failing_disk.so"
    done = subprocess.run([compiler, "-shared", "-fPIC", "-O1", "-o", str(made), str(CODE), "-ldl"],
                          capture_output=True)
    return made if done.returncode == 0 else None


class Disk:
    """Faults of this process, armed for one folder at a time. `is_small`: that folder lies on a small disk."""

    def __init__(self, *, is_small: bool = False) -> None:
        self.is_small = is_small
        self._library = ctypes.CDLL(None) if os.environ.get("LD_PRELOAD") else None
        self._statements, self._ends_at = 0, 0
        event.listen(Engine, "before_cursor_execute", self._count)

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Those that can be brought about here."""
        failing = tuple(fault for fault in Fault if fault.number) if self._library else ()
        return (*failing, Fault.STATEMENT, *((Fault.FULL,) if self.is_small else ()))

    def arm(self, folder: Path, fault: Fault, moment: int) -> None:
        """From now on, below that folder."""
        self._statements, self._ends_at = 0, moment if fault is Fault.STATEMENT else 0
        if self._library:
            self._library.disk_arm(str(folder.resolve()).encode(), fault.number, ctypes.c_long(moment))

    def count(self, fault: Fault) -> int:
        """How many moments there were, since it was armed, at which the fault could have come."""
        if fault is Fault.FULL:
            return MOST_FREE
        if fault is Fault.STATEMENT:
            return self._statements
        return int(self._library.disk_count(fault.counted)) if self._library else 0

    def _count(self, *_: object) -> None:
        self._statements += 1
        if self._statements == self._ends_at:
            os._exit(ENDED)
