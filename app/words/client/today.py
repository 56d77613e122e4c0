"""Words of the client's screens: the card of the day, the check-in, stops and yeses, the programme. Knows no Flet.

A pair holds a line for the person themselves and one for whoever leads them; `said` picks.
"""
from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime

from app.domain.model.diary import Symptom
from app.domain.model.record import SessionDone
from app.domain.model.thresholds import FEVER_FREE_HOURS, WEEKS_AGAIN
from app.domain.progress.due_session import Due
from app.words.text import time_trained

Pair = tuple[str, str]
"""For the person themselves; for the one who leads them, with {name}."""


def said(pair: Pair, asked: str = "") -> str:
    """The line for the person themselves, or, where `asked` names whom somebody leads, the line for the leader."""
    own, led = pair
    return led.format(name=asked) if asked else own


def day_words(day: date) -> str:
    """`Monday 2 March`."""
    return f"{day:%A} {day.day} {day:%B}"


def long_day_words(day: date) -> str:
    """`2 March 2027`."""
    return f"{day.day} {day:%B} {day.year}"


def moment_words(moment: datetime) -> str:
    """`Monday 2 March, 07:30`."""
    return f"{day_words(moment.date())}, {moment:%H:%M}"


# ------------------------------------------------------------------ everywhere

NAVIGATION: Mapping[str, str] = {"today": "Today", "diary": "Diary", "plan": "Plan", "send": "Send"}
SETTINGS = "Settings"
BACK, NEXT, DONE, SAVE, UNDO, CANCEL = "Go back", "Next", "Done", "Save", "Undo", "Do not"
TO_TODAY = "Back to today"
SAVED = "Saved."
NONE_YET = "None"


def not_medical(app: str) -> str:
    """What the app of that name is not."""
    return (f"{app} is not medical advice and watches over nobody. Talk to your doctor or physiotherapist before you "
            "begin, and whenever something changes.")


def week_note(note: str, asked: str = "", *, eased: bool = False) -> str:
    """What a coach wrote for a whole week; where today is eased, that today comes first."""
    mind = " Today’s answers come first, so today is gentler." if eased else ""
    return f"{asked + '’s' if asked else 'Your'} coach’s note for this week: {note}{mind}"


def programme_of(coach: str) -> str:
    """`Odile Marsh's programme`."""
    return f"{coach}’s programme"



def step_of(number: int, of: int) -> str:
    """`2 of 4`."""
    return f"{number} of {of}"


# ------------------------------------------------------------------ today

NO_PROGRAMME_HEAD = "No programme yet"
NO_PROGRAMME = (
    "Your sessions come from a coach: as a file whose name ends in .evenload-pack, as text to paste, or by a link. "
    "Save a file on this device first, then open it here."
)
OPEN_PROGRAMME = "Open a programme"
FIRST_QUESTIONS = "First a few short questions, then it starts."
WHERE_AND_LONG, OPEN_FOLD, CLOSE_FOLD = "Where, and how long", "Show", "Hide"
START, GO_ON = "Start", "Go on where you were"
GOING_ON_HEAD: Pair = (
    "You are in a session",
    "{name} is in a session",
)
GOING_ON = "A session is under way. Nothing of it is lost."
CHECK_IN_AGAIN = "Change my answers"
CHANGED_HEAD = "Changed today"
NOTHING_CHANGED: Pair = (
    "Nothing is changed today. This is the session as your coach wrote it.",
    "Nothing is changed today. This is the session as {name}’s coach wrote it.",
)
WHY = "Why"
ALL_RULES = "Why? All the rules"
PLACE_HEAD = "Where are you?"
MINUTES_HEAD = "Minutes today"
AS_PLANNED = "As planned"
MINUTE_CHOICES = (10, 15, 20, 30)
OTHER_HEAD = "Another session"
OTHER_HINT = "Another one may be done instead. The amount is decided in the same way."
DUE_AGAIN = "Back to the session that is due"
CHANGE_PLACES = "Change places"
NOTHING_LEFT_HEAD = "Nothing of this session is left today"
NOTHING_LEFT = "Everything in it asks for something that today does not allow. Try another session or another place."
EMPTY_SESSION_HEAD = "The programme holds no session"
EMPTY_SESSION: Pair = (
    "Ask your coach for a newer file.",
    "Ask {name}’s coach for a newer file.",
)


def whose_turn(name: str) -> str:
    """The spoken name of changing the person: `Ines: somebody else`."""
    return f"{name}: somebody else"


def due_line(due: Due) -> str:
    """`Week 2, session 1 of 3. A lighter week.`"""
    lighter = " A lighter week." if due.lighter else ""
    through = " The programme is through, so its last full weeks come round again." if due.repeats else ""
    again = f" {week_again(due.again)}" if due.again else ""
    return f"Week {due.week}, session {due.number} of {due.of}.{lighter}{through}{again}"


def week_again(times: int) -> str:
    """Why a week is done once more, and what may help where it was more than once."""
    said = "This week once more before the next: its sessions were harder than they were meant to be."
    return f"{said} {WEEK_ASK}" if times >= WEEKS_AGAIN else said


WEEK_ASK = "If that goes on, ask the coach for something easier."


def minutes_option(minutes: int | None) -> str:
    """`20`, or `As planned`."""
    return AS_PLANNED if minutes is None else str(minutes)


