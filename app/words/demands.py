"""What an exercise asks for, said of that exercise and of the level that it is rated with. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.domain.model.exercise import Axis
from app.domain.model.kit import BED
from app.words.kit import KIT_WORDS
from app.words.listing import listed

#: After "which" or "it", for a rating of 1, 2 and 3. Each is true of everything that is rated so.
ASKS: Mapping[str, tuple[str, str, str]] = {
    Axis.WRIST_WEIGHT_BEARING: ("asks a little of the wrists", "leans on the hands or bends a wrist far",
                                "puts the weight on the hands"),
    Axis.OVERHEAD_SHOULDER: (
        "brings the arms up to the shoulders", "brings the arms above the shoulders", "presses a weight overhead"),
    Axis.SHOULDER_LOAD: ("asks a little of the shoulders", "loads the shoulders", "loads the shoulders fully"),
    Axis.ELBOW_LOAD: ("asks a little of the elbows", "loads the elbows", "loads the elbows fully"),
    Axis.GRIP: ("uses the grip a little", "takes a firm grip", "grips hard"),
    Axis.NECK_LOAD: ("asks a little of the neck", "loads the neck", "loads the neck fully"),
    Axis.LOADED_SPINAL_FLEXION: (
        "asks a little of the back", "bends forward with a weight or a band", "rounds the back under a load"),
    Axis.LOADED_TWIST: (
        "turns the trunk, or works against a turn", "turns the trunk against a load", "turns far under load"),
    Axis.DEEP_HIP_FLEXION: ("bends the hip a little", "bends the hip well", "bends the hip as far as it goes"),
    Axis.DEEP_KNEE_FLEXION: ("asks a little of the knee", "bends the knee as on a chair", "bends the knee deeply"),
    Axis.KNEELING: ("puts a knee to the ground", "kneels", "rests on the knees"),
    Axis.ANKLE_LOAD: ("asks a little of the ankle", "works the ankle", "puts the whole load on one ankle"),
    Axis.SINGLE_LEG_BALANCE: (
        "asks a little of the balance", "asks a good deal of the balance", "asks the most of the balance"),
    Axis.IMPACT: ("takes steps", "jars the joints", "jumps"),
    Axis.FLOOR_TRANSFER: (
        "goes down to a seat or a bed and up again", "goes down to the floor", "lies down on the floor"),
    Axis.HEAD_BELOW_HEART: ("lies flat or tips the head forward", "puts the head low", "hangs the head down"),
    Axis.SPINAL_ROUNDING: ("rounds the back a little", "rounds the back", "rounds the back fully"),
    Axis.SPINAL_EXTENSION: ("arches the back a little", "arches the back", "arches the back fully"),
    Axis.HEAD_TURNING: ("moves the head a little", "turns or tips the head", "turns the head fast or far"),
    Axis.TURNING_ROUND: (
        "turns in small steps, or steps back", "turns round or walks backwards", "turns round fast"),
    Axis.BEARING_DOWN: ("takes a light effort", "lifts, or braces the trunk firmly", "strains"),
    Axis.HARD_HOLD: ("holds lightly", "holds hard", "holds as hard as it goes"),
    Axis.UNHELD_BALANCE: (
        "asks for some balance without a hand on something", "leaves no hand to catch a wobble",
        "stands on one leg without a hand on something"),
    Axis.LEG_CROSSING: ("turns the hip or brings the legs in line", "crosses the legs", "draws one leg across"),
}
#: What may be missing.
THINGS: Mapping[str, str] = {BED: "a bed", **{kit: words.needed for kit, words in KIT_WORDS.items()}}
OTHER: Mapping[str, str] = {
    "floor": "is done on the floor, and this room has none to lie on",
    "noise": "makes noise, and this room must be quiet",
    "space": "needs more room than there is",
    "support": "is done standing, with nothing to hold on to",
    "seated": "is not done sitting",
    "side": "uses an arm or a leg that is to rest",
}
WEIGHT: Mapping[str, str] = {
    "day": "takes a weight, and today is without weights",
    "owned": "takes a weight, and none at hand is light enough for today",
}


def asks_words(axis: str, level: int) -> str:
    """`rounds the back a little`; for a rating of 0, nothing."""
    return ASKS[axis][min(level, 3) - 1] if level and axis in ASKS else ""


def does_words(because: Sequence[str], asked: Sequence[str], otherwise: Mapping[str, str]) -> str:
    """What spoke against an exercise, as what it does: `rounds the back and needs a band, which is not at hand`.

    `otherwise` words what came without details, from a plan that was made before there were any.
    """
    return listed([_one(key, [d.partition(":")[2] for d in asked if d.partition(":")[0] == key], otherwise)
                   for key in because])


def _one(key: str, details: Sequence[str], otherwise: Mapping[str, str]) -> str:
    if key == "kit" and details:
        return f"needs {listed([THINGS.get(d, d.replace('_', ' ')) for d in details])}, which you do not have here"
    if key == "weight" and details:
        return WEIGHT[details[0]]
    if key in ASKS and details:
        return asks_words(key, int(details[0]))
    return OTHER.get(key) or f"asks for {otherwise.get(key, key)}"
