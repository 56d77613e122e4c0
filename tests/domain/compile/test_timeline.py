"""From a session as written to steps on a ruler: the rules of amounts, gaps, sides and time, each shown by itself."""
from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.compile.stations import Order
from app.domain.compile.timeline import compile_timeline
from app.domain.model.client import Client, Condition, Place
from app.domain.model.diary import Diary
from app.domain.model.exercise import Axis, Exercise, Mode, Option, Pattern, Position, Sides
from app.domain.model.plan import Part, StepKind, StepSide, Timeline
from app.domain.model.rules import RuleId
from app.domain.model.session import Block, BlockKind, Item, Session
from tests.domain.dosing.test_dose import AT_LEVEL, KNEE, but
from tests.domain.shipped import SOME, TODAY, WELL, compiled, effort_ms, efforts, library, sum_ms

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
