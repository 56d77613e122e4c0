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
    Axis.SHOULDER_LOAD: "heavy shoulder work",
    Axis.ELBOW_LOAD: "heavy elbow work",
    Axis.GRIP: "gripping hard",
    Axis.NECK_LOAD: "heavy neck work",
    Axis.LOADED_SPINAL_FLEXION: "bending forward with a weight",
    Axis.LOADED_TWIST: "twisting with weights",
    Axis.DEEP_HIP_FLEXION: "deep hip bends",
    Axis.DEEP_KNEE_FLEXION: "deep knee bends",
    Axis.KNEELING: "kneeling",
    Axis.ANKLE_LOAD: "heavy ankle work",
    Axis.SINGLE_LEG_BALANCE: "balancing",
    Axis.IMPACT: "jarring steps, hops and jumps",
    Axis.FLOOR_TRANSFER: "getting down low and back up",
    Axis.HEAD_BELOW_HEART: "lying flat or lowering the head",
    Axis.SPINAL_ROUNDING: "rounding the back",
    Axis.SPINAL_EXTENSION: "arching the back",
    Axis.HEAD_TURNING: "turning or tipping the head",
    Axis.TURNING_ROUND: "turning round or walking backwards",
    Axis.BEARING_DOWN: "lifting or bracing hard",
    Axis.HARD_HOLD: "hard holds",
    Axis.UNHELD_BALANCE: "balancing without holding on",
    Axis.LEG_CROSSING: "crossing the legs",
    "kit": "something that isn’t here",
    "floor": "floor space, and there is none here",
    "noise": "noise, and this room must be quiet",
    "space": "more room than there is here",
    "weight": "a lighter weight than you have",
    "support": "standing with nothing to hold on to",
    "seated": "a position other than sitting",
    "lying": "lying down",
    "step_up": "stepping up",
    "split": "a bend with one foot ahead",
    "crossing": "crossing from the bed",
    "on_side": "lying on one side",
    "forward": "sitting at the front of the seat",
    "brisk": "moving briskly on the feet",
    "hip_front": "a thigh behind the body",
    "hands_free": "standing up without the hands",
    "both_arms": "both arms",
    "side": "an arm or leg that is resting",
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
        f"calls for {because_words(change.because)}"
    if change.side:
        return (f"On the {change.side} only, instead of “{written}”, which {does}. The other side does it as written, "
                f"so left and right won’t be equal today.")
    return f"Instead of “{written}”, which {does}."


def left_out_text(left: LeftOut) -> str:
    """Why a station is missing."""
    if left.because == ("minutes",):
        return "Left out: there is no time for it today."
    if left.because == ("side",):
        return "Left out: it uses an arm or leg that is resting."
    if left.asked:
        return f"Left out: it {does_words(left.because, left.asked, AXIS_WORDS)}."
    return f"Left out: it calls for {because_words(left.because)}."


def one_sided_text(one: OneSided) -> str:
    """Why a station is done on one side alone."""
    other = "right" if one.spared == "left" else "left"
    does = does_words(one.because, one.asked, AXIS_WORDS)
    return f"Only on the {other} today, because on the {one.spared} it {does}. So left and right won’t be equal."


def kit_sentence(kit: list[str]) -> str:
    """`kit: a chair and dumbbells`, `no kit needed`."""
    return f"kit: {listed([KIT_WORDS[k].needed if k in KIT_WORDS else k for k in kit])}" if kit else "no kit needed"


def session_sentence(timeline: Timeline, kit: list[str]) -> str:
    """`22 minutes, 6 exercises, kit: a chair`."""
    exercises = {s.exercise for s in timeline.steps if s.is_effort}
    return (f"{duration(timeline.total_ms // 1000)}, {count(len(exercises), 'exercise')}, {kit_sentence(kit)}")
