"""The player: what each event does, and any sequence of events against a clock that is turned by hand."""
from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from app.domain.body import parse_spot
from app.domain.client import Client
from app.domain.exercise import Mode, Position, Sides
from app.domain.plan import Dose, Part, Step, StepKind, StepSide, Timeline
from app.domain.player import (
    BACK_MS,
    LONGER_MS,
    Ended,
    Event,
    Gap,
    HurtTold,
    LongerRest,
    Paused,
    Skipped,
    Started,
    StoodStill,
    WentBack,
    apply,
    done_steps,
    handle,
    restore,
    swap_to,
)
from app.domain.record import Ending, How, Hurt
from app.domain.run import GAP_MS, OVER, Moment, PlayerState, Status, advance, open_player, step_index, tick
from app.domain.session import Item
from tests.domain.shipped import USUAL, compiled, library
from tests.domain.test_timeline import circuit, exercise, plan
from tests.sampling import examples

KNEE = parse_spot("left knee")
W, R, C, U = StepKind.WORK, StepKind.REST, StepKind.CHANGE, StepKind.SETUP


def made(*pieces: tuple[StepKind, int, str]) -> Timeline:
    """A timeline of (kind, seconds, exercise) laid end to end."""
    steps, at_ms = [], 0
    for kind, seconds, name in pieces:
        steps.append(Step(kind, Part.MAIN, at_ms, seconds * 1000, name or None,
                          StepSide.BOTH if kind is W else None, 1, 5 if kind is W else None))
        at_ms += seconds * 1000
    return Timeline("s", tuple(steps), Dose(0, 1, 100, 100, 100))


PLAN = made((U, 5, "a"), (W, 20, "a"), (R, 10, "b"), (W, 20, "b"), (C, 20, "c"), (W, 20, "c"), (R, 10, "a"),
            (W, 20, "a"), (C, 20, ""))


def at(ms: int) -> Moment:
    """Both clocks."""
    return Moment(ms, 1_000_000 + ms)


def begun(to_s: int = 0, timeline: Timeline = PLAN) -> PlayerState:
    """Started at 0 and run to a second."""
    return tick(handle(open_player(timeline), Started(), at(0)), at(to_s * 1000))


# ------------------------------------------------------------------ time

def test_before_the_start_no_time_goes_by() -> None:
    """Ready waits."""
    state = tick(tick(open_player(PLAN), at(0)), at(50_000))
    assert (state.status, state.at_ms) == (Status.READY, 0)


def test_the_position_comes_from_the_clock_however_often_it_is_asked() -> None:
    """Seldom or often, even or not: the same place, the same work done."""
    seldom = begun(40)
    often = begun()
    for ms in (1, 700, 701, 9_000, 24_999, 25_000, 25_001, 39_000, 40_000):
        often = tick(often, at(ms))
    assert (often.at_ms, often.spent) == (seldom.at_ms, seldom.spent) == (40_000, {1: 20_000, 3: 5_000})


def test_the_next_work_is_known_at_every_millisecond() -> None:
    """From any step, also from rest."""
    for second in range(54):
        state = begun(second)
        after = [s for s in PLAN.steps[state.index + 1:] if s.is_effort]
        assert state.next_effort() == (after[0] if after else None)


def test_the_step_at_a_boundary_is_the_one_that_begins() -> None:
    """A step holds its first millisecond and not its last."""
    assert [step_index(PLAN.steps, ms) for ms in (0, 4_999, 5_000, 24_999, 25_000, 145_000)] == [0, 0, 1, 1, 2, 8]


def test_pausing_keeps_what_is_left() -> None:
    """However long the pause."""
    state = handle(begun(10), Paused(), at(10_000))
    later = tick(state, at(500_000))
    assert (later.status, later.left_ms, later.spent) == (Status.PAUSED, 15_000, {1: 5_000})
    on = tick(handle(later, Started(), at(500_000)), at(505_000))
    assert (on.status, on.left_ms) == (Status.RUNNING, 10_000)


@pytest.mark.parametrize(("parted", "status"), [
    (GAP_MS, Status.RUNNING), (GAP_MS + 1, Status.ASKING), (-GAP_MS, Status.RUNNING), (-GAP_MS - 1, Status.ASKING)])
def test_where_the_clocks_part_it_stands_at_the_last_position_and_asks(parted: int, status: Status) -> None:
    """Either clock may be the one that stood still."""
    state = tick(begun(10), Moment(11_000, 1_011_000 + parted))
    assert state.status is status
    assert state.at_ms == (11_000 if status is Status.RUNNING else 10_000)


