"""The player under any sequence of presses against two clocks that are turned by hand, with kills in it."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from app.domain.model.client import Client
from app.domain.model.exercise import Position, Sides
from app.domain.model.plan import ChangeStage, Step, StepKind, Timeline
from app.domain.model.record import Ending, Hurt
from app.domain.model.session import Item
from app.domain.player.player import (
    LONGER_MS,
    AllRight,
    Counted,
    Ended,
    Gap,
    HurtTold,
    LongerRest,
    Paused,
    PlayerEvent,
    Ready,
    Skipped,
    Started,
    StoodStill,
    WentBack,
    done_steps,
    handle,
    restore,
    swap_to,
)
from app.domain.player.player_state import GAP_MS, OVER, Moment, PlayerState, Status, Wait, open_player, tick
from tests.domain.compile.test_timeline import circuit, exercise, plan
from tests.domain.player.test_player import KNEE, PLAN, told
from tests.domain.shipped import USUAL, compiled, library
from tests.sampling import examples

FLOORED = plan(circuit(*(Item(i, work_s=20) for i in "abc"), rounds=2, rest_s=15),
               known=(exercise("a", sides=Sides.EACH, set_up_s=4), exercise("b", position=Position.SUPINE),
                      exercise("c")))
PLANS = (PLAN, FLOORED, *(compiled(s, Client()) for s in (USUAL, "first-steps")))


@dataclass
class Kept:
    """What a store would hold: events with their positions, and the last heartbeat."""

    journal: list[tuple[PlayerEvent, int]]
    beat_ms: int = 0


def place(steps: Sequence[Step]) -> str:
    """Where somebody is after these steps; what has no length was not done."""
    where = "up"
    for step in (s for s in steps if s.length_ms):
        if step.to_floor is not None:
            where = "floor" if step.to_floor else "up"
        elif step.stage is ChangeStage.LIE:
            where = "bed"
        elif step.stage is ChangeStage.SIT and where == "bed":
            where = "up"
    return where


class Player(RuleBasedStateMachine):
    """Runs the live state beside what is kept of it, as the program does."""

    @initialize(timeline=st.sampled_from(PLANS), waits=st.frozensets(st.sampled_from(Wait)))
    def open(self, timeline: Timeline, waits: frozenset[Wait]) -> None:
        """A session on the screen."""
        self.timeline, self.state, self.kept = timeline, open_player(timeline, waits), Kept([])
        self.mono, self.wall, self.ran_ms = 0, 1_000_000, 0

    @property
    def now(self) -> Moment:
        """Both clocks."""
        return Moment(self.mono, self.wall)

    def pass_time(self, ms: int, parted: int = 0) -> None:
        """Time goes by and the program looks at the clock."""
        self.mono += ms
        self.wall += ms + parted
        before, self.state = self.state, tick(self.state, self.now)
        self.check_time(before, self.state, ms, parted)
        if self.state.status is Status.ASKING and before.status is Status.RUNNING:
            self.kept.journal.append((Gap(), self.state.at_ms))
        self.kept.beat_ms = self.state.at_ms

    def check_time(self, before: PlayerState, after: PlayerState, ms: int, parted: int) -> None:
        """Time moves the position while it runs, by itself and not more; it never goes back by itself."""
        moved = after.at_ms - before.at_ms
        done = sum(after.spent.values()) - sum(before.spent.values())
        assert 0 <= done <= moved <= ms
        if before.status is not Status.RUNNING or abs(parted) > GAP_MS or ms > max(before.step.length_ms, GAP_MS):
            assert (moved, after.spent) == (0, before.spent)
            assert before.status is not Status.RUNNING or after.status is Status.ASKING
        elif after.status is Status.RUNNING:
            assert moved == ms
        else:
            assert after.status in (Status.WAITING, Status.FINISHED)
        assert after.status is not Status.WAITING or after.index in after.waiting()
        self.ran_ms += moved

    def do(self, event: PlayerEvent) -> None:
        """Something is pressed: kept first, then shown."""
        before = tick(self.state, self.now)
        self.kept.journal.append((event, before.at_ms))
        self.state = handle(before, event, self.now)
        self.kept.beat_ms = self.state.at_ms

    @rule(ms=st.integers(1, 1_000) | st.integers(1, 90_000))
    def run(self, ms: int) -> None:
        """Both clocks go on together, looked at or not."""
        self.pass_time(ms)

    @rule(share=st.integers(1, 100))
    def run_within(self, share: int) -> None:
        """Some of what is left of this step."""
        self.pass_time(max(1, self.state.left_ms * share // 100))

    @rule(ms=st.integers(1, 5_000), parted=st.integers(-600_000, 600_000))
    def sleep(self, ms: int, parted: int) -> None:
        """One clock goes on without the other."""
        self.pass_time(ms, parted)

    @rule()
    def start(self) -> None:
        """Start, go on, or "ready"."""
        before = self.state
        self.do(Started())
        if before.status not in OVER | {Status.HURT}:
            assert self.state.status is Status.RUNNING

    @rule()
    def pause(self) -> None:
        """What is left stays left."""
        left = self.state.left_ms
        self.do(Paused())
        assert self.state.left_ms == left

    @rule()
    def skip(self) -> None:
        """Never back, nothing more done, and something that was still to be done is left out, or it ends."""
        self.do(Paused())  # so that it is not "forward again"
        before = self.state
        self.do(Skipped())
        if before.status not in OVER | {Status.HURT}:
            assert self.state.at_ms >= before.at_ms and self.state.spent == before.spent
            assert self.state.passed_by > before.passed_by or self.state.status is Status.FINISHED
            self.is_in_place(before)

    def is_in_place(self, before: PlayerState) -> None:
        """Nobody is told to work on the floor who has not got down to it, nor standing who is on the floor."""
        if before.step.kind is not StepKind.CHANGE:
            assert place(before.steps[:before.index]) == place(self.state.steps[:self.state.index])

    @rule()
    def back(self) -> None:
        """Never forward, and never to what hurt."""
        before = self.state
        self.do(WentBack())
        assert self.state.at_ms <= before.at_ms
        assert sum(self.state.spent.values()) <= sum(before.spent.values())
        if self.state.at_ms < before.at_ms:
            assert not (self.state.step.is_effort and self.state.step.exercise in self.state.spared)

    @rule(times=st.integers(1, 4), unseen=st.integers(0, 500))
    def back_then_forward(self, times: int, unseen: int) -> None:
        """So many back and as many forward: where it was, with what was done and left out, and still running if so."""
        before, moved = self.state, 0
        for _ in range(times):
            at_ms = self.state.at_ms
            self.do(WentBack())
            moved += self.state.at_ms < at_ms
        if moved and before.status not in OVER | {Status.HURT}:
            if self.state.status is Status.RUNNING:
                self.pass_time(unseen)
            for _ in range(moved):
                self.do(Skipped())
            assert (self.state.at_ms, self.state.status, dict(self.state.spent)) == (
                before.at_ms, before.status, dict(before.spent))
            assert (self.state.passed_by, self.state.counted, self.state.confirmed) == (
                before.passed_by, before.counted, before.confirmed)

    @rule()
    def ready(self) -> None:
        """Rest may be cut short, work never; the count before the work stays."""
        before = self.state
        self.do(Ready())
        assert self.state.at_ms >= before.at_ms and self.state.spent == before.spent
        if before.step.is_effort:
            assert self.state.at_ms == before.at_ms
        if before.step.kind is not StepKind.CHANGE and self.state.status not in OVER:
            between = before.steps[before.index:self.state.index]
            assert not any(s.length_ms and (s.is_effort or s.kind is StepKind.CHANGE) for s in between)

    @rule()
    def count(self) -> None:
        """Counted movements may be done early; nothing else is."""
        before = self.state
        self.do(Counted())
        if before.status in OVER | {Status.HURT} or not (before.step.is_effort and before.step.reps):
            assert self.state.at_ms == before.at_ms
        else:
            assert self.state.at_ms == before.step.end_ms and before.index in self.state.counted

    @rule()
    def all_right(self) -> None:
        """The answer is heard where it was asked, and moves nothing by itself unless it was waited for."""
        before = self.state
        self.do(AllRight())
        if before.status is not Status.WAITING:
            assert self.state.at_ms == before.at_ms

    @rule()
    def longer(self) -> None:
        """Adds to a rest and to nothing else."""
        before = self.state
        self.do(LongerRest())
        assert self.state.total_ms - before.total_ms in (0, LONGER_MS)
        assert sum(s.length_ms for s in self.state.steps if s.is_effort) == sum(
            s.length_ms for s in before.steps if s.is_effort)

    @rule(data=st.data(), by_hand=st.booleans())
    def ease(self, data: Any, by_hand: bool) -> None:
        """Another exercise in the same time."""
        names = sorted({s.exercise for s in self.state.steps if s.exercise})
        other = data.draw(st.sampled_from(sorted(library())))
        before = self.state
        self.do(swap_to(data.draw(st.sampled_from(names)), library()[other], by_hand=by_hand))
        assert [s.length_ms for s in self.state.steps] == [s.length_ms for s in before.steps]

    @rule()
    def hurts(self) -> None:
        """Everything stands still."""
        self.do(StoodStill())
        assert self.state.status in OVER | {Status.HURT}

    @precondition(lambda self: self.state.status is Status.HURT)
    @rule(data=st.data(), level=st.integers(0, 9), gave_way=st.sampled_from((False, False, True)))
    def tell(self, data: Any, level: int, gave_way: bool) -> None:
        """What follows."""
        names = sorted({s.exercise for s in self.state.steps if s.exercise})
        out = tuple(data.draw(st.lists(st.sampled_from(names), max_size=2)))
        before = self.state
        self.do(HurtTold(Hurt(KNEE, level, gave_way, self.state.step.exercise), out))
        assert self.state.status is (Status.STOPPED if level >= 8 or gave_way else Status.PAUSED)
        assert (self.state.at_ms, self.state.spent) == (before.at_ms, before.spent)

    @rule(ending=st.sampled_from(Ending), often=st.integers(0, 9))
    def end(self, ending: Ending, often: int) -> None:
        """Seldom, so that the other rules have something to do."""
        if often == 0:
            self.do(Ended(ending))
            assert self.state.status in OVER

    @rule(unseen=st.integers(0, 1_000), go_on=st.booleans())
    def kill(self, unseen: int, go_on: bool) -> None:
        """The process dies up to a second after its last heartbeat.

        A wait that was already answered may be passed over; it stands one millisecond before the end of its step.
        """
        there = tick(self.state, Moment(self.mono + unseen, self.wall + unseen))
        found = restore(self.timeline, self.kept.journal, self.kept.beat_ms, self.state.waits)
        assert found.steps == self.state.steps
        assert -1 <= there.at_ms - found.at_ms <= unseen
        assert dict(found.spent) == dict(self.state.spent)
        assert (found.counted, found.confirmed) == (self.state.counted, self.state.confirmed)
        assert (found.passed_by, found.eased, found.hurts, found.by_hand, found.spared, found.ending, found.sign) == (
            self.state.passed_by, self.state.eased, self.state.hurts, self.state.by_hand, self.state.spared,
            self.state.ending, self.state.sign)
        if self.state.status in OVER | {Status.HURT, Status.READY}:
            assert found.status is self.state.status or self.state.at_ms == self.state.total_ms
        else:
            assert found.status is Status.ASKING
        if go_on:
            self.state = found

    @invariant()
    def holds(self) -> None:
        """Within the session, nothing done beyond a step's length or the time that went by."""
        state = self.state
        assert 0 <= state.at_ms <= state.total_ms
        at_ms = 0
        for step in state.steps:
            assert (step.start_ms, step.length_ms >= 0) == (at_ms, True)
            at_ms = step.end_ms
        assert all(0 <= ms <= state.steps[i].length_ms and state.steps[i].is_effort for i, ms in state.spent.items())
        assert sum(state.spent.values()) <= self.ran_ms
        for done in done_steps(state):
            assert done.done_ms <= state.steps[done.index].length_ms

    def teardown(self) -> None:
        """From wherever it stands, answering and going on leads to an end."""
        if not hasattr(self, "state"):
            return
        for _ in range(6 * len(self.state.steps) + 6):
            if self.state.status in OVER:
                return
            self.do(told(2, name=None) if self.state.status is Status.HURT else Started())
            if self.state.status not in OVER:
                self.pass_time(max(1, self.state.left_ms))
        raise AssertionError("it never ends")


TestAnySequence = Player.TestCase
TestAnySequence.settings = settings(
    max_examples=examples(60, 1_000), stateful_step_count=examples(30, 50), deadline=None,
    suppress_health_check=[HealthCheck.too_slow])
