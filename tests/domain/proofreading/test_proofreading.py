"""What an experienced coach would object to: each fault is found where it was planted and nowhere else."""
from __future__ import annotations

import ast
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from app.domain.model.exercise import Axis, Cues, Exercise, Mode, Option, Pattern, Position, Sides, Support
from app.domain.model.programme import Programme, Week
from app.domain.model.proofreading_limits import DEFAULT_LIMITS, ProofreadingLimits, limit_bounds, limit_sources
from app.domain.model.session import Block, BlockKind, Item, Session
from app.domain.model.source import Source
from app.domain.proofreading import finding
from app.domain.proofreading.finding import SessionUnderCheck
from app.domain.proofreading.proofread import Finding, proofread, written_timeline
from app.domain.proofreading.sessions import session_problems
from app.words.coach.proofreading import PROBLEMS, problem_mend, problem_text
from tests.domain.compile.test_timeline import exercise
from tests.domain.shipped import shipped

MARCH = exercise("march", pattern=Pattern.GAIT, muscles=("thighs",), muscles_too=("chest", "back"))
PUSH = exercise("push", pattern=Pattern.HORIZONTAL_PUSH, muscles=("chest",), demand={Axis.SHOULDER_LOAD: 2},
                easier=(Option("lean", (Axis.SHOULDER_LOAD,)),))
LEAN = exercise("lean", pattern=Pattern.HORIZONTAL_PUSH, muscles=("chest",), demand={Axis.SHOULDER_LOAD: 1})
PULL = exercise("pull", pattern=Pattern.HORIZONTAL_PULL, muscles=("back",))
DOWN = exercise("down", pattern=Pattern.TRUNK_BRACE, position=Position.SUPINE, muscles=("waist",),
                demand={Axis.FLOOR_TRANSFER: 3}, easier=(Option("march"),))
SQUAT = exercise("squat", pattern=Pattern.SQUAT, muscles=("thighs",))
HINGE = exercise("hinge", pattern=Pattern.HINGE, muscles=("buttocks",))
STAND = exercise("stand", pattern=Pattern.BALANCE, muscles=("ankles",), support=Support.OPTIONAL)
STEP = exercise("step", pattern=Pattern.ISOLATION, sides=Sides.ALTERNATING, muscles=("ankles",))
REST = exercise("rest", pattern=Pattern.MOBILITY, mode=Mode.HOLD, rep_ms=0, hold_s=30, muscles=("thighs",),
                muscles_too=("chest", "back", "waist", "buttocks", "ankles"))
KNOWN = (MARCH, PUSH, LEAN, PULL, DOWN, SQUAT, HINGE, STAND, STEP, REST)

WARM = Block(BlockKind.WARM_UP, (Item("march", work_s=300),))
MAIN = Block(BlockKind.CIRCUIT, (Item("push", work_s=30), Item("pull", work_s=30)), 2, 30, 30)
LEGS = Block(BlockKind.CIRCUIT, (Item("squat", work_s=30), Item("hinge", work_s=30), Item("stand", work_s=30)), 2, 30,
             30)
COOL = Block(BlockKind.COOL_DOWN, tuple(Item("rest", hold_s=30) for _ in range(10)))
WEEK = Week(("s", "t"))


def source(known: tuple[Exercise, ...] = KNOWN, warm: Block = WARM, main: Block = MAIN, cool: Block = COOL,
           weeks: tuple[Week, ...] = (WEEK,), legs: Block = LEGS, about: str = "",
           limits: ProofreadingLimits = DEFAULT_LIMITS) -> Source:
    """Two sessions in one week, with nothing to object to; `main` is the first one's, `legs` the second one's."""
    sessions = Session("s", "S", (warm, main, cool), about=about), Session("t", "T", (WARM, legs, COOL))
    return Source("x", "C", 1, known, sessions, (Programme("p", "P", weeks),), proofreading=limits)


def but(one: str, **changes: object) -> tuple[Exercise, ...]:
    """The exercises with one of them changed."""
    return tuple(replace(e, **changes) if e.id == one else e for e in KNOWN)


