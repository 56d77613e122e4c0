"""The library as a whole: nothing twice, nothing missing, and what every programme holds each week and builds up.

What one exercise or one session must be stands in `test_library.py` and `test_library_sessions.py`.
"""
from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable

import pytest

from app.domain.model.exercise import Axis, Exercise, Mode, Pattern, Position
from app.domain.model.kit import KIT
from app.domain.model.plan import Part, Step
from app.domain.model.programme import Programme, Week
from app.domain.model.session import Session
from app.domain.progress.progression_ladder import ladder
from app.domain.proofreading.proofread import written_timeline
from tests.domain.shipped import efforts, library, shipped

PULLS = {Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL}
NUMBER_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
NUMBERS = {word: at for at, word in enumerate(NUMBER_WORDS, 1)}
STRENGTH = [s for s in shipped().sessions if s.trains_strength(library())]


def is_balance(exercise: Exercise) -> bool:
    """Balance work, or a clear demand on balance."""
    return exercise.pattern is Pattern.BALANCE or exercise.asks(Axis.SINGLE_LEG_BALANCE) >= 2


def said(exercise: Exercise) -> str:
    """All cues in one line, in small letters."""
    cues = exercise.cues
    return " ".join((*cues.set_up, *cues.action, *cues.safety)).casefold()


# ------------------------------------------------------------------ nothing twice

#: Alike in every field and told apart by how it is done: brisk, with a second task, with the knee bent.
DONE_OTHERWISE = {
    ("feet-together-stand", "count-and-stand"),
    ("seated-knee-straightening", "quick-knee-straightening"), ("seated-band-row", "quick-band-pull"),
    ("wall-calf-stretch", "bent-knee-calf-stretch"), ("hands-on-sit-to-stand", "fingertips-sit-to-stand"),
}


def fields(exercise: Exercise) -> tuple[object, ...]:
    """Everything but its names, its words and its neighbours."""
    return (exercise.pattern, exercise.position, exercise.sides, exercise.mode, frozenset(exercise.equipment),
            frozenset(exercise.muscles), exercise.rep_ms, exercise.hold_s, tuple(exercise.asks(axis) for axis in Axis))


def test_c11_no_two_exercises_are_alike_but_for_the_name() -> None:
    """The same fields with the same movement are one exercise; the same fields alone need a movement of its own."""
    alike: dict[object, list[Exercise]] = defaultdict(list)
    for exercise in library().values():
        alike[fields(exercise)].append(exercise)
    pairs = {(a.id, b.id) for some in alike.values() for n, a in enumerate(some) for b in some[n + 1:]}
    assert pairs == DONE_OTHERWISE
    for one, other in pairs:
        assert library()[one].cues.action != library()[other].cues.action


def test_c11_the_same_movement_twice_has_another_place_kit_or_tempo() -> None:
    """On a bed, standing, with something else to hold: what differs is in the fields, and not in the name alone."""
    by_words: dict[object, list[Exercise]] = defaultdict(list)
    for exercise in library().values():
        by_words[exercise.cues.action].append(exercise)
    for some in by_words.values():
        shapes = {(e.position, frozenset(e.equipment), e.rep_ms, e.hold_s, e.cues.set_up) for e in some}
        assert len(shapes) == len(some), [e.id for e in some]


# ------------------------------------------------------------------ tempo and chairs, summed a second time

def counted_s(exercise: Exercise) -> list[int]:
    """What its action counts out, seconds."""
    words = re.findall(r"(?:counting|count|for) (\w+)\b(?! steps)", " ".join(exercise.cues.action).casefold())
    return [NUMBERS[word] for word in words if word in NUMBERS]


def test_c4_no_tempo_of_the_library_contradicts_its_cue() -> None:
    """What is counted, and a second for the other way where one way alone is counted, fit into a repetition."""
    moving = [e for e in library().values() if e.mode is Mode.REPS and counted_s(e)]
    assert len(moving) >= 5
    for exercise in moving:
        counts = counted_s(exercise)
        assert exercise.rep_ms >= 1000 * (sum(counts) + (len(counts) == 1)), exercise.id


def test_c7_leaning_back_over_a_chair_is_clear_and_the_chair_stands_fast() -> None:
    """Where the back bends, and how far."""
    words = said(library()["upper-back-arch"])
    assert "against the wall" in words or "against a wall" in words or "heavy chair" in words
    assert "over" in words and "upper back" in words


# ------------------------------------------------------------------ what was missing

@pytest.mark.parametrize(("what", "which"), [
    ("getting up from the floor", lambda e: e.id in ("one-knee-down", "both-knees-down", "foot-forward-from-knees")),
    ("lying on the side", lambda e: e.position is Position.SIDE_LYING),
    ("stepping over", lambda e: "step over" in said(e)),
    ("a second task while balancing", lambda e: is_balance(e) and "count backwards" in said(e)),
    ("a second task while walking", lambda e: e.pattern is Pattern.GAIT and "name" in said(e)),
])
def test_c13_what_was_missing_is_there_and_in_a_session(what: str, which: Callable[[Exercise], bool]) -> None:
    """Not only as a link of somebody's ladder."""
    there = {e.id for e in library().values() if which(e)}
    assert there & {i.exercise for s in shipped().sessions for _, i in s.items()}, what