def test_a_gap_is_noticed_before_an_event_is_applied() -> None:
    """Going on is then a choice, from where one was."""
    asked = handle(begun(10), Paused(), Moment(10_500, 9_000_000))
    assert (asked.status, asked.at_ms) == (Status.ASKING, 10_000)
    on = handle(asked, Started(), Moment(11_000, 9_000_500))
    assert tick(on, Moment(12_000, 9_001_500)).at_ms == 11_000


def test_at_a_change_of_position_it_waits_for_a_tap() -> None:
    """At its end, not before; and again if one goes back."""
    waiting = begun(200)
    assert (waiting.status, waiting.index, waiting.left_ms) == (Status.WAITING, 4, 1)
    assert tick(waiting, at(900_000)) == replace(waiting, since=at(900_000))
    on = handle(waiting, Started(), at(900_000))
    assert (on.status, on.index, on.left_ms) == (Status.RUNNING, 5, 20_000)
    again = tick(handle(on, WentBack(), at(901_000)), at(999_000))
    assert (again.status, again.index) == (Status.WAITING, 4)


def test_the_last_way_up_is_not_waited_for() -> None:
    """Then it is finished."""
    state = handle(begun(200), Started(), at(200_000))
    done = tick(state, at(300_000))
    assert (done.status, done.at_ms, done.left_ms) == (Status.FINISHED, done.total_ms, 0)
    assert [d.how for d in done_steps(done)] == [How.FULL] * 4


# ------------------------------------------------------------------ events

def test_skipping_goes_to_the_next_step_and_is_told() -> None:
    """With what was done of it."""
    state = handle(begun(10), Skipped(), at(10_000))
    assert (state.at_ms, state.index, state.status) == (25_000, 2, Status.RUNNING)
    assert [(d.done_ms, d.how) for d in done_steps(state)] == [(5_000, How.SKIPPED)]
    rest = handle(state, Skipped(), at(10_000))
    assert rest.index == 3 and len(done_steps(rest)) == 1


def test_skipping_a_change_goes_on_without_waiting() -> None:
    """And skipping the last step ends."""
    state = handle(begun(50), Skipped(), at(50_000))
    assert state.index == 4
    state = handle(state, Skipped(), at(50_000))
    assert (state.index, state.status) == (5, Status.RUNNING)
    for _ in range(4):
        state = handle(state, Skipped(), at(50_000))
    assert state.status is Status.FINISHED


@pytest.mark.parametrize(("second", "index"), [
    (5, 1), (8, 1), (9, 1), (20, 1), (27, 1), (35, 1), (38, 1), (39, 3), (54, 3), (60, 3)])
def test_back_goes_to_the_start_of_this_work_or_soon_after_its_start_to_the_one_before(second: int, index: int) -> None:
    """From a rest or a change to the work before it; what is done again is counted anew."""
    state = handle(begun(second), WentBack(), at(second * 1000))
    assert (state.index, state.at_ms) == (index, PLAN.steps[index].start_ms)
    assert index not in state.spent and BACK_MS == 3_000


def test_more_rest_before_the_next_work_and_never_in_the_middle_of_work() -> None:
    """15 s, as often as wanted."""
    state = handle(handle(begun(27), LongerRest(), at(27_000)), LongerRest(), at(27_000))
    assert (state.left_ms, state.total_ms) == (8_000 + 2 * LONGER_MS, PLAN.total_ms + 2 * LONGER_MS)
    assert handle(begun(10), LongerRest(), at(10_000)).steps == PLAN.steps


def test_a_swap_holds_from_here_to_the_end_and_keeps_its_time() -> None:
    """In each later round too; what was done stays what it was."""
    easier = swap_to("a", exercise("z", sides=Sides.ALTERNATING), by_hand=True)
    state = handle(begun(30), easier, at(30_000))
    assert [s.exercise for s in state.steps if s.is_effort] == ["a", "b", "c", "z"]
    assert (state.total_ms, state.by_hand, state.steps[7].written, state.steps[7].side) == (
        PLAN.total_ms, (("a", "z"),), "a", StepSide.ALTERNATING)
    held = apply(begun(30), swap_to("a", exercise("h", mode=Mode.HOLD, rep_ms=0), by_hand=False))
    assert (held.steps[7].kind, held.steps[7].reps, held.by_hand) == (StepKind.HOLD, None, ())


