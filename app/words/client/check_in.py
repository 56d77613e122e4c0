"""Words of the check-in. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from app.domain.model.diary import Symptom
from app.domain.model.thresholds import PAIN_RESTS
from app.words.client.today import Pair, day_words
from app.words.text import listed

SIGN_GROUPS: Mapping[Symptom, str] = {
    Symptom.EMERGENCY: "This may be an emergency",
    Symptom.STOP_AND_ASK: "Ask a doctor before you train",
    Symptom.FEVER: "Fever",
    Symptom.HEAD_COLD: "A cold",
}
CHECK_IN_TITLE = "Check-in"

ANYTHING_NEW: Pair = ("Anything new or worrying today?", "Ask {name}: anything new or worrying today?")
ANYTHING_SHORT = "Anything new or worrying"
ANYTHING_EXAMPLES = "Such as pressure in the chest, dizziness, fever, a fall, or a hot or swollen joint."
WHAT_IS_IT = "What is it?"
RATHER_NOT: Pair = ("I’d rather not say", "{name} would rather not say")
#: What passing a question by means: always the cautious answer, said where it is chosen.
RATHER_NOT_MEANS: Mapping[str, str] = {
    "signs": "Then there is no session today. A walk is always fine.",
    "pain": "Then we keep today easier, as if a joint hurt.",
    "morning": "Then we keep today easier, as after a bad morning.",
    "flare": "Then today is a light one, as after a bad day.",
    "soreness": "Then we keep today easier, as with achy muscles.",
    "feel": "Then we keep today easier, as after a poor night.",
}
NO_OR_YES_FIRST = f"Press “No” or “Yes” first, or “{RATHER_NOT[0]}”."
WHICH_SIGNS = "Tick all that apply"
SHOW_WHAT_TO_DO = "Show me what to do"
JOINTS: Pair = ("Does a joint hurt?", "Ask {name}: does a joint hurt?")
JOINTS_HINT = "Sharp, in one place, or swollen."
NOTHING_HURTS = "Nothing hurts"
MUSCLES: Pair = ("Any achy muscles?", "Ask {name}: any achy muscles?")
MUSCLES_HINT = "Dull, on both sides, tender to press. Normal for a few days after something new."
NO_ACHES = "No achy muscles"
FEEL: Pair = ("How did you sleep, and how are you now?", "Ask how {name} slept, and how {name} is now")
SLEPT, ENERGY, SETTLED = "Slept", "Energy", "Settled"
FEEL_ENDS: Mapping[str, tuple[str, str]] = {
    SLEPT: ("badly", "well"), ENERGY: ("low", "high"), SETTLED: ("not at all", "very"),
}
PAIN_ENDS = ("none", "makes me stop now and then", "the worst I can imagine")
PAIN_HIGH = (f"Pain of {PAIN_RESTS} or more is worth a call to a doctor or physiotherapist, especially if it is "
             "new.")
ACHE_ENDS = ("none", "I feel it with every step", "I can hardly move")
SOMEWHERE_ELSE = "Somewhere else"
NOTHING_WORSE = "No pain that morning"
FLARE: Pair = ("Did you feel clearly worse a day or two after the last session?",
               "Ask {name}: did they feel clearly worse a day or two after the last session?")
FLARE_HINT = "Much more tired, aching all over, or feeling ill again. After an illness or treatment it can come late."
FLARE_CHOICES: Mapping[int, str] = {0: "No", 1: "Yes, the day after", 2: "Yes, two days after"}
FLARE_MISSING = "Please press one of the answers."
FLARE_TOLD = "Worse after the last session"
WHO_ANSWERED = "Who answered?"


def morning_head(session: str, asked: str = "") -> str:
    """The question about the morning after a session."""
    start = f"Ask {asked}: the" if asked else "The"
    return f"{start} morning after “{session}”"


def morning_hint(morning: date, asked: str = "") -> str:
    """What is meant by it."""
    whose = f"How much did {asked}’s joints hurt" if asked else "How much did your joints hurt"
    return f"{whose} on {day_words(morning)}, on getting up?"


def answered_options(asked: str) -> tuple[tuple[bool, str], ...]:
    """True: they answered; False: the leader guessed."""
    return ((True, f"{asked} answered"), (False, "I guessed"))


GUESS_NOTE = "A guess is saved as a guess: it can make today’s session easier, never harder."
SIGN_MISSING = "Please tick what it is. If nothing fits, go back and press “No”."
WHO_MISSING = "Please say who answered."


def number_missing(spot: str, *, may_leave_out: bool) -> str:
    """A part of the body was pressed, and no number yet."""
    return f"{spot}: how much? Please press a number{', or “Leave it out”' if may_leave_out else ''}."


def asked_again(spot: str) -> str:
    """It hurt last time, and today nothing was said of it."""
    return f"{spot} hurt last time. How is it today?"


def asked_of_morning(spot: str) -> str:
    """The same of the morning after."""
    return f"{spot}: how was it that morning?"


def where_missing(nothing: str) -> str:
    """Nothing was said of the body yet."""
    return f"Please press where it is, or “{nothing}”."


def feel_missing(names: list[str]) -> str:
    """`Still to answer: slept and energy.`"""
    return f"Still to answer: {listed([name.lower() for name in names])}."
