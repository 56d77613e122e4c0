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
from app.words.rules.look_rows import looks_for_client
from app.words.rules.section import Section
from app.words.rules.watching_rows import PLAIN_LIST, PLAIN_WEEKS
from app.words.signs import ASK_TODAY, EMERGENCIES, SIGN_WORDS
from app.words.text import AXIS_WORDS, LEVEL_WORDS, count, listed

TITLE = "Why?"
LEAD = "Why today’s session is the way it is: the rules behind every session."
COACH_LINK = "The rules in full"
TO_RULES, TO_TODAY, TO_PUBLISH = "All the rules", "Back to today", "Back to publishing"
NOT_MEDICAL = (
    "This is not medical advice. Most of these numbers are cautious coaching practice, not proven thresholds. What "
    "your doctor or physiotherapist says comes before anything written here."
)

#: What a level does, as short as it can be said.
EFFECTS: Mapping[int, str] = {
    0: "no change", 1: "as written, no harder", 2: "a little less", 3: "easier", 4: "a light session",
    5: "gentle movement only", 6: "a rest day", 7: "ask first", 8: "stop: call for help",
}
ASKED: Mapping[RuleId, tuple[str, str]] = {
    RuleId.PAIN: ("A joint hurts, 0 to 10", ""),
    RuleId.PAIN_RISE: ("A joint was worse the morning after, in points", ""),
    RuleId.SORENESS: ("Achy muscles, 0 to 10", ""),
    RuleId.EFFORT: ("How much harder than planned it was, in points", ""),
    RuleId.COMPLETION: ("How much of the last session you did", "%"),
    RuleId.READINESS: ("Sleep, energy and feeling settled added up, 3 to 15", ""),
    RuleId.DAYS: ("Days since the last strength session", ""),
}


def _effects(stretches: tuple[Stretch, ...], unit: str) -> str:
    """`0–2: no change; 3: as written, no harder`."""
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
        rounds = "all rounds" if one.rounds == (2, 3, 4) else f"{count(one.rounds[1], 'round')} out of 3"
        weights = f"weights {one.load}%" if one.load else "no weights"
        rows.append((LEVEL_WORDS[one.level], sentence(f"{rounds}, work {one.work}%, rest {one.rest}%, {weights}")))
    return Section("how", "How we decide how much to do today", (
        "Each of your morning answers asks for an amount. We use the smallest of them, and show you every reason.",
        "The same answers always give the same session. A worse answer never gives you more to do, and skipping a "
        "question never gives you more than its best answer would.",
        "We never cut the warm-up or the cool-down.", NOT_MEDICAL,
    ), ("Called", "What you do"), tuple(rows))


def _answers(table: RuleTable) -> Section:
    rows = [(ASKED[rule][0], f"{_effects(found, ASKED[rule][1])}.") for rule, found in answers(table).items()]
    return Section("answers", "What each answer does", (
        "First we ask whether anything is new or worrying. We need that answer before any session.",
        f"If a joint is still worse {table.rise_hours} hours after a session, or muscles are at {table.soreness_long} "
        f"or more for longer than {table.soreness_hours} hours, ask first.",
        f"An effort of {table.effort_top} always means a light session next time. If sleep, energy or feeling settled "
        "is at 1, the session is at least a little gentler.",
        "We compare a strength session with the last strength session, and a light one with the last light one. A "
        "later session of the other kind counts too if it went badly.",
        f"If you felt clearly worse a day or two after the last session, today is {EFFECTS[votes.FLARE]}; it is the "
        "same if we ask and you would rather not say. After a fall "
        f"nothing gets harder for {at.FALL_HOLDS_DAYS // 7} weeks, and for {at.FALL_SUPPORT_DAYS // 7} weeks you hold "
        "on during balance exercises.",
    ), ("Answer", "What it does"), tuple(rows))


def _joints() -> Section:
    rows = tuple((REGIONS[region], sentence(listed([AXIS_WORDS[a] for a in axes])))
                 for region, axes in REGION_AXES.items())
    return Section("joints", "What we leave out for which joint", (
        f"A joint at {at.PAIN_CAPS} or {at.PAIN_RESTS - 1} out of 10 gets only light exercises today; from "
        f"{at.PAIN_RESTS} up, none that work it. We swap in another exercise, or you do the other side only.",
        "We go easy in the same way on anything you asked us to, whether it hurts that day or not.",
    ), ("Joint", "What works it"), rows)


def _conditions() -> Section:
    return Section("conditions", "Your health", (
        "Everything you ticked under “Health” leaves something out, every day, until you change it. Your coach can "
        "make it stricter, but never less strict.",
        "After an operation the limits are stricter until a doctor, nurse or physio says they can be lifted. After "
        "some weeks we remind you to ask; the calendar alone changes nothing.",
    ), ("Ticked", "What follows"), tuple(CONDITIONS.values()))


