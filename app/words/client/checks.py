"""Words of the functional checks: own names, own instructions, honest results. Knows no Flet.

The client sees their own results over time; the published bands are worded for the coach alone.
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from app.domain.checks import functional_checks as c
from app.domain.checks.functional_checks import BandPlace, Change, ReferenceBand, Withheld
from app.domain.model.exercise import Axis
from app.domain.model.record import CheckDone, FunctionalCheck
from app.domain.model.thresholds import PAIN_CAPS
from app.words.client.today import day_words
from app.words.text import AXIS_WORDS, count, listed

TITLE = "Checks"
WHY = (
    "Three small checks, a few weeks apart, show you over months what the sessions do. Nothing is decided by them, and "
    "nobody has to do them."
)
HONEST = (
    "One check says little about whether somebody will fall, and it is no diagnosis. It is a number to look at over "
    "months."
)
NAMES: Mapping[FunctionalCheck, str] = {
    FunctionalCheck.CHAIR_STAND: "Up from the chair, half a minute", FunctionalCheck.ONE_LEG: "On one leg",
    FunctionalCheck.WALK: "There and back",
}
ABOUT: Mapping[FunctionalCheck, str] = {
    FunctionalCheck.CHAIR_STAND: "How often you stand up in 30 seconds.",
    FunctionalCheck.ONE_LEG: "How long one leg carries you, eyes open.",
    FunctionalCheck.WALK: "How long up from a chair, 3 metres there and back, and down again take.",
}
PLAN_NOTE = "Up from the chair, on one leg, there and back."
LATEST = "Last time"
NEVER_DONE = "Not done yet."
DO_IT = "Do this check"
RESULTS = "Results so far"
NO_RESULTS = "Each result shows here with its day."
OLDEST, NEWEST = "first", "last"
SEX_HEAD = "For your coach’s tables, if you like"
SEX_WHY = "The published figures for standing up differ for women and men. You see no table; your coach may."
SEXES = (("woman", "A woman"), ("man", "A man"), ("", "I would rather not say"))
RETEST = "Six weeks have passed since the last checks. If you like, do them again."
RETEST_ACT = "See the checks"


@dataclass(frozen=True)
class Instruction:
    """What is needed, how it is done, and the try beforehand."""

    needs: tuple[str, ...]
    how: tuple[str, ...]
    practice: str


INSTRUCTIONS: Mapping[FunctionalCheck, Instruction] = {
    FunctionalCheck.CHAIR_STAND: Instruction(
        ("A firm chair without wheels, its back against a wall.", "Flat shoes, or bare feet."),
        ("Sit in the middle of the seat, feet flat, arms crossed on the chest.",
         "At the signal stand right up, sit down, and go on at your own pace until the last signal.",
         "Count each time that you are fully up. Or somebody presses “Count one” for you.",
         "Breathe all the while. If you need your hands, use them, and say so afterwards: then it counts 0."),
        "Stand up and sit down twice, slowly. Does it go without the hands?",
    ),
    FunctionalCheck.ONE_LEG: Instruction(
        ("A kitchen worktop to catch hold of, close in front of you.", "Somebody beside you, within reach."),
        ("Stand before the worktop, eyes open, hands just above it.",
         "Lift one foot. Press Start, or have it pressed, as the foot leaves the floor.",
         "Press Stop when the foot comes down, a hand touches, or the other foot hops.",
         "After half a minute the clock stops by itself. That is enough."),
        "Try it once, with the fingertips on the worktop.",
    ),
    FunctionalCheck.WALK: Instruction(
        ("A firm chair, its back against a wall.", "Three metres of clear floor, and a mark at their end.",
         "Somebody beside you, within reach.", "Your usual shoes, and your stick or frame if you walk with one."),
        ("Sit right back on the chair.",
         "At the signal stand up, with your hands if you like.",
         "Walk to the mark at your everyday pace, turn, walk back, sit down.",
         "Whoever is with you presses Stop when you sit.", "No hurry: it is your everyday walk that counts."),
        "Walk it once without the clock.",
    ),
}
STOP_AT = "Stop at once for chest pressure, dizziness, sharp pain, or breath that does not settle."
NEEDS_HEAD, HOW_HEAD, TRY_HEAD = "What you need", "How it goes", "First, a try that does not count"
TRIED = "I have tried it"
COMPANY_HEAD = "Is somebody with you now?"
COMPANY_SHORT = "Somebody is with me"
COMPANY_ALONE = "Then leave it for another day. This one is never done alone."
LEG_HEAD = "Which leg do you stand on?"
LEGS: Mapping[str, str] = {"left": "The left", "right": "The right"}
AID_HEAD = "With a stick or a frame?"
AID_SHORT = "Stick or frame"
LACKS = "Answer what stands above first."
GO = "Start"
STOP_NOW = "Stop"
COUNT_ONE = "Count one"
READY, WORKING = "Get ready", "Go"
AMISS = "Something is wrong"
AMISS_HEAD = "Sit down and rest"
AMISS_WORDS = "Nothing of this check is kept."
AMISS_CALL = "If it is one of these:"
AMISS_CHECK_IN = "Change this morning’s answers"
AGAIN = "Once more from the start"
COUNT_HEAD = "How many times were you fully up?"
COUNT_NAME = "Stands"
HANDS_HEAD = "Did your hands push you up?"
HANDS_SHORT = "Hands pushed"
HANDS_MISSING = "Say whether your hands pushed you up."
TIME_HEAD = "Your time"
KEEP, DROP = "Keep this result", "Do not keep it"
KEPT = "Kept in your diary."
TO_CHECKS, TO_TODAY = "Back to the checks", "Back to today"
LEAVE = "Not now"


def read_out(name: str) -> str:
    """For whoever leads somebody: `Read this out to Kasimir; you stay beside them.`"""
    return f"Read this out to {name}; you stay within reach."


def fewer(number: int) -> str:
    """The spoken name of taking one away."""
    return f"One fewer than {number}"


def more(number: int) -> str:
    """The spoken name of adding one."""
    return f"One more than {number}"


def seconds(ms: int) -> str:
    """`9.3 seconds`, cut to whole tenths."""
    return f"{ms // 100 / 10:.1f} seconds"


def counted_now(number: int) -> str:
    """What the count panel says beside the seconds."""
    return count(number, "stand")


WITHHELD: Mapping[Withheld, tuple[str, str, str]] = {
    Withheld.STOP: ("Not while a stop waits for a yes.", TO_TODAY, "/today"),
    Withheld.SCREENING: ("The stop questions come first.", "Answer the stop questions", "/welcome/questions"),
    Withheld.ASK: ("First say how you are this morning: nothing is measured on a joint that hurts.",
                   "Answer the questions", "/check-in"),
    Withheld.PAIN: (f"Not today: a joint hurts {PAIN_CAPS} of 10 or more.", "", ""),
    Withheld.ALONE: ("Not for somebody who trains alone. Do it with your coach or with somebody beside you, and say in "
                     "the settings that you are not alone.", "", ""),
    Withheld.LIMITS: ("Your limits leave this out today", "", ""),
}


def withheld_words(why: Withheld, axes: Sequence[Axis] = ()) -> str:
    """Why a check is not offered."""
    words = WITHHELD[why][0]
    return f"{words}: {listed([AXIS_WORDS[a] for a in axes])}." if why is Withheld.LIMITS else words


# ------------------------------------------------------------------ results

def result_words(done: CheckDone) -> str:
    """`12 stands`, `17.4 seconds on the left leg`, `9.3 seconds, with a stick or frame`."""
    if done.check is FunctionalCheck.CHAIR_STAND:
        told = count(done.stands or 0, "stand")
        return f"0 stands: the hands pushed ({told} with them)" if done.hands_used else told
    told = seconds(done.time_ms or 0)
    side = f" on the {done.side} leg" if done.side else ""
    return f"{told}{side}{', with a stick or frame' if done.aid else ''}"


def result_line(done: CheckDone) -> str:
    """One result in the diary."""
    return f"{NAMES[done.check]}: {result_words(done)}."


def change_words(found: Change, before: CheckDone, now: CheckDone) -> str:
    """What may honestly be said of a result and the one before."""
    when = day_words(before.stamp.local)
    if found is Change.NO_CALL:
        return "On one leg it differs so much from day to day that nothing is said about a change."
    if found is Change.NOT_ALIKE:
        return f"It was done in another way on {when}, so the two are not compared."
    if found is Change.WITHIN:
        return f"Beside {when} that is no change: so much it differs by itself."
    gap = abs((c.counted(now) or 0) - (c.counted(before) or 0))
    stands = now.check is FunctionalCheck.CHAIR_STAND
    much = count(gap, "stand") if stands else seconds(gap)
    which = (("more", "fewer") if stands else ("quicker", "slower"))[found is Change.LESS]
    more = f"That is {much} {which} than on {when}, more than it differs by itself."
    return f"{more} Tell your coach." if found is Change.LESS else more


def chart_name(check: FunctionalCheck, side: str = "") -> str:
    """The name at the line's end."""
    return {"left": "Left", "right": "Right"}.get(side, "Stands" if check is FunctionalCheck.CHAIR_STAND else "Seconds")


