"""The sessions and programmes that are shipped: their length, order and preparation, and how the weeks build up.

Read from the coach's own files; each bound is stricter than the proofreader's or beside it, and the last test asks the
proofreader itself.
"""
from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

import pytest

from app.domain.model.client import Place
from app.domain.model.exercise import FIRST_AXES, Axis, Exercise, Pattern, Sides
from app.domain.model.plan import Part
from app.domain.model.programme import Programme
from app.domain.model.session import Block, BlockKind, Session
from app.domain.proofreading.proofread import proofread, written_timeline
from tests.domain.shipped import SESSIONS, compiled, efforts, library, shipped

PUSHES = {Pattern.HORIZONTAL_PUSH, Pattern.VERTICAL_PUSH}
PULLS = {Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL}
PROGRAMMES = tuple(p.id for p in shipped().programmes)


def test_there_is_a_session_for_every_kind_of_day() -> None:
    """Twenty or more, no two of the same stations, of 10 to 37 minutes, light days among them."""
    assert len(SESSIONS) >= 20
    shapes = Counter(tuple((b.kind, b.rounds, tuple(i.exercise for i in b.items)) for b in s.blocks if b.is_main)
                     for s in shipped().sessions)
    assert max(shapes.values()) == 1
    assert {b.kind for s in shipped().sessions for b in s.blocks} == set(BlockKind)
    light = [s for s in shipped().sessions if not s.trains_strength(library())]
    assert len(light) >= 5
    for session in shipped().sessions:
        assert 10 * 60_000 <= written_timeline(session, library()).total_ms <= 37 * 60_000, session.id
        assert re.match(r"\d+ minutes", session.about)


@pytest.mark.parametrize("one", SESSIONS)
def test_what_is_loaded_is_warmed_and_nothing_tires_twice_running(one: str) -> None:
    """A warm-up move touches every first axis that is clearly asked; no grip after grip, also from round to round."""
    session = shipped().session(one)
    assert session is not None
    warm = [library()[i.exercise] for b, i in session.items() if b.kind is BlockKind.WARM_UP]
    for block, item in session.items():
        asked = library()[item.exercise]
        cold = [a for a in FIRST_AXES if block.is_main and asked.asks(a) >= 2 and not any(e.asks(a) for e in warm)]
        assert cold == [], (asked.id, cold)
    for before, after in _neighbours(session):
        assert min(before.asks(Axis.GRIP), after.asks(Axis.GRIP)) < 2, (before.id, after.id)


def _neighbours(session: Session) -> Iterator[tuple[Exercise, Exercise]]:
    for block in session.blocks:
        if not block.is_main:
            continue
        again = block.rounds > 1 and block.kind is not BlockKind.STRAIGHT_SETS
        run = [library()[i.exercise] for i in block.items] * (2 if again else 1)
        yield from ((a, b) for a, b in pairwise(run) if a.id != b.id)


