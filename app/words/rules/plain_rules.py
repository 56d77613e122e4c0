"""The rules in plain words, for the people who train: the page "Why?". Exact wording for coaches: `exact_rules.py`.

Every number comes from the tables that decide. Own wording; nothing here is medical advice. Knows no Flet.
"""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.dosing import screening, votes
from app.domain.dosing.rulebook import Stretch, answers, given
from app.domain.model import rules
from app.domain.model import thresholds as at
from app.domain.model.anchors import ANCHORS, GENERAL
from app.domain.model.body import REGION_AXES
from app.domain.model.level import Level
from app.domain.model.record import FunctionalCheck
from app.domain.model.rules import RuleId, RuleTable
from app.domain.progress import progression_ladder as steps
from app.words.client.checks import ABOUT, NAMES
from app.words.client.welcome import CONDITIONS
from app.words.coach.proofreading import PROBLEMS
from app.words.parts import REGIONS
from app.words.rules.exact_rules import span
from app.words.rules.limb_and_rise_rules import limbs_for_client, rises_for_client
from app.words.rules.section import Section
from app.words.rules.watching_rows import PLAIN_LIST, PLAIN_WEEKS
from app.words.signs import ASK_TODAY, EMERGENCIES, SIGN_WORDS
from app.words.text import AXIS_WORDS, LEVEL_WORDS, count, listed

TITLE = "Why?"
LEAD = "Why today is as it is: the rules that every session goes by."
COACH_LINK = "The rules in full"
TO_RULES, TO_TODAY, TO_PUBLISH = "All the rules", "Back to today", "Back to publishing"
NOT_MEDICAL = (
    "This is no medical advice. Most of these numbers are coaching practice, taken at their careful edge, and not "
    "proven thresholds. What your doctor or physiotherapist says comes before anything that stands here."
)

#: What a level does, as short as it can be said.
EFFECTS: Mapping[int, str] = {
    0: "nothing is eased", 1: "as written, no step up", 2: "a little less", 3: "easier", 4: "a light session",
    5: "gentle movement only", 6: "a rest day", 7: "ask first", 8: "stop: call for help",
}
ASKED: Mapping[RuleId, tuple[str, str]] = {
    RuleId.PAIN: ("A joint hurts, 0 to 10", ""),
    RuleId.PAIN_RISE: ("A joint was worse the morning after, in points", ""),
    RuleId.SORENESS: ("Tired, achy muscles, 0 to 10", ""),
    RuleId.EFFORT: ("How much harder than meant it was, in points", ""),
    RuleId.COMPLETION: ("How much of the last session was done", " %"),
    RuleId.READINESS: ("Slept, energy and settled together, 3 to 15", ""),
    RuleId.DAYS: ("Days since the last strength session", ""),
}


def _effects(stretches: tuple[Stretch, ...], unit: str) -> str:
    """`0–2: nothing is eased; 3: as written, no step up`."""
    return "; ".join(f"{_span(s, unit)}: {EFFECTS[s.level]}" for s in stretches)


def _span(stretch: Stretch, unit: str) -> str:
    if stretch.first is None:
        return f"{stretch.last}{unit} or less"
    return f"{stretch.first}{unit} or more" if stretch.last is None else span(stretch, unit)


def sentence(words: str) -> str:
    """With a capital and a full stop; names inside stay as they are."""
    return f"{words[:1].upper()}{words[1:]}."


def _how() -> Section:
    rows = []
    for one in given():
        if one.level == Level.HOLD:
            continue
        if one.level > Level.GENTLE:
            rows.append((LEVEL_WORDS[one.level], "No session."))
            continue
        rounds = "all rounds" if one.rounds == (2, 3, 4) else f"of 3 rounds {count(one.rounds[1], 'round')}"
        weights = f"weights {one.load} %" if one.load else "no weights"
        rows.append((LEVEL_WORDS[one.level], sentence(f"{rounds}, work {one.work} %, rest {one.rest} %, {weights}")))
    return Section("how", "How today’s amount comes about", (
        "Each answer of the morning asks for an amount. The smallest amount that any of them asks for is today’s, and "
        "every reason is shown on the card.",
        "The same answers always give the same session. A worse answer never gives more. A question that is left out "
        "never gives more than its best answer would.",
        "Warm-up and cool-down are never cut, and both sides are always treated alike.", NOT_MEDICAL,
    ), ("Said as", "What there is"), tuple(rows))


