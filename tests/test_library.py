"""The exercises that are shipped: their fields, ratings, names, cues and ladders.

Nothing here is planted: every test reads the coach's own files, so that a slip of the pen in them fails. Sessions and
programmes: `test_library_sessions.py`; what becomes of them for any body: `test_library_clients.py`.
"""
from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable

import pytest

from app.domain.compile.substitution import ladder_down
from app.domain.model.client import Client, Condition
from app.domain.model.exercise import (
    FIRST_AXES,
    LATER_AXES,
    MANNER_AXES,
    Axis,
    Exercise,
    Mode,
    Pattern,
    Position,
    Support,
)
from app.domain.model.kit import KIT
from app.domain.model.session import Item
from app.domain.progress.progression_ladder import harder_options, ladder
from tests.domain.shipped import SESSIONS, compiled, efforts, library, shipped

EXERCISES = sorted(library())
#: The home exercises that the library grew from.
FIRST = tuple(re.findall(r"[\w-]+", """
march-in-place ankle-rocks shoulder-rolls arm-sweeps hip-circles seated-spine-wave hip-hinge-drill sit-to-stand
goblet-squat seated-knee-extension supported-split-squat reverse-lunge step-up dumbbell-rdl glute-bridge calf-raise
band-hip-abduction wall-push-up counter-push-up knee-push-up dumbbell-floor-press band-chest-press
supported-dumbbell-row seated-band-row seated-overhead-press band-pulldown scaption-raise dumbbell-curl
side-step-touch shadow-punch power-sit-to-stand jog-in-place heel-tap-dead-bug bird-dog knee-plank band-press-out
suitcase-carry seated-lean-back tandem-stance single-leg-stance tandem-walk clock-taps wall-calf-stretch
seated-hamstring-stretch split-hip-flexor-stretch doorway-chest-stretch seated-figure-four kneeling-sit-back
"""))
ROOM = {"none", "wall", "doorway"}
#: A line is read in about two seconds, across a room with the glasses off.
LONGEST_LINE, MOST_WORDS = 60, 10
SLANG = re.compile(
    r"\b(abs|amrap|bird.?dogs?|blast|burn|burpees?|core|crunch\w*|curls?|dead.?bugs?|deadlifts?|delts?|emom|glutes?|"
    r"goblet|hams|hiit|hinges?|iso\w*|lats?|lunges?|pecs?|plyo\w*|pump|quads?|rdl|reps?|rows?|scaption|shred|suitcase|"
    r"supersets?|tabata|tandem|traps?|workout)\b", re.IGNORECASE)
#: What a hand that helps is asked; standing up without it asks less of the arms, and is harder all the same.
ARMS = {Axis.WRIST_WEIGHT_BEARING, Axis.SHOULDER_LOAD, Axis.ELBOW_LOAD, Axis.GRIP}
#: What coaches say to one another and nobody else says of a body.
IDIOM = re.compile(
    r"\b(tail|crown|grow tall|sit free|long|soft|peel|wake up|firm up|taut|trunk|breastbone|float|lengthen|hip-wide|"
    r"complains?|low back|brace|engage|activate|mid-foot|anchor|like your knees|shins tire)\b", re.IGNORECASE)
PLAIN = re.compile(r"\blong (taps?|toe taps)|reach .* long\b", re.IGNORECASE)
PULLS = {Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL}


def below(exercise: Exercise) -> list[Exercise]:
    """Everything easier, however far down."""
    return [easier for easier, _ in ladder_down(exercise, library())]


# ------------------------------------------------------------------ what is there

def test_the_library_is_large_and_holds_what_it_grew_from() -> None:
    """The first forty-eight among at least a hundred and ten."""
    assert len(FIRST) == len(set(FIRST)) == 48
    assert set(FIRST) <= set(EXERCISES)
    assert len(EXERCISES) >= 110