def asking(axis: Axis, level: int, *ids: str, **changes: object) -> tuple[Exercise, ...]:
    """The exercises, with some that ask this much on an axis, each with an option that asks less there."""
    known = tuple(replace(e, demand={**e.demand, axis: level}, easier=(*e.easier, Option("stand", (axis,))), **changes)
                  if e.id in ids else e for e in KNOWN)
    return tuple(replace(e, muscles_too=(*e.muscles_too, "waist", "buttocks", "ankles")) if e.id == "march" else e
                 for e in known)


def stations(*items: Item, **changes: object) -> Block:
    """Another main block."""
    return replace(MAIN, items=items, **changes)


def work(*ids: str, **changes: object) -> Block:
    """A main block of 30 s each."""
    return stations(*(Item(one, work_s=30) for one in ids), **changes)


def found(given: Source, rule: str) -> list[Finding]:
    """The objections of one kind."""
    return [p for p in proofread(given) if p.rule == rule]


def circuit(work_s: int, rest_s: int) -> Session:
    """A session of a squat and of everything else that a week needs, at that much work and rest."""
    items = tuple(Item(one, work_s=work_s) for one in ("push", "squat", "pull", "hinge", "stand"))
    return Session(f"w{work_s}", "W", (WARM, Block(BlockKind.CIRCUIT, items, 1, rest_s), COOL))


def rising(*amounts: tuple[int, int]) -> Source:
    """A programme of one such session a week."""
    sessions = tuple(circuit(*one) for one in amounts)
    weeks = (Week(()), Week(()), *(Week((s.id,)) for s in sessions))
    return Source("x", "C", 1, KNOWN, sessions, (Programme("p", "P", weeks),))


def counting(rep_ms: int, line: str) -> Source:
    """A pull of that tempo with that line."""
    return source(but("pull", rep_ms=rep_ms, cues=Cues(action=(line,))))


def pulling(weeks: int) -> Source:
    """A programme of one session a week in which the pull alone gets more time."""
    written = circuit(30, 40)
    main = written.blocks[1]
    sessions = tuple(replace(written, id=f"w{at}", blocks=(WARM, replace(main, items=tuple(
        replace(i, work_s=30 + 2 * at) if i.exercise == "pull" else i for i in main.items)), COOL))
        for at in range(weeks))
    return Source("x", "C", 1, KNOWN, sessions, (Programme("p", "P", tuple(Week((s.id,)) for s in sessions)),))


def test_a_clean_source_leaves_nothing_to_object_to() -> None:
    """So that whatever is found below was planted."""
    assert proofread(source()) == ()
    assert proofread(rising((30, 40), (30, 30))) == ()


def test_the_shipped_source_can_be_published() -> None:
    """Nothing in it blocks."""
    assert [p for p in proofread(shipped()) if p.blocks] == []


FLOOR = stations(Item("down", work_s=30), Item("push", work_s=30), Item("down", work_s=30), Item("pull", work_s=30))
WARMED = replace(WARM, items=(Item("march", work_s=300), Item("down", work_s=5)))
SLOW = but("pull", rep_ms=61_000)
LONG = replace(MAIN, items=(Item("push", work_s=600), Item("pull", work_s=600)), rounds=10, rest_s=600)
UNHELD = but("stand", demand={Axis.SINGLE_LEG_BALANCE: 3}, support=Support.NONE, muscles=("thighs",),
             easier=(Option("march", (Axis.SINGLE_LEG_BALANCE,)),))
HELD = tuple(replace(e, support=Support.OPTIONAL) if e.id == "stand" else e for e in UNHELD)
STOOD = Block(BlockKind.HOLDS, (Item("stand", work_s=30),))


def tired(known: tuple[Exercise, ...] = HELD, first: Block = MAIN, then: Block = STOOD) -> Source:
    """Balance work after the rounds of the first session, and none but that in the second."""
    given = source(known, legs=replace(LEGS, items=LEGS.items[:2]))
    one = replace(given.sessions[0], blocks=(WARM, first, then, COOL))
    return replace(given, sessions=(one, given.sessions[1]))