def test_a_swap_on_the_way_is_told_as_easier() -> None:
    """In the record."""
    state = handle(begun(10), swap_to("a", exercise("z"), by_hand=True), at(10_000))
    done = done_steps(tick(state, at(30_000)))
    assert [(d.exercise, d.how) for d in done] == [("z", How.EASIER)]


# ------------------------------------------------------------------ that hurts

def told(level: int = 4, *out: str, gave_way: bool = False, name: str | None = "a", ends: bool = False) -> HurtTold:
    """The answers."""
    return HurtTold(Hurt(KNEE, level, gave_way, name), out, ends)


@pytest.mark.parametrize("event", [Started(), Paused(), Gap(), Skipped(), WentBack(), LongerRest(), StoodStill(),
                                   swap_to("a", exercise("z"), by_hand=True)])
@pytest.mark.parametrize("second", [0, 10, 27, 60, 139])
def test_after_that_hurts_nothing_goes_on_until_it_is_told(event: Event, second: int) -> None:
    """One tap stops everything."""
    state = begun(min(second, 60))
    hurt = handle(state, StoodStill(), at(second * 1000))
    assert handle(hurt, event, at(second * 1000 + 60_000)) == replace(hurt, since=at(second * 1000 + 60_000))


def test_what_hurt_is_left_out_for_the_rest_of_it() -> None:
    """Its time goes with it; what was done of it stays; it goes on only when one says so."""
    state = handle(handle(begun(15), StoodStill(), at(15_000)), told(4, "a"), at(40_000))
    assert (state.status, state.at_ms) == (Status.PAUSED, 15_000)
    assert [s.length_ms for s in state.steps] == [5_000, 10_000, 10_000, 20_000, 20_000, 20_000, 0, 0, 20_000]
    assert [(d.exercise, d.done_ms, d.how) for d in done_steps(state)] == [
        ("a", 10_000, How.SKIPPED), ("a", 0, How.SKIPPED)]


@pytest.mark.parametrize("answer", [told(8), told(10), told(1, gave_way=True), told(3, ends=True)])
def test_nobody_goes_on_after_pain_of_eight_or_where_a_joint_gave_way(answer: HurtTold) -> None:
    """Whatever else was decided."""
    state = handle(handle(begun(15), StoodStill(), at(15_000)), answer, at(40_000))
    assert (state.status, state.ending) == (Status.STOPPED, Ending.PAIN)
    assert handle(state, Started(), at(41_000)).status is Status.STOPPED


@pytest.mark.parametrize("times", [1, 2, 5])
@pytest.mark.parametrize("spares", ["left out", "eased"])
def test_back_never_leads_to_what_hurt(times: int, spares: str) -> None:
    """Neither to this bout nor to an earlier round of it."""
    state = handle(begun(15), StoodStill(), at(15_000))
    state = handle(state, told(4, *(["a"] if spares == "left out" else [])), at(20_000))
    if spares == "eased":
        state = handle(state, swap_to("a", exercise("z"), by_hand=False), at(20_000))
    state = handle(state, Started(), at(20_000))
    now = 20_000
    while state.status not in OVER:
        for _ in range(times):
            state = handle(state, WentBack(), at(now))
            assert not (state.step.is_effort and state.step.exercise == "a")
        for _ in range(times + 1):
            state = handle(state, Skipped(), at(now))
            now += 10
        if now > 21_000:
            break


def test_back_soon_after_what_hurt_begins_the_next_work_again() -> None:
    """As far back as there is something to do."""
    state = handle(handle(begun(15), StoodStill(), at(15_000)), told(4, "a"), at(20_000))
    state = tick(handle(state, Started(), at(20_000)), at(32_000))
    assert (state.step.exercise, state.at_ms - state.step.start_ms) == ("b", 2_000)
    again = handle(state, WentBack(), at(32_000))
    assert (again.index, again.at_ms, again.spent[1]) == (state.index, state.step.start_ms, 10_000)


def test_an_end_is_an_end() -> None:
    """Nothing after it changes anything."""
    state = handle(begun(15), Ended(Ending.SIGN, "fainting"), at(15_000))
    assert (state.status, state.ending, state.sign) == (Status.STOPPED, Ending.SIGN, "fainting")
    for event in (Started(), Skipped(), WentBack(), told(9), Ended(Ending.INTERRUPTED), Gap()):
        assert apply(state, event) == state


# ------------------------------------------------------------------ after a kill