def test_every_pattern_can_be_trained_seated_or_held_with_next_to_nothing() -> None:
    """For those who neither stand nor own anything: at most 1 on every axis."""
    gentle = [e for e in library().values() if max(e.asks(a) for a in set(Axis) - MANNER_AXES) <= 1 and not e.on_floor
              and e.needs() <= {"chair"} and (e.position in (Position.SEATED, Position.ON_BED) or e.mode is Mode.HOLD)]
    assert {e.pattern for e in gentle} == set(Pattern)


@pytest.mark.parametrize(("what", "least", "which"), [
    ("seated", 50, lambda e: e.position is Position.SEATED),
    ("with a band alone or on a chair", 14, lambda e: "band" in e.equipment and "door_anchor" not in e.equipment),
    ("with a band at the door", 6, lambda e: "door_anchor" in e.equipment),
    ("a pull with something to lean on", 3, lambda e: e.pattern in PULLS and e.loaded),
    ("a bow from the hips", 10, lambda e: e.pattern is Pattern.HINGE),
    ("brisk one way", 6, lambda e: re.search(r"briskly|[Qq]uick", e.name)),
    ("walking and stepping", 15, lambda e: e.pattern is Pattern.GAIT),
    ("for neck and upper back", 10, lambda e: e.pattern is Pattern.MOBILITY and {"neck", "upper_back"} & {
        *e.muscles, *e.muscles_too}),
    ("breathing", 4, lambda e: re.search(r"[Bb]reath", e.name)),
])
def test_there_is_a_choice(what: str, least: int, which: Callable[[Exercise], object]) -> None:
    """Of each kind that later life asks for."""
    assert sum(bool(which(e)) for e in library().values()) >= least, what


def test_what_is_brisk_never_hops() -> None:
    """Power without impact."""
    brisk = [e for e in library().values() if re.search(r"briskly|[Qq]uick", e.name)]
    assert all(e.asks(Axis.IMPACT) <= 1 for e in brisk)


# ------------------------------------------------------------------ one by one

@pytest.mark.parametrize("one", EXERCISES)
def test_every_field_says_something_that_can_be(one: str) -> None:
    """A rating on every axis, a tempo or a hold, muscles, kit by its known names."""
    exercise = library()[one]
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", one)
    assert set(exercise.demand) == set(Axis)
    assert set(exercise.demand.values()) <= {0, 1, 2, 3}
    assert exercise.muscles and not set(exercise.muscles) & set(exercise.muscles_too)
    assert exercise.equipment and set(exercise.equipment) <= {*KIT, *ROOM}
    assert 3 <= exercise.set_up_s <= 30
    assert bool(exercise.rep_ms) is (exercise.mode is Mode.REPS)
    assert bool(exercise.hold_s) is (exercise.mode is Mode.HOLD)
    assert exercise.hold_s <= 30


@pytest.mark.parametrize("one", EXERCISES)
def test_the_ratings_agree_with_how_the_body_is_placed(one: str) -> None:
    """A chair is no balance work; standing loads the ankles; the floor is got down to; a weight is gripped."""
    exercise = library()[one]
    sits = exercise.position in (Position.SEATED, Position.ON_BED)
    assert (exercise.asks(Axis.ANKLE_LOAD) >= 1) or exercise.position is not Position.STANDING
    assert exercise.asks(Axis.FLOOR_TRANSFER) >= 2 or not exercise.on_floor
    assert exercise.asks(Axis.GRIP) >= 2 or "dumbbell" not in exercise.equipment
    assert exercise.loaded is ("dumbbell" in exercise.equipment)
    assert exercise.asks(Axis.KNEELING) <= 1 or exercise.on_floor
    assert exercise.asks(Axis.SINGLE_LEG_BALANCE) <= 1 or not sits