PLANTED: dict[str, tuple[Callable[[], Source], Finding]] = {
    "easier_asks_more": (
        lambda: source(but("lean", demand={Axis.SHOULDER_LOAD: 1, Axis.GRIP: 2})),
        Finding("easier_asks_more", "push", 2, 0, True, "lean:grip")),
    "relief_not_there": (
        lambda: source(but("push", easier=(Option("lean", (Axis.SHOULDER_LOAD, Axis.GRIP)),))),
        Finding("relief_not_there", "push", 1, 0, True, "lean")),
    "ladder_in_a_circle": (
        lambda: source(tuple(replace(e, easier=(Option("pull" if e.id == "lean" else "lean"),))
                             if e.id in ("lean", "pull") else e for e in but("pull", demand={Axis.SHOULDER_LOAD: 1}))),
        Finding("ladder_in_a_circle", "lean", 1, 0, True)),
    "no_easier_option": (
        lambda: source(but("push", easier=())), Finding("no_easier_option", "push", 2, 1, False, "shoulder_load")),
    "no_repetition_fits": (
        lambda: source(SLOW, main=stations(Item("push", work_s=60), Item("pull", work_s=60), rest_s=60)),
        Finding("no_repetition_fits", "s/pull", 60, 61, True)),
    "endless_work": (
        lambda: source(but("pull", rep_ms=61_000), main=stations(Item("push", work_s=600), Item("pull", reps=10),
                                                                 rest_s=600)),
        Finding("endless_work", "s/pull", 610, 600, True)),
    "endless_session": (
        # 300 + 20 × 600 + 10 × 600 + 9 × 30 + 300 = 18 870 s
        lambda: source(main=LONG), Finding("endless_session", "s", 314, 240, True)),
    "side_missing": (
        lambda: source(main=stations(*MAIN.items, Item("step", reps=1))),
        Finding("side_missing", "s/step", 0, 1, True)),
    "sides_differ": (
        lambda: source(main=stations(*MAIN.items, Item("step", reps=7))), Finding("sides_differ", "s/step", 3, 4)),
    "side_reason_without_sides": (
        lambda: source(main=stations(*MAIN.items, Item("march", work_s=30, one_side_because="stroke"), rest_s=30)),
        Finding("side_reason_without_sides", "s/march", 1, 0)),
    "long_hold": (
        lambda: source(cool=replace(COOL, items=(*COOL.items, Item("rest", hold_s=31)))),
        Finding("long_hold", "s/rest", 31, 30)),
    "stated_length": (
        lambda: source(about="16 minutes of it, 8 of them easy."), Finding("stated_length", "s", 14, 16)),
    "short_warm_up": (
        lambda: source(warm=replace(WARM, items=(Item("march", work_s=299),))),
        Finding("short_warm_up", "s", 299, 300)),
    "short_cool_down": (
        lambda: source(cool=replace(COOL, items=COOL.items[1:])), Finding("short_cool_down", "s", 270, 300)),
    "not_warmed_up": (
        lambda: source(but("march", muscles_too=("back",))), Finding("not_warmed_up", "s/push", 2, 1)),
    "not_stretched": (
        lambda: source(but("rest", muscles_too=("chest", "waist", "buttocks", "ankles"))),
        Finding("not_stretched", "s", 0, 1, what="back")),
    "floor_changes": (
        lambda: source(warm=WARMED, main=FLOOR), Finding("floor_changes", "s", 4, 2)),
    "muscle_in_a_row": (
        lambda: source(but("pull", muscles=("chest", "back"))),
        Finding("muscle_in_a_row", "s/pull", 2, 1, what="chest")),
    "grip_in_a_row": (
        lambda: source(asking(Axis.GRIP, 2, "push", "pull")), Finding("grip_in_a_row", "s/pull", 2, 1)),
    "wrist_in_a_row": (
        lambda: source(asking(Axis.WRIST_WEIGHT_BEARING, 2, "push", "pull")),
        Finding("wrist_in_a_row", "s/pull", 2, 1)),
    "wrist_often": (
        lambda: source(asking(Axis.WRIST_WEIGHT_BEARING, 2, "push", "pull", "step"),
                       main=work("push", "march", "pull", "march", "step", "march")),
        Finding("wrist_often", "s", 3, 2)),
    "overhead_often": (
        lambda: source(asking(Axis.OVERHEAD_SHOULDER, 3, "push", "pull")), Finding("overhead_often", "s", 2, 1)),
    "impact": (
        lambda: source(asking(Axis.IMPACT, 2, "pull")), Finding("impact", "s/pull", 2, 1)),
    "balance_unsupported": (
        lambda: source(UNHELD), Finding("balance_unsupported", "t/stand", 3, 2)),
    "balance_when_tired": (tired, Finding("balance_when_tired", "s/stand", 3, 2)),
    "head_low_after_effort": (
        lambda: source(asking(Axis.HEAD_BELOW_HEART, 2, "hinge")), Finding("head_low_after_effort", "t/hinge", 2, 1)),
    "push_and_pull": (
        lambda: source(main=stations(Item("push", work_s=37), Item("pull", work_s=30), rest_s=40)),
        Finding("push_and_pull", "p/week 1", 123, 120)),
    "knee_and_hip": (
        lambda: source(legs=replace(LEGS, items=(Item("squat", work_s=49), *LEGS.items[1:]), rest_s=40)),
        Finding("knee_and_hip", "p/week 1", 163, 160)),
    "week_without": (
        lambda: source(legs=replace(LEGS, items=LEGS.items[:2])),
        Finding("week_without", "p/week 1", 0, 1, what="balance")),
    "tempo_too_quick": (
        lambda: counting(3000, "Pull. Let it back slowly, counting three."),
        Finding("tempo_too_quick", "pull", 3, 4)),
    "does_not_rise": (
        lambda: pulling(6), Finding("does_not_rise", "p", 5, 3, what="balance")),
    "no_lighter_week": (
        lambda: source(weeks=(WEEK,) * 7, limits=replace(DEFAULT_LIMITS, weeks_to_rise=104)),
        Finding("no_lighter_week", "p", 7, 6)),
    "much_work_early": (
        lambda: source(main=replace(MAIN, rest_s=29)), Finding("much_work_early", "p/week 1/s", 103, 100)),
    "unknown_kit": (
        lambda: source(but("pull", equipment=("band", "pulley"))), Finding("unknown_kit", "pull", 0, 0, what="pulley")),
    "work_rises_fast": (
        lambda: rising((30, 40), (31, 30)), Finding("work_rises_fast", "p/week 4", 2, 1)),
}