def test_a_killed_session_stands_at_its_heartbeat_and_asks() -> None:
    """With the work done so far."""
    state = restore(PLAN, [(Started(), 0)], 12_300)
    assert (state.status, state.at_ms, state.spent) == (Status.ASKING, 12_300, {1: 7_300})


def test_a_session_killed_after_back_is_not_thrown_forward() -> None:
    """The heartbeat after an event is where the event led, so nothing undone is counted as done."""
    live = handle(begun(50), WentBack(), at(50_000))
    state = restore(PLAN, [(Started(), 0), (WentBack(), 50_000)], live.at_ms)
    assert (state.at_ms, state.spent) == (live.at_ms, live.spent) == (35_000, {1: 20_000})


def test_questions_that_were_open_are_open_again() -> None:
    """After "that hurts" it does not ask where to go on."""
    assert restore(PLAN, [(Started(), 0), (StoodStill(), 12_000)], 12_000).status is Status.HURT
    assert restore(PLAN, [], 0).status is Status.READY
    assert restore(PLAN, [(Started(), 0), (Ended(Ending.TOO_MUCH), 9_000)], 9_000).status is Status.STOPPED


# ------------------------------------------------------------------ any sequence

FLOORED = plan(circuit(*(Item(i, work_s=20) for i in "abc"), rounds=2, rest_s=15),
               known=(exercise("a", sides=Sides.EACH, set_up_s=4), exercise("b", position=Position.SUPINE),
                      exercise("c")))
PLANS = (PLAN, FLOORED, *(compiled(s, Client()) for s in (USUAL, "first-steps")))


@dataclass
class Kept:
    """What a store would hold: events with their positions, and the last heartbeat."""

    journal: list[tuple[Event, int]]
    beat_ms: int = 0


class Player(RuleBasedStateMachine):
    """Runs the live state beside what is kept of it, as the program does."""

    @initialize(timeline=st.sampled_from(PLANS))
    def open(self, timeline: Timeline) -> None:
        """A session on the screen."""
        self.timeline, self.state, self.kept = timeline, open_player(timeline), Kept([])
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
        if before.status is not Status.RUNNING or abs(parted) > GAP_MS:
            assert (moved, after.spent) == (0, before.spent)
            assert before.status is not Status.RUNNING or after.status is Status.ASKING
        elif after.status is Status.RUNNING:
            assert moved == ms
        else:
            assert after.status in (Status.WAITING, Status.FINISHED)
        self.ran_ms += moved

    def do(self, event: Event) -> None:
        """Something is pressed: kept first, then shown."""
        before = tick(self.state, self.now)
        self.kept.journal.append((event, before.at_ms))
        self.state = handle(before, event, self.now)
        self.kept.beat_ms = self.state.at_ms

    @rule(ms=st.integers(1, 1_000) | st.integers(1, 90_000))
    def run(self, ms: int) -> None:
        """Both clocks go on together."""
        self.pass_time(ms)

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
        """Forward to the next step that has a length, or to the end."""
        before = self.state
        self.do(Skipped())
        if before.status not in OVER | {Status.HURT}:
            assert self.state.index > before.index or self.state.at_ms == self.state.total_ms
            assert self.state.spent == before.spent

    @rule()
    def back(self) -> None:
        """Never forward, and never to what hurt."""
        before = self.state
        self.do(WentBack())
        assert self.state.at_ms <= before.at_ms
        assert sum(self.state.spent.values()) <= sum(before.spent.values())
        if self.state.at_ms < before.at_ms:
            assert not (self.state.step.is_effort and self.state.step.exercise in self.state.spared)

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
        found = restore(self.timeline, self.kept.journal, self.kept.beat_ms)
        assert found.steps == self.state.steps
        assert -1 <= there.at_ms - found.at_ms <= unseen
        assert dict(found.spent) == dict(self.state.spent)
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
        for _ in range(4 * len(self.state.steps) + 4):
            if self.state.status in OVER:
                return
            self.do(told(2, name=None) if self.state.status is Status.HURT else Started())
            self.pass_time(3_600_000)
        raise AssertionError("it never ends")


TestAnySequence = Player.TestCase
TestAnySequence.settings = settings(
    max_examples=examples(60, 1_000), stateful_step_count=examples(30, 50), deadline=None,
    suppress_health_check=[HealthCheck.too_slow])


def test_moving_forward_in_steps_is_moving_forward_at_once() -> None:
    """Positions add up."""
    state = advance(begun(), 12_000)
    assert advance(state, 40_000) == advance(begun(), 40_000)
    assert advance(state, 12_000) == state and advance(state, 3) == state