@pytest.mark.parametrize("one", EXERCISES)
def test_every_line_is_read_in_two_seconds(one: str) -> None:
    """All four layers, each line short, each a sentence, the breath never held."""
    cues = library()[one].cues
    assert cues.set_up and cues.action and cues.breath and cues.safety
    assert len(cues.set_up) <= 2 and len(cues.action) <= 2 and len(cues.safety) <= 2
    for line in (*cues.set_up, *cues.action, cues.breath, *cues.safety):
        assert len(line) <= LONGEST_LINE and len(line.split()) <= MOST_WORDS, line
        assert line[0].isupper() and line[-1] in ".!" and "  " not in line, line
    assert not re.search(r"hold (your|the) breath", " ".join((cues.breath, *cues.action)), re.IGNORECASE)


@pytest.mark.parametrize("one", EXERCISES)
def test_c10_no_line_needs_a_coach_to_be_understood(one: str) -> None:
    """Plain words for a lay reader: no idiom of the trade, in the name or in any cue."""
    cues = library()[one].cues
    for line in (library()[one].name, *cues.set_up, *cues.action, cues.breath, *cues.safety):
        assert PLAIN.search(line) or not IDIOM.search(line), line


def test_names_say_what_one_does() -> None:
    """Shared with nothing else, short, and without the words of a gym."""
    names = Counter(e.name.casefold() for e in library().values())
    assert [name for name, count in names.items() if count > 1] == []
    for exercise in library().values():
        assert not SLANG.search(exercise.name), exercise.name
        assert 7 <= len(exercise.name) <= 60 and exercise.name[0].isupper(), exercise.name
    assert SLANG.search("Goblet squat") and SLANG.search("3 reps")


# ------------------------------------------------------------------ ladders

@pytest.mark.parametrize("one", EXERCISES)
def test_easier_never_asks_more_and_relieves_exactly_what_it_says(one: str) -> None:
    """On the later axes a light demand counts as none; and it leads to what is there."""
    exercise = library()[one]
    for option in exercise.easier:
        other = library()[option.to]
        more = [a for a in Axis if other.asks(a) > exercise.asks(a) and a is not Axis.HARD_HOLD]
        assert [a for a in more if a in FIRST_AXES or other.asks(a) >= 2] == [], option.to
        assert set(option.relieves) == {a for a in Axis if other.asks(a) < exercise.asks(a)}, option.to


@pytest.mark.parametrize("one", EXERCISES)
def test_harder_is_easier_seen_from_below(one: str) -> None:
    """The same links, in both directions, but where hands are weaned off; what is approved sideways is not easier."""
    exercise = library()[one]
    weaned = {o.to for o in exercise.harder if o.relieves}
    assert {o.to for o in exercise.harder} - weaned == {
        e.id for e in library().values() if one in {o.to for o in e.easier}}
    for option in exercise.harder:
        assert set(option.relieves) <= {a for a in ARMS if library()[option.to].asks(a) < exercise.asks(a)}, option.to
    for option in exercise.swaps:
        other = library()[option.to]
        assert set(option.relieves) == {a for a in Axis if other.asks(a) < exercise.asks(a)}, option.to
        assert option.to not in {o.to for o in exercise.easier}
    for options in (exercise.easier, exercise.harder, exercise.swaps):
        assert len({o.to for o in options}) == len(options)


def test_no_ladder_runs_in_a_circle() -> None:
    """Nobody comes back to where they started by going easier."""
    assert [e.id for e in library().values() if e.id in {o.to for b in (e, *below(e)) for o in b.easier}] == []


@pytest.mark.parametrize("one", EXERCISES)
def test_every_clear_demand_can_be_relieved_altogether(one: str) -> None:
    """For each 2 or 3 the ladder holds a 1 or less, and, for every first axis, a 0."""
    exercise, easier = library()[one], below(library()[one])
    for axis in FIRST_AXES:
        if exercise.asks(axis) >= 2:
            assert min((e.asks(axis) for e in easier), default=3) == 0, axis
    for axis in set(LATER_AXES) - {Axis.HARD_HOLD}:
        if exercise.asks(axis) >= 2:
            assert min((e.asks(axis) for e in easier), default=3) <= 1, axis


