"""What is said of an exercise is true of it: ratings against cues, and every reason against what it names.

The evidence is read off cues, kit, position and support with plain patterns, and not off the tables of the program.
"""
from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import product

import pytest

from app.domain.model.body import BODY_REGIONS, PAIRED_REGIONS, Region, Spot
from app.domain.model.client import Client, Condition, Place
from app.domain.model.exercise import Axis, Exercise
from app.domain.model.plan import LeftOut, Substitution, Timeline
from app.words.demands import ASKS
from app.words.text import left_out_text, substitution_text
from tests.domain import rulebook
from tests.domain.compile.test_limbs import assert_no_limb_does_more
from tests.domain.dosing.test_dose import but
from tests.domain.shipped import SESSIONS, SOME, compiled, efforts, library, shipped
from tests.sampling import is_whole
from tests.test_layers import ROOT

PLACE = Place()
NAMES = {e.id: e.name for e in library().values()}


def said(exercise: Exercise) -> str:
    """Its cues in one line."""
    return " ".join((*exercise.cues.set_up, *exercise.cues.action)).casefold()


def having(pattern: str) -> set[str]:
    """Exercises whose cues match."""
    return {e.id for e in library().values() if re.search(pattern, said(e))}


# ------------------------------------------------------------------ ratings that were wrong, with their sisters

def test_a6_lifting_a_weight_in_a_bow_is_bending_under_load() -> None:
    """From a chair's seat, hanging, at the hips: with back pain of 5 none of it is done."""
    bows = {e for e in having(r"\bbow\b|hips back|\blean\b") if library()[e].equipment and (
        {"dumbbell", "band"} & set(library()[e].equipment))}
    assert {"lift-from-chair", "dumbbell-rdl", "bent-row", "band-bow", "seated-dumbbell-row"} <= bows
    for one in bows - {"stand-and-hold", "slow-carry", "seated-hold"}:
        assert library()[one].asks(Axis.LOADED_SPINAL_FLEXION) >= 2, one
    for session in SESSIONS:
        done = {s.exercise for s in efforts(compiled(session, diary=but(pain={Spot(Region.BACK): 5})))}
        assert not done & (bows - {"stand-and-hold", "slow-carry", "seated-hold"}), session


def test_a7_rising_onto_the_toes_works_the_ankle() -> None:
    """In a warm-up too: with ankle pain of 5 nobody rises."""
    rises = {e for e in having(r"onto (your|the) toes|up to your toes") if library()[e].position.value == "standing"
             or "stand up" in said(library()[e])}
    assert {"ankle-rocks", "calf-raise", "quick-up-toe-rise"} <= rises
    assert all(library()[e].asks(Axis.ANKLE_LOAD) >= 2 for e in rises)
    for session in SESSIONS:
        done = {s.exercise for s in efforts(compiled(session, diary=but(pain={Spot(Region.ANKLE): 5})))}
        assert not done & rises, session


def test_c6_a_weight_pressed_above_the_shoulders_loads_them_fully() -> None:
    """Also where it stops at the eyes."""
    for one in ("half-press-seated", "seated-overhead-press", "standing-overhead-press"):
        assert library()[one].asks(Axis.SHOULDER_LOAD) == 3


def test_b6_a_sore_thigh_is_told_at_the_thigh_and_rests_the_squats() -> None:
    """Not at the knee; both sides alike."""
    assert {Region.THIGH, Region.CALF, Region.FOOT, Region.HAND, Region.RIBS} <= set(BODY_REGIONS) & PAIRED_REGIONS
    squats = {"sit-to-stand", "goblet-squat", "supported-split-squat", "power-sit-to-stand"}
    for side in ("left", "right"):
        done = {s.exercise for session in SESSIONS
                for s in efforts(compiled(session, diary=but(pain={Spot(Region.THIGH, side): 5})))}
        assert not done & squats


# ------------------------------------------------------------------ reasons

#: Of every phrase that could be false: what must be found in cues, kit or place where it is said.
EVIDENCE: dict[str, Callable[[Exercise], object]] = {
    "bends forward with a weight or a band": lambda e: {"dumbbell", "band"} & set(e.equipment),
    "needs a firm grip": lambda e: "dumbbell" in e.equipment or re.search("hold the frame|pause for two", said(e)),
    "needs a hard grip": lambda e: "dumbbell" in e.equipment and "walk" in said(e),
    "rounds the back or bends down to the feet": lambda e: re.search("round|sit back|stretch between", said(e)),
    "arches the back": lambda e: "over the chair" in said(e),
    "turns or tips the head": lambda e: re.search("head|look", said(e)),
    "turns round or walks backwards": lambda e: re.search("round|turn|step back", said(e)),
    "stands on one leg without holding on": lambda e: re.search("one foot|one leg|other foot", said(e))
    and e.support.value != "required",
    "needs some balance without holding on": lambda e: e.support.value != "required",
    "leaves no hand free for support": lambda e: e.support.value != "required",
    "crosses the legs": lambda e: "cross" in said(e),
    "draws one leg far across": lambda e: "ankle on the other knee" in said(e),
    "kneels": lambda e: re.search("knee", said(e)),
    "puts full weight on the knees": lambda e: re.search("knee|sit back", said(e)),
    "jars the joints": lambda e: re.search("jog|drop", said(e)),
    "involves stepping": lambda e: re.search(
        "step|walk|march|lift one foot|lift each knee|close your feet|heel to toe", said(e)),
    "goes down to the floor": lambda e: "mat" in e.equipment,
    "lies down on the floor": lambda e: "mat" in e.equipment,
    "goes down to a seat or bed and back up": lambda e: re.search("stand|sit|bed|seat", said(e)),
    "lies flat or tips the head forward": lambda e: re.search(
        "lie|back|bow|hips|mat|knees|lean|hands under|slide", said(e)),
    "puts the head low": lambda e: "sit back" in said(e),
    "presses a weight overhead": lambda e: "dumbbell" in e.equipment,
    "puts full weight on one ankle": lambda e: "toes of one foot" in said(e),
    "bends the knee as far as sitting down does": lambda e: re.search("stand|sit|bend|step|chair|ahead", said(e)),
    "bends the knee deeply": lambda e: "sit back" in said(e),
    "bends the hip as far as it will go": lambda e: "sit back" in said(e),
    "leans on the hands or bends a wrist far": lambda e: re.search("hands|fingers gently back", said(e)),
    "puts full weight on the hands": lambda e: re.search("hands under|hands on its seat", said(e)),
    "lifts, or braces the trunk firmly": lambda e: {"dumbbell", "band"} & set(e.equipment) or re.search(
        "line|heel|lean back|knees|plank|body straight", said(e)),
}


