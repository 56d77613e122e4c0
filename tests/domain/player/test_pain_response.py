"""After "that hurts": the region is spared for the rest of it, or the session is over."""
from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.dosing.limits import Limits, limits_today
from app.domain.dosing.sore_places import ALL
from app.domain.model.body import REGION_AXES, Region, Spot, parse_spot
from app.domain.model.client import Client, Place
from app.domain.model.exercise import Axis, Mode, Option, Sides, Support
from app.domain.model.plan import ChangeStage
from app.domain.model.record import Hurt
from app.domain.model.session import Item
from app.domain.player.pain_response import easier_now, ends_session, spare, spared
from app.domain.player.player import HurtTold, Started, StoodStill, handle, swap_to
from app.domain.player.player_state import OVER, PlayerState, Status, open_player
from tests.domain import rulebook
from tests.domain import strategies as own
from tests.domain.compile.test_timeline import circuit, exercise, plan
from tests.domain.player.test_player import at, looked_on
from tests.domain.shipped import TODAY, WELL, compiled, library
from tests.sampling import examples

KNEE = parse_spot("left knee")
FREE = Limits(dict.fromkeys(Axis, ALL), frozenset({"chair"}))
SQUAT = exercise("squat", demand={Axis.DEEP_KNEE_FLEXION: 2}, easier=(Option("shallow"),))
SHALLOW = exercise("shallow", demand={Axis.DEEP_KNEE_FLEXION: 1})
PRESS = exercise("press", demand={Axis.SHOULDER_LOAD: 1})
KNOWN = {e.id: e for e in (SQUAT, SHALLOW, PRESS)}
STATE = open_player(plan(circuit(Item("squat", work_s=30), Item("press", work_s=30), rounds=2), known=tuple(
    KNOWN.values())))


@pytest.mark.parametrize(("level", "cap"), [(0, 3), (3, 3), (4, 1), (5, 1), (6, 0), (10, 0)])
def test_a_region_that_hurts_is_capped_on_both_sides(level: int, cap: int) -> None:
    """4–5 at one, from 6 on nothing; never upward."""
    got = spared(FREE, Hurt(KNEE, level))
    assert {got.caps[a] for a in REGION_AXES[Region.KNEE]} == {cap}
    assert got.caps[Axis.GRIP] == ALL
    low = replace(FREE, caps={**FREE.caps, Axis.KNEELING: 0})
    assert spared(low, Hurt(KNEE, level)).caps[Axis.KNEELING] == 0


@pytest.mark.parametrize(("level", "gave_way", "ends"), [(7, False, False), (8, False, True), (0, True, True)])
def test_pain_of_eight_or_a_joint_that_gave_way_ends_the_session(level: int, gave_way: bool, ends: bool) -> None:
    """Whatever else there is to do."""
    hurt = Hurt(KNEE, level, gave_way, "squat")
    assert ends_session(hurt) is ends
    assert spare(STATE, hurt, KNOWN, Client(), FREE).ends is ends


def test_what_hurt_is_never_simply_gone_on_with() -> None:
    """Eased at the least, even where the number is low."""
    got = spare(STATE, Hurt(KNEE, 1, exercise="press"), KNOWN, Client(), FREE)
    assert (got.swaps, got.leave_out) == ((), ("press",))
    got = spare(STATE, Hurt(KNEE, 2, exercise="squat"), KNOWN, Client(), FREE)
    assert ([(w, e.id) for w, e in got.swaps], got.leave_out) == ([("squat", "shallow")], ())


@pytest.mark.parametrize(("level", "swaps", "out"), [
    (4, [("squat", "shallow")], ["press"]), (6, [], ["squat", "press"])])
def test_everything_ahead_that_loads_the_region_is_eased_or_left_out(level: int, swaps: list[tuple[str, str]],
                                                                     out: list[str]) -> None:
    """Not only what was being done."""
    got = spare(STATE, Hurt(KNEE, level, exercise="press"), KNOWN, Client(), FREE)
    assert ([(w, e.id) for w, e in got.swaps], sorted(got.leave_out)) == (swaps, sorted(out))
    always = spare(STATE, Hurt(KNEE, level, exercise="press"), KNOWN, Client(same_as_always=True), FREE)
    assert (always.swaps, sorted(always.leave_out)) == ((), ["press", "squat"])


def test_easier_now_is_the_nearest_rung_that_today_allows() -> None:
    """None where there is none; alone only what was shown."""
    assert easier_now(SQUAT, KNOWN, Client(), FREE) == SHALLOW
    assert easier_now(SHALLOW, KNOWN, Client(), FREE) is None
    assert easier_now(SQUAT, KNOWN, Client(alone=True), FREE) is None
    assert easier_now(SQUAT, KNOWN, Client(alone=True, shown=frozenset({"shallow"})), FREE) == SHALLOW


def test_nothing_counted_becomes_a_long_hold_on_the_way() -> None:
    """A step on the ruler may last a minute and more, which nobody should hold."""
    held = exercise("shallow", mode=Mode.HOLD, rep_ms=0, hold_s=20)
    known = {**KNOWN, "shallow": held}
    assert easier_now(SQUAT, known, Client(), FREE) is None
    assert easier_now(SQUAT, known, Client(), replace(FREE, hold_s=10)) is None


