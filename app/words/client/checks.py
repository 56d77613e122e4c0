"""Words of the functional checks: own names, own instructions, honest results. Knows no Flet.

The client sees their own results over time; the published figures are worded for the coach in `words/coach/checks.py`.
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.domain.checks import functional_checks as c
from app.domain.checks.functional_checks import (
    CHAIR_STANDS,
    HIGH_SEAT_CM,
    SEAT_CM_LEAST,
    SEAT_CM_MOST,
    Change,
    Withheld,
)
from app.domain.model.exercise import Axis
from app.domain.model.record import CheckDone, FunctionalCheck
from app.words.client.today import day_words
from app.words.text import AXIS_WORDS, count, listed

TITLE = "Checks"
WHY = (
    "A few small checks, some weeks apart, show you over the months what your sessions do for you. They don’t change "
    "your sessions, and you don’t have to do them."
)
HONEST = (
    "A single check says little about whether someone will fall, and it is not a diagnosis. It is a number to follow "
    "over months."
)
NAMES: Mapping[FunctionalCheck, str] = {
    FunctionalCheck.CHAIR_STAND: "Up from the chair, half a minute", FunctionalCheck.ONE_LEG: "On one leg",
    FunctionalCheck.WALK: "There and back",
    FunctionalCheck.CHAIR_STAND_HIGH: "Up from a high chair, half a minute",
    FunctionalCheck.ONE_LEG_HELD: "On one leg, holding on",
    FunctionalCheck.WALK_4M: "Four metres at your everyday pace",
}
ABOUT: Mapping[FunctionalCheck, str] = {
    FunctionalCheck.CHAIR_STAND: "How many times you can stand up in 30 seconds.",
    FunctionalCheck.ONE_LEG: "How long you can stand on one leg, eyes open.",
    FunctionalCheck.WALK: "How long it takes to get up from a chair, walk 3 metres and back, and sit down.",
    FunctionalCheck.CHAIR_STAND_HIGH: "How many times you can stand up from a higher seat in 30 seconds.",
    FunctionalCheck.ONE_LEG_HELD: "How long you can stand on one leg while you hold on.",
    FunctionalCheck.WALK_4M: "How long 4 metres take at your everyday pace. You need a hall or path of 8 metres.",
}
PLAN_NOTE = "Up from the chair, on one leg, walking."
LATEST = "Last time"
NEVER_DONE = "Not done yet."
DO_IT = "Do this check"
RESULTS = "Results so far"
NO_RESULTS = "Your results will show here with their dates."
OLDEST, NEWEST = "first", "last"
SEX_HEAD = "For your coach’s tables, if you like"
SEX_WHY = (
    "The published figures for standing up differ between women and men. Your coach may compare with them; you don’t "
    "have to."
)
SEXES = (("woman", "A woman"), ("man", "A man"), ("", "I’d rather not say"))
RETEST = "Six weeks have passed since the last checks. If you like, do them again."
RETEST_ACT = "See the checks"


@dataclass(frozen=True)
class Instruction:
    """What is needed, how it is done, and the try beforehand."""

    needs: tuple[str, ...]
    how: tuple[str, ...]
    practice: str


AT_THE_BELL = "If you are more than halfway up at the last signal, that stand still counts."

INSTRUCTIONS: Mapping[FunctionalCheck, Instruction] = {
    FunctionalCheck.CHAIR_STAND: Instruction(
        ("A firm chair without wheels or arms, its back against a wall; the seat about 43 cm high.",
         "A tape measure, once, for the height of the seat. Always use the same chair.", "Flat shoes, or bare feet."),
        ("Sit in the middle of the seat, feet flat, arms crossed on the chest.",
         "At the signal stand right up and sit down, then keep going at your own pace until the last signal.",
         "Count each time you are fully up, or ask someone to press “Count one” for you.",
         AT_THE_BELL,
         "Keep breathing. Use your hands if you need to, and say so afterwards; the result is then 0."),
        "Stand up and sit down twice, slowly. Can you do it without your hands?",
    ),
    FunctionalCheck.ONE_LEG: Instruction(
        ("A kitchen worktop to catch hold of, close in front of you.", "Someone beside you, within reach."),
        ("Stand in front of the worktop, eyes open, hands just above it.",
         "Lift one foot. Press Start as the foot leaves the floor, or ask someone to press it.",
         "Press Stop when the foot comes down, a hand touches, or the other foot hops.",
         "After half a minute the clock stops automatically. That is enough."),
        "Try it once, with your fingertips on the worktop.",
    ),
    FunctionalCheck.WALK: Instruction(
        ("A firm chair, its back against a wall.", "Three metres of clear floor, and a mark at their end.",
         "Someone beside you, within reach.", "Your usual shoes, and your stick or frame if you walk with one."),
        ("Sit right back on the chair.",
         "At the signal stand up, with your hands if you like.",
         "Walk to the mark at your everyday pace, turn, walk back, sit down.",
         "The person with you presses Stop when you sit.", "No hurry: walk as you do every day."),
        "Walk it once without the clock.",
    ),
    FunctionalCheck.CHAIR_STAND_HIGH: Instruction(
        ("A firm high chair without wheels, its back against a wall; the seat about 50 cm high, and never lower than "
         "the back of your knee.", "A tape measure for the height of the seat. Always use the same chair.",
         "Flat shoes."),
        ("Sit towards the front of the seat, feet flat, arms crossed on the chest.",
         "At the signal stand right up, sit down gently, then keep going at your own pace until the last signal.",
         "Count each time you are fully up, or ask someone to press “Count one” for you.", AT_THE_BELL,
         "Keep breathing. Use your hands if you need to, and say so afterwards; the result is then 0.",
         "Don’t lean far forward over a new hip; what your surgeon said comes first."),
        "Stand up and sit down twice, slowly.",
    ),
    FunctionalCheck.ONE_LEG_HELD: Instruction(
        ("A kitchen worktop, or something just as firm, to hold the whole time.",
         "Someone within reach, or a wall right beside you."),
        ("Stand in front of the worktop, eyes open, one hand flat on it. The hand stays there.",
         "Lift one foot a little. Press Start as the foot leaves the floor, or ask someone to press it.",
         "Press Stop when the foot comes down, or when you have to grip hard.",
         "After half a minute the clock stops automatically. That is enough."),
        "Try it once with both hands on the worktop.",
    ),
    FunctionalCheck.WALK_4M: Instruction(
        ("Eight metres of clear floor: two marks 4 metres apart, with about 2 metres before and after them.",
         "Someone with you to press the clock.",
         "Your usual shoes, and your stick or frame if you walk with one."),
        ("Start walking 2 metres before the first mark, at your everyday pace.",
         "The other person presses Start as your foot passes the first mark, and Stop as it passes the second.",
         "Walk on for 2 metres before you slow down.", "Do it twice, and keep the second time."),
        "Walk it once without the clock.",
    ),
}
STOP_AT = "Stop at once for chest pressure, dizziness, sharp pain, or if you stay short of breath."
NEEDS_HEAD, HOW_HEAD, TRY_HEAD = "What you need", "What to do", "First, a practice that doesn’t count"
TRIED = "I have tried it"
COMPANY_HEAD = "Is someone with you now?"
COMPANY_SHORT = "Someone is with me"
COMPANY_ALONE = "Then leave it for another day. Please don’t do this one alone."
WALL_HEAD = "Do you have someone with you, or a wall right beside you?"
WALL_SHORT = "Someone, or a wall"
WALL_NEITHER = "Then choose a place with a wall right beside you, or leave it for another day."
SEAT = "Height of the seat, cm"
SEAT_HINT = "From the floor to the top of the seat, where you sit. Leave it empty if you can’t measure it."
SEAT_HINT_HIGH = "From the floor to the top of the seat, where you sit."
SEAT_WRONG = f"Please write whole centimetres, from {SEAT_CM_LEAST} to {SEAT_CM_MOST}."
SEAT_LOW = f"This check needs a seat of {HIGH_SEAT_CM} cm or more. Choose a higher chair."
LEG_HEAD = "Which leg do you stand on?"
LEGS: Mapping[str, str] = {"left": "The left", "right": "The right"}
AID_HEAD = "With a stick or a frame?"
AID_SHORT = "Stick or frame"
LACKS = "Please answer the questions above."
GO = "Start"
STOP_NOW = "Stop"
COUNT_ONE = "Count one"
READY, WORKING = "Get ready", "Go"
AMISS = "Something is wrong"
AMISS_HEAD = "Sit down and rest"
AMISS_WORDS = "This check isn’t saved."
AMISS_CALL = "If it is one of these:"
AMISS_CHECK_IN = "Change this morning’s answers"
AGAIN = "Start again"
COUNT_HEAD = "How many times were you fully up?"
COUNT_NAME = "Stands"
HANDS_HEAD = "Did you push up with your hands?"
HANDS_SHORT = "Pushed with hands"
HANDS_MISSING = "Please say whether you pushed up with your hands."
TIME_HEAD = "Your time"
KEEP, DROP = "Keep this result", "Don’t keep it"
KEPT = "Kept in your diary."
TO_CHECKS, TO_TODAY = "Back to the checks", "Back to today"
LEAVE = "Not now"


def read_out(name: str) -> str:
    """For a helper: `Read this out to Kasimir, and stay within reach.`"""
    return f"Read this out to {name}, and stay within reach."


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
    Withheld.STOP: ("Not while training is on hold. The checks can wait.", TO_TODAY, "/today"),
    Withheld.SCREENING: ("The safety questions come first.", "Answer the safety questions", "/welcome/questions"),
    Withheld.ASK: ("First say how you are this morning, so that you don’t do a check on a joint that hurts.",
                   "Answer the questions", "/check-in"),
    Withheld.PAIN: ("Not today, because a joint hurts too much. Try it on a better day; what you did before is kept.",
                    "", ""),
    Withheld.ALONE: ("Please don’t do this one alone. Do it with your coach or with someone beside you, and say in the "
                     "settings that you don’t train alone.", "", ""),
    Withheld.LIMITS: ("Your limits leave this out today", "", ""),
    Withheld.NEW_HIP: ("With a new hip, use a higher seat until a doctor, nurse or physio says that the first limits "
                       "can be lifted.", "", ""),
    Withheld.SEATED: ("This check is done standing. Ask your coach what to measure instead, such as what you can lift, "
                      "or how far you can push your chair.", "", ""),
}
ASK_COACH = "Ask your coach what to measure instead."


def withheld_words(why: Withheld, axes: Sequence[Axis] = (), instead: FunctionalCheck | None = None) -> str:
    """Why a check is not offered, and what to do in its place."""
    words = WITHHELD[why][0]
    if why not in (Withheld.LIMITS, Withheld.NEW_HIP):
        return words
    said = f"{words}: {listed([AXIS_WORDS[a] for a in axes])}." if why is Withheld.LIMITS else words
    return f"{said} {f'Do “{NAMES[instead]}” instead.' if instead else ASK_COACH}"


# ------------------------------------------------------------------ results

def result_words(done: CheckDone) -> str:
    """`12 stands`, `17.4 seconds on the left leg`, `9.3 seconds, with a stick or frame`."""
    if done.check in CHAIR_STANDS:
        told = count(done.stands or 0, "stand")
        return f"0 stands without hands, {told} with them" if done.hands_used else told
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
        return "Times on one leg vary so much from day to day that they can’t show a change."
    if found is Change.NOT_ALIKE:
        return f"It was done differently on {when}, so the two can’t be compared."
    if found is Change.WITHIN:
        return f"About the same as on {when}; that much difference is normal."
    gap = abs((c.counted(now) or 0) - (c.counted(before) or 0))
    stands = now.check in CHAIR_STANDS
    much = count(gap, "stand") if stands else seconds(gap)
    which = (("more", "fewer") if stands else ("quicker", "slower"))[found is Change.LESS]
    more = f"That is {much} {which} than on {when}, more than it normally varies."
    return f"{more} Tell your coach." if found is Change.LESS else more


def chart_name(check: FunctionalCheck, side: str = "") -> str:
    """The name at the line's end."""
    return {"left": "Left", "right": "Right"}.get(side, "Stands" if check in CHAIR_STANDS else "Seconds")


CHART_SAID = "One point for each time, in order. Higher is better."
CHART_SAID_WALK = "One point for each time, in order, in seconds. Lower is quicker."
