"""What an exercise asks for, said of that exercise and of the level that it is rated with. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.domain.model.exercise import Axis
from app.domain.model.kit import BED
from app.words.kit import KIT_WORDS
from app.words.listing import listed

#: After "which" or "it", for a rating of 1, 2 and 3. Each is true of everything that is rated so.
ASKS: Mapping[str, tuple[str, str, str]] = {
    Axis.WRIST_WEIGHT_BEARING: ("works the wrists a little", "leans on the hands or bends a wrist far",
                                "puts full weight on the hands"),
    Axis.OVERHEAD_SHOULDER: (
        "brings the arms up to the shoulders", "brings the arms above the shoulders", "presses a weight overhead"),
    Axis.SHOULDER_LOAD: ("works the shoulders a little", "works the shoulders", "works the shoulders hard"),
    Axis.ELBOW_LOAD: ("works the elbows a little", "works the elbows", "works the elbows hard"),
    Axis.GRIP: ("needs a light grip", "needs a firm grip", "needs a hard grip"),
    Axis.NECK_LOAD: ("works the neck a little", "works the neck", "works the neck hard"),
    Axis.LOADED_SPINAL_FLEXION: (
        "works the back a little", "bends forward with a weight or a band", "rounds the back under a load"),
    Axis.LOADED_TWIST: (
        "turns the trunk, or resists a turn", "turns the trunk against a load", "turns far against a load"),
    Axis.DEEP_HIP_FLEXION: ("bends the hip a little", "bends the hip a good way", "bends the hip as far as it will go"),
    Axis.DEEP_KNEE_FLEXION: ("bends the knee a little", "bends the knee as far as sitting down does",
                             "bends the knee deeply"),
    Axis.KNEELING: ("puts one knee on the ground", "kneels", "puts full weight on the knees"),
    Axis.ANKLE_LOAD: ("works the ankle a little", "works the ankle", "puts full weight on one ankle"),
    Axis.SINGLE_LEG_BALANCE: (
        "needs a little balance", "needs good balance", "needs very good balance"),
    Axis.IMPACT: ("involves stepping", "jars the joints", "involves jumping"),
    Axis.FLOOR_TRANSFER: (
        "goes down to a seat or bed and back up", "goes down to the floor", "lies down on the floor"),
    Axis.HEAD_BELOW_HEART: ("lies flat or tips the head forward", "puts the head low", "hangs the head down"),
    Axis.SPINAL_ROUNDING: ("rounds the back a little", "rounds the back or bends down to the feet",
                           "rounds the back fully"),
    Axis.SPINAL_EXTENSION: ("arches the back a little", "arches the back", "arches the back fully"),
    Axis.HEAD_TURNING: ("moves the head a little", "turns or tips the head", "turns the head fast or far"),
    Axis.TURNING_ROUND: (
        "turns in small steps, or steps back", "turns round or walks backwards", "turns round fast"),
    Axis.BEARING_DOWN: ("needs a light effort", "lifts, or braces the trunk firmly", "strains"),
    Axis.HARD_HOLD: ("holds lightly", "holds hard", "holds as hard as possible"),
    Axis.UNHELD_BALANCE: (
        "needs some balance without holding on", "leaves no hand free for support",
        "stands on one leg without holding on"),
    Axis.LEG_CROSSING: ("turns the hip or brings the feet into line", "crosses the legs", "draws one leg far across"),
}
#: What may be missing.
THINGS: Mapping[str, str] = {BED: "a bed", **{kit: words.needed for kit, words in KIT_WORDS.items()}}
OTHER: Mapping[str, str] = {
    "floor": "needs floor space, and there is none here",
    "noise": "makes noise, and this room must be quiet",
    "space": "needs more room than there is here",
    "support": "is done standing, with nothing to hold on to",
    "seated": "isn’t done sitting down",
    "lying": "is done lying down",
    "step_up": "steps up on to something",
    "split": "bends with one foot ahead",
    "crossing": "would mean crossing from the bed on one leg",
    "on_side": "is done lying on one side",
    "forward": "is done at the front of the seat",
    "brisk": "is done briskly on the feet",
    "hip_front": "takes a thigh behind the body",
    "hands_free": "is done standing up without the hands",
    "both_arms": "takes both arms",
    "side": "uses an arm or leg that is resting",
}
WEIGHT: Mapping[str, str] = {
    "day": "uses a weight, and today is without weights",
    "owned": "needs a lighter weight than there is here",
    "lying": "uses a weight while lying down",
    "standing": "uses a weight while standing, and one hand has to stay free",
    "go_ahead": "uses a weight, and weights wait for a go-ahead",
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
        return f"needs {listed([THINGS.get(d, d.replace('_', ' ')) for d in details])}, which isn’t here"
    if key == "weight" and details:
        return WEIGHT[details[0]]
    if key in ASKS and details:
        return asks_words(key, int(details[0]))
    return OTHER.get(key) or f"calls for {otherwise.get(key, key)}"
