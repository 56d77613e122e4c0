"""Words of the diary's weeks: what a week was in a line, and what eased a session that is past. Knows no Flet.

Said of no one in particular, so that it is true in anybody's diary; without percentages.
"""
from __future__ import annotations

from collections.abc import Callable, Mapping

from app.domain.measures.weeks import CalendarWeek
from app.domain.model.diary import Symptom
from app.domain.model.level import Level
from app.domain.model.plan import Dose, Reason
from app.domain.model.record import CheckIn
from app.domain.model.rules import RuleId
from app.words.client.diary import week_aside
from app.words.reasons import UNTELLABLE
from app.words.text import count, listed, spot_words

Data = Mapping[str, str | int]

WEEKS_HEAD = "Week by week"
FOLDED_KEY = "Solid: done. Low: easier. Dotted: left out. Double bar: stopped. Press a session to see all of it."

FULL = 100
MOST_CAUSES = 2
HEADS: Mapping[int, str] = {
    Level.REDUCED: "Gentler than planned", Level.EASIER: "Easier than planned", Level.LIGHT: "A light session",
    Level.GENTLE: "Gentle movement only, without weights",
}
EVERY_REASON = "That day’s answers and reasons"
SYMPTOMS: Mapping[str, str] = {
    Symptom.EMERGENCY: "a sign of an emergency", Symptom.STOP_AND_ASK: "a sign to ask about", Symptom.FEVER: "a fever",
    Symptom.HEAD_COLD: "a head cold",
}


def week_line(week: CalendarWeek) -> str:
    """`2 sessions, 43 minutes; 3 check-ins`; of a week without a session what else was written down."""
    everything = [record for day in week.days for record in day.records]
    asked = sum(isinstance(record, CheckIn) for record in everything)
    other = len(everything) - len(week.sessions) - asked
    more = [count(asked, "check-in")] if asked else []
    more += [count(other, "note")] if other else []
    return "; ".join(filter(None, (week_aside(week.sessions), listed(more) if more else "")))


# ------------------------------------------------------------------ what eased it

def _pain(d: Data) -> str:
    where = spot_words(str(d.get("spot", "")))
    if "last" in d:
        return f"the {where} had hurt in the session before" if d.get("spot") else "a joint had hurt before"
    return f"the {where} hurt {d['value']} out of 10" if d.get("spot") else f"a joint hurt {d['value']} out of 10"


def _days(d: Data) -> str:
    near = {0: "there had been training that day", 1: "there had been training the day before"}
    return near.get(int(d["days"]), f"the last strength session was {d['days']} days back")


CAUSES: Mapping[RuleId, Callable[[Data], str]] = {
    RuleId.SYMPTOMS: lambda d: f"{SYMPTOMS[str(d['symptom'])]} was reported",
    RuleId.PAIN: _pain,
    RuleId.PAIN_RISE: lambda d: f"the {spot_words(str(d['spot']))} was worse after the session before",
    RuleId.SORENESS: lambda d: f"the muscles of the {spot_words(str(d['spot']))} were achy",
    RuleId.EFFORT: lambda d: "the session before was harder than planned",
    RuleId.COMPLETION: lambda d: "the session before was not finished",
    RuleId.READINESS: lambda d: "sleep, energy or feeling settled was low",
    RuleId.DAYS: _days,
    RuleId.RETURN: lambda d: "it was a step on the way back",
    RuleId.CLEARANCE: lambda d: "training was still on hold",
    RuleId.CLEAN_SESSIONS: lambda d: "two good sessions in a row were still to come",
    RuleId.ANSWERED_BY: lambda d: "someone else had answered",
    RuleId.NO_CHECK_IN: lambda d: "there was no check-in",
    RuleId.FALL: lambda d: "there had been a fall not long before",
    RuleId.FLARE: lambda d: "things got worse a day or two after the session before",
}


def eased_sentence(dose: Dose) -> str:
    """`Gentler than planned: shorter work, longer rests and 2 rounds, because the right hip hurt 4 out of 10.`

    What only cut it short stands after it; empty where nothing was taken.
    """
    said = [f"{_how(dose)}{_because(dose)}."] if dose.level in HEADS else []
    for reason in dose.reasons:
        if reason.rule is RuleId.MINUTES:
            said.append(f"Cut to fit {dict(reason.data).get('minutes', 'fewer')} minutes.")
        elif reason.rule is RuleId.LIGHTER_WEEK:
            said.append("A lighter week.")
    return " ".join(said)


def _how(dose: Dose) -> str:
    parts = ["shorter work"] if dose.work < FULL else []
    parts += ["longer rests"] if dose.rest > FULL else []
    parts += ["lighter weights"] if 0 < dose.load < FULL and dose.level < Level.GENTLE else []
    return f"{HEADS[dose.level]}: {listed([*parts, count(dose.rounds, 'round')])}"


def _because(dose: Dose) -> str:
    """The votes that decided it, at most two, each spot once."""
    causes: dict[tuple[RuleId, object], str] = {}
    for reason in dose.reasons:
        if reason.level == dose.level:
            causes.setdefault((reason.rule, dict(reason.data).get("spot", reason.data)), _cause(reason))
    told = list(dict.fromkeys(cause for cause in causes.values() if cause))[:MOST_CAUSES]
    return f", because {listed(told)}" if told else ""


def _cause(reason: Reason) -> str:
    if reason.missing:
        return "a question was not answered"
    try:
        return CAUSES[reason.rule](dict(reason.data))
    except UNTELLABLE:
        return ""  # a change that no vote made, or one from elsewhere without what it speaks of


def reasons_line(number: int) -> str:
    """`3 reasons`."""
    return count(number, "reason")
