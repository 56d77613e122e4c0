"""Time that nobody saw go by: the two clocks part, or neither was looked at for longer than the step lasts."""
from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

#: Wall clock and monotonic clock parting by more than this: the machine slept. Less than this is never a gap.
GAP_MS = 2_000


@dataclass(frozen=True)
class Moment:
    """Both clocks at one instant, ms."""

    mono_ms: int
    wall_ms: int


class Cause(StrEnum):
    """What became of the time, as far as two clocks can tell."""

    SLEPT = "slept"
    """The wall clock went on alone: the machine slept, or its clock was put forward."""
    CLOCK_BACK = "clock_back"
    """The wall clock stayed behind: it was put back."""
    FROZEN = "frozen"
    """Both went on together, but nothing was looked at: the program stood still."""
    CLOSED = "closed"
    """The program was ended and has been started anew, or its page was closed."""


@dataclass(frozen=True)
class Unseen:
    """A stretch that was not seen. `ms` is its length, 0 where it cannot be known."""

    cause: Cause
    ms: int = 0


def unseen_between(before: Moment, now: Moment, step_ms: int) -> Unseen | None:
    """What was not seen between two looks at the clocks, the first of them within a step of that length; or None."""
    mono_ms, wall_ms = now.mono_ms - before.mono_ms, now.wall_ms - before.wall_ms
    if wall_ms - mono_ms > GAP_MS:
        return Unseen(Cause.SLEPT, wall_ms)
    if mono_ms - wall_ms > GAP_MS:
        return Unseen(Cause.CLOCK_BACK, mono_ms if mono_ms > GAP_MS else 0)
    return Unseen(Cause.FROZEN, mono_ms) if mono_ms > max(step_ms, GAP_MS) else None
