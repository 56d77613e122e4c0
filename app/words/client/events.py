"""Words for what happens around the sessions: falls, illness, medicine, moving about, goals, pauses.

Own wording; nothing here is a diagnosis. A pair holds a line for the person themselves and one for whoever leads them.
Knows no Flet.
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.domain.dosing import events as e
from app.domain.measures.week_minutes import GUIDE_MINUTES, Frame
from app.domain.model.record import Event, EventKind
from app.words.client.today import Pair, day_words, said
from app.words.text import count, listed

# ------------------------------------------------------------------ noting something

NOTE_SOMETHING = "Note something"
TITLE = "What happened?"
KINDS: Mapping[EventKind, Pair] = {
    EventKind.FALL: ("I fell", "{name} fell"),
    EventKind.ILLNESS: ("I am ill, or was", "{name} is ill, or was"),
    EventKind.MEDICINE: ("A medicine is new or changed", "A medicine is new or changed"),
    EventKind.ACTIVITY: ("I moved about", "{name} moved about"),
    EventKind.GOAL: ("My goal", "{name}’s goal"),
    EventKind.PAUSE: ("A pause", "A pause"),
}
KIND_NOTES: Mapping[EventKind, str] = {
    EventKind.FALL: "Also one without a scratch.",
    EventKind.ILLNESS: "A cold, a stomach upset, a fever.",
    EventKind.MEDICINE: "Tablets, drops, injections.",
    EventKind.ACTIVITY: "A walk, the garden, the pool.",
    EventKind.GOAL: "In your own words.",
    EventKind.PAUSE: "Days on which nobody waits for a session.",
}
NAMES: Mapping[EventKind, str] = {
    EventKind.FALL: "A fall", EventKind.ILLNESS: "Ill", EventKind.MEDICINE: "Medicine",
    EventKind.ACTIVITY: "Moved about", EventKind.GOAL: "Goal", EventKind.PAUSE: "A pause",
}
WRITE_DOWN = "Write it down"
WRITTEN = "Written down."
UNDO = "Undo"
UNDONE = "Taken back. Nothing of it counts."
STAYS = "If you take it back, what it changed about you stays: see the settings, or the goal in the plan."
TO_DIARY, TO_TODAY = "To the diary", "Back to today"
NOTE = "Anything to add?"
OTHER = "Something else"

#: Ids of `Event.what` in words.
ILLNESSES: Mapping[str, str] = {"cold": "A cold or cough", "stomach": "A stomach upset", "other_illness": OTHER}
MEDICINES: Mapping[str, str] = {
    "slows_heart": "It slows the heart (a beta-blocker)", "insulin": "Insulin", "thins_blood": "It thins the blood",
    "pressure": "It is for blood pressure", "sleep": "It is for sleep or nerves", "other_medicine": OTHER,
}
ACTIVITIES: Mapping[str, str] = {
    "walk": "A walk", "cycle": "Cycling", "swim": "Swimming or water", "garden": "Garden or house", "dance": "Dancing",
    "other_activity": OTHER,
}
GOALS: Mapping[str, str] = {
    e.SET: "written down", e.KEPT: "still the goal", e.REACHED: "reached", e.CHANGED: "changed",
}
WHAT: Mapping[str, str] = {**ILLNESSES, **MEDICINES, **ACTIVITIES, **GOALS}


def kind_words(kind: EventKind, asked: str = "") -> str:
    """The button of a kind: `I fell`, `Kasimir fell`."""
    return said(KINDS[kind], asked)


# ------------------------------------------------------------------ a fall

FALL_HEAD: Pair = ("A fall", "{name} fell")
FALL_WHEN = "When?"
FALL_QUESTIONS: Mapping[str, Pair] = {
    e.HEAD: ("Did you knock your head?", "Was there a knock to the head?"),
    e.THINNERS: ("Do you take anything that thins the blood?", "Does {name} take anything that thins the blood?"),
    e.HURTS: ("Does anything hurt more than a bruise, or not carry you as before?",
              "Does anything hurt more than a bruise, or not carry {name} as before?"),
    e.ROSE: ("Could you get up by yourself?", "Could {name} get up without help?"),
}
FALL_SHORT: Mapping[str, str] = {
    e.HEAD: "A knock to the head", e.THINNERS: "Something that thins the blood", e.HURTS: "More than a bruise",
    e.ROSE: "Up without help",
}
FALL_MISSING = "Answer all four, please: what to do next hangs on them."
FALL_ASK = (
    "Call your doctor or a nurse line today and tell them of the fall, before you train again.",
    "Pain that grows, a leg that does not carry, a headache, being sick, drowsy or confused: call {number}.",
)
FALL_THINNERS = "Something thins your blood: say so at once. A bleed after a fall can show late."
FALL_WELL = (
    "Tell your doctor of it at the next visit all the same, above all if it was not the first.",
    "A headache, being sick, drowsy or confused in the next days: call {number}.",
)
FALL_CONDITION_HEAD: Pair = ("Balance with a hand on something?", "Balance with a hand on something?")
FALL_CONDITION: Pair = (
    "After a fall, balance moves are done only with something to hold. That stays until you take it away in the "
    "settings, under “What clinicians have said”. A year is a good measure.",
    "After a fall, {name} does balance moves only with something to hold. That stays until you take it away in the "
    "settings, under “What clinicians have said”. A year is a good measure.",
)
FALL_CONDITION_YES, FALL_CONDITION_NO = "Yes, with a hand on something", "No, leave it as it is"
FALL_CONDITION_KEPT = "From now on: balance only with a hand on something."
FALL_FLOOR = "From now on: nothing on the floor, since getting up alone was not possible. You can change that in the " \
             "settings, under “Alone, and up from the floor”."
FALL_FAMILY = "Call {number} now, or have somebody call."


def fall_lines(stopped_by: str, answers: Mapping[str, bool], number: str) -> tuple[str, ...]:
    """What to do after a fall that is no emergency, line by line."""
    lines = FALL_ASK if stopped_by else FALL_WELL
    first = (FALL_THINNERS,) if answers.get(e.THINNERS) else ()
    return (*first, *(line.format(number=number) for line in lines))


# ------------------------------------------------------------------ illness and medicine

ILL_HEAD: Pair = ("Ill", "{name} is ill")
ILL_WHICH = "What is it?"
ILL_FEVER: Pair = ("A fever, now or in the last two days?", "A fever, now or in the last two days?")
ILL_FEVER_SHORT = "Fever"
ILL_MISSING = "Say whether there is or was a fever: no session may follow one too soon."
ILL_STOPPED = (
    "No session with a fever, and none until it has been gone for two days.",
    "Ask a doctor if it is high, lasts, or if you feel very unwell.",
)
ILL_LIGHT = (
    "Rest as long as you need. The next session is a light one, and then it comes back step by step.",
    "Each morning’s first question still counts: chest, breath, fever and the like stop a session.",
)
MEDICINE_HEAD = "A medicine"
MEDICINE_WHICH = "Which of these fits best?"
MEDICINE_WHICH_HINT = "Choose the first that fits."
MEDICINE_ASK = "Ask the doctor or pharmacist whether it changes anything about training: dizziness on standing, the " \
               "pulse, sugar, bruises."
MEDICINE_NOW: Mapping[str, str] = {
    "slows_heart": "From now on: go by the breath and by talking, never by the pulse.",
    "insulin": "From now on: before each session a reminder to check the sugar and have something sweet near.",
    "thins_blood": "After a fall, call at once, even if nothing seems to have happened.",
    "pressure": "Get up slowly, and wait for a breath before you walk off, above all in the first weeks.",
    "sleep": "Get up slowly. If you are unsteady in the morning, do the balance moves another day.",
}

# ------------------------------------------------------------------ moving about

ACTIVITY_HEAD = "What was it?"
ACTIVITY_MINUTES = "How many minutes?"
MINUTES = (10, 15, 20, 30, 45, 60, 90)
ACTIVITY_MISSING = "Choose what it was and how long it took."
FRAME_HEAD = "This week in minutes"


def minutes_name(minutes: int) -> str:
    """The spoken name of a choice: `30 minutes`."""
    return f"{minutes} minutes"


def frame_line(frame: Frame) -> str:
    """The week in a sentence or two, beside what guidelines speak of."""
    parts = [f"{count(frame.session_minutes, 'minute')} of sessions"] if frame.session_minutes else []
    parts += [f"{count(frame.activity_minutes, 'minute')} of moving about"] if frame.activity_minutes else []
    days = f" Strength work on {count(frame.strength_days, 'day')}." if frame.strength_days else ""
    return f"{listed(parts).capitalize() or 'Nothing written down yet'}.{days}"


FRAME_NOTE = (
    f"General guidance for later life speaks of {GUIDE_MINUTES[0]} to {GUIDE_MINUTES[1]} minutes a week in which the "
    "breath comes quicker, with strength work on two days. It is a frame and no sum to reach; all of it helps."
)

# ------------------------------------------------------------------ goals

GOAL_TITLE: Pair = ("What is it for?", "What is it for, in {name}’s words?")
GOAL_LABEL = "What I want to be able to do"
GOAL_HINT = "For example: carry the shopping up the stairs"
GOAL_SAVE = "Keep this goal"
GOAL_NONE = "Write a few words, or go back."
GOAL_REVIEW_HEAD = "Still your goal?"
GOAL_STILL, GOAL_REACHED, GOAL_CHANGE = "Still my goal", "Reached", "It has changed"
GOAL_REACHED_NEXT = "Well earned. Is there something else that you would like to be able to do?"
GOAL_KEPT = "It stays as it is, and is asked about again in four weeks."


def goal_quote(goal: str) -> str:
    """The goal in the person's words."""
    return f"“{goal}”"


