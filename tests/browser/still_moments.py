"""Moments of a session made by hand, each as the player may have to show it: usual words and the library's longest."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from app.actions.training.playing import Playing
from app.actions.training.today import Today
from app.domain.model.exercise import Exercise
from app.domain.model.plan import Part, Step, StepKind, StepSide
from app.domain.player.pain_response import easier_now
from app.domain.player.player_state import Status, Wait, open_player

K, S = StepKind, StepSide
USUAL, ON_THE_FLOOR, IN_THE_END = "supported-dumbbell-row", "glute-bridge", "wall-calf-stretch"
LOAD_G = 5000


@dataclass(frozen=True)
class At:
    """Which step, how far into it, and how the player stands. `words`: whose words stand at the one-sided exercise."""

    index: int
    into_ms: int = 4_000
    status: Status = Status.RUNNING
    words: str = "usual"
    led: bool = False
    eased: bool = False
    waits: frozenset[Wait] = frozenset()


READY, WORK, TURN, DOWN, FLOOR, BREAK, LAST = 1, 2, 3, 5, 6, 8, 10
MOMENTS: Mapping[str, At] = {
    "long-setup": At(0), "ready": At(READY), "work": At(WORK, 8_000), "sides": At(TURN, 6_000), "rest": At(BREAK),
    "paused": At(WORK, 8_000, Status.PAUSED), "waiting": At(DOWN, 19_999, Status.WAITING), "down": At(DOWN),
    "counted": At(FLOOR, waits=frozenset({Wait.COUNT})), "eased": At(WORK, eased=True), "last": At(LAST, 50_000),
    "no-easier": At(WORK, words="easiest"), "alone": At(BREAK, waits=frozenset({Wait.ALL_RIGHT})),
    "alone-waits": At(BREAK, 29_999, Status.WAITING, waits=frozenset({Wait.ALL_RIGHT})),
    "led": At(WORK, 8_000, led=True), "led-rest": At(TURN, 6_000, led=True),
    "led-paused": At(WORK, 8_000, Status.PAUSED, led=True), "led-waiting": At(DOWN, 19_999, Status.WAITING, led=True),
    "long-work": At(WORK, words="longest"), "long-sides": At(TURN, words="longest"),
    "long-paused": At(WORK, 8_000, Status.PAUSED, "longest"), "long-led": At(WORK, words="longest", led=True),
    "word-work": At(WORK, words="longest word"), "cue-work": At(WORK, words="longest cue"),
}


def moment(name: str, card: Today) -> Playing:
    """The session at that moment."""
    at, library = MOMENTS[name], dict(card.library)
    assert card.pack and card.limits
    plan = card.timeline
    assert plan
    steps = laid(_exercise(at.words, card))
    opened = open_player(replace(plan, steps=steps), at.waits)
    state = replace(opened, status=at.status, at_ms=steps[at.index].start_ms + at.into_ms)
    person = replace(card.person, sex="man", led_by="Ragna" if at.led else "")
    return Playing("still", person, card.pack.sha256, replace(plan, steps=steps), state, library, card.limits,
                   "A session", led=at.led)


def laid(sided: str) -> tuple[Step, ...]:
    """Warm-up, two rounds with sides, a stretch on the floor, a cool-down."""
    written = [
        Step(K.SETUP, Part.WARM_UP, 0, 125_000, sided),
        Step(K.SETUP, Part.MAIN, 0, 20_000, sided, S.LEFT, 1),
        Step(K.WORK, Part.MAIN, 0, 40_000, sided, S.LEFT, 1, 5, LOAD_G),
        Step(K.REST, Part.MAIN, 0, 30_000, sided, S.RIGHT, 1),
        Step(K.WORK, Part.MAIN, 0, 40_000, sided, S.RIGHT, 1, 12, LOAD_G),
        Step(K.CHANGE, Part.MAIN, 0, 20_000, None, None, 1, to_floor=True),
        Step(K.WORK, Part.MAIN, 0, 40_000, ON_THE_FLOOR, S.BOTH, 1, 10),
        Step(K.CHANGE, Part.MAIN, 0, 20_000, None, None, 1, to_floor=False),
        Step(K.ROUND_REST, Part.MAIN, 0, 30_000, sided, S.LEFT, 2),
        Step(K.WORK, Part.MAIN, 0, 40_000, sided, S.LEFT, 2, 5, LOAD_G),
        Step(K.HOLD, Part.COOL_DOWN, 0, 60_000, IN_THE_END, S.LEFT),
    ]
    steps, at = [], 0
    for step in written:
        steps.append(replace(step, start_ms=at))
        at += step.length_ms
    return tuple(steps)


def _exercise(words: str, card: Today) -> str:
    """The exercise whose words are the hardest to set."""
    library = card.library

    def option(e: Exercise) -> Exercise | None:
        assert card.limits
        return easier_now(e, library, card.person.body, card.limits)

    able = [e for e in library.values() if option(e)]
    if words == "usual":
        return USUAL
    if words == "easiest":
        return next(e.id for e in library.values() if option(e) is None)
    if words == "longest word":
        return max(able, key=lambda e: max(map(len, f"{e.name} {_name(option(e))}".replace("-", " ").split()))).id
    if words == "longest cue":
        return max(able, key=lambda e: max(map(len, (*e.cues.action, *e.cues.safety, e.cues.breath)))).id
    return max(able, key=lambda e: len(e.name) + len(_name(option(e)))).id


def _name(found: Exercise | None) -> str:
    return found.name if found else ""
