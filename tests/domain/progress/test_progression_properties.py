"""What holds of moving on for any past: pain, the ceiling, any level above 0, the order of arrival, left and right."""
from __future__ import annotations

import random
from dataclasses import replace
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.compile.timeline import compile_timeline
from app.domain.model.body import BODY_REGIONS, PAIRED_REGIONS, REGION_AXES, Spot
from app.domain.model.client import Client, UsualPain
from app.domain.model.diary import AnsweredBy
from app.domain.model.exercise import Axis, Exercise
from app.domain.model.plan import MoveKind, StepReason, Timeline
from app.domain.model.record import CheckIn, DoneStep, Ending, How, Hurt, SessionDone
from app.domain.progress.progression_ladder import AMOUNTS
from app.domain.progress.progression_steps import ceiling, main_items
from app.words.client.progression import WHY, move_text
from tests.domain.days import BODY, BRACE, CURL, LIBRARY, RISE, Days, amounts, session_of
from tests.domain.past import check_in, stamp
from tests.sampling import examples

SPOTS = st.sampled_from(BODY_REGIONS).flatmap(
    lambda r: st.builds(Spot, st.just(r), st.sampled_from(("left", "right") if r in PAIRED_REGIONS else ("",))))
STATIONS = ("rise", "curl", "brace")
#: Days on which all goes well are frequent, so that steps are reached at all.
PAINS = st.dictionaries(SPOTS, st.integers(1, 4), max_size=1)
HURTS: st.SearchStrategy[dict[str, Any]] = st.fixed_dictionaries({"pain": PAINS})
MORNINGS: st.SearchStrategy[dict[str, Any]] = st.just({}) | HURTS | st.fixed_dictionaries({}, optional={
    "pain": PAINS, "soreness": PAINS, "slept": st.sampled_from((None, 2, 4)), "morning_after": PAINS})
AFTER: st.SearchStrategy[dict[str, Any]] = st.just({}) | st.just({}) | HURTS | st.fixed_dictionaries({}, optional={
    "rpe": st.sampled_from((None, 4, 6, 7, 8)), "pain": st.none() | PAINS,
    "hows": st.dictionaries(st.sampled_from(STATIONS), st.sampled_from(How), max_size=1),
    "hurts": st.builds(Hurt, SPOTS, st.integers(0, 5), st.just(False), st.sampled_from(STATIONS)).map(lambda h: (h,)),
    "answered_by": st.sampled_from(AnsweredBy), "lighter_week": st.booleans(),
    "ending": st.sampled_from((Ending.FINISHED, Ending.INTERRUPTED, Ending.TOO_MUCH))})
ONE_DAY = st.tuples(st.sampled_from((2, 3, 3, 4, 7, 16, 30)), MORNINGS, AFTER)
PASTS = st.lists(ONE_DAY, min_size=1, max_size=14)
LIVED = st.builds(lambda well, past: [*[(3, {}, {})] * well, *past], st.integers(0, 7), PASTS)
STEPS = st.tuples(*[st.integers(0, 4)] * 3)
RATED = st.tuples(*[st.dictionaries(st.sampled_from(Axis), st.integers(1, 2), max_size=3)] * 3)
Past = list[tuple[int, dict[str, Any], dict[str, Any]]]


def rated(demands: tuple[dict[Axis, int], ...]) -> dict[str, Exercise]:
    """The small library with other demands."""
    own = {i: replace(LIBRARY[i], demand=d) for i, d in zip(STATIONS, demands, strict=True)}
    return {**LIBRARY, **own}


def lived(past: Past, steps: tuple[int, ...] = (4, 4, 2), client: Client = BODY, *,
          demands: tuple[dict[Axis, int], ...] | None = None) -> tuple[Days, list[tuple[CheckIn, Timeline]]]:
    """Those days, each compiled from what was there then, with its morning and its plan."""
    items = [replace(i, steps=n) for i, n in zip((RISE, CURL, BRACE), steps, strict=True)]
    days = Days(client, session_of(*items), rated(demands) if demands else LIBRARY)
    plans, day = [], 0
    for gap, answers, told in past:
        morning = check_in(day, **answers)
        if days.plan(day, morning).steps:
            plans.append((morning, days.do(day, morning, **told).plan))
        day += gap
    return days, plans


def given_steps(plan: Timeline, before: dict[str, int]) -> dict[str, int]:
    """The step of each station as last planned."""
    return before | {m.exercise: m.step for m in plan.moves}


@settings(max_examples=examples(25, 800))
@given(LIVED, STEPS)
def test_never_beyond_the_ceiling_and_never_two_steps_at_once(past: Past, steps: tuple[int, ...]) -> None:
    """From one whole session to the next; amounts within what the steps add."""
    days, plans = lived(past, steps)
    items, before = main_items(days.session), dict.fromkeys(STATIONS, 0)
    for _, plan in plans:
        for move in plan.moves:
            item = items[move.exercise]
            most = ceiling(item, LIBRARY[move.exercise], LIBRARY, BODY.weights_g)
            assert 0 <= move.step <= min(most, before[move.exercise] + 1) <= item.steps
            more = {MoveKind.SECONDS: 15, MoveKind.REPS: 4, MoveKind.HARDER: 0, MoveKind.LOAD: 1000}[move.what]
            assert 0 <= move.amount - move.written <= more
        before = given_steps(plan, before)


