"""What an experienced coach would object to: each fault is found where it was planted and nowhere else."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from app import text
from app.domain.exercise import Axis, Exercise, Mode, Option, Pattern, Position, Sides
from app.domain.programme import Programme, Week
from app.domain.proofreading import Problem, proofread, written_timeline
from app.domain.session import Block, BlockKind, Item, Session
from app.domain.source import Source
from tests.domain.shipped import shipped
from tests.domain.test_timeline import exercise

MARCH = exercise("march", pattern=Pattern.GAIT, muscles=("thighs",), muscles_too=("chest", "back"))
PUSH = exercise("push", pattern=Pattern.HORIZONTAL_PUSH, muscles=("chest",), demand={Axis.SHOULDER_LOAD: 2},
                easier=(Option("lean", (Axis.SHOULDER_LOAD,)),))
LEAN = exercise("lean", pattern=Pattern.HORIZONTAL_PUSH, muscles=("chest",), demand={Axis.SHOULDER_LOAD: 1})
PULL = exercise("pull", pattern=Pattern.HORIZONTAL_PULL, muscles=("back",))
DOWN = exercise("down", pattern=Pattern.TRUNK_BRACE, position=Position.SUPINE, muscles=("waist",),
                demand={Axis.FLOOR_TRANSFER: 3}, easier=(Option("march"),))
REST = exercise("rest", pattern=Pattern.MOBILITY, mode=Mode.HOLD, rep_ms=0, hold_s=30, muscles=("thighs",))
KNOWN = (MARCH, PUSH, LEAN, PULL, replace(DOWN, demand={Axis.FLOOR_TRANSFER: 3}), REST)

WARM = Block(BlockKind.WARM_UP, (Item("march", work_s=300),))
MAIN = Block(BlockKind.CIRCUIT, (Item("push", work_s=30), Item("pull", work_s=30)), 2, 30, 30)
COOL = Block(BlockKind.COOL_DOWN, tuple(Item("rest", hold_s=30) for _ in range(10)))


def source(known: tuple[Exercise, ...] = KNOWN, warm: Block = WARM, main: Block = MAIN, cool: Block = COOL,
           weeks: tuple[Week, ...] = (Week(("s",)),)) -> Source:
    """One session in one week, with nothing to object to."""
    return Source("x", "C", 1, known, (Session("s", "S", (warm, main, cool)),), (Programme("p", "P", weeks),))


def but(one: str, **changes: object) -> tuple[Exercise, ...]:
    """The exercises with one of them changed."""
    return tuple(replace(e, **changes) if e.id == one else e for e in KNOWN)


def stations(*items: Item, **changes: object) -> Block:
    """Another main block."""
    return replace(MAIN, items=items, **changes)


def found(given: Source, rule: str) -> list[Problem]:
    """The objections of one kind."""
    return [p for p in proofread(given) if p.rule == rule]


def test_a_clean_source_and_the_shipped_one_leave_nothing_to_object_to() -> None:
    """So that whatever is found below was planted."""
    assert proofread(source()) == ()
    assert proofread(shipped()) == ()


FLOOR = stations(Item("down", work_s=30), Item("push", work_s=30), Item("down", work_s=30), Item("pull", work_s=30))
WARMED = replace(WARM, items=(Item("march", work_s=300), Item("down", work_s=5)))

PLANTED: dict[str, tuple[Callable[[], Source], Problem]] = {
    "easier_asks_more": (
        lambda: source(but("lean", demand={Axis.SHOULDER_LOAD: 1, Axis.GRIP: 2})),
        Problem("easier_asks_more", "push", 2, 0, True, "lean:grip")),
    "relief_not_there": (
        lambda: source(but("push", easier=(Option("lean", (Axis.SHOULDER_LOAD, Axis.GRIP)),))),
        Problem("relief_not_there", "push", 1, 0, True, "lean")),
    "ladder_in_a_circle": (
        lambda: source((*but("lean", demand={Axis.SHOULDER_LOAD: 1}, easier=(Option("pull"),))[:3],
                        replace(PULL, easier=(Option("lean"),)), *KNOWN[4:])),
        Problem("ladder_in_a_circle", "lean", 1, 0, True)),
    "no_easier_option": (
        lambda: source(but("push", easier=())), Problem("no_easier_option", "push", 2, 1, False, "shoulder_load")),
    "long_hold": (
        lambda: source(cool=replace(COOL, items=(*COOL.items, Item("rest", hold_s=31)))),
        Problem("long_hold", "s/rest", 31, 30)),
    "side_reason_without_sides": (
        lambda: source(main=stations(*MAIN.items, Item("march", work_s=30, one_side_because="stroke"), rest_s=30)),
        Problem("side_reason_without_sides", "s/march", 1, 0)),
    "short_warm_up": (
        lambda: source(warm=replace(WARM, items=(Item("march", work_s=299),))),
        Problem("short_warm_up", "s", 299, 300)),
    "short_cool_down": (
        lambda: source(cool=replace(COOL, items=COOL.items[1:])), Problem("short_cool_down", "s", 270, 300)),
    "floor_changes": (
        lambda: source(warm=WARMED, main=FLOOR), Problem("floor_changes", "s", 4, 2)),
    "not_warmed_up": (
        lambda: source(but("march", muscles_too=("back",))), Problem("not_warmed_up", "s/push", 2, 1)),
    "push_and_pull": (
        lambda: source(main=stations(Item("push", work_s=35), Item("pull", work_s=29), rest_s=40)),
        Problem("push_and_pull", "p/week 1", 120, 120)),
    "no_lighter_week": (
        lambda: source(weeks=(Week(("s",)),) * 7), Problem("no_lighter_week", "p", 7, 6)),
    "much_work_early": (
        lambda: source(main=replace(MAIN, rest_s=29)), Problem("much_work_early", "p/week 1/s", 103, 100)),
}


@pytest.mark.parametrize("rule", sorted(set(PLANTED) - {"push_and_pull", "ladder_in_a_circle"}))
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


@pytest.mark.parametrize("rule", sorted(PLANTED))
def test_just_within_the_limit_nothing_is_said(rule: str) -> None:
    """The other side of each edge."""
    within: dict[str, Source] = {
        "easier_asks_more": source(), "relief_not_there": source(), "ladder_in_a_circle": source(),
        "no_easier_option": source(but("push", easier=(), demand={Axis.SHOULDER_LOAD: 1})),
        "long_hold": source(cool=replace(COOL, items=(*COOL.items, Item("rest", hold_s=30)))),
        "side_reason_without_sides": source(
            but("pull", sides=Sides.EACH), main=stations(Item("pull", work_s=30, one_side_because="stroke"))),
        "short_warm_up": source(), "short_cool_down": source(),
        "floor_changes": source(warm=WARMED, main=stations(*FLOOR.items[:2], Item("pull", work_s=30))),
        "not_warmed_up": source(), "push_and_pull": source(),
        "no_lighter_week": source(weeks=(*[Week(("s",))] * 6, Week(("s",), lighter=True), *[Week(("s",))] * 6)),
        "much_work_early": source(main=replace(MAIN, rest_s=29), weeks=(Week(()), Week(()), Week(("s",)))),
    }
    assert found(within[rule], rule) == []


def test_only_what_could_hurt_blocks_and_comes_first() -> None:
    """A demand of 3 without an easier option does; one of 2 does not."""
    given = source(but("push", easier=(), demand={Axis.SHOULDER_LOAD: 3}), main=replace(MAIN, rest_s=10))
    assert [(p.rule, p.blocks) for p in proofread(given)] == [("no_easier_option", True), ("much_work_early", False)]


@pytest.mark.parametrize("rule", sorted(PLANTED))
def test_every_objection_is_said_with_what_would_mend_it(rule: str) -> None:
    """In a sentence each."""
    problem = PLANTED[rule][1]
    for said in (text.problem_text(problem), text.problem_mend(problem)):
        assert said.endswith(".") and said[0].isupper() and "_" not in said and "{" not in said


def test_a_session_as_written_is_for_nobody_in_particular() -> None:
    """No body, no check-in, everything at hand."""
    plan = written_timeline(shipped().sessions[0], shipped().library())
    assert (plan.substitutions, plan.left_out, plan.dose.level) == ((), (), 1)