@pytest.mark.parametrize("axis", Axis)
def test_b4_what_is_said_of_a_rating_is_true_of_everything_rated_so(axis: Axis) -> None:
    """Phrase by phrase, against cues, kit and support."""
    for exercise in library().values():
        level = exercise.asks(axis)
        if level:
            phrase = ASKS[axis][level - 1]
            assert EVIDENCE.get(phrase, lambda _: True)(exercise), (exercise.id, phrase)


def changes(got: Timeline) -> Iterator[tuple[Exercise, Substitution | LeftOut, str]]:
    """What was swapped or left out, with the sentence that tells why."""
    yield from ((library()[s.written], s, substitution_text(s, NAMES)) for s in got.substitutions)
    yield from ((library()[o.exercise], o, left_out_text(o)) for o in got.left_out)


CONDITIONS = [c for c in Condition if c is not Condition.ONE_SIDE]
HURTS = [(r, level) for r in BODY_REGIONS for level in (5, 7)]
RESTS = [("", ""), *((side, limb) for side in ("left", "right") for limb in ("arm", "leg"))]
EVERYBODY = list(product(CONDITIONS, HURTS, RESTS))
#: In a sampled run one of so many, other ones for each session; it shares no factor with any of the three.
ONE_OF = 37


def somebody(condition: Condition, side: str, limb: str) -> Client:
    """With a condition, and an arm or a leg that is to rest."""
    return Client(conditions=frozenset({condition}), rest_side=side, rest_limb=limb,
                  rest_side_because="plaster" if side else "")


@pytest.mark.parametrize("session", SESSIONS if is_whole() else SOME)
def test_nothing_forbidden_is_done_no_limb_works_more_and_no_reason_names_what_is_not_asked(session: str) -> None:
    """Each condition with each region painful at 5 and at 7, on the left, and each arm or leg at rest or none.

    The rulebook is the second opinion.
    """
    written, full = shipped().session(session), compiled(session)
    assert written is not None
    kit = {k for _, item in written.items() for k in library()[item.exercise].equipment}
    for condition, (region, level), rest in EVERYBODY if is_whole() else EVERYBODY[SESSIONS.index(session)::ONE_OF]:
        body, diary = somebody(condition, *rest), but(pain={
            Spot(region, "left" if region in PAIRED_REGIONS else ""): level})
        got = compiled(session, body, diary=diary)
        for step in efforts(got):
            assert rulebook.forbids(library()[step.exercise or ""], body, PLACE, diary, kit, str(step.side)) == []
        assert_no_limb_does_more(got, full)
        for exercise, change, sentence in changes(got):
            assert_true_of(exercise, change, sentence, body)


def assert_true_of(exercise: Exercise, change: Substitution | LeftOut, sentence: str, body: Client) -> None:
    """The axes that a change names are asked for as much as it says, and its sentence tells nothing untrue."""
    asked = {d.split(":")[0]: d.split(":")[1] for d in change.asked}
    for key in change.because:
        if key in set(Axis):
            assert int(asked[key]) == max(exercise.asks(Axis(key)), 2 if key == "floor_transfer"
                                          and exercise.on_floor else 0) > 0, (exercise.id, key)
    if "side" in change.because:
        assert body.rest_side, (exercise.id, sentence)
    for phrase, evidence in EVIDENCE.items():
        if re.search(rf"\b{re.escape(phrase)}(,| and|\.)", sentence):
            assert evidence(exercise), (exercise.id, sentence)


def test_b4_what_is_not_at_hand_is_named() -> None:
    """`a band`, and not "something"."""
    got = compiled("dumbbell-circuit", Client(kit=frozenset({"chair"})))
    told = [sentence for _, _, sentence in changes(got)]
    assert told and any("needs dumbbells" in s for s in told) and not any("something that" in s for s in told)


def test_b4_a_day_without_weights_says_so_and_not_that_none_is_light_enough() -> None:
    """The day after a session."""
    got = compiled("dumbbell-circuit", diary=but(last_days_ago=1))
    told = [sentence for _, _, sentence in changes(got)]
    assert got.dose.level == 5 and any("today is without weights" in s for s in told)
    assert not any("light enough" in s for s in told)


def test_the_table_of_settled_differences_says_what_the_files_say() -> None:
    """`tests/ratings.md`, axis by axis."""
    table = (ROOT / "tests" / "ratings.md").read_text("utf-8")
    rows = re.findall(r"(?m)^\| (\w+) \| (.*→.*) \|$", table)
    settled = [(axis, *re.fullmatch(r"([\w-]+) \d/[\d–]→(\d)", one).groups())  # type: ignore[union-attr]
               for axis, cells in rows for one in cells.split(" · ")]
    assert len(settled) > 100
    assert [(a, e) for a, e, level in settled if library()[e].demand[Axis(a)] != int(level)] == []