@pytest.mark.parametrize("rule", sorted(set(PLANTED) - {"ladder_in_a_circle"}))
def test_a_planted_fault_is_found_with_its_place_and_number(rule: str) -> None:
    """By its own rule, once, and by no other."""
    plant, problem = PLANTED[rule]
    assert proofread(plant()) == (problem,)


def test_a_ladder_that_runs_in_a_circle_is_found_at_each_rung() -> None:
    """Also one that leads straight back."""
    given = PLANTED["ladder_in_a_circle"][0]()
    assert [p.where for p in found(given, "ladder_in_a_circle")] == ["lean", "pull"]
    assert found(given, "ladder_in_a_circle")[0] == PLANTED["ladder_in_a_circle"][1]
    assert [p.where for p in found(source(but("lean", easier=(Option("lean"),))), "ladder_in_a_circle")] == ["lean"]


@pytest.mark.parametrize(("push", "pull", "percent", "limit"), [
    (21, 30, None, 0), (20, 30, 66, 70), (36, 30, None, 0), (37, 30, 123, 120), (30, 0, 999, 120), (0, 30, 0, 70)])
def test_pushing_and_pulling_are_weighed_over_the_week(push: int, pull: int, percent: int | None, limit: int) -> None:
    """70 to 120 percent of pulling; only where there is either."""
    items = [Item(name, work_s=s) for name, s in (("push", push), ("pull", pull)) if s]
    problems = found(source(main=stations(*items, rest_s=40)), "push_and_pull")
    assert [(p.value, p.limit) for p in problems] == ([] if percent is None else [(percent, limit)])
    assert found(source(main=stations(Item("march", work_s=30))), "push_and_pull") == []