# ------------------------------------------------------------------ pauses

PAUSE_TITLE = "A pause"
PAUSE_WHY = "A journey, visitors, an operation ahead, or simply a rest. Nobody is told that you are missing meanwhile."
PAUSE_FROM, PAUSE_LENGTH = "From", "How long?"
PAUSE_WEEKS: Mapping[int, str] = {7: "1 week", 14: "2 weeks", 21: "3 weeks", 28: "4 weeks", 56: "8 weeks"}
PAUSE_MISSING = "Choose how long."
PAUSE_AFTER = "The programme waits where you are. After a longer break the first sessions are lighter by themselves."
PAUSE_END = "End the pause"
PAUSE_ENDED = "The pause has ended."


def pause_line(event: Event) -> str:
    """`A pause from Monday 2 March to Sunday 15 March.`"""
    first = event.since or event.stamp.local
    return f"A pause from {day_words(first)} to {day_words(event.until or first)}."


def paused_line(event: Event, asked: str = "") -> str:
    """What Today says."""
    who = f"{asked} is" if asked else "You are"
    return f"{who} on a pause until {day_words(event.until or event.stamp.local)}. Nothing has to be done until then."


PAUSED_MAY: Pair = ("You may train all the same.", "{name} may train all the same.")


# ------------------------------------------------------------------ an event in the diary and at the desk

