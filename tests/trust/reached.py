"""Which turns the program's own code has taken: what tells the hunt that an input did something new.

A turn is one line of a function after another. What is called over and over for one input is looked at now and then.
"""
from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from types import CodeType, FrameType
from typing import Any

#: Code that is followed: the program's, and the readers of the standard library that it stands on.
FOLLOWED = ("/app/", "/tomllib/", "/zipfile", "/csv.py", "/wave.py")
#: For one input a function is looked at in each of its first calls, and then in one of so many.
CALLS, RARELY = 24, 64


@dataclass
class _Function:
    code: CodeType
    """Held, so that its address stays its own."""
    turns: set[int] = field(default_factory=set)
    stretch: int = 0
    calls: int = 0


class Reached:
    """Turns taken since it was made, and whether the last stretch took one that is new."""

    def __init__(self) -> None:
        self._functions: dict[int, _Function | None] = {}
        self._foreign: list[CodeType] = []
        self._stretch = 0
        self.turns = 0
        self.is_new = False

    @contextmanager
    def watched(self) -> Iterator[None]:
        """Within it turns are noted, in this thread."""
        self.is_new = False
        self._stretch += 1
        before = sys.gettrace()
        sys.settrace(self._called)
        try:
            yield
        finally:
            sys.settrace(before)

    def _called(self, frame: FrameType, event: str, argument: Any) -> Callable[..., Any] | None:
        code = frame.f_code
        try:
            function = self._functions[id(code)]
        except KeyError:
            function = self._met(code)
        if function is None:
            return None
        if function.stretch != self._stretch:
            function.stretch, function.calls = self._stretch, 0
        function.calls += 1
        if function.calls > CALLS and function.calls % RARELY:
            return None
        last, turns = 0, function.turns

        def line(frame: FrameType, event: str, argument: Any) -> Any:
            nonlocal last
            if event == "line":
                turn = last << 20 | frame.f_lineno
                last = frame.f_lineno
                if turn not in turns:
                    turns.add(turn)
                    self.turns += 1
                    self.is_new = True
            return line
        return line

    def _met(self, code: CodeType) -> _Function | None:
        is_followed = any(part in code.co_filename for part in FOLLOWED)
        self._functions[id(code)] = found = _Function(code) if is_followed else None
        if found is None:
            self._foreign.append(code)
        return found