@pytest.mark.parametrize(("knee", "hip", "percent", "limit"), [
    (18, 30, None, 0), (17, 30, 56, 60), (48, 30, None, 0), (49, 30, 163, 160), (30, 0, None, 0), (0, 30, None, 0)])
def test_knees_and_hips_are_weighed_over_the_week(knee: int, hip: int, percent: int | None, limit: int) -> None:
    """60 to 160 percent; where one is missing, that is what is said."""
    items = [Item(name, work_s=s) for name, s in (("squat", knee), ("hinge", hip)) if s]
    problems = found(source(legs=stations(*items, rest_s=60)), "knee_and_hip")
    assert [(p.value, p.limit) for p in problems] == ([] if percent is None else [(percent, limit)])


WITHIN: dict[str, Callable[[], Source]] = {
    "easier_asks_more": source, "relief_not_there": source, "ladder_in_a_circle": source, "short_warm_up": source,
    "short_cool_down": source, "not_warmed_up": source, "not_stretched": source, "push_and_pull": source,
    "muscle_in_a_row": source, "week_without": source, "knee_and_hip": source,
    "no_easier_option": lambda: source(but("push", easier=(), demand={Axis.SHOULDER_LOAD: 1})),
    "no_repetition_fits": lambda: source(but("pull", rep_ms=30_000)),
    "endless_work": lambda: source(but("pull", rep_ms=60_000), main=stations(Item("pull", reps=10))),
    "endless_session": lambda: source(main=replace(LONG, rounds=5)),
    "side_missing": lambda: source(main=stations(Item("step", reps=2), Item("step", work_s=8))),
    "sides_differ": lambda: source(main=stations(Item("step", reps=8), Item("step", work_s=28))),
    "side_reason_without_sides": lambda: source(
        but("pull", sides=Sides.EACH), main=stations(Item("pull", work_s=30, one_side_because="stroke"))),
    "long_hold": lambda: source(cool=replace(COOL, items=(*COOL.items, Item("rest", hold_s=30)))),
    # 300 + 2 × (30 + 30) + 3 × 30 + 300 = 810 s; 15 minutes are 900, a tenth of which is the difference
    "stated_length": lambda: source(about="15 minutes."),
    "floor_changes": lambda: source(warm=WARMED, main=stations(*FLOOR.items[:2], Item("pull", work_s=30))),
    "grip_in_a_row": lambda: source(asking(Axis.GRIP, 1, "push", "pull")),
    "wrist_in_a_row": lambda: source(asking(Axis.WRIST_WEIGHT_BEARING, 2, "push", "pull"),
                                     main=work("push", "march", "pull")),
    "wrist_often": lambda: source(asking(Axis.WRIST_WEIGHT_BEARING, 2, "push", "pull")),
    "overhead_often": lambda: source(asking(Axis.OVERHEAD_SHOULDER, 3, "pull")),
    "impact": lambda: source(asking(Axis.IMPACT, 1, "pull")),
    "balance_unsupported": lambda: source(HELD),
    "balance_when_tired": lambda: tired(first=STOOD, then=MAIN),
    "head_low_after_effort": lambda: source(asking(Axis.HEAD_BELOW_HEART, 2, "squat")),
    "tempo_too_quick": lambda: counting(4000, "Pull. Let it back slowly, counting three."),
    "does_not_rise": lambda: pulling(4),
    "no_lighter_week": lambda: source(weeks=(*[WEEK] * 6, replace(WEEK, lighter=True), *[WEEK] * 6)),
    "much_work_early": lambda: source(main=replace(MAIN, rest_s=29), weeks=(Week(()), Week(()), WEEK)),
    "unknown_kit": lambda: source(but("pull", equipment=("band", "wall"))),
    "work_rises_fast": lambda: rising((30, 40), (30, 30), (60, 30), (29, 40), (61, 31)),
}


