"""Words of one person's page at the coach's desk. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from app.domain.model.client import Client, ConditionTerms
from app.domain.model.diary import AnsweredBy
from app.domain.model.person import Person
from app.domain.model.plan import Dose, Reason
from app.domain.model.record import CheckIn, Ending, How, Hurt, HurtKind, SessionDone
from app.domain.model.rules import RuleId, vote_source
from app.words.client.today import day_words
from app.words.conditions import COACH_WORDS
from app.words.reasons import reason_text
from app.words.signs import SIGN_WORDS, sign_words
from app.words.text import AXIS_WORDS, LEVEL_WORDS, count, listed, time_trained

NOT_FOUND = "There is no one with that id here."
TO_PEOPLE = "Back to people"
SESSIONS_HEAD = "Last sessions"
STRIP_LEGEND = "Top: planned. Bottom: what they did. Low: easier. Dotted: left out. Double bar: stopped."
NO_SESSIONS = "No sessions received yet."
EARLIER = "Show earlier sessions"
WHY = "Why this amount"
CHANGED_BY_PROGRAM = "Swapped in by the app"
AS_WRITTEN = "As written; none of their answers made it easier."
PAIN_HEAD, SORENESS_HEAD = "Pain, six weeks", "Achy muscles, six weeks"


def worst_of_three(eased_from: int) -> str:
    """What the points of a chart are, and its dotted line."""
    return f"The worst of every three days, 0 to 10. Dotted: from {eased_from} up, sessions are made easier."


def no_pain(until: date | None) -> str:
    """`No pain reported up to 14 February.`; nothing is claimed of the days since, on which nothing was said."""
    return f"No pain reported up to {until.day} {until:%B}." if until else "Nothing reported about pain in six weeks."


def no_soreness(until: date | None) -> str:
    """The same of achy muscles."""
    return f"No achy muscles reported up to {until.day} {until:%B}." if until \
        else "Nothing reported about achy muscles in six weeks."


NOT_TOLD = "Not shared"
EFFORT_HEAD = "Effort"
EFFORT_TOLD, EFFORT_MEANT = "reported", "planned"
EFFORT_SAID = "One point for each session, 0 to 10. Solid: reported. Dashed: planned."
NO_EFFORT = "No effort reported yet."
FIRST, LAST = "first session", "last session"
LOAD_HEAD = "Weekly load"
LOAD_SAID = (
    "Session RPE × minutes, AU, for the week ending on the day below. No threshold says what is too much; read it "
    "beside pain and effort."
)
LOAD_UNIT = "AU"
NO_LOAD = "No session with an effort rating in six weeks."
WEEKS_AGO, TODAY = "6 weeks ago", "today"
CHECK_INS_HEAD = "Check-ins"
NO_CHECK_INS = "No check-ins received yet."
NOTES_HEAD = "Notes"
NO_NOTES = "No notes."
ABOUT_HEAD = "About"
NOT_SENT_HEAD = "What they don’t share"
ALL_SENT = "They share everything: sessions, pain, check-ins and notes."
OWN_WORDS = (
    "All of this is what they or their helper reported. It is not a diagnosis, and nobody monitors them between one "
    "diary and the next."
)

CONDITION_WORDS = COACH_WORDS
RULE_WORDS: Mapping[RuleId, str] = {
    RuleId.SYMPTOMS: "Symptoms", RuleId.PAIN: "Pain", RuleId.PAIN_RISE: "Pain the morning after",
    RuleId.SORENESS: "Achy muscles", RuleId.EFFORT: "Effort of the last session", RuleId.COMPLETION: "Completion",
    RuleId.READINESS: "Sleep, energy, settled", RuleId.DAYS: "Days since strength work",
    RuleId.RETURN: "Coming back", RuleId.CLEARANCE: "On hold", RuleId.CLEAN_SESSIONS: "Two clean sessions",
    RuleId.ANSWERED_BY: "Answered by someone else", RuleId.NO_CHECK_IN: "No check-in",
    RuleId.LIGHTER_WEEK: "Lighter week", RuleId.MINUTES: "Time available",
    RuleId.FALL: "A fall", RuleId.FLARE: "Worse a day or two later",
    RuleId.CONDITION: "A condition",
}
SENDS: Mapping[str, str] = {
    "sessions": "They don’t share sessions.",
    "pain": "They don’t share pain and achy muscles, so there may be some you can’t see here.",
    "check_ins": "They don’t share check-ins, so you don’t see their sleep, energy and warning signs in the morning.",
    "notes": "They don’t share notes.",
}
ENDINGS: Mapping[Ending, str] = {
    Ending.FINISHED: "Finished", Ending.INTERRUPTED: "Interrupted by something outside",
    Ending.TOO_MUCH: "Stopped: too much", Ending.PAIN: "Stopped: pain", Ending.SIGN: "Stopped",
}


ENDED_EARLY = "Ended early, enough for that day"


# ------------------------------------------------------------------ the person

def about_line(person: Person, year: int) -> str:
    """`About 71, helped by Halina`."""
    told = [f"about {year - person.birth_year}"] if person.birth_year else []
    told += [f"helped by {person.led_by}"] if person.led_by else []
    told += ["trains alone"] if person.body.alone else []
    words = ", ".join(told)
    return words[:1].upper() + words[1:]


def body_lines(body: Client) -> tuple[tuple[str, str], ...]:
    """(name, value) of everything that shapes a session for them."""
    told = [("Conditions", "; ".join(CONDITION_WORDS[c] for c in sorted(body.conditions)) or "none reported")]
    spared = [f"{spot} ({cap} of 3)" for spot, cap in sorted(body.spare.items())]
    told.append(("Go easy on", listed(spared) or "nothing"))
    if body.limits:
        limits = [f"{AXIS_WORDS[axis]} at most {cap} of 3" for axis, cap in sorted(body.limits.items())]
        told.append(("Limits", listed(limits)))
    for own in body.told_limits:
        until = f", to be reviewed from {day_words(own.until)}" if own.until else ""
        told.append((f"Limit, {AXIS_WORDS[own.axis]}", f"at most {own.at_most} of 3, by {own.said_by}{until}"))
    for condition, terms in sorted(body.terms.items()):
        if condition in body.conditions and (said := _terms(terms)):
            told.append((CONDITION_WORDS[condition].capitalize(), said))
    for spot, usual in sorted(body.usual_pain.items()):
        told.append((f"Usual pain, {spot}",
                     f"{usual.level} out of 10, agreed with a {usual.agreed_with}, until {day_words(usual.until)}"))
    told.append(("Up from the floor alone", "yes" if body.rises_unaided else "no"))
    told.append(("Kit", listed(sorted(body.kit)).replace("_", " ") if body.kit else "none" if body.kit is not None
                 else "not reported"))
    if body.weights_g:
        told.append(("Weights", listed([f"{g / 1000:g} kg" for g in body.weights_g])))
    if body.same_as_always:
        told.append(("Same as always", "same order, nothing swapped"))
    if body.rest_side:
        limb = f"{body.rest_side} {body.rest_limb or 'arm and leg'}"
        told.append(("Resting side", f"{limb}: {body.rest_side_because}"))
    return tuple(told)


def _terms(terms: ConditionTerms) -> str:
    """`since 3 March; said by Dr Moss; first limits lifted by Dr Moss on 1 June`."""
    told = [f"since {day_words(terms.since)}"] if terms.since else []
    told += [f"said by {terms.said_by}"] if terms.said_by else []
    told += [f"to be reviewed from {day_words(terms.until)}"] if terms.until else []
    if terms.cleared_by and terms.cleared:
        told.append(f"first limits lifted by {terms.cleared_by} on {day_words(terms.cleared)}")
    return "; ".join(told)


def not_sent(person: Person) -> tuple[str, ...]:
    """A sentence for each kind that they do not send."""
    return tuple(words for kind, words in SENDS.items() if kind not in person.sends)


# ------------------------------------------------------------------ a session

def session_head(done: SessionDone) -> str:
    """`Sunday 23 November, Legs and back`."""
    return f"{day_words(done.stamp.local)}, {done.name}"


def session_line(done: SessionDone) -> str:
    """How it ended, how much of it, how hard."""
    told = [ended(done), f"{done.completed}% of the planned work", time_trained(done)]
    told.append(f"effort {done.rpe} out of 10, planned {done.plan.target_rpe}" if done.rpe is not None
                else f"effort not reported, planned {done.plan.target_rpe}")
    return "; ".join(told)


def ended(done: SessionDone) -> str:
    """How it ended, with the sign if one did."""
    if done.ending is Ending.SIGN:
        words = sign_words(done.sign)
        return f"Stopped: {words[:1].lower()}{words[1:]}"
    return ENDED_EARLY if done.is_left_early else ENDINGS[done.ending]


def pain_line(done: SessionDone) -> str:
    """What hurt, said afterwards."""
    if done.pain is None:
        return "Pain afterwards: not reported"
    told = [f"{spot} {level}" for spot, level in sorted(done.pain.items()) if level]
    return f"Pain afterwards: {listed(told) or 'none'}"


HURT_KINDS: Mapping[HurtKind, str] = {
    HurtKind.SHARP: "sharp", HurtKind.DULL: "dull", HurtKind.PULLING: "pulling",
    HurtKind.BURNING: "a muscle tiring", HurtKind.NUMB: "numb or tingling",
}


def hurt_line(hurt: Hurt, names: Mapping[str, str]) -> str:
    """`That hurts` in the session: where, how much, in what, when."""
    at = f" in “{names.get(hurt.exercise, hurt.exercise)}”" if hurt.exercise else ""
    gave = ", and it gave way" if hurt.gave_way else ""
    kind = f", {HURT_KINDS[hurt.kind]}" if hurt.kind else ""
    by = ", reported by their helper" if hurt.answered_by is AnsweredBy.LEADER else ""
    return f"“That hurts” at minute {hurt.at_ms // 60_000}: {hurt.spot} {hurt.level} out of 10{kind}{at}{gave}{by}"


def by_hand_line(change: tuple[str, str], names: Mapping[str, str]) -> str:
    """A change made by hand."""
    written, chosen = (names.get(i, i.replace("-", " ")) for i in change)
    return f"Swapped by them: “{chosen}” instead of “{written}”"


def done_line(done: SessionDone) -> str:
    """Work intervals that were not done in full."""
    named = ((How.EASIER, "easier"), (How.PART, "in part"), (How.SKIPPED, "left out"))
    told = [f"{number} {words}" for how, words in named if (number := sum(d.how is how for d in done.done))]
    return f"{count(sum(s.is_effort for s in done.plan.steps), 'work interval')} planned" + (
        f"; {listed(told)}" if told else "")


def dose_line(dose: Dose) -> str:
    """The level and its amounts."""
    amounts = f"{count(dose.rounds, 'round')}, work {dose.work}%, rest {dose.rest}%, weights {dose.load}%"
    return f"Level {dose.level}, {LEVEL_WORDS[dose.level].lower()}: {amounts}"


def reason_line(reason: Reason) -> tuple[str, str]:
    """The rule with the level it voted for; then the sentence that the client read, and where the rule comes from."""
    head = f"{RULE_WORDS[reason.rule]} asked for level {reason.level}" if reason.level else RULE_WORDS[reason.rule]
    return head, f"They read: “{reason_text(reason)}” Source: {vote_source(reason.rule)}."


# ------------------------------------------------------------------ check-ins

def check_in_line(told: CheckIn) -> str:
    """The answers of one morning in a line."""
    feel = [f"{word} {value}" for word, value in
            (("slept", told.slept), ("energy", told.energy), ("settled", told.calm)) if value is not None]
    parts = [f"{', '.join(feel)} out of 5"] if feel else ["sleep, energy, settled not reported"]
    for word, levels in (("hurts", told.pain), ("morning after", told.morning_after), ("achy", told.soreness)):
        if levels:
            parts.append(f"{word}: {listed([f'{spot} {level}' for spot, level in sorted(levels.items())])}")
    if told.pain is None:
        parts.append("pain not reported")
    signs = [SIGN_WORDS.get(s, s) for s in told.signs]
    parts += [f"warning signs: {listed(signs).lower()}"] if signs else []
    return "; ".join(parts)


def check_in_head(told: CheckIn) -> str:
    """`Sunday 23 November, level 2, answered by their helper`."""
    by = ", answered by their helper" if told.answered_by.value == "leader" else ""
    level = f", level {told.level}" if told.level is not None else ""
    return f"{day_words(told.stamp.local)}{level}{by}"