CHART_SAID = "One point for each time, in order. More is longer or more often."
CHART_SAID_WALK = "One point for each time, in order, in seconds. Lower is quicker."

# ------------------------------------------------------------------ for the coach

COACH_HEAD = "Checks"
COACH_NONE = "No check came back yet."
COACH_CAUTION = (
    "A single check predicts falls poorly, and a band describes a group, not a person. No diagnosis. Results come from "
    "a home, after one try, timed by hand."
)
COACH_ERROR: Mapping[FunctionalCheck, str] = {
    FunctionalCheck.CHAIR_STAND: "Changed only from 3 stands on; less is within its own error.",
    FunctionalCheck.ONE_LEG: "Varies too much for any call of change.",
    FunctionalCheck.WALK: "Changed only from 1.2 s on; less is within its own error.",
}
COACH_CHANGE: Mapping[Change, str] = {
    Change.NOT_ALIKE: "not comparable: done in another way", Change.NO_CALL: "no call of change",
    Change.WITHIN: "within its own error", Change.MORE: "changed: better", Change.LESS: "changed: worse",
}
NO_BIRTH_YEAR = "No band: the year of birth is not told."
NO_BAND = "No band was published for about {age} years."
SEX_WORDS: Mapping[str, str] = {"woman": "women", "man": "men", "": "both"}
PLACES: Mapping[BandPlace, str] = {
    BandPlace.BELOW: "below the band", BandPlace.WITHIN: "within the band", BandPlace.ABOVE: "above the band",
}


