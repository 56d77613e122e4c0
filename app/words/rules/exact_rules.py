"""The rules in the exact words of the trade: for coaches on the page "Why?", and for `app/domain/RULES.md`.

Every number comes from the tables that decide. Wording for clients: `plain_rules.py`. Knows no Flet.
"""
from __future__ import annotations

from collections.abc import Sequence

from app.domain.checks import functional_checks, published_figures
from app.domain.compile import prescription
from app.domain.compile.prescription import LONGEST_HOLD_S
from app.domain.dosing import limits, screening, sore_places, votes
from app.domain.dosing.rulebook import Stretch, answers, given, level_of_one
from app.domain.dosing.screening import SIGNS
from app.domain.dosing.way_back import ILLNESS_CARRIES
from app.domain.model import rules
from app.domain.model import thresholds as at
from app.domain.model.anchors import ANCHORS, GENERAL
from app.domain.model.body import REGION_AXES
from app.domain.model.level import Level
from app.domain.model.proofreading_limits import limit_bounds, limit_sources
from app.domain.model.record import FunctionalCheck
from app.domain.model.references import HEART_ONLINE_2026, REFERENCES
from app.domain.model.rules import RuleId, RuleTable
from app.domain.model.session import MOST_STEPS, USUAL_STEPS
from app.domain.progress import progression_ladder as steps
from app.words.client.checks import NAMES
from app.words.client.stop_questions import ASKED_BEFORE, STOPS
from app.words.coach.checks import COACH_ERROR, TALKING_POINTS, band_line
from app.words.coach.person import RULE_WORDS
from app.words.coach.proofreading import PROBLEMS
from app.words.conditions import COACH_WORDS
from app.words.rules.condition_rows import axis_name, condition_rows
from app.words.rules.limb_and_rise_rules import limbs_for_coach, rises_for_coach
from app.words.rules.look_rows import looks_for_coach
from app.words.rules.section import Section
from app.words.rules.watching_rows import EXACT_LIST, EXACT_WEEKS, LIST_ROWS
from app.words.signs import SIGN_WORDS
from app.words.text import LEVEL_WORDS

TITLE = "How the app decides how much to do"
NOT_MEDICAL = (
    "None of this is medical advice. Numbers marked [P] are coaching conventions, not validated thresholds: read them, "
    "change them within their bounds, and sign them with your programme."
)


def span(stretch: Stretch, unit: str = "") -> str:
    """`4–5`, `≤ 0`, `≥ 29`, `3`."""
    first, last = stretch.first, stretch.last
    if first is None:
        return f"≤ {last}{unit}"
    if last is None:
        return f"≥ {first}{unit}"
    return f"{first}{unit}" if first == last else f"{first}–{last}{unit}"


def votes_line(stretches: Sequence[Stretch], unit: str = "") -> str:
    """`0–2 gives 0; 3 gives 1; 4–5 gives 2`."""
    return "; ".join(f"{span(s, unit)} gives {s.level}" for s in stretches)


def _levels(table: RuleTable) -> Section:
    rows = tuple(
        (str(g.level), LEVEL_WORDS[g.level], *(("–",) * 4 if g.level > Level.GENTLE else (
            ", ".join(map(str, g.rounds)), f"{g.work}%", f"{g.rest}%", f"{g.load}%")))
        for g in given()
    )
    return Section("levels", "Levels", (
        f"Every answer asks for a level from 0 to {max(Level)}. The highest wins; everything above 0 is shown as a "
        f"reason. At level {Level.PROGRESS} exercises may progress, at level {Level.HOLD} they stay as they are.",
        f"Whole numbers throughout. Work rounds down and rest up to {prescription.STEP_S} s; work never under "
        f"{prescription.LEAST_WORK_S} s, a hold never under {prescription.LEAST_HOLD_S} s, repetitions never under "
        f"{prescription.LEAST_REPS}, or what was written if that is less. Rest never grows past "
        f"{prescription.MOST_REST_S} s unless it was written longer; a load rounds down to a weight they own. Warm-up "
        "and cool-down are never cut.",
        f"This is version {table.version} of the table, preset “{table.preset}”.",
    ), ("Level", "Called", "Rounds left of 2, 3, 4", "Work", "Rest", "Load"), rows)


