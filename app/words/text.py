"""Every sentence that screens and commands share: errors, reasons, words for the body. Knows no Flet."""
from __future__ import annotations

from collections.abc import Callable, Mapping

from app.domain.model.body import REGION_AXES, Region, Spot, parse_spot
from app.domain.model.diary import Symptom
from app.domain.model.exercise import Axis
from app.domain.model.plan import Dose, LeftOut, OneSided, Reason, Substitution, Timeline
from app.domain.model.rules import RuleId
from app.domain.model.thresholds import PAIN_CAPS, PAIN_RESTS
from app.words.conditions import condition_change
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
SYMPTOM_WORDS: Mapping[str, str] = {
    Symptom.EMERGENCY: "a sign of an emergency",
    Symptom.STOP_AND_ASK: "a sign to stop and ask about",
    Symptom.FEVER: "a fever",
    Symptom.HEAD_COLD: "a head cold",
}
QUESTION_WORDS = {
    "symptoms": "whether anything is new or worrying",
    "pain": "whether a joint hurts",
    "pain_rise": "how the morning after the last session was",
    "soreness": "whether muscles are achy",
    "rpe": "how hard the last session was",
    "completed": "how much of the last session was done",
    "readiness": "how you slept and feel",
    "days_ago": "when you last trained",
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


def count(number: int, one: str, many: str = "") -> str:
    """`1 round`, `3 rounds`."""
    return f"{number} {one if number == 1 else many or one + 's'}"


# ------------------------------------------------------------------ reasons, for a client

def _told(reason: Reason) -> dict[str, str | int]:
    return dict(reason.data)


def _missing(data: Mapping[str, str | int]) -> str:
    words = QUESTION_WORDS.get(str(data["missing"]), "something")
    if data["missing"] == "symptoms":
        return "Answer first whether anything is new or worrying today."
    return f"Not answered: {words}. So today stays careful."


def _symptoms(d: Mapping[str, str | int]) -> str:
    return f"You ticked {SYMPTOM_WORDS[str(d['symptom'])]}."


def _pain(d: Mapping[str, str | int]) -> str:
    where = spot_words(str(d.get("spot", "")))
    if "last" in d:
        return f"Pain in {_your(where)} reached {d['last']} of 10 in the last session."
    rests = _rests_with(str(d.get("spot", "")), int(d["value"]))
    return f"{_your(where).capitalize()} hurts {d['value']} of 10 today{rests}."


def _rests_with(spot: str, level: int) -> str:
    """`, so moves with kneeling and bending the knee deeply are out`; up to a point only those heavy on it."""
    axes = REGION_AXES.get(parse_spot(spot).region, ()) if spot and level >= PAIN_CAPS else ()
    if not axes:
        return ""
    heavy = "with" if level >= PAIN_RESTS else "heavy on"
    return f", so moves {heavy} {listed([AXIS_WORDS[axis] for axis in axes])} are out"


def _your(where: str) -> str:
    return where if where.startswith("a ") else f"your {where}"


def _rise(d: Mapping[str, str | int]) -> str:
    where = _your(spot_words(str(d["spot"])))
    if "hours" in d:
        return f"{where.capitalize()} is still worse {d['hours']} hours after the last session."
    more = "1 point" if d["value"] == 1 else f"{d['value']} points"
    return f"{where.capitalize()} was {more} worse the morning after the last session."


def _soreness(d: Mapping[str, str | int]) -> str:
    where = _your(spot_words(str(d["spot"])))
    if "hours" in d:
        return f"The muscles of {where} have been very achy for {d['hours']} hours."
    return f"The muscles of {where} are achy, {d['value']} of 10."


def _effort(d: Mapping[str, str | int]) -> str:
    return f"{_last_session(d)} felt like {d['rpe']} of 10; it was meant to be {d['target']}."


def _completion(d: Mapping[str, str | int]) -> str:
    return f"You did {d['done']} % of {_last_session(d).lower()}."


def _last_session(d: Mapping[str, str | int]) -> str:
    return "The last light session" if d.get("light") else "The last session"


def _readiness(d: Mapping[str, str | int]) -> str:
    told = [f"{word} {d[key]} of 5" for key, word in
            (("slept", "sleep"), ("energy", "energy"), ("calm", "feeling settled")) if 0 < int(d[key]) < 5]
    return f"Today’s answers: {listed(told)}."


def _days(d: Mapping[str, str | int]) -> str:
    if d["days"] == 0:
        return "You already trained today; rest lets the work take effect."
    if d["days"] == 1:
        return "You trained yesterday, and muscles want a day between."
    return f"The last strength session was {d['days']} days ago, so we start gently."


def _fall(d: Mapping[str, str | int]) -> str:
    if d.get("hurt"):
        return "You fell, and something hurt. A doctor, nurse or physio should look at it before you train."
    return "You had a fall not long ago, so nothing gets harder for now, and balance is done with a hand on something."


def _return(d: Mapping[str, str | int]) -> str:
    return "We come back step by step after the last easing."


def _clearance(d: Mapping[str, str | int]) -> str:
    return "The last stop still waits for a yes before you train again."


REASONS: Mapping[RuleId, Callable[[Mapping[str, str | int]], str]] = {
    RuleId.SYMPTOMS: _symptoms,
    RuleId.PAIN: _pain,
    RuleId.PAIN_RISE: _rise,
    RuleId.SORENESS: _soreness,
    RuleId.EFFORT: _effort,
    RuleId.COMPLETION: _completion,
    RuleId.READINESS: _readiness,
    RuleId.DAYS: _days,
    RuleId.RETURN: _return,
    RuleId.CLEARANCE: _clearance,
    RuleId.CLEAN_SESSIONS: lambda d: "The amount stays as it is until two sessions in a row have gone well.",
    RuleId.ANSWERED_BY: lambda d: "Somebody else answered today, so nothing moves on.",
    RuleId.NO_CHECK_IN: lambda d: "No check-in yet; this is what your coach wrote.",
    RuleId.LIGHTER_WEEK: lambda d: f"A lighter week: {count(int(d['rounds']), 'round')}.",
    RuleId.FALL: _fall,
    RuleId.FLARE: lambda d: f"You felt clearly worse {count(int(d['days']), 'day')} after the last session.",
    RuleId.CONDITION: lambda d: condition_change(str(d["condition"]), str(d["what"]), int(d["value"])),
    RuleId.MINUTES: lambda d: f"Cut to fit {d['minutes']} minutes: {count(int(d['rounds']), 'round')}.",
}


def reason_text(reason: Reason) -> str:
    """One reason in a plain sentence for the client."""
    data = _told(reason)
    return _missing(data) if "missing" in data else REASONS[reason.rule](data)


LEVEL_WORDS = (
    "The whole session", "The whole session", "A little less today", "Easier today", "A light session today",
    "Gentle movement only, no weights", "A rest day today", "No session today: ask first",
    "Stop: this may be an emergency",
)


def dose_sentence(dose: Dose) -> str:
    """Today's amount in a sentence."""
    if dose.level <= 1 or not dose.allows_session:
        return f"{LEVEL_WORDS[dose.level]}."
    parts = [count(dose.rounds, "round"), f"work {dose.work} %", f"rest {dose.rest} %"]
    parts += [f"weights {dose.load} %"] if 0 < dose.load < 100 else []
    return f"{LEVEL_WORDS[dose.level]}: {listed(parts)} of what was written."


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
