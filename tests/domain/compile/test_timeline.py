"""From a session as written to steps on a ruler: the rules of amounts, gaps, sides and time, each shown by itself."""
from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.compile.prescription import Amounts, eased_hold_s, eased_reps, eased_work_s, longer_rest_s, owned_load_g
from app.domain.compile.stations import Order
from app.domain.compile.timeline import compile_timeline
from app.domain.errors import TooShort
from app.domain.model.client import Client, Condition, Place
from app.domain.model.diary import Diary
from app.domain.model.exercise import Axis, Exercise, Mode, Option, Pattern, Position, Sides
from app.domain.model.plan import Part, StepKind, StepSide, Timeline
from app.domain.model.rules import RuleId
from app.domain.model.session import Block, BlockKind, Item, Session
from tests.domain.dosing.test_dose import AT_LEVEL, KNEE, but
from tests.domain.shipped import SOME, TODAY, WELL, compiled, effort_ms, efforts, library, order, sum_ms

BARE = Exercise("x", "X", Pattern.SQUAT, Position.STANDING, (), Sides.BOTH, Mode.REPS, 2000, 0, 0, ("thighs",))


def exercise(one: str, **changes: object) -> Exercise:
    """A plain standing exercise of two seconds a repetition, but for this."""
    return replace(BARE, id=one, name=one, **changes)


def circuit(*items: Item, rounds: int = 1, rest_s: int = 30, round_rest_s: int = 0) -> Block:
    """A main block."""
    return Block(BlockKind.CIRCUIT, items, rounds, rest_s, round_rest_s)


def plan(*blocks: Block, known: tuple[Exercise, ...] = (exercise("a"), exercise("b")), client: Client | None = None,
         place: Place | None = None, diary: Diary | None = WELL, **more: object) -> Timeline:
    """A session of these blocks, compiled."""
    order = Order(Session("s", "S", blocks), {e.id: e for e in known}, client or Client(), place or Place(), TODAY,
                  diary)
    return compile_timeline(replace(order, **more))