def minutes_name(minutes: int | None) -> str:
    """`20 minutes`, or `As planned`."""
    return AS_PLANNED if minutes is None else f"{minutes} minutes"


def place_line(floor: bool, noise: bool, small: bool, kit: str) -> str:
    """`At hand: a chair. No floor to lie on. Quiet. Little room.`"""
    told = [f"At hand: {kit}."]
    told += [] if floor else ["No floor to lie on."]
    told += [] if noise else ["Quiet, please."]
    told += ["Little room."] if small else []
    return " ".join(told)


def stands_for(name: str) -> str:
    """The head of a change: what is done instead."""
    return name


DONE_HEAD = "Done for today"


def done_line(done: SessionDone, asked: str = "") -> str:
    """What was done today."""
    return f"{done.name}, {time_trained(done)}. It is in {asked + '’s' if asked else 'your'} diary."


def next_line(name: str) -> str:
    """What comes next."""
    return f"Next: {name}."


NEXT_WHEN: Pair = (
    "After strength work your muscles need a rest day in between. A session for moving and balance may follow any "
    "day.",
    "After strength work {name}’s muscles need a rest day in between. A session for moving and balance may "
    "follow any day.",
)
LOOK_AHEAD = "Look at the next session"
SEE_DIARY: Pair = ("See my diary", "See {name}’s diary")
SEND_DIARY: Pair = ("Send my diary", "Send {name}’s diary")

# ------------------------------------------------------------------ a day without a session

REST_HEAD = "A rest day today"
REST_WORDS = "Walk, move about the house, sleep well. The session waits; nothing is lost."
ANSWER_HEAD = "One question is open"
ANSWER_WORDS = "Before any session: is anything new or worrying today? Without that answer there is no session."
ANSWER_ACT = "Answer it now"
STOP_HEAD = "No session today: ask first"
STOP_WORDS: Pair = (
    "This is not a diagnosis. It is a reason to ask somebody who can look at you before you train again.",
    "This is not a diagnosis. It is a reason to ask somebody who can look at {name} before the next session.",
)
URGENT_HEAD = "Stop: this may be an emergency"
URGENT_WORDS = "If it is over, still have it looked at today. No session until a clinician has said yes."
WAY_BACK_HEAD = "The way back"
RECORD_YES = "Record a yes"
ANSWERS_WRONG = "I ticked something by mistake"
YES_GIVEN_HEAD = "A yes is recorded"
YES_GIVEN: Pair = (
    "Answer this morning’s questions once more; then you start again with a light session.",
    "Answer this morning’s questions for {name} once more; then it starts again with a light session.",
)
CHECK_IN_ACT = "Answer the questions"


def call_words() -> str:
    """What stands over the number."""
    return "If it is happening now, call"


WHO_MAY_SAY_YES: Mapping[str, str] = {
    "self": f"After a fever one’s own word is enough, after {FEVER_FREE_HOURS} hours without it. Until then it takes "
            "the coach’s or a clinician’s yes.",
    "coach": "The coach’s yes is enough, or a clinician’s.",
    "clinician": "It takes a clinician’s yes: from somebody who has had a look and knows that training is meant.",
}

STOP_CAUSES: Mapping[str, str] = {
    Symptom.EMERGENCY: "A sign that may be an emergency",
    Symptom.STOP_AND_ASK: "A sign to stop and ask about",
    Symptom.FEVER: "A fever",
    "pain": "Strong pain, or a joint that gave way",
    "pain_rise": "Pain that did not settle after a session",
    "soreness": "Muscles that stayed very achy for days",
    "fall": "A fall",
    "screening": "An answer to the stop questions",
    "clearance": "An earlier stop",
}

SCREENING_DUE_HEAD = "The stop questions first"
SCREENING_DUE = "It has been a while, or they were never answered. They take a minute and come before any session."
SCREENING_ACT = "Answer the stop questions"
WAITING_HEAD = "Waiting for a yes"
WAITING_WORDS: Pair = (
    "You ticked something that a clinician should know about before you train. Start opens with their yes.",
    "{name} has something that a clinician should know about before training. Start opens with their yes.",
)
ANSWERS_CHANGED = "Answer the stop questions again"

# ------------------------------------------------------------------ the programme and its plan

PROGRAMME_TITLE = "Programme"
PICK_FILE = "Choose the file"
PICK_HINT = "Its name ends in .evenload-pack. It stays on this device, and works without a network."
NOT_PICKED = "No file was chosen."
MATCH_HEAD = "Is it really from them?"
SAME, NOT_SAME = "The same", "Not the same"
NOT_SAME_SAID = "Nothing was taken in. Ask your coach for the file again, in person or by a way that you trust."
FOLLOWED = "You follow this one"
FOLLOW = "Follow this programme"
WHICH_PROGRAMME = "Which one do you follow?"
WITH_COACH = "Your coaches"


def match_words(coach: str) -> str:
    """How the five words are compared."""
    return (f"Call {coach}, or meet. They read these five matching words from their own screen. If all five are the "
            "same, the programme is theirs.")


def opened_line(coach: str, title: str, version: int) -> str:
    """What was opened."""
    return f"“{title}” by {coach}, version {version}."


def kept_line(coach: str) -> str:
    """A programme that was taken in."""
    return f"{coach}’s programme is here, on this device."


def older_line(version: int, here: int) -> str:
    """An older file than the one that is here."""
    return f"This is version {version}; version {here} is here already and stays in use."