@settings(max_examples=examples(30, 1_000))
@given(LIVED, RATED, st.booleans())
def test_never_on_while_a_region_that_it_loads_hurts(
    past: Past, demands: tuple[dict[Axis, int], ...], agreed: bool
) -> None:
    """3 or more, now or in the last session; where it is usual, never to a weight or a harder option."""
    usual = {Spot(r): UsualPain(4, "physiotherapist", stamp("", 999).local) for r in BODY_REGIONS if agreed}
    days, plans = lived(past, client=replace(BODY, usual_pain=usual), demands=demands)
    before, last = dict.fromkeys(STATIONS, 0), dict[Spot, int]()
    for (morning, plan), done in zip(plans, days.sessions, strict=True):
        told = [*(morning.pain or {}).items(), *last.items()]
        hurting = {axis for spot, level in told if level >= 3 for axis in REGION_AXES[spot.region]}
        for move in plan.moves:
            assert not move.to or not any(days.library[move.to].asks(axis) for axis in hurting)
            if any(days.library[move.exercise].asks(axis) for axis in hurting):
                assert move.step <= before[move.exercise] or (agreed and move.what in AMOUNTS)
        before = given_steps(plan, before)
        last = dict(done.pain or {}) | {h.spot: max(h.level, (done.pain or {}).get(h.spot, 0)) for h in done.hurts}


@settings(max_examples=examples(25, 800))
@given(LIVED)
def test_from_level_2_on_and_in_a_lighter_week_it_is_as_written_and_level_1_adds_nothing(past: Past) -> None:
    """To the last step."""
    days, plans = lived(past)
    kept, days.records = days.records, []
    before = dict.fromkeys(STATIONS, 0)
    for (morning, plan), record in zip(plans, [r for r in kept if isinstance(r, SessionDone)], strict=True):
        lighter = any(r.rule.value == "lighter_week" for r in plan.dose.reasons)
        day = (record.stamp.local - stamp("", 0).local).days
        if plan.dose.level > 1 or lighter:
            assert plan == compile_timeline(days.order(day, morning, lighter_week=lighter))
        if plan.dose.level == 1:
            assert all(move.step <= before[move.exercise] for move in plan.moves)
        before = given_steps(plan, before)
        days.records += [morning, record]


@settings(max_examples=examples(25, 800))
@given(LIVED, st.randoms(use_true_random=False))
def test_records_in_any_order_and_twice_over_give_the_same(past: Past, dice: random.Random) -> None:
    """A pure function of what is in them."""
    days, _ = lived(past)
    end = sum(gap for gap, _, _ in past)
    before, plan = days.at(end), days.plan(end)
    assert (days.at(end), days.plan(end)) == (before, plan)
    dice.shuffle(days.records)
    assert (days.at(end), days.plan(end)) == (before, plan)


@settings(max_examples=examples(25, 800))
@given(LIVED, st.integers(0, 20), AFTER)
def test_a_bad_session_never_leads_further_than_a_good_one(past: Past, which: int, told: dict[str, Any]) -> None:
    """The same days but for one, on which all went well or something did not."""
    days, _ = lived(past)
    if not days.sessions:
        return
    one = days.sessions[which % len(days.sessions)]
    clean = replace(one, done=full(one.plan), rpe=one.plan.target_rpe, pain={}, hurts=(), by_hand=(),
                    ending=Ending.FINISHED, answered_by=AnsweredBy.SELF)
    bad = replace(clean, **{k: v for k, v in told.items() if k not in ("hows", "lighter_week")})
    bad = replace(bad, done=full(one.plan, told.get("hows", {})))
    good, worse = (Days(days.client, days.session, records=[new if r is one else r for r in days.records])
                   for new in (clean, bad))
    end = sum(gap for gap, _, _ in past)
    assert all(worse.at(end)[i].step <= good.at(end)[i].step for i in STATIONS)


def full(plan: Timeline, hows: dict[str, How] | None = None) -> tuple[DoneStep, ...]:
    """Done in full, but those exercises."""
    done = [(n, s, (hows or {}).get(s.exercise or "", How.FULL)) for n, s in enumerate(plan.steps) if s.is_effort]
    return tuple(DoneStep(n, s.exercise or "", 0 if how is How.SKIPPED else s.length_ms, how) for n, s, how in done)


@settings(max_examples=examples(20, 600))
@given(LIVED)
def test_every_move_has_a_reason_and_words(past: Past) -> None:
    """And what is not as written has a move."""
    names = {i: e.name for i, e in LIBRARY.items()}
    for _, plan in lived(past)[1]:
        for move in plan.moves:
            assert isinstance(move.because, StepReason) and move.because in WHY
            said = move_text(move, names)
            assert said.endswith(".") and (said[0].isupper() or said[0].isdigit())
        if plan.dose.level == 0:
            found = amounts(plan)
            same = {"rise": (30, None, None), "curl": (16, 8, 2000), "brace": (15, None, None)}
            changed = {i for i in STATIONS if found.get(i) != same[i]}
            assert changed == {m.exercise for m in plan.moves if m.step > 0}


def mirrored(what: dict[str, Any]) -> dict[str, Any]:
    """The same answers seen in a mirror."""
    def turned(value: Any) -> Any:
        if isinstance(value, dict):
            return {k.mirrored() if isinstance(k, Spot) else k: v for k, v in value.items()}
        if isinstance(value, tuple):
            return tuple(replace(h, spot=h.spot.mirrored()) for h in value)
        return value
    return {key: turned(value) for key, value in what.items()}


@settings(max_examples=examples(20, 600))
@given(LIVED)
def test_left_and_right_are_the_same(past: Past) -> None:
    """A mirrored past gives the same steps."""
    days, plans = lived(past)
    other, others = lived([(gap, mirrored(a), mirrored(b)) for gap, a, b in past])
    assert [p.moves for _, p in plans] == [p.moves for _, p in others]
    end = sum(gap for gap, _, _ in past)
    assert days.at(end) == other.at(end)
