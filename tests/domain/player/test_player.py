"""The player: what each event does, and any sequence of events against a clock that is turned by hand."""
from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.model.body import parse_spot
from app.domain.model.exercise import Mode, Sides
from app.domain.model.plan import Dose, Part, Step, StepKind, StepSide, Timeline
from app.domain.model.record import Ending, How, Hurt
from app.domain.player.player import (
    BACK_MS,
    LONGER_MS,
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
    Swapped,
    WentBack,
    active_ms,
    apply,
    done_steps,
    handle,
    restore,
    swap_to,
)
from app.domain.player.player_state import (
    GAP_MS,
    OVER,
    Cause,
    Moment,
    PlayerState,
    Status,
    Unseen,
    advance,
    open_player,
    step_index,
    tick,
)
from tests.domain.compile.test_timeline import exercise

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


def looked_on(state: PlayerState, to_ms: int) -> PlayerState:
    """Both clocks go on to `to_ms`, and they are looked at each second."""
    since = state.since.mono_ms if state.since else 0
    for ms in (*range(since, to_ms, 1000), to_ms):
        state = tick(state, at(ms))
    return state


def begun(to_s: int = 0, timeline: Timeline = PLAN) -> PlayerState:
    """Started at 0 and run to a second."""
    return looked_on(handle(open_player(timeline), Started(), at(0)), to_s * 1000)


# ------------------------------------------------------------------ time

def test_a_look_ahead_of_time_moves_the_position_no_further_than_the_clock() -> None:
    """Until that time has come nothing changes; from then on it is where the clock is."""
    begun = handle(open_player(PLAN, frozenset()), Started(), Moment(0, 0))
    ahead = tick(begun, Moment(5_000, 5_000))
    assert ahead.index == 1 and tick(ahead, Moment(4_960, 4_960)) == ahead
    for late in (5_000, 5_001, 6_500):
        assert tick(ahead, Moment(late, late)).at_ms == late


def test_before_the_start_no_time_goes_by() -> None:
    """Ready waits."""
    state = tick(tick(open_player(PLAN), at(0)), at(50_000))
    assert (state.status, state.at_ms) == (Status.READY, 0)


def test_the_position_comes_from_the_clock_however_often_it_is_asked() -> None:
    """Seldom or often, even or not: the same place, the same work done."""
    seldom = begun(40)
    often = begun()
    for ms in (1, 700, 701, 4_999, 9_000, 24_999, 25_000, 25_001, 34_000, 39_000, 40_000):
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
    on = looked_on(handle(later, Started(), at(500_000)), 505_000)
    assert (on.status, on.left_ms) == (Status.RUNNING, 10_000)


@pytest.mark.parametrize(("parted", "status"), [
    (GAP_MS, Status.RUNNING), (GAP_MS + 1, Status.ASKING), (-GAP_MS, Status.RUNNING), (-GAP_MS - 1, Status.ASKING)])
def test_where_the_clocks_part_it_stands_at_the_last_position_and_asks(parted: int, status: Status) -> None:
    """Either clock may be the one that stood still."""
    state = tick(begun(10), Moment(11_000, 1_011_000 + parted))
    assert state.status is status
    assert state.at_ms == (11_000 if status is Status.RUNNING else 10_000)


@pytest.mark.parametrize(("second", "looks_after_ms", "status"), [
    (10, 20_000, Status.RUNNING), (10, 20_001, Status.ASKING), (1, 5_000, Status.RUNNING), (1, 5_001, Status.ASKING)])
def test_a_stretch_longer_than_the_step_that_nobody_saw_does_not_count(
        second: int, looks_after_ms: int, status: Status) -> None:
    """Both clocks went on, as on a page that stood still: it waits where it was last seen, and asks."""
    state = tick(begun(second), at(second * 1000 + looks_after_ms))
    assert state.status is status
    if status is Status.ASKING:
        assert (state.at_ms, state.spent) == (second * 1000, begun(second).spent)
        assert state.unseen == Unseen(Cause.FROZEN, looks_after_ms)