@pytest.mark.parametrize("rule", sorted(PLANTED))
def test_just_within_the_limit_nothing_is_said(rule: str) -> None:
    """The other side of each edge."""
    assert found(WITHIN[rule](), rule) == []


# ------------------------------------------------------------------ what counts as running on

def test_a_round_rest_breaks_a_run_and_a_round_without_one_does_not() -> None:
    """The last station of a round stands before the first of the next; sets of one exercise are no run."""
    known = asking(Axis.GRIP, 2, "push", "pull")
    apart = work("push", "march", "pull")
    assert found(source(known, main=apart), "grip_in_a_row") == []
    run, = found(source(known, main=replace(apart, round_rest_s=0)), "grip_in_a_row")
    assert (run.where, run.value) == ("s/push", 2)
    assert found(source(known, main=work("push", rounds=3, round_rest_s=0)), "grip_in_a_row") == []
    sets = work("push", "march", "pull", kind=BlockKind.STRAIGHT_SETS, round_rest_s=0)
    assert found(source(known, main=sets), "grip_in_a_row") == []


def test_two_blocks_run_on_into_one_another() -> None:
    """The last of one is done before the first of the next."""
    given = source(asking(Axis.GRIP, 2, "push", "pull"), main=work("pull", "march", "push"))
    one = replace(given.sessions[0], blocks=(WARM, given.sessions[0].blocks[1], work("pull"), COOL))
    assert [p.where for p in found(replace(given, sessions=(one, *given.sessions[1:])), "grip_in_a_row")] == ["s/pull"]


def test_a_head_low_as_the_first_of_the_cool_down_comes_straight_after_effort() -> None:
    """As the second it does not."""
    low = but("lean", demand={Axis.HEAD_BELOW_HEART: 2}, easier=(Option("march", (Axis.HEAD_BELOW_HEART,)),))
    low = tuple(replace(e, easier=()) if e.id == "push" else e for e in low)
    first = replace(COOL, items=(Item("lean", work_s=10), *COOL.items))
    later = replace(COOL, items=(*COOL.items, Item("lean", work_s=10)))
    assert [p.where for p in found(source(low, cool=first), "head_low_after_effort")] == ["s/lean"]
    assert found(source(low, cool=later), "head_low_after_effort") == []


def test_mobility_and_balance_do_not_tire_a_muscle() -> None:
    """The same muscle loosened after it worked is no run."""
    given = source(but("pull", muscles=("chest", "back"), pattern=Pattern.MOBILITY))
    assert found(given, "muscle_in_a_row") == []


def test_a_week_off_misses_nothing_and_a_lunge_is_a_squat() -> None:
    """What is missing is named one by one."""
    assert found(source(weeks=(WEEK, Week(()))), "week_without") == []
    assert found(source(but("squat", pattern=Pattern.LUNGE)), "week_without") == []
    assert [p.what for p in found(source(weeks=(Week(("s",)),)), "week_without")] == ["squat", "hinge", "balance"]
    assert [p.what for p in found(source(weeks=(Week(("t",)),)), "week_without")] == ["push", "pull"]


def test_both_ways_of_a_count_and_a_pause_are_added() -> None:
    """Counts in other words, other places and other languages bring nothing."""
    def of(rep_ms: int, line: str) -> list[int]:
        return [p.limit for p in found(counting(rep_ms, line), "tempo_too_quick")]

    assert of(7000, "Breathe in for three, out for five.") == [8]
    assert of(8000, "Breathe in for three, out for five.") == []
    assert of(2000, "Draw your elbows down, pause for two.") == [3] == of(2000, "Hold for two seconds.")
    assert of(2000, "Go along for four steps.") == [] and of(2000, "Langsam, bis drei zählen.") == []
    assert found(source(but("pull", mode=Mode.HOLD, hold_s=2, rep_ms=0, cues=Cues(action=("Hold for five.",)))),
                 "tempo_too_quick") == []