def test_c13_heels_drop_on_purpose_only_as_a_step_beyond_the_heel_raise() -> None:
    """It jars, so that no session begins with it; a coach may write it, and a station may come to it."""
    drops = library()["heel-drops"]
    assert drops.asks(Axis.IMPACT) == 2 and "heel-drops" in {o.to for o in library()["calf-raise"].harder}
    assert not any(i.exercise == "heel-drops" for s in shipped().sessions for _, i in s.items())


# ------------------------------------------------------------------ balance and pulling

def test_c14_every_strength_session_has_balance_in_its_main_part() -> None:
    """And wherever balance has a part of its own, it comes before what tires."""
    for session in STRENGTH:
        main = [library()[i.exercise] for b in session.blocks if b.is_main for i in b.items]
        assert any(map(is_balance, main)), session.id


def main_steps(week: Week) -> list[tuple[Exercise, Step]]:
    """What is done in the main parts of a week."""
    written = [s for s in map(shipped().session, week.sessions) if s]
    return [(library()[step.exercise or ""], step) for session in written
            for step in efforts(written_timeline(session, library()), Part.MAIN)]


def asked_of_balance(week: Week) -> tuple[int, int]:
    """Seconds, and the highest demand."""
    found = [(step.length_ms // 1000, e.asks(Axis.SINGLE_LEG_BALANCE)) for e, step in main_steps(week) if is_balance(e)]
    return sum(s for s, _ in found), max((a for _, a in found), default=0)


def pulled(week: Week) -> int:
    """Seconds of pulling times the weight, where a pull without one counts as a kilogram."""
    return sum(step.length_ms // 1000 * max(step.load_g or 0, 1000) for e, step in main_steps(week)
               if e.pattern in PULLS)


@pytest.mark.parametrize("programme", shipped().programmes, ids=lambda p: p.id)
def test_c15_every_programme_has_balance_and_a_pull_weekly_and_rising(programme: Programme) -> None:
    """In each week; the second half of its full weeks asks for more than the first, and the last beyond the first."""
    for week in programme.weeks:
        assert asked_of_balance(week)[0] >= 60 and pulled(week), (programme.id, week.sessions)
    full = [week for week in programme.weeks if not week.lighter]
    half = len(full) // 2
    for asked in (lambda w: asked_of_balance(w)[0], pulled):
        first, second = [asked(w) for w in full[:half]], [asked(w) for w in full[-half:]]
        assert sum(second) > sum(first), (programme.id, first, second)
    assert max(asked_of_balance(w)[1] for w in full[half:]) == 2 or programme.id == "twelve-weeks-dumbbells"
    assert asked_of_balance(full[-1]) > asked_of_balance(full[0]) and pulled(full[-1]) > pulled(full[0])


def test_c16_the_seated_programme_comes_to_a_line_with_a_hand_on_the_wall() -> None:
    """Feet together first, heel to toe later."""
    programme = next(p for p in shipped().programmes if p.id == "first-steps-seated")
    assert max(asked_of_balance(w)[1] for w in programme.weeks[:2]) < 2
    assert max(asked_of_balance(w)[1] for w in programme.weeks) == 2


# ------------------------------------------------------------------ how far a station can come

def stations(session: Session) -> list[tuple[str, set[str]]]:
    """Each strength station of its main part, with every exercise that its steps lead to."""
    return [(i.exercise, {rung.exercise for rung in ladder(i, library()[i.exercise], library(), None, 60)})
            for b in session.blocks if b.is_main for i in b.items if library()[i.exercise].is_strength]


def test_e2_as_shipped_a_station_comes_to_a_harder_move() -> None:
    """No session says how many steps, so that the usual number counts; nearly every session holds such a station."""
    reach = {s.id: [one for one, to in stations(s) if len(to) > 1] for s in STRENGTH}
    assert sum(map(bool, reach.values())) >= len(STRENGTH) - 3, reach
    assert all(i.steps > 2 for s in STRENGTH for b in s.blocks if b.is_main for i in b.items)


def test_every_thing_that_a_session_needs_is_named_in_its_words_or_is_at_hand_everywhere() -> None:
    """Dumbbells, bands and mats cannot be guessed."""
    for session in shipped().sessions:
        needed = {k for _, i in session.items() for k in library()[i.exercise].equipment}
        for kit, word in (("mat", "mat"), ("dumbbell", "dumbbell"), ("band", "band"), ("towel", "towel")):
            assert kit in KIT and (kit not in needed or word in session.about), (session.id, kit)
