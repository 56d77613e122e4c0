"""Arms and legs: what rests takes no part, a sore one is spared alone, and none ever works more than was written."""
from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from app.domain.compile.stations import Order
from app.domain.compile.timeline import compile_timeline
from app.domain.model.body import BODY_REGIONS, PAIRED_REGIONS, Spot
from app.domain.model.client import Client, Place
from app.domain.model.diary import Diary
from app.domain.model.exercise import Axis, Exercise, Limb, Option, Position, Sides
from app.domain.model.plan import StepSide, Timeline
from app.domain.model.session import Block, BlockKind, Item, Session
from tests.domain import rulebook
from tests.domain.compile.test_timeline import exercise
from tests.domain.dosing.test_dose import but
from tests.domain.shipped import SESSIONS, TODAY, WELL, compiled, efforts, library, shipped
from tests.sampling import is_whole, spread

SOME = tuple(SESSIONS if is_whole() else spread(SESSIONS, 12))
RESTED = [(side, limb) for side in ("left", "right") for limb in ("arm", "leg", "")]
SORE = [(Spot(region, side), level) for region in BODY_REGIONS
        for side in (("left", "right") if region in PAIRED_REGIONS else ("",)) for level in (5, 7)]


def resting(side: str, limb: str) -> Client:
    """Somebody with a plaster on it."""
    return Client(rest_side=side, rest_limb=limb, rest_side_because="plaster")


def work_by_limb(timeline: Timeline, known: dict[str, Exercise] | None = None) -> Counter[tuple[str, str]]:
    """Twice the ms that each limb works, by the station as written: by the second rulebook, not by the program."""
    counted: Counter[tuple[str, str]] = Counter()
    for step in efforts(timeline):
        done = (known or library())[step.exercise or ""]
        for limb, work in rulebook.limb_work(done, str(step.side), step.length_ms).items():
            counted[step.written or step.exercise or "", limb] += work
    return counted


def assert_no_limb_does_more(got: Timeline, full: Timeline) -> None:
    """In any station."""
    now, written = work_by_limb(got), work_by_limb(full)
    assert {key: (ms, written[key]) for key, ms in now.items() if ms > written[key]} == {}


# ------------------------------------------------------------------ one side is to rest

@pytest.mark.parametrize(("side", "limb"), RESTED)
@pytest.mark.parametrize("session", SOME)
def test_a1_what_uses_the_limb_that_rests_in_any_way_is_out_and_the_rest_goes_on(session: str, side: str, limb: str
                                                                               ) -> None:
    """No push, pull, press, carry, lean or step with it; what does not use it stays, but for balance without it."""
    client = resting(side, limb)
    got = compiled(session, client)
    for step in efforts(got):
        assert not rulebook.uses_rested(library()[step.exercise or ""], str(step.side), client), step
    assert_no_limb_does_more(got, compiled(session))
    bouts = {"each": ("left", "right"), "both": ("both",), "alternating": ("alternating",)}
    changed = {s.written for s in got.substitutions} | {o.exercise for o in got.left_out}
    for one in (library()[written] for written in changed):
        asks = {axis.value: level for axis, level in one.demand.items()}
        sways = rulebook.no_arm(client) and any(asks[a] > most for a, most in rulebook.caps(client, None).items())
        assert sways or all(rulebook.uses_rested(one, bout, client) for bout in bouts[one.sides.value])


def test_a1_with_a_plaster_on_the_left_wrist_nobody_pushes_away_from_a_wall() -> None:
    """The case as it was found, and both legs train on."""
    got = compiled("first-steps", resting("left", "arm"))
    assert "wall-push-up" not in {s.exercise for s in efforts(got)}
    legs = [s for s in efforts(compiled("legs-with-weights", resting("left", "arm"))) if s.side is StepSide.LEFT]
    assert legs, "the healthy leg of that side trains"


def test_a1_nobody_gets_down_to_the_floor_and_up_again_on_one_arm() -> None:
    """Lying on a bed may be; a hip lift on the mat, between a plaster and a chair, may not."""
    for side in ("left", "right"):
        for session in ("dumbbell-circuit", "one-side-at-a-time", "down-to-the-floor"):
            got = compiled(session, resting(side, "arm"))
            assert not [s for s in efforts(got) if library()[s.exercise or ""].on_floor]


def test_without_a_limb_the_whole_side_rests() -> None:
    """As client files of the first version mean it."""
    got = compiled("dumbbell-circuit", Client(rest_side="left", rest_side_because="stroke"))
    assert not [s for s in efforts(got) if s.side in (StepSide.LEFT, StepSide.ALTERNATING)]


# ------------------------------------------------------------------ one joint is sore

@pytest.mark.parametrize("session", SOME)
def test_no_sore_region_makes_any_limb_work_more_than_was_written(session: str) -> None:
    """Every region, at 5 and at 7, each side."""
    full = compiled(session)
    for spot, level in SORE:
        diary = but(pain={spot: level})
        got = compiled(session, diary=diary)
        assert_no_limb_does_more(got, full)
        kit = {k for item in full.steps if item.exercise for k in library()[item.exercise].equipment}
        for step in efforts(got):
            done = library()[step.exercise or ""]
            assert rulebook.forbids(done, Client(), Place(), diary, {*kit, *done.equipment}, str(step.side)) == []


ROW = exercise("row", position=Position.SEATED, sides=Sides.EACH, demand={Axis.GRIP: 2}, loads=(Limb.ARM,), leans_on=(),
               easier=(Option("light"), Option("pull")), muscles=("lats",))