def _answers(table: RuleTable) -> Section:
    rows = [(ASKED[rule][0], f"{_effects(found, ASKED[rule][1])}.") for rule, found in answers(table).items()]
    return Section("answers", "What each answer does", (
        "First of all: whether anything is new or worrying. Without that answer there is no session.",
        f"A joint that is still worse {table.rise_hours} hours after a session, and muscles at {table.soreness_long} "
        f"or more for longer than {table.soreness_hours} hours, mean: ask first.",
        f"“As hard as {table.effort_top}” always means a light session next time. Sleep, energy or settled at 1 means "
        "a little less at least.",
        "A strength session is read against the last strength session and a light one against the last light one; a "
        "later session of the other kind that went badly counts as well.",
        f"If you felt clearly worse a day or two after the last session, today is {EFFECTS[votes.FLARE]}; "
        "where you are asked and would rather not say, it is the same. After a fall "
        f"nothing gets harder for {at.FALL_HOLDS_DAYS // 7} weeks, and for {at.FALL_SUPPORT_DAYS // 7} weeks you "
        "keep a hand on something for balance.",
    ), ("Answer", "What it does"), tuple(rows))


def _joints() -> Section:
    rows = tuple((REGIONS[region], sentence(listed([AXIS_WORDS[a] for a in axes])))
                 for region, axes in REGION_AXES.items())
    return Section("joints", "What rests with which joint", (
        f"A joint at {at.PAIN_CAPS} or {at.PAIN_RESTS - 1} of 10 gets only light moves today; from "
        f"{at.PAIN_RESTS} on none that load it. Another move stands in, or the other side goes on alone.",
        "What you want to go easy on is kept to in the same way, whether it hurts that day or not.",
    ), ("Joint", "What loads it"), rows)


def _conditions() -> Section:
    return Section("conditions", "What a clinician has said", (
        "Each thing that is ticked under “What clinicians have said” leaves something out, every day, until you take "
        "it away. Your coach can make it stricter and never looser.",
        "After an operation the limits are stricter until a clinician has said that they may go. After some weeks you "
        "are reminded to ask; nothing is lifted by the calendar alone.",
    ), ("Ticked", "What follows"), tuple(CONDITIONS.values()))


def _stops() -> Section:
    hours = int(at.FEVER_FREE.total_seconds()) // 3600
    rows = (*((SIGN_WORDS[sign], "Call for help at once; then a clinician’s yes.") for sign in EMERGENCIES),
            *((SIGN_WORDS[sign], "Stop, ask the same day; then a yes.") for sign in ASK_TODAY),
            (f"Pain of {at.PAIN_ENDS} or more, or a joint that gave way", "Stop; then a clinician’s yes."),
            ("A fall that hurt, with blood thinners, or not got up from alone",
             "Ask the same day; then a clinician’s yes."))
    return Section("stops", "What stops a session", (
        "It is never a diagnosis, only a reason to ask somebody who can look at you.",
        f"After a fever your own word is enough once it has been gone for {hours} hours. After muscles that stayed "
        "very achy your coach’s yes is enough. Everything else takes a clinician’s.",
        f"The stop questions come again after {screening.ASK_AGAIN_DAYS} days without a session, and after a stop.",
        "What you tick there either waits for a clinician’s yes, or only sets your sessions: with tablets that thin "
        "the blood, for example, balance is done with a hand on something. New questions are asked once; until you "
        "answer them everything stays as it was.",
    ), ("What", "What follows"), rows)


