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
BACK, NEXT, DONE, SAVE, UNDO, CANCEL = "Go back", "Next", "Done", "Save", "Undo", "Cancel"
TO_TODAY = "Back to today"
SAVED = "Saved."
NONE_YET = "None"


def not_medical(app: str) -> str:
    """What the app of that name is not."""
    return (f"{app} doesn’t give medical advice and doesn’t monitor anyone. Talk to your doctor or physiotherapist "
            "before you begin, and whenever something changes.")


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
    "Your sessions come from a coach: as a programme file (its name ends in .evenload-pack), as text to paste, or as a "
    "link. Save the file on this device first, then open it here."
)
OPEN_PROGRAMME = "Open a programme file"
FIRST_QUESTIONS = "First a few short questions, then it starts."
WHERE_AND_LONG, OPEN_FOLD, CLOSE_FOLD = "Where, and how long", "Show", "Hide"
START, GO_ON = "Start", "Carry on where you were"
GOING_ON_HEAD: Pair = (
    "You are in the middle of a session",
    "{name} is in the middle of a session",
)
GOING_ON = "Everything done so far is saved."
CHECK_IN_AGAIN = "Change my answers"
CHANGED_HEAD = "Changed today"
NOTHING_CHANGED: Pair = (
    "Nothing is changed today. This is the session as your coach wrote it.",
    "Nothing is changed today. This is the session as {name}’s coach wrote it.",
)
WHY = "Why"
ALL_RULES = "Why? See all the rules"
PLACE_HEAD = "Where are you?"
MINUTES_HEAD = "Minutes today"
AS_PLANNED = "As planned"
MINUTE_CHOICES = (10, 15, 20, 30)
OTHER_HEAD = "Another session"
OTHER_HINT = "Another one can be done instead. It is fitted to today in the same way."
DUE_AGAIN = "Back to the session that is due"
CHANGE_PLACES = "Change places"
NOTHING_LEFT_HEAD = "This session doesn’t suit today"
NOTHING_LEFT = (
    "None of its exercises fits today’s answers and this place. Try another session or another place."
)
EMPTY_SESSION_HEAD = "There are no sessions in this programme file"
EMPTY_SESSION: Pair = (
    "Ask your coach for a newer file.",
    "Ask {name}’s coach for a newer file.",
)


def whose_turn(name: str) -> str:
    """The spoken name of changing the person: `Ines: someone else’s turn`."""
    return f"{name}: someone else’s turn"


def due_line(due: Due) -> str:
    """`Week 2, session 1 of 3. A lighter week.`"""
    lighter = " A lighter week." if due.lighter else ""
    through = " The programme is finished, so its last full weeks repeat." if due.repeats else ""
    again = f" {week_again(due.again)}" if due.again else ""
    return f"Week {due.week}, session {due.number} of {due.of}.{lighter}{through}{again}"


def week_again(times: int) -> str:
    """Why a week is done once more, and what may help where it was more than once."""
    said = "This week is repeated before the next one, because its sessions were harder than planned."
    return f"{said} {WEEK_ASK}" if times >= WEEKS_AGAIN else said


WEEK_ASK = "If that keeps happening, ask the coach for something easier."


def minutes_option(minutes: int | None) -> str:
    """`20`, or `As planned`."""
    return AS_PLANNED if minutes is None else str(minutes)


def minutes_name(minutes: int | None) -> str:
    """`20 minutes`, or `As planned`."""
    return AS_PLANNED if minutes is None else f"{minutes} minutes"


def place_line(floor: bool, noise: bool, small: bool, kit: str) -> str:
    """`Kit: a chair. No floor to lie on. Keep it quiet. Little room.`"""
    told = [f"Kit: {kit}."]
    told += [] if floor else ["No floor to lie on."]
    told += [] if noise else ["Keep it quiet."]
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
    "After strength work your muscles need a rest day in between. You can do a session for moving and balance on any "
    "day.",
    "After strength work {name}’s muscles need a rest day in between. A session for moving and balance is fine on any "
    "day.",
)
LOOK_AHEAD = "Look at the next session"
SEE_DIARY: Pair = ("See my diary", "See {name}’s diary")
SEND_DIARY: Pair = ("Send my diary", "Send {name}’s diary")