def _stops() -> Section:
    hours = int(at.FEVER_FREE.total_seconds()) // 3600
    rows = (*((SIGN_WORDS[sign],
                          "Call for help at once; then you need a go-ahead from a doctor, nurse or "
                          "physio.") for sign in EMERGENCIES),
            *((SIGN_WORDS[sign], "Stop and ask the same day; then you need a go-ahead.") for sign in ASK_TODAY),
            (f"Pain of {at.PAIN_ENDS} or more, or a joint that gave way",
             "Stop; then you need a go-ahead from a doctor, nurse or physio."),
            (f"Pain of {at.PAIN_RESTS} or more within {at.FALL_HOLDS_DAYS // 7} weeks of a fall, in the back with "
             "osteoporosis, or in a joint or back that was operated on, before the go-ahead",
             "Ask the same day; then you need a go-ahead from a doctor, nurse or physio."),
            ("A fall that hurt you, or with blood thinners, or when you couldn’t get up without help",
             "Ask the same day; then you need a go-ahead from a doctor, nurse or physio."))
    return Section("stops", "What stops a session", (
        "This is not a diagnosis, only a reason to have someone look at you.",
        f"After a fever you can decide yourself once it has been gone for {hours} hours. After muscles that stayed "
        "very achy, your coach can give the go-ahead. For everything else it takes a doctor, nurse or physio.",
        f"We ask the safety questions again after {screening.ASK_AGAIN_DAYS} days without a session, and after "
        "training has been on hold.",
        "What you tick there either needs a go-ahead or only changes your sessions: with medicine that thins the "
        "blood, for example, you hold on during balance exercises. We ask new questions once; until you answer them "
        "everything stays as it was.",
    ), ("What", "What follows"), rows)


def _way_back() -> Section:
    return Section("way-back", "Coming back, and getting stronger", (
        "If a session was made easier because of pain, achy muscles, illness or effort, the next one is at most one "
        f"step fuller. After training has been on hold, you start again with “{LEVEL_WORDS[votes.RESTART].lower()}”.",
        "Poor sleep, a gap or a session cut short don’t carry over: the next good morning counts.",
        f"An exercise gets a little harder only after {at.CLEAN_NEEDED} sessions in a row that went well: done to the "
        f"end, no harder than planned, nothing hurting at {at.PAIN_HOLDS} or more. Never one that works a joint that "
        "hurts, and never on someone else’s guess.",
        f"It is {steps.MORE_S} seconds or {steps.MORE_REPS} repetition more at a time, once a week at most. After "
        "enough of those, the next weight you own comes with fewer repetitions, and after that a harder exercise. If "
        "one hurt, was made easier or was left out, it goes back a step.",
        "If you have agreed a usual pain with a doctor or physiotherapist, you can do more of the same after "
        f"{at.CLEAN_WITH_USUAL_PAIN} good sessions, with no heavier weight and no harder exercise.",
    ))


def _over_weeks() -> tuple[Section, Section]:
    return (Section("weeks", "The weeks of a programme", PLAIN_WEEKS),
            Section("attention", "What your coach sees", PLAIN_LIST))


def _coach(table: RuleTable) -> Section:
    soft = {RuleId.READINESS: "sleep, energy and feeling settled", RuleId.DAYS: "days between sessions",
            RuleId.COMPLETION: "how much you did"}
    words = listed([soft[rule] for rule in soft if rule in rules.SOFTENABLE])
    return Section("coach", "What your coach may change", (
        f"Your coach chose the “{table.preset}” rules. They can make any rule stricter. They can relax only what "
        f"depends on {words}. Pain, achy muscles, warning signs and your health can never be relaxed.",
    ))


def _demands() -> Section:
    rows = tuple((AXIS_WORDS[axis].capitalize(), _levels_of(anchors)) for axis, anchors in ANCHORS.items())
    return Section("demands", "What an exercise asks of your body", (
        "Every exercise is rated from 0 to 3 for what it asks of the body. The ratings are a coach’s judgement, not a "
        f"measurement. {_levels_of(GENERAL)}",
    ), ("What it asks", "0 to 3"), rows)


def _levels_of(anchors: tuple[str, ...]) -> str:
    return f"{'; '.join(f'{n}: {words}' for n, words in enumerate(anchors))}."


def _checks() -> Section:
    rows = tuple((NAMES[check], ABOUT[check]) for check in FunctionalCheck)
    return Section("checks", "The checks", (
        "You don’t have to do them, and they don’t change your sessions. You see your own results; your coach also "
        "sees how they compare with published figures, which describe groups and say little about one person.",
        f"Not on a day when a joint hurts {at.PAIN_CAPS} out of 10 or more. If you have agreed a usual pain with "
        f"a doctor or physiotherapist, you can do a check up to that level and below {at.USUAL_PAIN_MOST}.",
        "If your limits leave one out, we tell you why and what to do instead: up from a higher chair, or on one leg "
        "holding on. Please don’t do the walks, or stand on one leg without holding on, when you are alone.",
        "Small differences are normal. We call it a change only if it is bigger than the check varies from day to day.",
    ), ("Check", "What it measures"), rows)


def _proofread() -> Section:
    rows = tuple((said,) for said, _ in PROBLEMS.values())
    return Section("proofread", "What we check before a session reaches you", (
        "Before your coach sends a programme, the app proofreads it for these faults. A programme that could hurt "
        "someone can’t be sent.",
    ), (), rows)


def _sources(table: RuleTable) -> Section:
    rows = tuple((ASKED[rule][0], sentence(getattr(table, rule.value).source)) for rule in ASKED)
    return Section("sources", "Where the numbers come from", (
        "“Coaching convention” means that it has worked well in practice, but nobody has measured it.",
    ), ("Answer", "Source"), rows)


def for_client(table: RuleTable = rules.DEFAULT_RULES) -> tuple[Section, ...]:
    """Every section, with their coach's own table."""
    return (_how(), _answers(table), _joints(), limbs_for_client(), rises_for_client(), looks_for_client(),
            _conditions(), _stops(), _way_back(), *_over_weeks(), _coach(table), _demands(), _checks(), _proofread(),
            _sources(table))
