"""A stall: steady training in which nothing moves on; since when, and what holds it."""
from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.domain.measures.stall import (
    SessionInBrief,
    Stall,
    StallKind,
    in_brief,
    stall_of,
    stalled,
    steps_planned,
    strength_due,
)
from app.domain.model.plan import Dose, Move, MoveKind, StepReason
from app.domain.model.programme import Programme, Week
from app.domain.model.record import Ending
from tests.domain.past import plan, session, sore

TODAY = date(2026, 3, 30)
STAYS = (("press", 1), ("squat", 2))


def done(days_ago: int, **more: object) -> SessionInBrief:
    """A clean strength session in which no station stood higher than before."""
    brief = SessionInBrief(TODAY - timedelta(days=days_ago), 100, 0, False, False, STAYS)
    return brief._replace(**more)  # type: ignore[arg-type]


DAYS = (24, 17, 12, 6, 1)
STEADY = [done(n) for n in DAYS]


def test_three_weeks_with_four_sessions_and_nothing_higher() -> None:
    """Counted from the last step on, or from the first session."""
    assert stall_of(STEADY, TODAY) == Stall(StallKind.CEILING, TODAY - timedelta(days=24), 4)
    assert stall_of(STEADY[1:], TODAY) is None
    assert stall_of([*STEADY[:2], *STEADY[3:]], TODAY) is None
    assert stall_of([done(40, steps=(("press", 0), ("squat", 2))), *STEADY], TODAY) == Stall(
        StallKind.CEILING, TODAY - timedelta(days=24), 4)


def test_the_next_session_of_the_programme_is_a_step_on_as_long_as_all_goes_well() -> None:
    """But not where something holds."""
    new = [*STEADY[:3], done(6, session="next"), done(1, session="next")]
    assert stall_of(new, TODAY) is None
    assert stall_of([s._replace(hurts=True) for s in new], TODAY) is not None


def test_a_point_harder_now_and_then_is_not_too_hard() -> None:
    """By the mean over the three weeks."""
    over = [s._replace(over=n) for s, n in zip(STEADY, (0, 1, 1, 1, 0), strict=True)]
    assert stall_of(over, TODAY) == Stall(StallKind.CEILING, TODAY - timedelta(days=24), 4)
    hard = stall_of([s._replace(over=1) for s in STEADY], TODAY)
    assert hard is not None and hard.kind is StallKind.TOO_HARD


def test_a_station_that_stands_higher_than_ever_ends_it_and_one_that_comes_back_does_not() -> None:
    """Up and down between the same two steps is no way on."""
    up, down = (("press", 2), ("squat", 2)), (("press", 0), ("squat", 2))
    assert stall_of([*STEADY[:3], done(6, steps=up), done(1, steps=up)], TODAY) is None
    assert stall_of([*STEADY[:3], done(6, steps=down), done(1)], TODAY) is not None


@pytest.mark.parametrize(("due", "is_one"), [(None, True), (5, True), (6, False), (0, True)])
def test_whoever_does_less_than_seven_in_ten_of_what_was_due_is_not_stalled(due: int | None, is_one: bool) -> None:
    """Four of five are, four of six are not."""
    assert (stall_of(STEADY, TODAY, due) is not None) is is_one


@pytest.mark.parametrize(("what", "kind"), [
    ({"hurts": True, "over": 3}, StallKind.PAIN), ({"over": 2, "ended_early": True}, StallKind.TOO_HARD),
    ({"ended_early": True, "completed": 50}, StallKind.CUT_SHORT), ({"steps": ()}, StallKind.EASED),
    ({"unanswered": True}, StallKind.UNANSWERED)])
def test_the_kind_is_what_holds_in_half_of_them_the_gravest_first(what: dict[str, object], kind: StallKind) -> None:
    """In one of four it is none."""
    half = [*STEADY[:3], done(6, **what), done(1, **what)]
    found, less = stall_of(half, TODAY), stall_of([*STEADY[:4], done(1, **what)], TODAY)
    assert found is not None and found.kind is kind and less is not None and less.kind is StallKind.CEILING