def _figure(check: FunctionalCheck, value: int) -> str:
    return str(value) if check is FunctionalCheck.CHAIR_STAND else f"{value / 1000:.1f}"


def band_line(band: ReferenceBand) -> str:
    """`Women of 70–74: 10–15 stands (source)`."""
    who = f"{SEX_WORDS[band.sex].capitalize()} of {band.first_age}–{band.last_age}" if band.sex else \
        f"At {band.first_age}–{band.last_age}"
    unit = "stands" if band.check is FunctionalCheck.CHAIR_STAND else "s"
    spread = "" if band.low is None or band.high is None else \
        f"{_figure(band.check, band.low)}–{_figure(band.check, band.high)}"
    mean = "" if band.mean is None else f"mean {_figure(band.check, band.mean)}"
    figures = f"{mean} ({spread})" if mean and spread else mean or spread
    return f"{who}: {figures} {unit} ({band.source})"


def placed_line(band: ReferenceBand, done: CheckDone) -> str:
    """The band, and where a result lies in it; a slow walk lies above."""
    result = c.counted(done)
    place = None if result is None else c.place_in(band, result)
    return f"{band_line(band)}: {PLACES[place]}" if place else band_line(band)


def coach_result(done: CheckDone, before: CheckDone | None) -> str:
    """One result with its day and what may be said beside the one before."""
    said = f"{day_words(done.stamp.local)}: {result_words(done)}"
    by = "" if done.answered_by.value == "self" else ", told by whoever leads them"
    return f"{said}{by}" if before is None else f"{said}{by}; {COACH_CHANGE[c.change(before, done)]}"


def age_at(day: date, birth_year: int) -> int:
    """About how old, in whole years: the birthday is not known."""
    return day.year - birth_year
