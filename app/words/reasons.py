"""The reasons of a dose in plain sentences, to the person themselves or to who leads them. Knows no Flet."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from app.domain.errors import UnknownName
from app.domain.model.body import REGION_AXES, parse_spot
from app.domain.model.diary import Symptom
from app.domain.model.level import Level
from app.domain.model.plan import Reason
from app.domain.model.rules import RuleId
from app.domain.model.thresholds import PAIN_CAPS, PAIN_RESTS
from app.words.conditions import condition_change
from app.words.text import AXIS_WORDS, count, listed, spot_words

Data = Mapping[str, str | int]

SYMPTOM_WORDS: Mapping[str, str] = {
    Symptom.EMERGENCY: "a sign that may be an emergency",
    Symptom.STOP_AND_ASK: "something a doctor should know about",
    Symptom.FEVER: "a fever",
    Symptom.HEAD_COLD: "a head cold",
}
QUESTION_WORDS: Mapping[str, tuple[str, str]] = {
    "symptoms": ("whether anything is new or worrying",) * 2,
    "pain": ("whether a joint hurts",) * 2,
    "pain_rise": ("how the morning after the last session was",) * 2,
    "soreness": ("whether muscles are achy",) * 2,
    "rpe": ("how hard the last session was",) * 2,
    "completed": ("how much of the last session was done",) * 2,
    "readiness": ("how you slept and feel", "how {name} slept and feels"),
    "days_ago": ("when you last trained", "when {name} last trained"),
    "flare": ("whether you felt worse a day or two after the last session",
              "whether {name} felt worse a day or two after the last session"),
    "": ("something",) * 2,
}
"""What was not answered: for the person themselves, and for who leads them."""
#: How much was done, to the nearest quarter.
QUARTERS = ("Hardly any", "About a quarter", "About half", "About three quarters", "Nearly all")


@dataclass(frozen=True)
class Whose:
    """Whom a sentence is about: the reader, or, where a name is given, the one whom the reader leads."""

    name: str = ""

    @property
    def led(self) -> bool:
        """Whether it speaks of somebody, and not to them."""
        return bool(self.name)

    @property
    def who(self) -> str:
        """`You`, or the name."""
        return self.name or "You"

    def part(self, what: str) -> str:
        """`your left knee`, `Ines’s left knee`; `a joint` stays."""
        return what if what.startswith("a ") else f"{self.name + '’s' if self.name else 'your'} {what}"


def _upper(words: str) -> str:
    return words[:1].upper() + words[1:]


def _missing(question: str, w: Whose) -> str:
    words = QUESTION_WORDS.get(question, QUESTION_WORDS[""])[w.led].format(name=w.name)
    if question == "symptoms":
        return "First, please say whether anything is new or worrying today."
    return f"Not answered: {words}. So we are keeping today easier."


def _symptoms(d: Data, w: Whose) -> str:
    told = SYMPTOM_WORDS[str(d["symptom"])]
    return f"Reported for {w.name} today: {told}." if w.led else f"You ticked {told}."


LEVEL = "level"
LOOK_FIRST = "After a fall or an operation, or with osteoporosis, someone should look at that before any training."
CALF_FIRST = (
    "Someone should look at a calf that hurts that much before any training; today, if it is also swollen, warm or red."
)
MUCH_FIRST = "Someone should look at pain that strong before any training."


def _pain(d: Data, w: Whose) -> str:
    where = spot_words(str(d.get("spot", "")))
    if "last" in d:
        return f"Pain in {w.part(where)} reached {d['last']} out of 10 in the last session."
    hurts = "hurt" if where.endswith("ribs") else "hurts"
    today = f"{_upper(w.part(where))} {hurts} {d['value']} out of 10 today"
    if "look" in d:
        return f"{today}. {CALF_FIRST if where.endswith('calf') else LOOK_FIRST}"
    if int(d[LEVEL]) >= Level.ASK_FIRST:
        return f"{today}. {MUCH_FIRST}"
    return f"{today}{_rests_with(str(d.get('spot', '')), int(d['value']))}."


def _rests_with(spot: str, level: int) -> str:
    """`, so today leaves out kneeling and deep knee bends`; up to a point it only goes easy on them."""
    axes = REGION_AXES.get(parse_spot(spot).region, ()) if spot and level >= PAIN_CAPS else ()
    if not axes:
        return ""
    out = "leaves out" if level >= PAIN_RESTS else "goes easy on"
    return f", so today {out} {listed([AXIS_WORDS[axis] for axis in axes])}"


def _rise(d: Data, w: Whose) -> str:
    where = w.part(spot_words(str(d["spot"])))
    if "hours" in d:
        return f"{_upper(where)} is still worse {d['hours']} hours after the last session."
    more = "1 point" if d["value"] == 1 else f"{d['value']} points"
    return f"{_upper(where)} was {more} worse the morning after the last session."


def _soreness(d: Data, w: Whose) -> str:
    where = w.part(spot_words(str(d["spot"])))
    if "hours" in d:
        return f"The muscles of {where} have been very achy for {d['hours']} hours."
    return f"The muscles of {where} are achy, {d['value']} out of 10."


def _effort(d: Data, w: Whose) -> str:
    return f"{_last_session(d)} felt like {d['rpe']} out of 10; the aim was {d['target']}."


def _completion(d: Data, w: Whose) -> str:
    return f"{QUARTERS[(int(d['done']) + 12) // 25]} of {_last_session(d).lower()} was done."


def _last_session(d: Data) -> str:
    return "The last light session" if d.get("light") else "The last session"


def _readiness(d: Data, w: Whose) -> str:
    told = [f"{word} {d[key]} out of 5" for key, word in
            (("slept", "sleep"), ("energy", "energy"), ("calm", "feeling settled")) if 0 < int(d[key]) < 5]
    return f"Today’s answers: {listed(told)}."


def _days(d: Data, w: Whose) -> str:
    if d["days"] == 0:
        return f"{w.who} already trained today, and rest is when muscles get stronger."
    if d["days"] == 1:
        return f"{w.who} trained yesterday, and muscles need a rest day in between."
    return f"The last strength session was {d['days']} days ago, so we are starting gently."


def _fall(d: Data, w: Whose) -> str:
    if d.get("hurt"):
        return f"{w.who} fell, and something hurt. A doctor, nurse or physio should take a look before any training."
    return (f"{w.who} had a fall not long ago, so nothing gets harder for now, and balance exercises are done "
            "holding on.")


def _return(d: Data, w: Whose) -> str:
    return "After an easier session, the amount comes back step by step."


def _clearance(d: Data, w: Whose) -> str:
    return f"{w.who} {'needs' if w.led else 'need'} a go-ahead before training again."


REASONS: Mapping[RuleId, Callable[[Data, Whose], str]] = {
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
    RuleId.CLEAN_SESSIONS: lambda d, w: "The amount stays as it is until two sessions in a row have gone well.",
    RuleId.ANSWERED_BY: lambda d, w: "Someone else answered today, so we are keeping things as they are.",
    RuleId.NO_CHECK_IN: lambda d, w: f"No check-in yet; this is what {w.part('coach')} wrote.",
    RuleId.LIGHTER_WEEK: lambda d, w: f"A lighter week: {count(int(d['rounds']), 'round')}.",
    RuleId.FALL: _fall,
    RuleId.FLARE: lambda d, w: f"{w.who} felt clearly worse {count(int(d['days']), 'day')} after the last session.",
    RuleId.CONDITION: lambda d, w: condition_change(str(d["condition"]), str(d["what"]), int(d["value"]),
                                                        w.name),
    RuleId.MINUTES: lambda d, w: f"Cut to fit {d['minutes']} minutes: {count(int(d['rounds']), 'round')}.",
}


#: What a reason raises that came from elsewhere without what it speaks of, or with something that cannot be.
UNTELLABLE = (LookupError, TypeError, ValueError, UnknownName)
WITHOUT_DETAILS = "A reason was given, but its details are missing."


def reason_text(reason: Reason, asked: str = "") -> str:
    """One reason in a plain sentence for the client, or, where `asked` names whom somebody leads, for the leader."""
    whose = Whose(asked)
    try:
        return _missing(reason.missing, whose) if reason.missing else REASONS[reason.rule](
            dict(reason.data) | {LEVEL: reason.level}, whose)
    except UNTELLABLE:
        return WITHOUT_DETAILS