# ------------------------------------------------------------------ what could hurt

def test_c5_a_chair_that_is_leant_on_cannot_slide_or_tip() -> None:
    """Whatever stands or kneels at a chair, squats to it, leans over its back or stands up from it says so."""
    leant = {e.id for e in library().values() if "chair" in e.equipment and (
        e.position.value not in ("seated", "on_bed") or (e.pattern is Pattern.SQUAT and e.asks(Axis.FLOOR_TRANSFER))
        or re.search(r"[Hh]old (the|a) chair|[Ll]ean (your upper )?back (a|over)", said(e.id)))} - {"lift-from-chair"}
    assert {"calf-raise", "goblet-squat", "upper-back-arch", "half-kneeling-stretch", "sit-to-stand"} <= leant
    for one in leant:
        assert re.search(r"against the wall|against a wall|heavy chair", said(one)), one
    assert "heavy chair" in said("march-in-place")


def said(one: str) -> str:
    """All cues of an exercise in one line."""
    cues = library()[one].cues
    return " ".join((*cues.set_up, *cues.action, *cues.safety))


def test_c1_nobody_sits_half_off_a_seat_without_a_hold() -> None:
    """The stretch at the edge of the seat: all of the seat, a hand on the chair, and not in the first sessions."""
    assert not any("half on the seat" in said(one) for one in EXERCISES)
    assert library()["chair-edge-hip-stretch"].support is Support.REQUIRED
    for session in ("chair-basics", "up-from-the-chair", "steady-in-the-chair", "chair-circuit", "band-in-the-chair"):
        written = shipped().session(session)
        assert written and "chair-edge-hip-stretch" not in {i.exercise for _, i in written.items()}


def test_c3_nobody_goes_from_the_worktop_to_the_floor_on_the_toes_in_one_step() -> None:
    """A chair seat is the rung between."""
    assert {o.to for o in library()["full-push-up"].easier} == {"chair-push-up"}
    assert {o.to for o in library()["chair-push-up"].easier} == {"counter-push-up"}


def test_c8_hands_are_weaned_off_standing_up() -> None:
    """Hands, fingertips, none: the ladder of a station goes all the way."""
    written = Item("hands-on-sit-to-stand", reps=6)
    rungs = ladder(written, library()["hands-on-sit-to-stand"], library(), None, 40)
    order = list(dict.fromkeys(rung.exercise for rung in rungs))
    assert order[:3] == ["hands-on-sit-to-stand", "fingertips-sit-to-stand", "sit-to-stand"]


def test_c2_crossed_ankles_are_no_stand_in_after_a_hip_replacement() -> None:
    """Nor is anything else that crosses the legs, in any session."""
    body = Client(conditions=frozenset({Condition.HIP_REPLACEMENT}))
    for session in SESSIONS:
        done = {s.exercise for s in efforts(compiled(session, body))}
        assert not {e for e in done if e and library()[e].asks(Axis.LEG_CROSSING) >= 2}, session


def test_c9_a_session_without_a_bed_in_its_words_needs_none() -> None:
    """As written."""
    for session in shipped().sessions:
        beds = {i.exercise for _, i in session.items() if library()[i.exercise].position is Position.ON_BED}
        assert not beds or "bed" in session.about, session.id


def test_c12_nothing_lies_in_the_library_that_nobody_can_meet() -> None:
    """Each exercise is in a session, stands in for one that is, or is a step that a station can climb to."""
    met = {i.exercise for session in shipped().sessions for _, i in session.items()}
    waiting = list(met)
    while waiting:
        exercise = library()[waiting.pop()]
        beside = {o.to for o in (*exercise.easier, *exercise.swaps)} | {
            e.id for e in harder_options(exercise, library())}
        waiting += beside - met
        met |= beside
    assert set(EXERCISES) - met == set()