def test_pulling_that_stays_is_found_and_a_lighter_week_sets_no_mark() -> None:
    """More weight, more time or a higher demand each is a rise; weeks off and lighter weeks are left aside."""
    same = source(weeks=(WEEK,) * 5)
    assert [(p.what, p.value) for p in found(same, "does_not_rise")] == [("balance", 4), ("pull", 4)]
    lighter = source(weeks=(WEEK, WEEK, replace(WEEK, lighter=True), Week(()), WEEK, WEEK))
    assert found(lighter, "does_not_rise") == []
    assert [p.what for p in found(rising((30, 40), (31, 41), (32, 42), (33, 43), (34, 44)), "does_not_rise")] == []


def test_balance_in_the_warm_up_alone_is_none() -> None:
    """A week is trained in its main parts."""
    warm = replace(WARM, items=(*WARM.items, Item("stand", work_s=30)))
    given = source(warm=warm, legs=replace(LEGS, items=LEGS.items[:2]))
    assert [p.what for p in found(given, "week_without")] == ["balance"]


def test_a_position_that_is_held_through_seconds_of_work_is_a_hold() -> None:
    """However it was written."""
    assert [(p.where, p.value) for p in found(source(main=stations(Item("rest", work_s=45))), "long_hold")] == [
        ("s/rest", 45)]


def test_sides_of_a_compiled_session_are_compared() -> None:
    """Should one ever be shortened or lost, it is found; a recorded reason excuses it."""
    known = {e.id: e for e in but("pull", sides=Sides.EACH)}
    session = source(main=work("push", "pull")).sessions[0]
    plan = written_timeline(session, known)
    rights = [at for at, s in enumerate(plan.steps) if s.exercise == "pull" and s.is_effort and s.side == "right"]
    assert len(rights) == 2
    steps = plan.steps

    def problems(cut: int, because: str = "") -> list[Finding]:
        changed = replace(plan, steps=tuple(replace(s, length_ms=cut) if at in rights else s
                                            for at, s in enumerate(steps)))
        block = replace(session.blocks[1], items=tuple(replace(i, one_side_because=because if i.exercise == "pull"
                                                               else "") for i in session.blocks[1].items))
        draft = SessionUnderCheck(replace(session, blocks=(WARM, block, COOL)), changed, known, DEFAULT_LIMITS)
        return [p for p in session_problems(draft) if p.rule.startswith("side")]

    assert problems(30_000) == []
    assert problems(29_000) == [Finding("sides_differ", "s/pull", 58, 60)]
    assert problems(0) == [Finding("side_missing", "s/pull", 0, 60, True)]
    assert problems(0, "a plaster") == []


# ------------------------------------------------------------------ the coach's limits

#: Limit → a planted fault that is silent once the limit is moved so.
MOVED = {
    "warm_up_s": ("short_warm_up", 299), "cool_down_s": ("short_cool_down", 270), "hold_s": ("long_hold", 31),
    "floor_changes": ("floor_changes", 4), "length_off": ("stated_length", 16),
    "muscle_in_a_row": ("muscle_in_a_row", 2), "grip_in_a_row": ("grip_in_a_row", 2),
    "wrist_in_a_row": ("wrist_in_a_row", 2), "wrist_items": ("wrist_often", 3), "overhead_items": ("overhead_often", 2),
    "impact": ("impact", 2), "push_pull_most": ("push_and_pull", 123), "knee_hip_most": ("knee_and_hip", 163),
    "early_weeks": ("much_work_early", 0), "early_work": ("much_work_early", 103),
    "uncounted_s": ("tempo_too_quick", 0), "weeks_to_rise": ("does_not_rise", 5),
    "steps_a_week": ("work_rises_fast", 2), "weeks_to_lighter": ("no_lighter_week", 7),
}


