"""The levels of the dose, each by its name. What each gives: `app/domain/dosing/dose.py`."""
from __future__ import annotations

from enum import IntEnum


class Level(IntEnum):
    """How much is taken away today. What is kept and sent is the plain number, which never changes its meaning.

    A coaching convention [P]: no scale of this kind has been validated.
    """

    PROGRESS = 0
    """As written, and a step on is allowed."""
    HOLD = 1
    """As written, and no step on."""
    REDUCED = 2
    EASIER = 3
    LIGHT = 4
    GENTLE = 5
    """Movement without weights."""
    REST = 6
    """No session; it also stands for "answer first"."""
    ASK_FIRST = 7
    """No session before somebody's yes."""
    EMERGENCY = 8
    """No session, and the emergency number first."""
