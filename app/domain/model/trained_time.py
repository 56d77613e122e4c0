"""How long somebody trained in a session: work, and the rests and set-ups that led to it. What was skipped adds none.

`took_s` of a record is where the session stood on its plan, so a session that was skipped through counts whole there.
"""
from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from enum import Enum

from app.domain.model.plan import Step
from app.domain.model.record import How, SessionDone


class TimeKnown(Enum):
    """How well the time trained is known."""

    KEPT = "kept"
    """The player counted it."""
    RECKONED = "reckoned"
    """From the steps done and the plan's rests before them: a record of before it was counted."""
    AT_MOST = "at most"
    """Nothing but the place reached on the plan is known."""


def time_known(done: SessionDone) -> TimeKnown:
    """How `trained_s` knows it."""
    if done.active_s is not None:
        return TimeKnown.KEPT
    return TimeKnown.RECKONED if done.done and done.plan.steps else TimeKnown.AT_MOST


def trained_s(done: SessionDone) -> int:
    """Seconds of training; never more than the place reached on the plan where the player did not count it."""
    if done.active_s is not None:
        return done.active_s
    steps = done.plan.steps
    if not done.done or not steps:
        return done.took_s
    worked = {d.index for d in done.done if d.done_ms and d.how is not How.SKIPPED}
    rests = sum(steps[index].length_ms for index in led_to(steps, worked))
    return min(done.took_s, (rests + sum(d.done_ms for d in done.done)) // 1000)


def led_to(steps: Sequence[Step], worked: Collection[int]) -> Iterator[int]:
    """The rests, set-ups and changes, by index, whose next bout is one of those that were worked in."""
    waiting: list[int] = []
    for index, step in enumerate(steps):
        if not step.is_effort:
            waiting.append(index)
            continue
        if index in worked:
            yield from waiting
        waiting = []