QUESTIONS: Mapping[str, str] = {**FALL_SHORT, e.FEVER: "Fever"}


def event_detail(event: Event) -> str:
    """One event in a line, without what it is; empty where nothing more is known."""
    which = WHAT.get(event.what, event.what.replace("_", " "))
    if event.kind is EventKind.PAUSE:
        first = event.since or event.stamp.local
        return f"From {day_words(first)} to {day_words(event.until or first)}."
    if event.kind is EventKind.GOAL:
        return f"{goal_quote(event.note) + ': ' if event.note else ''}{which}."
    if event.kind is EventKind.ACTIVITY:
        return f"{which or OTHER}, {count(event.minutes or 0, 'minute')}."
    told = [which] if which else []
    told += [f"on {day_words(event.since)}"] if event.kind is EventKind.FALL and event.since else []
    told += answer_lines(event)
    told += [f"“{event.note}”"] if event.note else []
    words = "; ".join(told)
    return f"{words[:1].upper()}{words[1:]}." if words else ""


def event_line(event: Event) -> str:
    """One event in a line: `A fall: On Sunday 1 March; more than a bruise: yes.`"""
    detail = event_detail(event)
    return f"{NAMES[event.kind]}. {detail}" if detail else f"{NAMES[event.kind]}."


COACH_HEAD = "Around the sessions"
COACH_NONE = "Nothing was told: no fall, illness, new medicine, other activity or pause."
COACH_WITHHELD = "Falls, illness and medicine are not shared: their absence here says nothing."


def answer_lines(event: Event) -> list[str]:
    """`more than a bruise: no`, one for each question that was answered."""
    order: Sequence[str] = [*e.FALL_QUESTIONS, e.FEVER]
    told = event.answers
    return [f"{QUESTIONS[key].lower()}: {'yes' if told[key] else 'no'}" for key in order if key in told]
