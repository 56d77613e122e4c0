"""Moving about by hand, counted movements, and "all right?": what each tap does."""
from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.model.exercise import Position, Sides
from app.domain.model.plan import ChangeStage, StepKind, Timeline
from app.domain.model.record import How
from app.domain.model.session import Item
from app.domain.player.player import (
    AllRight,
    Counted,
    LongerRest,
    Paused,
    Ready,
    Skipped,
    Started,
    WentBack,
    done_steps,
    handle,
)
from app.domain.player.player_state import PlayerState, Status, Wait, open_player
from app.domain.player.tap_gates import round_ends
from tests.domain.compile.test_timeline import circuit, exercise, plan
from tests.domain.player.test_player import PLAN, C, R, U, W, at, begun, looked_on, made
from tests.domain.shipped import compiled

SIDED = plan(circuit(Item("a", work_s=20), Item("c", work_s=20), rounds=2, rest_s=15),
             known=(exercise("a", sides=Sides.EACH, set_up_s=4), exercise("c")))
FLOOR = plan(circuit(*(Item(i, work_s=20) for i in "abc"), rounds=2, rest_s=40),
             known=(exercise("a"), exercise("b", position=Position.SUPINE), exercise("c")))


def names(state: PlayerState) -> list[str]:
    """What is left out, in order."""
    return [state.steps[i].exercise or "" for i in sorted(state.passed_by)]


# ------------------------------------------------------------------ over a bout

def test_one_press_in_work_leads_to_what_comes_after_it() -> None:
    """With what was done of it."""
    state = handle(begun(10), Skipped(), at(10_000))
    assert (state.at_ms, state.index, state.status) == (25_000, 2, Status.RUNNING)
    assert [(d.done_ms, d.how) for d in done_steps(state)] == [(5_000, How.SKIPPED)]


@pytest.mark.parametrize("second", [0, 4, 26, 34])
def test_one_press_before_work_leaves_the_whole_bout_out(second: int) -> None:
    """From the rest before it or the set-up, straight to the rest after it."""
    state = handle(begun(second), Skipped(), at(second * 1000))
    assert not state.step.is_effort and len(state.passed_by) == 1
    assert state.at_ms == state.steps[max(state.passed_by)].end_ms


