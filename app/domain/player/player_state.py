"""Where a running session stands, and how time moves it on. Position comes from a clock passed in, never from ticks."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum

from app.domain.model.plan import Step, Timeline
from app.domain.model.record import Ending, Hurt
from app.domain.player.clock_gaps import GAP_MS, Cause, Moment, Unseen, unseen_between
from app.domain.player.tap_gates import Wait, waiting_steps

__all__ = [
    "GAP_MS",
    "OVER",
    "Cause",
    "Moment",
    "PlayerState",
    "ReturnPoint",
    "Status",
    "Unseen",
    "Wait",
    "advance",
    "open_player",
    "step_index",
    "tick",
]


class Status(StrEnum):
    """What the player is doing."""

    READY = "ready"
    RUNNING = "running"
    PAUSED = "paused"
    WAITING = "waiting"
    """For a tap: after getting down to the floor or up, at the end of a count, or "all right"."""
    ASKING = "asking"
    """Time has gone by unseen, or the program was restarted: where to go on?"""
    HURT = "hurt"
    """Everything stands still; the questions come once seated."""
    FINISHED = "finished"
    STOPPED = "stopped"


OVER = frozenset({Status.FINISHED, Status.STOPPED})


@dataclass(frozen=True)
class ReturnPoint:
    """Where "back" was pressed, so that "skip" right after it leads there again."""

    at_ms: int
    status: Status
    spent: Mapping[int, int] = field(hash=False)
    passed_by: frozenset[int]
    counted: frozenset[int]
    confirmed: frozenset[int]


@dataclass(frozen=True)
class PlayerState:
    """Where the session stands. `at_ms` is the position at `since`."""

    steps: tuple[Step, ...]
    status: Status = Status.READY
    at_ms: int = 0
    since: Moment | None = None
    spent: Mapping[int, int] = field(default_factory=dict, hash=False)
    """Step index → ms of work done in it."""
    idle: Mapping[int, int] = field(default_factory=dict, hash=False)
    """Step index → ms that went by in it while the session ran, where it is no work."""
    passed_by: frozenset[int] = frozenset()
    """Steps skipped."""
    eased: frozenset[int] = frozenset()
    """Steps changed to another exercise on the way."""
    spared: frozenset[str] = frozenset()
    """Exercises that are not done again, since something hurt."""
    confirmed: frozenset[int] = frozenset()
    """Steps at whose end a tap was awaited and given."""
    counted: frozenset[int] = frozenset()
    """Counted movements that were said to be done, whether their time was over or not."""
    waits: frozenset[Wait] = frozenset()
    left: tuple[ReturnPoint, ...] = ()
    """Where "back" came from, the latest last; empty once anything else was pressed."""
    unseen: Unseen | None = None
    """While asking: what is known of the time that nobody saw."""
    hurts: tuple[Hurt, ...] = ()
    by_hand: tuple[tuple[str, str], ...] = ()
    before: tuple[Step, ...] = ()
    """The steps before the last change by hand, which may be taken back; empty after anything hurt."""
    eased_before: frozenset[int] = frozenset()
    ending: Ending = Ending.FINISHED
    sign: str = ""

    @property
    def total_ms(self) -> int:
        """Length as it stands now."""
        return self.steps[-1].end_ms if self.steps else 0

    @property
    def index(self) -> int:
        """The step that holds the position; after the end, the last."""
        return step_index(self.steps, self.at_ms)

    @property
    def step(self) -> Step:
        """The step that holds the position."""
        return self.steps[self.index]

    @property
    def left_ms(self) -> int:
        """What is left of this step."""
        return max(0, self.step.end_ms - self.at_ms)

    def next_effort(self) -> Step | None:
        """The next work or hold after this step that was not left out, known at every millisecond."""
        index = self.index
        return next((s for i, s in enumerate(self.steps[index + 1:], index + 1)
                     if s.is_effort and s.length_ms and i not in self.passed_by), None)

    def waiting(self) -> frozenset[int]:
        """The steps at whose end a tap is still awaited."""
        return waiting_steps(self.steps, self.waits, self.confirmed)


def step_index(steps: tuple[Step, ...], at_ms: int) -> int:
    """Index of the step holding `at_ms`; steps of no length hold nothing."""
    low, high = 0, len(steps) - 1
    while low < high:
        middle = (low + high) // 2
        if steps[middle].end_ms > at_ms:
            high = middle
        else:
            low = middle + 1
    return low


def open_player(timeline: Timeline, waits: frozenset[Wait] = frozenset()) -> PlayerState:
    """Ready at the start of a compiled session. `waits`: where it stands still besides at the floor."""
    return PlayerState(timeline.steps, waits=waits)


def advance(state: PlayerState, to_ms: int) -> PlayerState:
    """Moves a running session forward to `to_ms`, noting work on the way; stops where a tap is awaited."""
    if state.status is not Status.RUNNING or to_ms <= state.at_ms:
        return state
    spent, idle, waiting = dict(state.spent), dict(state.idle), state.waiting()
    at, status = state.at_ms, Status.RUNNING
    for index in range(state.index, len(state.steps)):
        step = state.steps[index]
        here = min(to_ms, step.end_ms)
        if index in waiting and to_ms >= step.end_ms - 1:
            here, status = step.end_ms - 1, Status.WAITING
        if step.is_effort and here > at:
            spent[index] = min(step.length_ms, spent.get(index, 0) + here - at)
        elif here > at:
            idle[index] = idle.get(index, 0) + here - at
        at = max(at, here)
        if status is Status.WAITING or step.end_ms > to_ms:
            break
        if index == len(state.steps) - 1:
            status = Status.FINISHED
    return replace(state, at_ms=at, status=status, spent=spent, idle=idle)


def tick(state: PlayerState, now: Moment) -> PlayerState:
    """The state at `now`. Where time went by unseen, it stands at the last position and asks.

    One that was looked at a little ahead of time stays as it is until that time has come.
    """
    if state.status is not Status.RUNNING or state.since is None:
        return replace(state, since=now)
    if now.mono_ms < state.since.mono_ms:
        return state
    unseen = unseen_between(state.since, now, state.step.length_ms)
    if unseen is not None:
        return replace(state, status=Status.ASKING, since=now, unseen=unseen, left=())
    return replace(advance(state, state.at_ms + now.mono_ms - state.since.mono_ms), since=now)