LIGHT = replace(ROW, id="light", demand={Axis.GRIP: 1}, easier=())
PULL = replace(ROW, id="pull", demand={}, sides=Sides.BOTH, easier=())


def row_for(client: Client, *known: Exercise, diary: Diary | None = WELL, **more: object) -> Timeline:
    """Ten repetitions with each arm, compiled."""
    session = Session("s", "S", (Block(BlockKind.CIRCUIT, (Item("row", reps=10),), 1, 20),))
    order = Order(session, {e.id: e for e in (ROW, *known)}, client, Place(), TODAY, diary)
    return compile_timeline(replace(order, **more))


def bouts(got: Timeline) -> list[tuple[str | None, str, int | None]]:
    """Exercise, side and repetitions of each bout."""
    return [(s.exercise, str(s.side), s.reps) for s in efforts(got)]


def test_b9_an_ache_of_one_wrist_spares_that_one_alone() -> None:
    """The other arm does what was written; the sore one does what it may; the plan says so."""
    sore = Client(spare={Spot(Spot(BODY_REGIONS[0]).region.WRIST, "left"): 1})
    got = row_for(sore, LIGHT)
    assert bouts(got) == [("row", "right", 10), ("light", "left", 10)]
    assert [(s.written, s.to, s.side, s.because) for s in got.substitutions] == [("row", "light", "left", ("grip",))]
    got = row_for(sore)
    assert bouts(got) == [("row", "right", 10)]
    assert [(o.exercise, o.spared, o.because) for o in got.one_sided] == [("row", "left", ("grip",))]
    assert got.left_out == ()


def test_b9_a_coach_may_have_both_sides_rest() -> None:
    """The stricter rule: then the easier option is done with both."""
    sore = Client(spare={Spot(BODY_REGIONS[0].WRIST, "left"): 1})
    table = replace(Order(Session("s", "S", ()), {}, sore, Place(), TODAY).table, spare_both_sides=True)
    assert bouts(row_for(sore, LIGHT, table=table)) == [("light", "left", 10), ("light", "right", 10)]


def test_b9_a_bout_that_leans_on_the_sore_arm_is_out_as_well() -> None:
    """Spared is spared, also as the hand that holds on."""
    leaning = replace(ROW, leans_on=(Limb.OTHER_ARM,))
    sore = Client(spare={Spot(BODY_REGIONS[0].WRIST, "left"): 1})
    session = Session("s", "S", (Block(BlockKind.CIRCUIT, (Item("row", reps=10),)),))
    got = compile_timeline(Order(session, {"row": leaning}, sore, Place(), TODAY, WELL))
    assert not efforts(got) and [o.because for o in got.left_out] == [("grip",)]


# ------------------------------------------------------------------ stand-ins

def test_a8_a_pull_with_both_arms_in_place_of_a_row_with_each_is_done_once() -> None:
    """Five with each arm do not become twice five with both."""
    got = row_for(Client(limits={Axis.GRIP: 0}), PULL)
    assert bouts(got) == [("pull", "both", 10)]


def test_a8_no_easier_or_approved_option_doubles_the_work_of_a_limb() -> None:
    """Over every such link of the library: the written exercise in a session of its own, forbidden."""
    for written in library().values():
        for option in (*written.easier, *written.swaps):
            got, full = (_only(written, option.to, forbidden=f) for f in (True, False))
            now, due = work_by_limb(got), work_by_limb(full)
            assert all(now[key] <= due[key] for key in now), (written.id, option.to)


def _only(written: Exercise, to: str, *, forbidden: bool) -> Timeline:
    item = Item(written.id, hold_s=20) if written.mode == "hold" else Item(written.id, work_s=40)
    session = Session("s", "S", (Block(BlockKind.CIRCUIT, (item,), 2, 20),))
    client = Client(chosen={written.id: to}) if forbidden else Client()
    known = {e.id: e for e in (written, library()[to])}
    return compile_timeline(Order(session, known, client, Place(), TODAY, WELL))


# ------------------------------------------------------------------ what the library says

@pytest.mark.parametrize("one", sorted(library()))
def test_every_exercise_says_which_limbs_it_works_and_leans_on(one: str) -> None:
    """And says no less than its ratings do: a grip needs an arm, a bent knee under load a leg."""
    told = library()[one]
    assert told.loads is not None and told.leans_on is not None
    parts = {limb.value.removeprefix("other_") for limb in (*told.loads, *told.leans_on)}
    assert "arm" in parts or not any(told.asks(a) for a in (Axis.WRIST_WEIGHT_BEARING, Axis.ELBOW_LOAD, Axis.GRIP))
    assert "leg" in parts or told.position is not Position.STANDING
    assert "leg" in parts or not told.asks(Axis.ANKLE_LOAD)
    assert not set(told.loads) & set(told.leans_on)
    if told.sides is Sides.BOTH:
        assert not {Limb.OTHER_ARM, Limb.OTHER_LEG} & {*told.loads, *told.leans_on}


def test_where_a_pack_says_nothing_every_limb_that_may_take_part_counts() -> None:
    """An older pack never lets a plastered arm push."""
    for one in shipped().exercises:
        unsaid = replace(one, loads=None, leans_on=None)
        for side in ("left", "right"):
            assert rulebook.on_body(rulebook.leaned_on(unsaid), side) >= (
                {"left leg", "right leg"} if one.position is Position.STANDING else set())