def _work_rest(block: Block) -> int:
    """Work against rest of one round, percent, whatever the work is measured in."""
    work = sum(i.work_s or i.hold_s or i.reps * library()[i.exercise].rep_ms // 1000 for i in block.items)
    return work * 100 // sum(block.rest_s if i.rest_s is None else i.rest_s for i in block.items)


def _hardest(programme: Programme, week: int) -> int:
    sessions = [shipped().session(s) for s in programme.weeks[week].sessions]
    return max(_work_rest(b) for s in sessions if s and s.trains_strength(library()) for b in s.blocks if b.is_main)


def programme(one: str) -> Programme:
    """One of the shipped programmes."""
    return next(p for p in shipped().programmes if p.id == one)


def test_there_are_four_programmes_besides_the_six_weeks() -> None:
    """Of six to twelve weeks, each with weeks that are lighter, using nearly every session."""
    assert len(PROGRAMMES) >= 5 and "six-weeks" in PROGRAMMES
    assert sorted(len(programme(p).weeks) for p in PROGRAMMES) == [6, 6, 8, 8, 12]
    used = {s for p in PROGRAMMES for s in programme(p).session_ids()}
    assert used <= set(SESSIONS) and len(used) >= 20


@pytest.mark.parametrize("one", PROGRAMMES)
def test_a_programme_builds_up_slowly(one: str) -> None:
    """Lighter weeks often enough, no more work than rest at first, never much more of it than before."""
    weeks = programme(one).weeks
    lighter = [at for at, week in enumerate(weeks) if week.lighter]
    assert lighter and all(week.note for week in weeks)
    assert all(b - a <= 6 for a, b in zip([-1, *lighter], [*lighter, len(weeks)], strict=True))
    hardest = [_hardest(programme(one), at) for at in range(len(weeks))]
    assert max(hardest[:2]) <= 100
    for at in range(1, len(weeks)):
        assert hardest[at] <= max(hardest[:at]) + 40, (at + 1, hardest)


@pytest.mark.parametrize("one", PROGRAMMES)
def test_a_light_day_stands_between_two_strength_days(one: str) -> None:
    """Or there are only two sessions in the week, with days between."""
    for week in programme(one).weeks:
        strength = [bool(s and s.trains_strength(library())) for s in map(shipped().session, week.sessions)]
        assert len(strength) == 2 or not any(a and b for a, b in pairwise(strength))


@pytest.mark.parametrize("one", PROGRAMMES)
def test_every_week_holds_all_it_should_in_balance(one: str) -> None:
    """Knees, hips, pushing, pulling and balance; neither side of a pair far ahead."""
    for number, week in enumerate(programme(one).weeks, 1):
        work = Counter[Pattern]()
        for session in map(shipped().session, week.sessions):
            assert session is not None
            for step in written_timeline(session, library()).steps:
                if step.is_effort and step.part is Part.MAIN and step.exercise:
                    work[library()[step.exercise].pattern] += step.length_ms
        knees = work[Pattern.SQUAT] + work[Pattern.LUNGE]
        push, pull = (sum(work[p] for p in ps) for ps in (PUSHES, PULLS))
        assert work[Pattern.HINGE] and pull and work[Pattern.BALANCE], number
        assert 0.7 <= push / pull <= 1.2, number
        assert 0.6 <= knees / work[Pattern.HINGE] <= 1.6, number


def test_the_proofreader_has_nothing_to_object_to() -> None:
    """All exercises, sessions and programmes as shipped."""
    assert proofread(shipped()) == ()


def test_one_sided_work_is_the_same_on_both_sides() -> None:
    """In every session as written."""
    for session in shipped().sessions:
        both: dict[str, Counter[str]] = {}
        for step in written_timeline(session, library()).steps:
            if step.is_effort and step.exercise and library()[step.exercise].sides is Sides.EACH:
                both.setdefault(step.exercise, Counter())[str(step.side)] += step.length_ms
        assert all(sides["left"] == sides["right"] for sides in both.values()), session.id


@pytest.mark.parametrize("minutes", [10, 20, None])
@pytest.mark.parametrize("one", SESSIONS)
def test_a_session_works_in_ten_and_twenty_minutes_and_in_its_own(one: str, minutes: int | None) -> None:
    """Whole, with a warm-up, a main part and a cool-down, and never longer than there is time."""
    full_ms = written_timeline(session := _session(one), library()).total_ms
    allowed = minutes or -(-full_ms // 60_000)
    got = compiled(session.id, place=Place(minutes=allowed))
    assert got.total_ms <= allowed * 60_000
    assert {step.part for step in efforts(got)} == {Part.WARM_UP, Part.MAIN, Part.COOL_DOWN}
    if minutes is None:
        assert got.total_ms == full_ms and not got.left_out


def _session(one: str) -> Session:
    found = shipped().session(one)
    assert found
    return found


def test_e3_no_line_promises_a_weight_on_a_date() -> None:
    """How much is added follows good sessions, repetitions first: a week's number cannot know it."""
    for one in PROGRAMMES:
        for week in programme(one).weeks:
            assert not re.search(r"one weight up|not more weight|heavier (now|today)|\d ?kg", week.note), week.note