def _votes(table: RuleTable) -> Section:
    told = answers(table)
    symptoms = "; ".join(f"{s.value.replace('_', ' ')} gives {level}" for s, level in votes.SYMPTOM_LEVELS.items())
    more = {
        RuleId.PAIN: "worst region, now or in the last session; a usual pain agreed with a clinician asks for 0",
        RuleId.PAIN_RISE: (f"points, the morning after minus before; still up after {table.rise_hours} h gives "
                           f"{int(Level.ASK_FIRST)}"),
        RuleId.SORENESS: (f"worst region; ≥ {table.soreness_long} for more than {table.soreness_hours} h gives "
                          f"{int(Level.ASK_FIRST)}"),
        RuleId.EFFORT: (f"session RPE reported minus planned, for the last session of the same kind (with strength "
                        f"work or without) and of a later one of the other; RPE ≥ {table.effort_top} gives at least "
                        f"{table.effort_top_level}"),
        RuleId.COMPLETION: "of the planned work, percent, of the same sessions; “something came up” does not count",
        RuleId.READINESS: (f"slept + energy + settled, 3–15, high is good; any item at 1 gives at least "
                           f"{level_of_one(table)}"),
        RuleId.DAYS: "since strength work; only for sessions with strength work",
    }
    rows: list[tuple[str, ...]] = [(RULE_WORDS[RuleId.SYMPTOMS], symptoms, "", "the project’s list of warning signs")]
    for rule, stretches in told.items():
        source = getattr(table, rule.value).source
        rows.append((RULE_WORDS[rule], votes_line(stretches), more[rule], source))
    rows += [
        (RULE_WORDS[RuleId.RETURN], f"after a carried level {Level.EASIER}–{Level.REST} one level better; after "
         f"{Level.ASK_FIRST}–{Level.EMERGENCY} and a go-ahead, level {votes.RESTART}",
         "levels from pain, achy muscles, symptoms and effort carry over", rules_convention()),
        (RULE_WORDS[RuleId.CLEARANCE], f"training on hold without a go-ahead gives {int(Level.ASK_FIRST)}",
                                                                                        "", rules_convention()),
        (RULE_WORDS[RuleId.CLEAN_SESSIONS], f"fewer than {at.CLEAN_NEEDED} in a row give {votes.MISSING}",
         "takes nothing away; keeps exercises from progressing", rules_convention()),
        (RULE_WORDS[RuleId.ANSWERED_BY], f"a helper’s answers give {votes.MISSING}", "nothing progresses on a guess",
         rules_convention()),
        (RULE_WORDS[RuleId.FALL], f"one that hurt, without a go-ahead, gives {int(Level.ASK_FIRST)}; any "
         f"within {at.FALL_HOLDS_DAYS} days {votes.MISSING}",
         f"for {at.FALL_SUPPORT_DAYS} days balance only while holding on", rules_convention()),
        (RULE_WORDS[RuleId.FLARE], f"gives {votes.FLARE}", "clearly worse a day or two after the last session, as "
         "after a virus or during treatment; asked then, and not said, gives the same", rules_convention()),
    ]
    return Section("votes", "What each answer asks for", (
        f"If not answered: symptoms give {votes.MISSING_SYMPTOMS} (answer first); pain the worse of "
        f"{votes.MISSING_PAIN} and what the last answer asked for; worse later {votes.FLARE}, where it is asked; "
        f"anything else {votes.MISSING}. So skipping a question never gives more than its best answer.",
    ), ("Rule", "Answer and level", "Of what", "Source"), tuple(rows))


def rules_convention() -> str:
    """What is written where a number rests on practice alone."""
    return "coaching convention [P]"


def _regions() -> Section:
    rows = tuple((region.value, ", ".join(axis_name(a) for a in axes)) for region, axes in REGION_AXES.items())
    return Section("regions", "Regions and the demands that load them", (
        f"Besides the level, a region with pain {at.PAIN_CAPS}–{at.PAIN_RESTS - 1} allows demand ≤ 1 on its axes, "
        f"from {at.PAIN_RESTS} up demand 0; for one painful limb, see below. The lowest cap wins: pain, "
        "conditions, limits and what the client goes easy on. A usual pain within its agreement caps at "
        f"{sore_places.USUAL_CAP} and changes nothing else.",
        f"From pain {at.PAIN_ENDS} up, or if a joint gave way, the session ends and training is on hold until a "
        f"clinician’s go-ahead. If noise isn’t allowed, impact is capped at {limits.NOISE_CAP}.",
    ), ("Region", "Axes"), rows)


def _conditions() -> Section:
    return Section("conditions", "Conditions and their caps", (
        "Ticked by the client on a clinician’s word; agree each with one. They can’t be raised. Every cap is a "
        "convention [P] based on the source beside it.",
        "The first caps apply as well until a clinician’s go-ahead is recorded with its date. The calendar only asks: "
        "after so many weeks, or on the date given, the client is reminded; nothing is lifted automatically.",
        "Besides these you can cap any axis, with who said so and until when.",
    ), ("Condition", "Caps", "Until a clinician’s go-ahead", "Also", "Source"), condition_rows())