hurts = st.builds(Hurt, own.body_spots, st.integers(0, 7))


@settings(max_examples=examples(60, 4_000))
@given(own.session_ids, own.bodies, own.rooms, st.lists(st.tuples(st.integers(1, 1_500), hurts), max_size=3))
def test_after_each_hurt_nothing_ahead_loads_what_hurts(session: str, client: Client, room: Place,
                                                        told: list[tuple[int, Hurt]]) -> None:
    """On the shipped sessions, at any time, several times over; and nothing that the body forbids comes in."""
    timeline = compiled(session, client, room)
    if not timeline.steps:
        return
    written = library()
    kit = {k for s in timeline.steps if s.exercise for k in written[s.exercise].equipment}
    limits = limits_today(client, room, WELL, frozenset(kit), TODAY)
    state, now = handle(open_player(timeline), Started(), at(0)), 0
    for seconds, hurt in told:
        now += seconds * 1000
        state = looked_on(state, now)
        if state.status in OVER:
            return
        state, limits = _answered(state, hurt, client, limits, now)
        if state.status in OVER:
            return
        caps = {a.value: c for a, c in limits.caps.items()}
        ahead = [s for s in state.steps[state.index:] if s.is_effort and s.length_ms and s.end_ms > state.at_ms]
        for step in ahead:
            done = written[step.exercise or ""]
            assert step.exercise != hurt.exercise
            is_held = limits.needs_support and done.support is Support.OPTIONAL
            asked = {a: 0 if is_held and a is Axis.UNHELD_BALANCE else done.demand.get(a, 0) for a in Axis}
            assert all(asked[a] <= caps[a.value] for a in Axis)
            if step.exercise not in {s.exercise for s in timeline.steps}:
                assert rulebook.known(done, client)
        assert not ways_to_nothing(state)
        state = handle(state, Started(), at(now))


def ways_to_nothing(state: PlayerState) -> list[int]:
    """Ways down that are still ahead and have a way up after them with no work in between."""
    ahead = [(i, s) for i, s in enumerate(state.steps) if i > state.index and s.length_ms]
    found, down = [], None
    for i, step in ahead:
        if step.is_effort:
            down = None
        elif step.to_floor is True or step.stage is ChangeStage.LIE:
            down = i
        elif step.is_level_change and down is not None:
            found.append(down)
            down = None
    return found


def test_where_all_the_floor_work_is_out_nobody_gets_down_for_nothing() -> None:
    """Neither down nor up again in any round; what stands goes on, and nothing waits for a tap there."""
    timeline = compiled("dumbbell-circuit")
    index = next(i for i, s in enumerate(timeline.steps) if s.is_effort and s.exercise == "goblet-squat")
    state = looked_on(handle(open_player(timeline), Started(), at(0)), timeline.steps[index].start_ms + 1_000)
    assert any(s.to_floor for s in state.steps[state.index:])
    limits = limits_today(Client(), Place(), WELL, frozenset(k for e in library().values() for k in e.needs()), TODAY)
    hip, now = parse_spot("left hip"), timeline.steps[index].start_ms + 1_000
    after, _ = _answered(state, Hurt(hip, 5), Client(), limits, now)
    left = [s for i, s in enumerate(after.steps) if i > after.index and s.length_ms]
    assert any(s.is_effort for s in left) and not any(s.is_level_change for s in left)
    quiet = {i for i, s in enumerate(after.steps) if i > after.index and s.is_level_change}
    assert not after.waiting() & quiet


def _answered(state: PlayerState, hurt: Hurt, client: Client, limits: Limits, now: int
              ) -> tuple[PlayerState, Limits]:
    """As the program does it."""
    step = state.step if state.step.exercise else state.next_effort()
    hurt = replace(hurt, exercise=step.exercise if step else None)
    state = handle(state, StoodStill(), at(now))
    got = spare(state, hurt, library(), client, limits)
    state = handle(state, HurtTold(hurt, got.leave_out, got.ends), at(now))
    for written, option in got.swaps:
        state = handle(state, swap_to(written, option, by_hand=False), at(now))
    assert state.status is (Status.STOPPED if got.ends else Status.PAUSED)
    return state, got.limits


def test_one_sided_work_stays_one_sided_after_a_swap() -> None:
    """And becomes in turn where the option does both within a bout."""
    each = exercise("squat", sides=Sides.EACH, easier=(Option("shallow"),))
    state = open_player(plan(circuit(Item("squat", work_s=30)), known=(each, SHALLOW)))
    for sides, expected in ((Sides.EACH, ["left", "right"]), (Sides.BOTH, ["both", "both"]),
                            (Sides.ALTERNATING, ["alternating", "alternating"])):
        swapped = handle(state, swap_to("squat", replace(SHALLOW, sides=sides), by_hand=True), at(0))
        assert [str(s.side) for s in swapped.steps if s.is_effort] == expected
    assert Spot(Region.KNEE).mirrored() == Spot(Region.KNEE)