def _way_back() -> Section:
    return Section("way-back", "The way back, and the way on", (
        "After an easing because of pain, achy muscles, illness or effort the next session is at most one step better; "
        f"after a stop and its yes it starts with “{LEVEL_WORDS[votes.RESTART].lower()}”.",
        "Bad sleep, a gap or a session cut short are not carried on: the next good morning counts.",
        f"A move gets a little more only after {at.CLEAN_NEEDED} sessions in a row that went well: done to the "
        f"end, no harder than meant, nothing hurting at {at.PAIN_HOLDS} or more. Never one that loads a joint which "
        "hurts, and never by somebody else’s guess.",
        f"It is {steps.MORE_S} seconds or {steps.MORE_REPS} repetition more at a time, once a week at most. When that "
        "has grown enough, the next weight you own comes with fewer repetitions, and after that a harder move. What "
        "hurt, was made easier or left out goes a step back automatically.",
        "If you have a usual pain that a clinician knows of, you may do more of the same after "
        f"{at.CLEAN_WITH_USUAL_PAIN} good sessions, with no heavier weight and no harder move.",
    ))


def _over_weeks() -> tuple[Section, Section]:
    return (Section("weeks", "The weeks of a programme", PLAIN_WEEKS),
            Section("attention", "What your coach sees of it", PLAIN_LIST))


def _coach(table: RuleTable) -> Section:
    soft = {RuleId.READINESS: "sleep, energy and settled", RuleId.DAYS: "days between",
            RuleId.COMPLETION: "how much was done"}
    words = listed([soft[rule] for rule in soft if rule in rules.SOFTENABLE])
    return Section("coach", "What your coach may change", (
        f"Your coach chose the table “{table.preset}”. They may make any rule stricter. They may soften only what "
        f"hangs on {words}. Pain, achy muscles, signs and what a clinician has said can never be softened.",
    ))


def _demands() -> Section:
    rows = tuple((AXIS_WORDS[axis].capitalize(), _levels_of(anchors)) for axis, anchors in ANCHORS.items())
    return Section("demands", "What a move asks of a joint", (
        "Every move is rated from 0 to 3 for what it may ask of the body. The ratings are a coach’s "
        f"judgement and no measurement. {_levels_of(GENERAL)}",
    ), ("What it asks", "0 to 3"), rows)


def _levels_of(anchors: tuple[str, ...]) -> str:
    return f"{'; '.join(f'{n}: {words}' for n, words in enumerate(anchors))}."


def _checks() -> Section:
    rows = tuple((NAMES[check], ABOUT[check]) for check in FunctionalCheck)
    return Section("checks", "The checks", (
        "Nobody has to do them, and nothing is decided by them. You see your own results; your coach also sees how "
        "they compare with published figures, which say something about groups and little about one person.",
        f"Not on a day when a joint hurts {at.PAIN_CAPS} out of 10 or more. Where you have agreed on a usual pain with "
        f"a clinician, a check is possible up to that level and below {at.USUAL_PAIN_MOST}.",
        "If your limits leave one out, you are told why and what to do instead: up from a higher chair, or on one leg "
        "with a hand on something. Standing on one leg without a hold and the walks are never done alone.",
        "Small differences are normal. A difference is only called a change where it is larger than such a check "
        "varies from day to day.",
    ), ("Check", "What it measures"), rows)


def _proofread() -> Section:
    rows = tuple((said,) for said, _ in PROBLEMS.values())
    return Section("proofread", "What is looked for before a session reaches you", (
        "Before your coach hands out a programme it is proofread. These are the faults that are looked for; those that "
        "could hurt somebody keep it from going out at all.",
    ), (), rows)


def _sources(table: RuleTable) -> Section:
    rows = tuple((ASKED[rule][0], sentence(getattr(table, rule.value).source)) for rule in ASKED)
    return Section("sources", "Where the numbers come from", (
        "“Coaching convention” means: it has proved itself in practice, and nobody has measured it.",
    ), ("Answer", "Source"), rows)


def for_client(table: RuleTable = rules.DEFAULT_RULES) -> tuple[Section, ...]:
    """Every section, with their coach's own table."""
    return (_how(), _answers(table), _joints(), limbs_for_client(), rises_for_client(), _conditions(), _stops(),
            _way_back(), *_over_weeks(), _coach(table), _demands(), _checks(), _proofread(),
            _sources(table))