def _anchors() -> Section:
    rows = (("any axis", *GENERAL), *((axis_name(axis), *anchors) for axis, anchors in ANCHORS.items()))
    return Section("axes", "The axes and their anchors", (
        "Ratings are a coach’s judgement [P], not a measurement; angles are rough. An easier option never asks more on "
        "any axis than the exercise it eases; on the axes from spinal rounding on, a light demand counts as none.",
        "An exercise that was never rated on those later axes is taken to ask as much as its older ratings allow.",
    ), ("Axis", "0", "1", "2", "3"), rows)


def _stops() -> Section:
    signs = [(SIGN_WORDS[sign], f"{symptom.value.replace('_', ' ')}, level {votes.SYMPTOM_LEVELS[symptom]}")
             for sign, symptom in SIGNS.items()]
    sets = {key: f"; sets “{COACH_WORDS[one]}”" for key, one in screening.SETS.items()}
    asked = [(screening.DO_NOT_START, "do not start without a clinician’s go-ahead"), (screening.ASK_FIRST,
                                                                                       "ask first"),
             (screening.WITH_SETTINGS, "may start")]
    stops = [(STOPS[key], follows + sets.get(key, "")) for keys, follows in asked for key in keys
             if key not in ASKED_BEFORE]
    hours = int(at.FEVER_FREE.total_seconds()) // 3600
    return Section("stops", "Warning signs and safety questions", (
        "None of this is a diagnosis; a clinician and local emergency advice come first.",
        f"Training stays on hold until the right go-ahead: after a fever the client’s own, {hours} h after it; after "
        "long muscle aches yours; after everything else a clinician’s, with name and profession. Then it starts again "
        f"at level {votes.RESTART}.",
        f"The safety questions come again after {screening.ASK_AGAIN_DAYS} days without a session and after a level "
        f"{Level.ASK_FIRST} or {Level.EMERGENCY}. Pain of {at.PAIN_RESTS} or more within {at.FALL_HOLDS_DAYS} days of "
        "a fall, in the back with osteoporosis, or where an operation has no go-ahead yet, stops like pain of "
        f"{at.PAIN_ENDS}, unless a clinician agreed on it as usual [P]. A fall that hurt, with blood thinners, or "
        f"without getting up unaided puts training on hold too; an illness without fever carries level "
        f"{ILLNESS_CARRIES} over.",
        "A question can set a condition but never removes one; if it is set already, it isn’t asked. Clients who "
        "answered an older list are asked the missing questions once, above today’s session; until then everything "
        "stays as it was.",
        f"Pressure: no start from {at.PRESSURE_STOPS[0]}/{at.PRESSURE_STOPS[1]} ({HEART_ONLINE_2026.short}, a clinic’s "
        f"page that says “case by case”); {at.PRESSURE_STOPS_HEART} for the lower figure with a heart condition, and "
        f"asking from {at.PRESSURE_ASKS[0]}/{at.PRESSURE_ASKS[1]}, are conventions [P].",
    ), ("Sign or question", "What follows"), (*signs, *stops))


def _moving_on() -> Section:
    rows = (
        ("one step up", f"{at.CLEAN_NEEDED} clean sessions in a row in which it was done in full, at level "
         f"{Level.PROGRESS}"),
        ("one step back", f"it hurt, was made easier, left out or cut short; or a session {at.EFFORT_OVER} or "
         f"more harder than planned; or {at.GAP_BACK} days without it"),
        ("back to what was written", f"{at.GAP_OUT} days without it"),
        ("stays", f"anything else; it loads a region with pain of {at.PAIN_HOLDS} or more; you keep it as it is; level "
         f"{Level.HOLD}"),
    )
    return Section("moving-on", "Progress, station by station", (
        f"Clean: finished, at least {at.WHOLE_FROM}% of the work done, no harder than planned (a point "
        "over is fine while the last three of its kind average less than that), no pain of "
        f"{at.PAIN_HOLDS} or more beyond what is usual, no “that hurts”, and reported by the client.",
        f"A step adds {steps.MORE_S} s or {steps.MORE_REPS} repetition, up to {steps.TOP_WORK_S} s or {steps.TOP_REPS} "
        f"or {steps.MOST_WORK_S} s or {steps.MOST_REPS} if the next weight they own needs it (Epley’s "
        f"estimate: {steps.LEAST_AT_NEXT} repetitions there with {steps.IN_RESERVE} left); then that weight, for fewer "
        "repetitions; then the harder option at the amount written; and on from there. A hold grows to "
        f"{LONGEST_HOLD_S} s at most. An exercise progresses once in {at.STEP_DAYS} days, whichever session it is "
        f"in; two steps of amount at once if both sessions were {at.EFFORT_UNDER} points or more easier than planned.",
        f"With a usual pain within its agreement more of the same follows after {at.CLEAN_WITH_USUAL_PAIN} clean "
        "sessions, but no weight and no harder option.",
        f"You set the limit as the steps of a session: {USUAL_STEPS} if you don’t say, {MOST_STEPS} at most; 0 means "
        "never.",
    ), ("A station goes", "When"), rows)


