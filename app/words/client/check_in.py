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
    Symptom.STOP_AND_ASK: "Stop, and ask about it",
    Symptom.FEVER: "Ill",
    Symptom.HEAD_COLD: "A cold",
}
CHECK_IN_TITLE = "Check-in"

ANYTHING_NEW: Pair = ("Anything new or worrying today?", "Ask {name}: anything new or worrying today?")
ANYTHING_SHORT = "Anything new or worrying"
WHICH_SIGNS = "Tick all that fit"
SHOW_WHAT_TO_DO = "Show me what to do"
JOINTS: Pair = ("Does a joint hurt?", "Ask {name}: does a joint hurt?")
JOINTS_HINT = "Sharp, in one place, or swollen."
NOTHING_HURTS = "Nothing hurts"
MUSCLES: Pair = ("Tired, achy muscles?", "Ask {name}: tired, achy muscles?")
MUSCLES_HINT = "Dull, on both sides, tender to press. Usual for some days after new work."
NO_ACHES = "No achy muscles"
FEEL: Pair = ("Last night and now", "Ask {name} about last night and now")
SLEPT, ENERGY, SETTLED = "Slept", "Energy", "Settled"
FEEL_ENDS: Mapping[str, tuple[str, str]] = {
    SLEPT: ("badly", "well"), ENERGY: ("low", "high"), SETTLED: ("not at all", "very"),
}
PAIN_ENDS = ("none", "stops me now and then", "the worst I can think of")
PAIN_HIGH = (f"Pain of {PAIN_RESTS} or more is worth a call to your doctor or physiotherapist, above all where it is "
             "new.")
ACHE_ENDS = ("none", "I notice each step", "can hardly move")
EARLIER_HEAD = "Last time it was here. And today?"
GONE = "Gone"
SOMEWHERE_ELSE = "Somewhere else"
NOTHING_WORSE = "No pain that morning"
FLARE: Pair = ("Did you feel clearly worse a day or two after the last session?",
               "Ask {name}: did they feel clearly worse a day or two after the last session?")
FLARE_HINT = "Much more tired, aching all over, or feeling ill again. After an illness or a treatment it may come late."
FLARE_CHOICES: Mapping[int, str] = {0: "No", 1: "Yes, the day after", 2: "Yes, two days after"}
FLARE_MISSING = "Press one of the answers."
FLARE_TOLD = "Worse after the last session"
WHO_ANSWERED = "Who answered?"


def earlier_line(spot: str, level: int) -> str:
    """`Left knee: 4 last time`."""
    return f"{spot}: {level} last time"


def gone_name(spot: str) -> str:
    """The spoken name of "Gone": `Left knee: gone`."""
    return f"{spot}: gone"


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


GUESS_NOTE = "A guess is kept as a guess: it may ease today’s session and never moves it on."
SIGN_MISSING = "Tick what it is, or press “No”."
def number_missing(spot: str) -> str:
    """A part of the body was pressed, and no number yet."""
    return f"{spot}: how much? Press a number, or press it once more to leave it out."


WHO_MISSING = "Say who answered."
UNANSWERED_HEAD = "Something is left out"
UNANSWERED_ACT = "Save as it is"
UNANSWERED_BACK = "Go back and answer"
QUESTIONS: Mapping[str, str] = {
    "signs": "whether anything is new or worrying", "pain": "whether a joint hurts",
    "soreness": "whether muscles are achy", "flare": "whether you felt worse after the last session",
    "feel": "how you slept and feel", "morning": "the morning after",
}


def unanswered_line(missing: list[str]) -> str:
    """What leaving answers out means."""
    told = listed([QUESTIONS[m] for m in missing])
    first = " Without the first question there is no session." if "signs" in missing else ""
    return f"Not answered: {told}. Without an answer today’s amount stays careful.{first}"


def as_last_time(spots: list[str]) -> str:
    """Spots that hurt last time and were not asked about again."""
    return f"Not answered today: {listed(spots)}. Counted as last time."
