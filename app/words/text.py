"""Every sentence that screens and commands share: errors, reasons, words for the body. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.domain.model.body import Region, Spot
from app.domain.model.exercise import Axis
from app.domain.model.plan import Dose, LeftOut, OneSided, Substitution, Timeline
from app.domain.model.record import SessionDone
from app.domain.model.trained_time import TimeKnown, time_known, trained_s
from app.words.demands import does_words
from app.words.kit import KIT_WORDS
from app.words.listing import listed as listed

# ------------------------------------------------------------------ words

AXIS_WORDS: Mapping[str, str] = {
    Axis.WRIST_WEIGHT_BEARING: "leaning on the hands",
    Axis.OVERHEAD_SHOULDER: "reaching overhead",
    Axis.SHOULDER_LOAD: "loading the shoulder",
    Axis.ELBOW_LOAD: "loading the elbow",
    Axis.GRIP: "gripping hard",
    Axis.NECK_LOAD: "loading the neck",
    Axis.LOADED_SPINAL_FLEXION: "bending forward under load",
    Axis.LOADED_TWIST: "twisting under load",
    Axis.DEEP_HIP_FLEXION: "bending the hip deeply",
    Axis.DEEP_KNEE_FLEXION: "bending the knee deeply",
    Axis.KNEELING: "kneeling",
    Axis.ANKLE_LOAD: "loading the ankle",
    Axis.SINGLE_LEG_BALANCE: "keeping the balance",
    Axis.IMPACT: "steps, hops and jumps",
    Axis.FLOOR_TRANSFER: "getting down low and up again",
    Axis.HEAD_BELOW_HEART: "lying flat or putting the head low",
    Axis.SPINAL_ROUNDING: "rounding the back",
    Axis.SPINAL_EXTENSION: "arching the back",
    Axis.HEAD_TURNING: "turning or tipping the head",
    Axis.TURNING_ROUND: "turning round or walking backwards",
    Axis.BEARING_DOWN: "lifting, or bracing the trunk",
    Axis.HARD_HOLD: "holding hard",
    Axis.UNHELD_BALANCE: "balance without a hand on something",
    Axis.LEG_CROSSING: "crossing the legs",
    "kit": "something that is not at hand",
    "floor": "the floor, and this room has none to lie on",
    "noise": "noise, and this room must be quiet",
    "space": "more room than there is",
    "weight": "a weight, and today there is none light enough",
    "support": "balance without something to hold",
    "seated": "another position than sitting",
    "side": "an arm or a leg that is to rest",
}
REGION_WORDS: Mapping[Region, str] = {r: r.value for r in Region}


def spot_words(spot: Spot | str) -> str:
    """`left knee`; for the empty word, a joint."""
    return str(spot) or "a joint"


def duration(seconds: int) -> str:
    """`22 minutes`, `45 seconds`."""
    if seconds < 60:
        return f"{seconds} seconds"
    minutes = round(seconds / 60)
    return "1 minute" if minutes == 1 else f"{minutes} minutes"


def time_trained(done: SessionDone) -> str:
    """`12 minutes`; `about 12 minutes` or `at most 12 minutes` for a record of before the player counted it."""
    return time_together((done,))


def time_together(sessions: Sequence[SessionDone]) -> str:
    """The same of several: what is known least well of one is said of all."""
    known = {time_known(done) for done in sessions}
    how = "at most " if TimeKnown.AT_MOST in known else "about " if TimeKnown.RECKONED in known else ""
    return how + duration(sum(trained_s(done) for done in sessions))


def count(number: int, one: str, many: str = "") -> str:
    """`1 round`, `3 rounds`."""
    return f"{number} {one if number == 1 else many or one + 's'}"


# ------------------------------------------------------------------ amounts and changes

LEVEL_WORDS = (
    "The whole session", "The whole session", "A little gentler today", "Easier today", "A light session today",
    "Gentle movement only, no weights", "A rest day today", "No session today: ask first",
    "Stop: this may be an emergency",
)


def dose_sentence(dose: Dose) -> str:
    """Today's amount in a sentence."""
    if dose.level <= 1 or not dose.allows_session:
        return f"{LEVEL_WORDS[dose.level]}."
    parts = ["shorter work"] if dose.work < 100 else []
    parts += ["longer rests"] if dose.rest > 100 else []
    parts += ["lighter weights"] if 0 < dose.load < 100 else []
    return f"{LEVEL_WORDS[dose.level]}: {listed([*parts, count(dose.rounds, 'round')])}."


def because_words(because: tuple[str, ...]) -> str:
    """What spoke against an exercise, in words: `kneeling and bending the knee deeply`."""
    return listed([AXIS_WORDS.get(b, b) for b in because])


def substitution_text(change: Substitution, names: Mapping[str, str]) -> str:
    """Why another exercise stands here."""
    written = names.get(change.written, change.written)
    if change.because == ("choice",):
        return f"Instead of “{written}”, as you chose."
    does = does_words(change.because, change.asked, AXIS_WORDS) if change.asked else \
        f"asks for {because_words(change.because)}"
    if change.side:
        return (f"On the {change.side} alone, instead of “{written}”, which {does}. The other side does it as written, "
                f"so left and right aren’t equal today.")
    return f"Instead of “{written}”, which {does}."


def left_out_text(left: LeftOut) -> str:
    """Why a station is missing."""
    if left.because == ("minutes",):
        return "Left out: there is no time for it today."
    if left.because == ("side",):
        return "Left out: it needs the arm or leg that is to rest."
    if left.asked:
        return f"Left out: it {does_words(left.because, left.asked, AXIS_WORDS)}."
    return f"Left out: it asks for {because_words(left.because)}."


def one_sided_text(one: OneSided) -> str:
    """Why a station is done on one side alone."""
    other = "right" if one.spared == "left" else "left"
    does = does_words(one.because, one.asked, AXIS_WORDS)
    return f"Only on the {other} today: on the {one.spared} it {does}. So left and right aren’t equal."


def kit_sentence(kit: list[str]) -> str:
    """`a chair and dumbbells needed`, `nothing needed`."""
    return f"{listed([KIT_WORDS[k].needed if k in KIT_WORDS else k for k in kit])} needed" if kit else "nothing needed"


def session_sentence(timeline: Timeline, kit: list[str]) -> str:
    """`22 minutes, 6 exercises, a chair needed`."""
    exercises = {s.exercise for s in timeline.steps if s.is_effort}
    return (f"{duration(timeline.total_ms // 1000)}, {count(len(exercises), 'exercise')}, {kit_sentence(kit)}")