def told(timeline: Timeline) -> list[tuple[str, str | None, int]]:
    """Kind, side and seconds of each step."""
    return [(s.kind.value, s.side.value if s.side else None, s.length_ms // 1000) for s in timeline.steps]


# ------------------------------------------------------------------ amounts

@pytest.mark.parametrize(("written", "percent", "seconds"), [
    (30, 100, 30), (33, 100, 33), (30, 90, 25), (40, 90, 35), (50, 90, 45), (30, 80, 20), (30, 70, 20), (20, 70, 15),
    (30, 50, 15), (20, 50, 15), (15, 50, 15), (12, 50, 12), (12, 90, 12), (5, 50, 5), (100, 50, 50)])
def test_work_rounds_down_to_five_seconds_and_keeps_its_floor(written: int, percent: int, seconds: int) -> None:
    """Never under 15 s, or what was written if that is less."""
    assert eased_work_s(written, percent) == seconds


@pytest.mark.parametrize(("written", "percent", "seconds"), [
    (30, 90, 25), (20, 70, 10), (20, 50, 10), (15, 50, 10), (10, 50, 10), (8, 50, 8), (25, 100, 25), (60, 50, 30)])
def test_holds_are_eased_as_work_with_a_floor_of_ten_seconds(written: int, percent: int, seconds: int) -> None:
    """Or what was written if that is less."""
    assert eased_hold_s(written, percent) == seconds


@pytest.mark.parametrize(("written", "percent", "count"), [
    (12, 90, 10), (10, 90, 9), (10, 80, 8), (8, 70, 5), (6, 50, 5), (5, 50, 5), (4, 50, 4), (1, 50, 1), (20, 50, 10)])
def test_repetitions_round_down_and_keep_five(written: int, percent: int, count: int) -> None:
    """Or what was written if that is less."""
    assert eased_reps(written, percent) == count


@pytest.mark.parametrize(("written", "percent", "seconds"), [
    (30, 100, 30), (33, 100, 33), (30, 110, 35), (40, 110, 45), (50, 110, 55), (30, 125, 40), (30, 150, 45),
    (60, 150, 90), (61, 150, 90), (80, 150, 90), (90, 150, 90), (95, 150, 95), (120, 150, 120), (0, 150, 0),
    (1, 110, 5)])
def test_rest_rounds_up_to_five_seconds_and_stops_at_ninety(written: int, percent: int, seconds: int) -> None:
    """Unless it was longer already."""
    assert longer_rest_s(written, percent) == seconds


@pytest.mark.parametrize(("load", "percent", "owned", "grams"), [
    (4000, 100, (2000, 4000), 4000), (4000, 90, (2000, 4000), 2000), (4000, 80, (3000, 3200, 3500), 3200),
    (3000, 100, (2000, 4000), 2000), (1000, 100, (2000,), 0), (4000, 0, (2000,), 0), (4000, 100, (), 0),
    (4000, 100, None, 4000), (4000, 90, None, 3500), (1250, 100, None, 1250)])
def test_load_goes_down_to_a_weight_that_is_owned(load: int, percent: int, owned: tuple[int, ...] | None, grams: int
                                                  ) -> None:
    """Never up; nothing where none is light enough."""
    assert owned_load_g(load, percent, owned) == grams


@pytest.mark.parametrize(("seconds", "cap", "parts"), [
    (30, 10, (10, 10, 10)), (25, 10, (9, 8, 8)), (10, 10, (10,)), (11, 10, (6, 5)), (7, 10, (7,)), (20, None, (20,)),
    (45, 30, (23, 22))])
def test_a_long_hold_is_done_in_nearly_equal_parts(seconds: int, cap: int | None, parts: tuple[int, ...]) -> None:
    """None over the cap, all of it held."""
    got = Amounts(StepKind.HOLD, seconds * 1000, most_hold_s=cap).parts_ms()
    assert got == tuple(p * 1000 for p in parts)


# ------------------------------------------------------------------ gaps

def test_a_gap_is_the_rest_that_remains_then_the_change_then_the_set_up() -> None:
    """30 s of rest, of which getting down takes 20 and the set-up 4."""
    floor = exercise("b", position=Position.SUPINE, set_up_s=4)
    got = plan(circuit(Item("a", work_s=30), Item("b", work_s=30)), known=(exercise("a"), floor))
    assert told(got)[1:5] == [("rest", None, 6), ("change", None, 20), ("setup", "both", 4), ("work", "both", 30)]


def test_a_gap_grows_where_change_and_set_up_need_more_than_the_rest() -> None:
    """Nobody is hurried."""
    floor = exercise("b", position=Position.SUPINE, set_up_s=15)
    got = plan(circuit(Item("a", work_s=30), Item("b", work_s=30)), known=(exercise("a"), floor))
    assert told(got)[1:4] == [("change", None, 20), ("setup", "both", 15), ("work", "both", 30)]


@pytest.mark.parametrize(("loaded", "rises", "seconds"), [(False, True, 20), (True, True, 30), (False, False, 30)])
def test_getting_down_and_up_takes_longer_with_weights_or_known_difficulty(loaded: bool, rises: bool, seconds: int
                                                                           ) -> None:
    """20 s, or 30 s, on the way down and up at the end alike."""
    floor = exercise("b", position=Position.SUPINE, loaded=loaded)
    got = plan(circuit(Item("a", work_s=30), Item("b", work_s=30), rest_s=0), known=(exercise("a"), floor),
               client=Client(rises_unaided=rises, limits={Axis.FLOOR_TRANSFER: 3}))
    changes = [(s.to_floor, s.length_ms // 1000) for s in got.steps if s.kind is StepKind.CHANGE]
    assert changes == [(True, seconds), (None, 40), (False, seconds), (None, 15)] or not rises


def test_a_session_that_begins_or_ends_on_the_floor_has_the_way_there_and_back() -> None:
    """The last step gets one up again."""
    floor = exercise("a", position=Position.PRONE)
    got = plan(circuit(Item("a", work_s=30)), known=(floor,))
    assert told(got) == [("change", None, 20), ("work", "both", 30), ("change", None, 40), ("change", None, 20),
                         ("change", None, 15)]
    assert [s.to_floor for s in got.steps] == [True, None, None, False, None]


def test_the_same_exercise_again_needs_no_set_up() -> None:
    """Straight sets set up once."""
    sets = Block(BlockKind.STRAIGHT_SETS, (Item("a", reps=5),), 3, 20)
    got = plan(sets, known=(exercise("a", set_up_s=8),))
    assert [s.kind for s in got.steps].count(StepKind.SETUP) == 1


def test_a_change_of_sides_uses_the_rest() -> None:
    """Left, rest, right: the same time for both."""
    got = plan(circuit(Item("a", work_s=30), Item("b", work_s=20)), known=(exercise("a", sides=Sides.EACH),
                                                                           exercise("b")))
    assert told(got) == [("work", "left", 30), ("rest", "right", 30), ("work", "right", 30), ("rest", None, 30),
                         ("work", "both", 20)]


@pytest.mark.parametrize(("stations", "rounds", "work", "rest", "round_rest"), [
    (3, 1, 30, 30, 60), (4, 2, 30, 40, 60), (5, 3, 40, 20, 90), (2, 4, 20, 10, 30)])
@pytest.mark.parametrize("one_sided", [0, 1, 2])
def test_a_circuit_is_as_long_as_the_formula_says(stations: int, rounds: int, work: int, rest: int, round_rest: int,
                                                  one_sided: int) -> None:
    """N·R·w + R·(N − 1)·t + (R − 1)·round rest, one-sided moves counted as two, where no set-up exceeds its rest."""
    known = tuple(exercise(str(n), sides=Sides.EACH if n < one_sided else Sides.BOTH, set_up_s=5 if n else 0)
                  for n in range(stations))
    got = plan(circuit(*(Item(e.id, work_s=work) for e in known), rounds=rounds, rest_s=rest,
                       round_rest_s=round_rest), known=known)
    n = stations + min(one_sided, stations)
    assert got.total_ms == 1000 * (n * rounds * work + rounds * (n - 1) * rest + (rounds - 1) * round_rest)


# ------------------------------------------------------------------ the dose on the ruler

@pytest.mark.parametrize("level", range(6))
@pytest.mark.parametrize("session", SOME)
def test_warm_up_and_cool_down_are_never_cut(session: str, level: int) -> None:
    """At every level that gives a session, their work is as on the best of days."""
    client = Client(usual_pain={})
    diary = {2: but(soreness={KNEE: 6}), 4: but(soreness={KNEE: 8}), 5: but(previous_level=6)}.get(
        level, AT_LEVEL[level])
    full, got = compiled(session, client), compiled(session, client, diary=diary)
    assert got.dose.level == level
    for part in (Part.WARM_UP, Part.COOL_DOWN):
        assert effort_ms(got, part) == effort_ms(full, part) > 0


@pytest.mark.parametrize("session", SOME)
def test_at_level_five_nobody_lifts_a_weight(session: str) -> None:
    """Once round, half the work, no load, and nothing in the main part that carries one."""
    got = compiled(session, diary=but(previous_level=6))
    assert got.dose.level == 5 and (got.dose.rounds, got.dose.work, got.dose.load) == (1, 50, 0)
    for step in efforts(got, Part.MAIN):
        assert step.load_g is None and not library()[step.exercise or ""].loaded
        assert step.round == 1


@pytest.mark.parametrize("kit", ["dumbbell", "kettlebell", "bottle"])
def test_a_weight_of_any_kind_is_put_down_at_level_five(kit: str) -> None:
    """Whatever the coach calls it."""
    heavy = exercise("a", loaded=True, equipment=(kit,), easier=(Option("b"),))
    got = plan(circuit(Item("a", work_s=30, load_g=2000)), known=(heavy, exercise("b")),
               diary=but(previous_level=6))
    assert [(s.written, s.to, s.because) for s in got.substitutions] == [("a", "b", ("weight",))]


def test_without_a_weight_light_enough_a_stand_in_is_sought_or_it_is_left_out() -> None:
    """One that is too heavy is never handed out."""
    heavy = exercise("a", loaded=True, equipment=("dumbbell",), easier=(Option("b"),))
    block = circuit(Item("a", work_s=30, load_g=2000))
    owner = Client(weights_g=(4000,), kit=frozenset({"dumbbell"}))
    got = plan(block, known=(heavy, exercise("b")), client=owner)
    assert [(s.to, s.because) for s in got.substitutions] == [("b", ("weight",))]
    bare = plan(block, known=(replace(heavy, easier=()),), client=owner)
    assert not bare.steps and [(o.exercise, o.because) for o in bare.left_out] == [("a", ("weight",))]


@pytest.mark.parametrize("level", [6, 7, 8])
def test_from_level_six_on_there_are_no_steps(level: int) -> None:
    """And nothing is swapped or left out, for nothing is done."""
    got = compiled(diary=AT_LEVEL[level])
    assert (got.steps, got.total_ms, got.substitutions, got.left_out) == ((), 0, (), ())
    assert got.dose.level == level and got.dose.reasons


@pytest.mark.parametrize("condition", [Condition.HIGH_BLOOD_PRESSURE, Condition.HEART_CONDITION])
@pytest.mark.parametrize("session", SOME)
def test_hard_holds_last_ten_seconds_at_most_for_blood_pressure_or_heart(session: str, condition: Condition) -> None:
    """A longer one is done in parts with a pause between, all of it, and the reason is told; other holds stay whole."""
    got, full = compiled(session, Client(conditions=frozenset({condition}))), compiled(session)
    holds = [s for s in got.steps if s.kind is StepKind.HOLD]
    hard = [s for s in holds if library()[s.exercise or ""].demand[Axis.HARD_HOLD] >= 2]
    assert all(s.length_ms <= 10_000 for s in hard)
    if not got.substitutions and not got.left_out:
        whole = [s for s in full.steps if s.kind is StepKind.HOLD]
        assert sum_ms(holds) == sum_ms(whole)
        light = [(s.exercise, s.length_ms) for s in whole if library()[s.exercise or ""].demand[Axis.HARD_HOLD] < 2]
        assert [(s.exercise, s.length_ms) for s in holds if s not in hard] == light
        told = {dict(r.data)["what"] for r in got.dose.reasons if r.rule is RuleId.CONDITION}
        assert ("hold" in told) is any(s.length_ms > 10_000 and library()[s.exercise or ""].demand[Axis.HARD_HOLD] >= 2
                                       for s in whole)


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("session", SOME)
def test_a_side_that_is_to_rest_is_not_trained(session: str, side: str) -> None:
    """The other does its own share and no more; what changes sides within a bout is replaced or left out."""
    got, full = compiled(session, Client(rest_side=side, rest_side_because="plaster")), compiled(session)
    other = StepSide.RIGHT if side == "left" else StepSide.LEFT
    assert not [s for s in efforts(got) if s.side is not None and s.side.value == side]
    assert not [s for s in efforts(got) if s.side is StepSide.ALTERNATING]
    mine = sum_ms(s for s in efforts(got) if s.side is other and not s.written)
    assert mine <= sum_ms(s for s in efforts(full) if s.side is other)


# ------------------------------------------------------------------ the lighter week

@pytest.mark.parametrize(("rounds", "left"), [(1, 1), (2, 1), (3, 2), (4, 2), (5, 3)])
def test_a_lighter_week_halves_the_rounds_rounded_up_and_says_so(rounds: int, left: int) -> None:
    """Work, rest and load stay."""
    block = circuit(Item("a", work_s=30), rounds=rounds)
    got = plan(block, lighter_week=True)
    assert (got.dose.level, got.dose.rounds, got.dose.work, got.dose.rest, got.dose.load) == (0, left, 100, 100, 100)
    assert effort_ms(got) == left * 30_000
    assert [r.rule for r in got.dose.reasons] == ([RuleId.LIGHTER_WEEK] if left < rounds else [])


def test_a_lighter_week_and_a_bad_day_do_not_add_up() -> None:
    """The fewer rounds of the two."""
    block = circuit(Item("a", work_s=30), rounds=5)
    got = plan(block, lighter_week=True, diary=but(previous_level=5))
    assert (got.dose.level, got.dose.rounds) == (4, 3)
    assert RuleId.LIGHTER_WEEK not in [r.rule for r in got.dose.reasons]


def test_a_second_main_block_that_is_halved_is_told_too() -> None:
    """Every change carries a reason, whichever block it touches."""
    got = plan(circuit(Item("a", work_s=30)), circuit(Item("b", work_s=30), rounds=4), lighter_week=True)
    assert effort_ms(got) == 3 * 30_000
    assert [r.rule for r in got.dose.reasons] == [RuleId.LIGHTER_WEEK]


# ------------------------------------------------------------------ fitting into the minutes

def minutes(number: int) -> Place:
    """A room with so much time."""
    return Place(minutes=number)


def test_rounds_go_first_then_accessory_stations_the_last_first() -> None:
    """Three rounds of three: two rounds, one, then without the second accessory, then without both."""
    block = circuit(Item("a", work_s=60), Item("b", work_s=60, accessory=True), Item("c", work_s=60, accessory=True),
                    rounds=3, rest_s=60)
    known = tuple(map(exercise, "abc"))
    got = {m: plan(block, known=known, place=minutes(m)) for m in (17, 16, 11, 5, 3, 2, 1)}
    done = {m: (t.dose.rounds, [s.exercise for s in efforts(t)].count("b"), [o.exercise for o in t.left_out])
            for m, t in got.items()}
    assert done == {17: (3, 3, []), 16: (2, 2, []), 11: (2, 2, []), 5: (1, 1, []), 3: (1, 1, ["c"]),
                    2: (1, 0, ["b", "c"]), 1: (1, 0, ["b", "c"])}
    assert [o.because for o in got[3].left_out] == [("minutes",)]
    assert RuleId.MINUTES not in [r.rule for r in got[17].dose.reasons]
    assert [dict(r.data) for r in got[3].dose.reasons if r.rule is RuleId.MINUTES] == [{"minutes": 3, "rounds": 1}]


@pytest.mark.parametrize("session", SOME)
def test_too_few_minutes_name_the_least_that_it_needs(session: str) -> None:
    """The least fits; a minute less does not."""
    with pytest.raises(TooShort) as caught:
        compiled(session, place=minutes(1))
    least_s = caught.value.what["least_s"]
    assert isinstance(least_s, int) and caught.value.what["asked_s"] == 60
    whole = -(-least_s // 60)
    assert compiled(session, place=minutes(whole)).total_ms <= whole * 60_000
    with pytest.raises(TooShort):
        compiled(session, place=minutes(whole - 1))


@pytest.mark.parametrize("session", SOME)
def test_more_minutes_never_give_less_and_the_ends_are_cut_last(session: str) -> None:
    """From one minute to an hour; warm-up and cool-down are whole while stations of the main part can go."""
    before, full = -1, compiled(session)
    for number in range(1, 61):
        try:
            got = compiled(session, place=minutes(number))
        except TooShort:
            assert before == -1
            continue
        assert got.total_ms <= number * 60_000
        assert effort_ms(got) >= before
        ends = {out.exercise for out in got.left_out} & {
            i.exercise for b, i in order(session).session.items() if not b.is_main}
        for part in (Part.WARM_UP, Part.COOL_DOWN):
            assert effort_ms(got, part) == effort_ms(full, part) or (ends and effort_ms(got, part))
        assert not ends or len({s.exercise for s in efforts(got, Part.MAIN)}) <= 3
        before = effort_ms(got)
    assert before == effort_ms(full)


@pytest.mark.parametrize("session", SOME)
def test_a_shortened_session_keeps_both_sides(session: str) -> None:
    """Left as long as right at any length."""
    for number in range(10, 40):
        try:
            got = compiled(session, place=minutes(number))
        except TooShort:
            continue
        left, right = (sum_ms(s for s in efforts(got) if s.side is side) for side in (StepSide.LEFT, StepSide.RIGHT))
        assert left == right


def test_a_worse_day_never_wins_rounds_by_being_shorter() -> None:
    """Work that is eased makes room on the clock; that room stays empty."""
    block = circuit(Item("a", work_s=60), rounds=7, rest_s=0)
    well, sore = (plan(block, place=minutes(6), diary=d) for d in (WELL, but(pain={KNEE: 4})))
    assert (well.dose.rounds, sore.dose.level) == (6, 2)
    assert sore.dose.rounds == 6 and effort_ms(sore) == 300_000


def test_no_level_wins_rounds_over_a_better_one_that_fits_fewer() -> None:
    """Rounding can make level 2 longer than level 0 and level 3; level 3 then keeps to what level 2 could have."""
    warm = Block(BlockKind.WARM_UP, (Item("a", work_s=7),))
    block = circuit(Item("a", work_s=28), rounds=8, rest_s=1)
    done = [plan(warm, block, place=minutes(3), diary=d).dose for d in (WELL, AT_LEVEL[2], AT_LEVEL[3])]
    assert [(d.level, d.rounds) for d in done] == [(0, 6), (2, 5), (3, 5)]


def test_a_station_left_out_never_wins_rounds_for_the_others() -> None:
    """A sore knee makes the session shorter, not fuller."""
    squat = exercise("a", demand={Axis.DEEP_KNEE_FLEXION: 2})
    block = circuit(Item("a", work_s=60), Item("b", work_s=60), rounds=3, rest_s=0)
    well, sore = (plan(block, known=(squat, exercise("b")), place=minutes(4), diary=d)
                  for d in (WELL, but(pain={KNEE: 4})))
    assert (well.dose.rounds, [o.exercise for o in sore.left_out]) == (2, ["a"])
    assert sore.dose.rounds <= 2