@pytest.mark.parametrize("limit", sorted(MOVED))
def test_a_coach_may_move_every_limit(limit: str) -> None:
    """At the number that was found nothing is said; one stricter it is."""
    rule, value = MOVED[limit]
    given = PLANTED[rule][0]()
    assert found(replace(given, proofreading=replace(given.proofreading, **{limit: value})), rule) == []
    least, most, _ = limit_bounds()[limit]
    stricter = value + 1 if limit in ("warm_up_s", "cool_down_s", "early_weeks", "uncounted_s") else value - 1
    assert least <= value <= most
    assert len(found(replace(given, proofreading=replace(given.proofreading, **{limit: stricter})), rule)) == 1


@pytest.mark.parametrize(("limit", "rule", "items", "moved"), [
    ("push_pull_least", "push_and_pull", {"main": (("push", 20), ("pull", 30))}, 66),
    ("knee_hip_least", "knee_and_hip", {"legs": (("squat", 17), ("hinge", 30), ("stand", 30))}, 56),
])
def test_a_coach_may_move_the_lower_limits(limit: str, rule: str, items: dict[str, tuple[tuple[str, int], ...]],
                                           moved: int) -> None:
    """As the upper ones."""
    blocks = {name: stations(*(Item(one, work_s=s) for one, s in told), rest_s=60) for name, told in items.items()}
    given = source(**blocks)  # type: ignore[arg-type]
    assert len(found(given, rule)) == 1
    assert found(replace(given, proofreading=replace(DEFAULT_LIMITS, **{limit: moved})), rule) == []


def test_every_limit_is_tested_bounded_and_sourced() -> None:
    """And no limit reaches what blocks."""
    assert set(MOVED) | {"push_pull_least", "knee_hip_least"} == set(limit_bounds())
    assert all(least <= otherwise <= most for least, most, otherwise in limit_bounds().values())
    assert all(limit_sources().values())
    blocking = {problem.rule for _, problem in PLANTED.values() if problem.blocks}
    assert blocking.isdisjoint({rule for rule, _ in MOVED.values()})


# ------------------------------------------------------------------ what is said

def test_only_what_could_hurt_blocks_and_comes_first() -> None:
    """A demand of 3 without an easier option does; one of 2 does not."""
    given = source(but("push", easier=(), demand={Axis.SHOULDER_LOAD: 3}), main=replace(MAIN, rest_s=10))
    assert [(p.rule, p.blocks) for p in proofread(given)] == [("no_easier_option", True), ("much_work_early", False)]
    assert {rule for rule, (_, problem) in PLANTED.items() if problem.blocks} == {
        "easier_asks_more", "relief_not_there", "ladder_in_a_circle", "no_repetition_fits", "endless_work",
        "endless_session", "side_missing"}


def test_every_objection_is_worded_planted_and_no_other() -> None:
    """A rule without words would be a crash on the coach's screen; one without a planted fault may never speak."""
    folder = Path(finding.__file__).parent
    said = set()
    for path in folder.glob("*.py"):
        calls = [n for n in ast.walk(ast.parse(path.read_text("utf-8"))) if isinstance(n, ast.Call)]
        said |= {c.args[0].value for c in calls if getattr(c.func, "id", "") in ("Problem", "_outside")
                 and isinstance(c.args[0], ast.Constant)}
    assert said <= set(PROBLEMS)
    assert set(PROBLEMS) == set(PLANTED) == set(WITHIN)


@pytest.mark.parametrize("rule", sorted(PLANTED))
def test_every_objection_is_said_with_what_would_mend_it(rule: str) -> None:
    """In a sentence each."""
    problem = PLANTED[rule][1]
    for said in (problem_text(problem), problem_mend(problem)):
        assert said.endswith(".") and said[0].isupper() and "{" not in said
        assert "_" not in said.replace("one_side_because", "")


def test_a_session_as_written_is_for_nobody_in_particular() -> None:
    """No body, no check-in, everything at hand."""
    plan = written_timeline(shipped().sessions[0], shipped().library())
    assert (plan.substitutions, plan.left_out, plan.dose.level) == ((), (), 1)