@pytest.mark.parametrize(("mono_ms", "wall_ms", "unseen"), [
    (500, 3_600_000, Unseen(Cause.SLEPT, 3_600_000)), (3_600_000, 3_600_000, Unseen(Cause.FROZEN, 3_600_000)),
    (500, -3_600_000, Unseen(Cause.CLOCK_BACK, 0)), (300_000, 240_000, Unseen(Cause.CLOCK_BACK, 300_000)),
    (500, 500, None), (2_000, 4_000, None)])
def test_what_two_clocks_tell_of_the_time_that_nobody_saw(mono_ms: int, wall_ms: int, unseen: Unseen | None) -> None:
    """Slept for an hour, frozen for an hour, the clock put back; or nothing of the kind."""
    assert tick(begun(10), Moment(10_000 + mono_ms, 1_010_000 + wall_ms)).unseen == unseen


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
    again = looked_on(handle(handle(on, WentBack(), at(901_000)), Started(), at(901_000)), 999_000)
    assert (again.status, again.index) == (Status.WAITING, 4)


def test_the_last_way_up_is_not_waited_for() -> None:
    """Then it is finished."""
    state = handle(begun(200), Started(), at(200_000))
    done = looked_on(state, 300_000)
    assert (done.status, done.at_ms, done.left_ms) == (Status.FINISHED, done.total_ms, 0)
    assert [d.how for d in done_steps(done)] == [How.FULL] * 4


# ------------------------------------------------------------------ events

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
    done = done_steps(looked_on(state, 30_000))
    assert [(d.exercise, d.how) for d in done] == [("z", How.EASIER)]


# ------------------------------------------------------------------ that hurts

def told(level: int = 4, *out: str, gave_way: bool = False, name: str | None = "a", ends: bool = False) -> HurtTold:
    """The answers."""
    return HurtTold(Hurt(KNEE, level, gave_way, name), out, ends)


def test_skipping_one_of_two_stations_eased_alike_leaves_out_one_and_no_change_between() -> None:
    """They are the same exercise then, and still two stations: one is down on the floor, the other is not."""
    state = begun(30)
    for written in ("b", "c"):
        state = handle(state, Swapped(written, "x", Sides.BOTH, Mode.REPS, False, by_hand=False), at(30_000))
    state = handle(state, Skipped(), at(30_000))
    assert state.step.kind is C and state.passed_by == {3}


@pytest.mark.parametrize("event", [Started(), Paused(), Gap(), Skipped(), WentBack(), LongerRest(), StoodStill(),
                                   swap_to("a", exercise("z"), by_hand=True)])
@pytest.mark.parametrize("second", [0, 10, 27, 60, 139])
def test_after_that_hurts_nothing_goes_on_until_it_is_told(event: PlayerEvent, second: int) -> None:
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
    state = looked_on(handle(state, Started(), at(20_000)), 32_000)
    assert (state.step.exercise, state.at_ms - state.step.start_ms) == ("b", 2_000)
    again = handle(state, WentBack(), at(32_000))
    assert (again.index, again.at_ms, again.spent[1]) == (state.index, state.step.start_ms, 10_000)


def test_a_session_that_is_skipped_through_is_no_time_trained() -> None:
    """Each bout is skipped a second before it would begin: what was waited through leads to no work."""
    state = begun()
    for _ in range(4):
        state = handle(state, Skipped(), state.since or at(0))
        state = looked_on(state, (state.since or at(0)).mono_ms + 1000)
    assert [step.how for step in done_steps(state)] == [How.SKIPPED] * 4
    assert active_ms(state) == 0 < state.at_ms


def test_time_trained_is_the_work_and_the_rest_before_it() -> None:
    """A rest that is cut short is shorter; a bout that is skipped takes its rest with it."""
    assert active_ms(begun(40)) == 40_000
    rested = handle(begun(30), Ready(), at(30_000))
    assert active_ms(looked_on(rested, 40_000)) == 40_000 and rested.at_ms > 30_000
    assert active_ms(handle(begun(34), Skipped(), at(34_000))) == 25_000


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


def test_moving_forward_in_steps_is_moving_forward_at_once() -> None:
    """Positions add up."""
    state = advance(begun(), 12_000)
    assert advance(state, 40_000) == advance(begun(), 40_000)
    assert advance(state, 12_000) == state and advance(state, 3) == state