def _over_weeks() -> tuple[Section, Section]:
    return (Section("weeks", "The weeks of a programme", EXACT_WEEKS),
            Section("attention", "Who is on your list, and why", EXACT_LIST, ("Reason", "When"), LIST_ROWS))


def _hand() -> Section:
    rows = tuple(
        (name, "; ".join(f"{RULE_WORDS[rule]} {by:+d}" for rule, by in moves.items()) or "as above")
        for name, moves in rules.PRESETS.items()
    )
    soft = ", ".join(sorted(RULE_WORDS[rule].lower() for rule in rules.SOFTENABLE))
    return Section("hand", "What you can change", (
        f"Choose one of three presets, and make any rule stricter by up to {rules.MOST_SHIFT} levels in [rules.shift]. "
        f"You can relax only these: {soft}. Pain, achy muscles, symptoms, effort and the caps can’t be relaxed.",
        "The app refuses to start on an unanswered or ticked safety question that needs a go-ahead; to carry on after "
        f"pain of {at.PAIN_ENDS} or “it gave way”; floor work for someone alone who can’t get up without help; "
        "unsupported balance for someone who falls; to swap in an exercise never shown to someone alone; to make "
        "anything harder on a helper’s guess; or to promise that anything is harmless.",
    ), ("Preset", "Levels added to what an answer asks for"), rows)


def _proofreading() -> Section:
    rows = tuple((rule, said, _with_limit(mend)) for rule, (said, mend) in PROBLEMS.items())
    return Section("proofreading", "What the proofreader checks", (
        "A check blocks publishing only if a client could be hurt: an easier option that asks more, a demand of 3 with "
        "no easier option, a side left out without a reason, an impossible time.",
    ), ("Check", "What is wrong", "How to fix it"), rows)


def _with_limit(mend: str) -> str:
    """The sentence with the limit named and not counted."""
    return mend.replace("{limit} s", "the limit").replace("{limit}", "the limit")


def _limits() -> Section:
    bounds, sources = limit_bounds(), limit_sources()
    rows = tuple((name, str(shipped), f"{least}–{most}", sources[name])
                 for name, (least, most, shipped) in bounds.items())
    return Section("limits", "The proofreader’s limits", (
        "Yours to set in [proofreading] of source.toml. Seconds where the name ends in _s; shares in percent.",
    ), ("Limit", "Shipped", "Bounds", "Source"), rows)


def _checks() -> Section:
    rows = tuple((NAMES[band.check], band_line(band)) for band in published_figures.BANDS)
    errors = tuple(f"{NAMES[check]}: {COACH_ERROR[check]}" for check in FunctionalCheck)
    weeks = at.RETEST.days // 7
    return Section("checks", "Functional checks", (
        "Only you see these; clients see their own results over time. A single check predicts falls poorly, and none "
        "is a diagnosis.",
        *errors,
        *TALKING_POINTS.values(),
        f"Not offered with pain of {at.PAIN_CAPS} or more today, or a point over an agreed usual pain, "
        f"{at.USUAL_PAIN_MOST} at most [P]; nor while training is on hold. On one leg without holding on, and the "
        "walks, never for someone alone. Anyone who shouldn’t stand on one leg unaided holds on, with company or "
        f"beside a wall; with a new hip they stand up from {functional_checks.HIGH_SEAT_CM} cm or more [P] until a "
        f"clinician’s go-ahead. Each is a separate series. A gentle reminder comes after {weeks} weeks.",
    ), ("Check", "Published figures"), rows)


def _sources() -> Section:
    return Section("sources", "The sources", (
        "If a source has no digital identifier (DOI), none was found. Anything not listed here is a coaching "
        "convention [P].",
    ), ("Source", "Where"), tuple((one.short, one.line) for one in REFERENCES.values()))


def for_coach(table: RuleTable = rules.DEFAULT_RULES) -> tuple[Section, ...]:
    """Every section, exact."""
    return (_levels(table), _votes(table), _regions(), limbs_for_coach(), rises_for_coach(), looks_for_coach(),
            _conditions(), _stops(), _moving_on(), *_over_weeks(), _hand(), _anchors(), _proofreading(), _limits(),
            _checks(), _sources())