def test_both_sides_are_left_out_together() -> None:
    """So that left and right stay equal; in the second side only that one is."""
    state = handle(begun(0, SIDED), Skipped(), at(0))
    assert names(state) == ["a", "a"] and state.next_effort() is not None
    late = next(s for s in SIDED.steps if s.is_effort and s.side and s.side.value == "right")
    state = handle(begun(late.start_ms // 1000 + 1, SIDED), Skipped(), at(late.start_ms + 1000))
    assert names(state) == ["a"]


def _at_change(timeline: Timeline, *, down: bool) -> int:
    return next(s.start_ms for s in timeline.steps if s.kind is StepKind.CHANGE and s.to_floor is down)


def test_who_skips_what_is_done_on_the_floor_is_not_sent_down_for_it() -> None:
    """Down and up are both left out with it."""
    before = _at_change(FLOOR, down=True) // 1000 - 1
    state = handle(begun(before, FLOOR), Skipped(), at(before * 1000))
    assert names(state) == ["b"] and state.step.exercise == "c" and state.step.kind is not StepKind.CHANGE


def test_who_skips_on_the_way_down_is_asked_to_get_up() -> None:
    """Nobody knows how far down they are."""
    now = _at_change(FLOOR, down=True) // 1000 + 5
    state = handle(begun(now, FLOOR), Skipped(), at(now * 1000))
    assert (state.step.stage, names(state)) == (ChangeStage.SIT, ["b"])
    up = looked_on(state, 120_000)
    assert (up.step.kind, up.step.to_floor, up.status) == (StepKind.CHANGE, False, Status.WAITING)


def test_a_change_that_the_next_work_needs_is_not_left_out() -> None:
    """It is waited for, and then what was left out is passed by."""
    timeline = made((W, 20, "a"), (R, 10, "b"), (C, 20, "b"), (U, 5, "b"), (W, 20, "b"), (R, 10, "d"), (W, 20, "d"))
    state = handle(begun(22, timeline), Skipped(), at(22_000))
    assert (state.step.kind, names(state)) == (StepKind.CHANGE, ["b"])
    down = handle(looked_on(state, 60_000), Started(), at(60_000))
    assert (down.step.kind, down.step.exercise, down.status) == (R, "d", Status.RUNNING)
    assert [d.how for d in done_steps(down)] == [How.FULL, How.SKIPPED]


def test_skipping_to_the_end_ends() -> None:
    """In as many presses as there is work."""
    state, presses = begun(1), 0
    while state.status is not Status.FINISHED:
        state, presses = handle(state, Skipped(), at(1_000)), presses + 1
    assert presses <= sum(s.is_effort for s in PLAN.steps) + 1


# ------------------------------------------------------------------ back and forward

@pytest.mark.parametrize("second", [7, 12, 26, 40, 60])
@pytest.mark.parametrize("paused", ["running", "paused"])
def test_back_then_forward_is_where_it_was(second: int, paused: str) -> None:
    """With the work that was done, and still running or still paused."""
    state = begun(second)
    state = handle(state, Paused(), at(second * 1000)) if paused == "paused" else state
    there = handle(handle(state, WentBack(), at(second * 1000)), Skipped(), at(second * 1000))
    assert (there.at_ms, there.status, there.spent) == (state.at_ms, state.status, state.spent)


def test_forward_is_skip_again_once_the_work_goes_on() -> None:
    """After three seconds, or after anything else was pressed."""
    state = handle(begun(40), WentBack(), at(40_000))
    late = handle(looked_on(state, 44_000), Skipped(), at(44_000))
    assert late.index == 4 and names(late) == ["b"]
    other = handle(handle(state, LongerRest(), at(40_000)), Skipped(), at(40_000))
    assert other.index == 4


def test_who_goes_back_over_the_floor_is_given_time() -> None:
    """It stands still, since they may be lying."""
    state = looked_on(handle(begun(200), Started(), at(200_000)), 202_000)
    assert handle(state, WentBack(), at(202_000)).status is Status.PAUSED


# ------------------------------------------------------------------ enough rest

def test_a_rest_may_be_cut_short_to_the_count_before_the_work() -> None:
    """Three seconds of it stay."""
    state = handle(begun(26), Ready(), at(26_000))
    assert (state.left_ms, state.next_effort(), state.passed_by) == (3_000, PLAN.steps[3], frozenset())
    assert handle(state, Ready(), at(26_000)).at_ms == state.at_ms
    assert handle(begun(10), Ready(), at(10_000)) == begun(10)


def test_down_sooner_than_thought_goes_on_at_once() -> None:
    """Without waiting for the time that was meant for it."""
    state = handle(begun(60), Ready(), at(60_000))
    assert (state.index, state.status) == (5, Status.RUNNING)


# ------------------------------------------------------------------ counted movements

COUNTED = replace(PLAN, steps=tuple(
    replace(s, reps=5) if s.is_effort and s.exercise in "ab" else s for s in PLAN.steps))


def counting(second: int) -> PlayerState:
    """Run to a second, waiting at the end of what is counted."""
    return looked_on(handle(open_player(COUNTED, frozenset({Wait.COUNT})), Started(), at(0)), second * 1000)


def test_counted_movements_go_on_by_time_unless_it_was_set_otherwise() -> None:
    """As every other work."""
    assert begun(40, COUNTED).index == 3


def test_counted_movements_wait_for_a_tap_at_the_end_of_their_time() -> None:
    """However long; then they were done in full."""
    state = counting(400)
    assert (state.status, state.index, state.left_ms) == (Status.WAITING, 1, 1)
    on = handle(state, Counted(), at(400_000))
    assert (on.status, on.index, [d.how for d in done_steps(on)]) == (Status.RUNNING, 2, [How.FULL])
    assert handle(state, Started(), at(400_000)).at_ms == on.at_ms


@pytest.mark.parametrize(("second", "how", "done_ms"), [(15, How.FULL, 20_000), (14, How.PART, 9_000)])
def test_done_before_the_time_is_done_unless_it_was_too_soon_to_be_true(second: int, how: How, done_ms: int) -> None:
    """Before half the time at tempo only the time counts."""
    state = handle(counting(second), Counted(), at(second * 1000))
    assert state.index == 2 and [(d.how, d.done_ms) for d in done_steps(state)] == [(how, done_ms)]


def test_what_is_not_counted_hears_no_count() -> None:
    """Neither a rest nor work by time."""
    for second in (2, 27, 70):
        state = begun(second, COUNTED)
        assert state.step.exercise == "c" or not state.step.is_effort
        assert handle(state, Counted(), at(second * 1000)).at_ms == state.at_ms


# ------------------------------------------------------------------ all right?

def alone(second: int, timeline: Timeline = FLOOR) -> PlayerState:
    """Somebody who is asked before each round."""
    state = handle(open_player(timeline, frozenset({Wait.ALL_RIGHT})), Started(), at(0))
    now = 0
    while now < second * 1000:
        state = looked_on(state, now := now + 1000)
        if state.status is Status.WAITING and state.step.kind is StepKind.CHANGE:
            state = handle(state, Started(), at(now))
    return state


def test_somebody_alone_is_asked_once_before_each_round() -> None:
    """In the rest between rounds; without rounds, before each next exercise of the main part."""
    assert [(FLOOR.steps[i].kind, FLOOR.steps[i].exercise) for i in round_ends(FLOOR.steps)] == [(R, "a")]
    circuit_of_three = compiled("hotel-room-three")
    asked = [circuit_of_three.steps[i] for i in round_ends(circuit_of_three.steps)]
    assert [s.kind for s in asked] == [StepKind.ROUND_REST] * (circuit_of_three.dose.rounds - 1)
    sets = compiled("first-steps")
    assert [sets.steps[i].exercise for i in round_ends(sets.steps)] == [
        "wall-push-up", "hip-hinge-drill", "supported-dumbbell-row"]


def test_without_an_answer_it_waits_and_with_one_the_rest_runs_on() -> None:
    """It never goes on by itself, and it never takes the rest away."""
    gate = min(round_ends(FLOOR.steps))
    rest = FLOOR.steps[gate]
    waiting = alone(600)
    assert (waiting.status, waiting.index) == (Status.WAITING, gate)
    assert handle(waiting, AllRight(), at(600_000)).status is Status.RUNNING
    early = next(alone(s) for s in range(rest.start_ms // 1000, 600) if alone(s).index == gate)
    told = handle(early, AllRight(), early.since or at(0))
    assert told.at_ms == early.at_ms and gate not in told.waiting()
    assert handle(begun(27), AllRight(), at(27_000)).at_ms == 27_000
