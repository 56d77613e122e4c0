"""How far a command is: one line on standard error, only where somebody looks on, and gone at the end."""
from __future__ import annotations

import shutil
import sys
import time
from collections.abc import Callable
from types import TracebackType
from typing import TextIO

#: What is done sooner needs no line.
AFTER_S = 1.0
EVERY_S = 0.1


class Progress:
    """Use it as a context. Nothing is written where `out` is no terminal."""

    def __init__(self, out: TextIO | None = None, now: Callable[[], float] = time.monotonic) -> None:
        self._out, self._now = out or sys.stderr, now
        self._shows = self._out.isatty()
        self._began, self._last, self._width = now(), now() - EVERY_S, 0

    def __enter__(self) -> Progress:
        return self

    def __exit__(self, *_: type[BaseException] | BaseException | TracebackType | None) -> None:
        self._write("")

    def stage(self, words: str) -> None:
        """Something begins that is known to take long: said at once."""
        self._write(words)

    def step(self, words: str) -> None:
        """One of many small steps: said after the first second, and then not more often than can be read."""
        now = self._now()
        if now - self._began >= AFTER_S and now - self._last >= EVERY_S:
            self._write(words)

    def _write(self, words: str) -> None:
        if not self._shows or not (words or self._width):
            return
        words = words[:max(0, shutil.get_terminal_size().columns - 1)]
        self._out.write(f"\r{words.ljust(self._width)}" + ("" if words else "\r"))
        self._out.flush()
        self._width, self._last = len(words), self._now()
