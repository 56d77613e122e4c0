"""What holds for every session that can be compiled, over the shipped library and over random small ones."""
from __future__ import annotations

from collections import Counter
from dataclasses import replace

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from app.domain.compile.stations import Order
from app.domain.compile.timeline import compile_timeline
from app.domain.errors import TooShort
from app.domain.model.client import Client, Place
from app.domain.model.diary import Diary
from app.domain.model.exercise import Exercise, Position
from app.domain.model.plan import Part, StepKind, StepSide, Timeline
from app.domain.model.session import Session
from tests.domain import expected
from tests.domain import strategies as own
from tests.domain.dosing.test_dose import KNEE, but
from tests.domain.shipped import TODAY, WELL, compiled, effort_ms, efforts, sum_ms
from tests.sampling import examples

Small = tuple[Session, dict[str, Exercise]]
LEVELS = {0: WELL, 1: None, 2: but(soreness={KNEE: 6}), 3: but(pain_rise={KNEE: 2}), 4: but(soreness={KNEE: 8})}


def small_plan(small: Small, client: Client | None = None, place: Place | None = None, diary: Diary | None = WELL,
               **more: object) -> Timeline:
    """One of the small sessions, compiled."""
    return compile_timeline(replace(Order(*small, client or Client(), place or Place(), TODAY, diary), **more))


def assert_laid_well(timeline: Timeline, client: Client) -> None:
    """Steps touch, never overlap, sum to the total, in whole ms; parts in order; left is right; rounds in order."""
    at_ms = 0
    for step in timeline.steps:
        assert type(step.start_ms) is type(step.length_ms) is int
        assert (step.start_ms, step.length_ms > 0) == (at_ms, True)
        at_ms += step.length_ms
    assert timeline.total_ms == at_ms == sum_ms(timeline.steps)
    order = [list(Part).index(s.part) for s in efforts(timeline)]
    assert order == sorted(order)
    sides = Counter((s.part, s.exercise, s.written, s.round, s.length_ms, s.reps, s.load_g, s.side)
                    for s in efforts(timeline) if s.side in (StepSide.LEFT, StepSide.RIGHT))
    if not client.rest_side and not timeline.one_sided and not any(s.side for s in timeline.substitutions):
        for *what, side in sides:
            other = StepSide.RIGHT if side is StepSide.LEFT else StepSide.LEFT
            assert sides[*what, side] == sides[*what, other]
    down = False
    for step in timeline.steps:
        if step.kind is StepKind.CHANGE and step.to_floor is not None:
            assert step.to_floor is not down
            down = step.to_floor
    assert not down


@settings(max_examples=examples(40, 1_000))
@given(own.diaries | own.mild_diaries, own.bodies, own.rooms, st.none() | st.integers(5, 40), own.session_ids,
       st.booleans())
def test_shipped_sessions_are_laid_end_to_end(diary: Diary, client: Client, room: Place, minutes: int | None,
                                              session: str, lighter: bool) -> None:
    """For any body, room, day and time."""
    try:
        got = compiled(session, client, replace(room, minutes=minutes), diary, lighter_week=lighter)
    except TooShort as short:
        assert minutes is not None and int(str(short.what["least_s"])) > minutes * 60
        return
    assert_laid_well(got, client)
    assert minutes is None or got.total_ms <= minutes * 60_000


@settings(max_examples=examples(25, 1_500))
@given(own.small_sessions(), own.bodies, own.rooms, st.sampled_from(sorted(LEVELS)), st.booleans())
def test_small_sessions_are_laid_end_to_end(small: Small, client: Client, room: Place, level: int, whole: bool
                                            ) -> None:
    """Whatever a coach may write."""
    assert_laid_well(small_plan(small, client, room, LEVELS[level], whole_library=whole), client)


@settings(max_examples=examples(60, 2_000))
@given(own.small_sessions(), st.sampled_from(sorted(LEVELS)),
       st.none() | st.just((250, 500, 1000, 1500, 2000, 4000)))
def test_every_step_is_as_worked_out_a_second_time(small: Small, level: int, weights: tuple[int, ...] | None) -> None:
    """Kinds, parts, exercises, sides, rounds, lengths, repetitions and loads against the oracle."""
    got = small_plan(small, Client(weights_g=weights), diary=LEVELS[level])
    assert got.dose.level == level
    assume(not got.substitutions and not got.left_out)
    steps = [(s.kind.value, s.part.value, s.exercise, s.side.value if s.side else None, s.round, s.length_ms, s.reps,
              s.load_g) for s in got.steps]
    assert steps == list(expected.rows(*small, level, weights))


def _fits(small: Small, client: Client, minutes: int, diary: Diary | None) -> Timeline | None:
    try:
        return small_plan(small, client, Place(minutes=minutes), diary)
    except TooShort:
        return None


@settings(max_examples=examples(25, 1_500))
@given(own.small_sessions(), st.integers(1, 30), st.integers(0, 20))
def test_more_minutes_never_give_less(small: Small, minutes: int, more: int) -> None:
    """What fits goes on fitting, and is as full or fuller."""
    few, many, full = (_fits(small, Client(), m, WELL) for m in (minutes, minutes + more, 10_000))
    assert full is not None
    if few is None:
        return
    assert many is not None and few.total_ms <= minutes * 60_000
    assert effort_ms(few) <= effort_ms(many) <= effort_ms(full)
    for part in (Part.WARM_UP, Part.COOL_DOWN):
        assert effort_ms(few, part) or not effort_ms(full, part)


@settings(max_examples=examples(40, 1_000))
@given(own.worsened(), own.small_sessions(), own.bodies, st.integers(3, 30))
def test_a_worse_answer_never_gives_more_within_the_same_minutes(
    pair: tuple[Diary, Diary], small: Small, client: Client, minutes: int
) -> None:
    """Time that easing sets free is not filled again with more rounds.

    Where no stand-in takes longer to set up or get down to than what it replaces. Light work in place of strength is of
    another kind: for want of minutes it leaves nothing out that strength work, with its rests, would have to.
    """
    session, library = small
    small = session, {i: replace(e, set_up_s=0, position=Position.STANDING) for i, e in library.items()}
    better, worse = (_fits(small, client, minutes, d) for d in pair)
    if worse is None or better is None:
        return
    assert worse.dose.rounds <= better.dose.rounds
    assert worse.strength is not better.strength or effort_ms(worse) <= effort_ms(better)


@settings(max_examples=examples(25, 1_500))
@given(own.diaries | own.mild_diaries, own.bodies, own.session_ids)
def test_a_lighter_week_never_gives_more(diary: Diary, client: Client, session: str) -> None:
    """And changes nothing but rounds."""
    plain, light = (compiled(session, client, diary=diary, lighter_week=w) for w in (False, True))
    assert light.dose.rounds <= plain.dose.rounds
    assert Counter(replace(s, start_ms=0) for s in efforts(light)) <= Counter(
        replace(s, start_ms=0) for s in efforts(plain))
    assert (light.substitutions, light.left_out) == (plain.substitutions, plain.left_out)