# ------------------------------------------------------------------ a day without a session

REST_HEAD = "A rest day today"
REST_WORDS = "Take a walk, potter about, sleep well. The session will wait."
ANSWER_HEAD = "One question left"
ANSWER_WORDS = "Is anything new or worrying today? We need that answer before any session."
ANSWER_ACT = "Answer it now"
STOP_HEAD = "No session today: ask first"
STOP_WORDS: Pair = (
    "This is not a diagnosis. It is a reason to have someone look at you before you train again.",
    "This is not a diagnosis. It is a reason to have someone look at {name} before the next session.",
)
URGENT_HEAD = "Stop: this may be an emergency"
URGENT_WORDS = "Even if it has passed, see someone today. Sessions start again once a doctor, nurse or physio says so."
WAY_BACK_HEAD = "The way back"
RECORD_YES = "Record the go-ahead"
ANSWERS_WRONG = "I ticked something by mistake"
YES_GIVEN_HEAD = "The go-ahead is recorded"
YES_GIVEN: Pair = (
    "Answer this morning’s questions once more, then you’ll start again with a light session.",
    "Answer this morning’s questions for {name} once more, then {name} starts again with a light session.",
)
CHECK_IN_ACT = "Answer the questions"


def call_words() -> str:
    """What stands over the number."""
    return "If it is happening now, call"


WHO_MAY_SAY_YES: Mapping[str, str] = {
    "self":
        f"Once there has been no fever for {FEVER_FREE_HOURS} hours, no one else needs to agree. Until then it needs "
            "the go-ahead of the coach, a doctor, a nurse or a physio.",
    "coach": "The coach can give the go-ahead, or a doctor, nurse or physio.",
    "clinician":
        "It needs a go-ahead from a doctor, nurse or physio who has had a look and knows it is about exercise.",
}

STOP_CAUSES: Mapping[str, str] = {
    Symptom.EMERGENCY: "A sign that may be an emergency",
    Symptom.STOP_AND_ASK: "Something a doctor should know about",
    Symptom.FEVER: "A fever",
    "pain": "Severe pain, or a joint that gave way",
    "pain_rise": "Pain that stayed up after a session",
    "soreness": "Muscles that stayed very achy for days",
    "fall": "A fall",
    "screening": "An answer to the safety questions",
    "clearance": "Still on hold from before",
}

SCREENING_DUE_HEAD = "The safety questions first"
SCREENING_DUE = "They take a minute, and come before any session when it has been a while or some are new."
SCREENING_ACT = "Answer the safety questions"
WAITING_HEAD = "Waiting for a go-ahead"
WAITING_WORDS: Pair = (
    "You ticked something a doctor, nurse or physio should know about before you train. You can start once they agree.",
    "A doctor, nurse or physio should know about something you ticked before {name} trains. {name} can start once they "
    "agree.",
)
ANSWERS_CHANGED = "Answer the safety questions again"

# ------------------------------------------------------------------ the programme and its plan

PROGRAMME_TITLE = "Programme"
PICK_FILE = "Choose the file"
PICK_HINT = "Its name ends in .evenload-pack. It stays on this device, and works without the internet."
NOT_PICKED = "No file was chosen."
MATCH_HEAD = "Is it really from them?"
SAME, NOT_SAME = "The same", "Not the same"
NOT_SAME_SAID = "Nothing was added. Ask your coach for the file again, in person or some other way you trust."
FOLLOWED = "You follow this one"
FOLLOW = "Follow this programme"
WHICH_PROGRAMME = "Which one would you like to follow?"
WITH_COACH = "Your coaches"


def match_words(coach: str) -> str:
    """How the five words are compared."""
    return (f"Phone {coach} or meet, and ask them to read out the five words on their own screen. If all five are the "
            "same, the programme is theirs.")


def opened_line(coach: str, title: str, version: int) -> str:
    """What was opened."""
    return f"“{title}” by {coach}, version {version}."


def kept_line(coach: str) -> str:
    """A programme file that was added."""
    return f"{coach}’s programme is now on this device."


def older_line(version: int, here: int) -> str:
    """An older file than the one that is here."""
    return f"This is version {version}. You already have version {here}, so we’ll keep using that one."