def test_a_record_in_brief() -> None:
    """Steps of every station as planned; none on an eased day or without strength work; a harder option as written."""
    move = Move("a", 3, MoveKind.REPS, StepReason.CLEAN, 8, 10)
    assert steps_planned(replace(plan(), moves=(move,))) == (("a", 3), ("b", 0))
    assert steps_planned(plan(strength=False)) == ()
    assert steps_planned(replace(plan(), dose=Dose(2, 1, 80, 100, 100))) == ()
    harder = replace(move, exercise="written", to="a", step=4)
    assert steps_planned(replace(plan(), moves=(harder,))) == (("b", 0), ("written", 4))
    hard = in_brief(session(0, rpe=7, share=80, ending=Ending.TOO_MUCH, pain=sore(left_knee=3)))
    assert (hard.over, hard.completed, hard.hurts, hard.ended_early) == (2, 80, True, True)
    clean = in_brief(session(0, rpe=None))
    assert (clean.over, clean.hurts, clean.ended_early) == (None, False, False)


def test_light_sessions_neither_make_nor_end_a_stall() -> None:
    """Whole records, in any order."""
    past = [session(n) for n in (0, 7, 14, 20, 26)]
    day = past[-1].stamp.local
    found = stalled(list(reversed(past)), day)
    assert found is not None and (found.kind, found.since) == (StallKind.CEILING, past[0].stamp.local)
    assert stalled([replace(s, plan=plan(strength=False)) for s in past], day) is None


def test_what_a_programme_asks_for_in_three_weeks() -> None:
    """By its mean week; a week without sessions is none."""
    weeks = (Week(("lift", "move", "lift")), Week(("lift", "move")), Week(()))
    assert strength_due(Programme("p", "P", weeks), {"lift"}) == 4
    assert strength_due(Programme("p", "P", ()), {"lift"}) == 0


def second_reading(sessions: Sequence[SessionInBrief], due: int | None) -> StallKind | None:
    """The same in other words: from the rule as it is written down for coaches."""
    held = [s for s in sessions if s.completed and 0 <= (TODAY - s.on).days <= 56]
    recent = [s for s in held if TODAY - s.on < timedelta(weeks=3)]
    if len(recent) < 4 or (due and len(recent) / due < 0.7):
        return None
    names = {name for s in held for name, _ in s.steps}
    moved = [held[0].on]
    for name in names:
        stood = [(s.on, dict(s.steps)[name]) for s in held if name in dict(s.steps)]
        moved += [on for n, (on, step) in enumerate(stood) if n and step > max(was for _, was in stood[:n])]
    if (TODAY - max(moved)).days < 21:
        return None
    half, told = len(recent) / 2, [s.over for s in recent if s.over is not None]
    for kind, times in ((StallKind.PAIN, [s.hurts for s in recent]),
                        (StallKind.TOO_HARD, [bool(told) and sum(told) / len(told) >= 1] * len(recent)),
                        (StallKind.CUT_SHORT, [s.ended_early for s in recent]),
                        (StallKind.EASED, [s.steps == () for s in recent])):
        if times.count(True) >= half:
            return kind
    before = {s.session for s in held if TODAY - s.on >= timedelta(weeks=3)}
    return StallKind.CEILING if all(s.session in before for s in recent) else None


@pytest.mark.parametrize("seed", range(60))
def test_a_second_reading_of_the_rule_agrees_on_random_histories(seed: int) -> None:
    """Written apart from the first."""
    chance = random.Random(seed)
    days = sorted(chance.sample(range(70), chance.randint(4, 22)), reverse=True)
    sessions, step = [], 0
    for n in days:
        step = max(0, step + chance.choice((-1, 0, 0, 0, 0, 1)))
        steps = () if chance.random() < 0.2 else (("press", step), ("squat", 1))
        sessions.append(done(n, steps=steps, over=chance.choice((None, -1, 0, 0, 1)), hurts=chance.random() < 0.3,
                             completed=chance.choice((0, 50, 100, 100)), ended_early=chance.random() < 0.3,
                             session=chance.choice("ab")))
    due = chance.choice((None, 4, 6, 9))
    found = stall_of(sessions, TODAY, due)
    assert (found.kind if found else None) == second_reading(sessions, due)
