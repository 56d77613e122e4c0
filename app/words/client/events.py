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

NOTE_SOMETHING = "Add to the diary"
TITLE = "What happened?"
KINDS: Mapping[EventKind, Pair] = {
    EventKind.FALL: ("I fell", "{name} fell"),
    EventKind.ILLNESS: ("I am or was ill", "{name} is or was ill"),
    EventKind.MEDICINE: ("A medicine is new or changed", "A medicine is new or changed"),
    EventKind.ACTIVITY: ("I was active", "{name} was active"),
    EventKind.GOAL: ("My goal", "{name}’s goal"),
    EventKind.PAUSE: ("A break", "A break"),
}
KIND_NOTES: Mapping[EventKind, str] = {
    EventKind.FALL: "Even without an injury.",
    EventKind.ILLNESS: "A cold, a stomach upset, a fever.",
    EventKind.MEDICINE: "Tablets, drops, injections.",
    EventKind.ACTIVITY: "A walk, the garden, the pool.",
    EventKind.GOAL: "In your own words.",
    EventKind.PAUSE: "Days without sessions, such as a holiday.",
}
NAMES: Mapping[EventKind, str] = {
    EventKind.FALL: "A fall", EventKind.ILLNESS: "Ill", EventKind.MEDICINE: "Medicine",
    EventKind.ACTIVITY: "Active", EventKind.GOAL: "Goal", EventKind.PAUSE: "A break",
}
WRITE_DOWN = "Save to the diary"
WRITTEN = "It’s in the diary."
UNDO = "Undo"
UNDONE = "Removed. It no longer counts."
STAYS = "Removing it doesn’t undo what it changed about you: see Settings, or the goal under Plan."
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
    e.SET: "set", e.KEPT: "still the goal", e.REACHED: "reached", e.CHANGED: "changed",
}
WHAT: Mapping[str, str] = {**ILLNESSES, **MEDICINES, **ACTIVITIES, **GOALS}


def kind_words(kind: EventKind, asked: str = "") -> str:
    """The button of a kind: `I fell`, `Kasimir fell`."""
    return said(KINDS[kind], asked)


# ------------------------------------------------------------------ a fall

FALL_HEAD: Pair = ("A fall", "{name} fell")
FALL_WHEN = "When?"
FALL_QUESTIONS: Mapping[str, Pair] = {
    e.HEAD: ("Did you knock your head?", "Did {name} knock their head?"),
    e.THINNERS: ("Do you take anything that thins the blood?", "Does {name} take anything that thins the blood?"),
    e.HURTS: ("Is anything worse than a bruise, or is it harder to walk than before?",
              "Is anything worse than a bruise, or is it harder for {name} to walk than before?"),
    e.ROSE: ("Could you get up without help?", "Could {name} get up without help?"),
}
FALL_SHORT: Mapping[str, str] = {
    e.HEAD: "A knock on the head", e.THINNERS: "Something that thins the blood", e.HURTS: "More than a bruise",
    e.ROSE: "Got up without help",
}
FALL_MISSING = "Please answer all four, so that we can say what to do next."
FALL_ASK = (
    "Call your doctor or a nurse line today and tell them about the fall, before you train again.",
    "For worsening pain, a leg that won’t take weight, a headache, being sick, drowsy or confused: call {number}.",
)
FALL_THINNERS = "You take something that thins the blood, so tell them that first. Bleeding after a fall can show late."
FALL_WELL = (
    "Do tell your doctor at your next visit, especially if it wasn’t the first fall.",
    "For a headache, being sick, drowsy or confused in the next few days: call {number}.",
)
FALL_CONDITION_HEAD: Pair = ("Hold on for balance?", "Hold on for balance?")
FALL_CONDITION: Pair = (
    "After a fall, it is safer to hold on during balance exercises. That stays until you change it in the settings, "
    "under “Health”. About a year is usual.",
    "After a fall, it is safer for {name} to hold on during balance exercises. That stays until you change it in the "
    "settings, under “Health”. About a year is usual.",
)
FALL_CONDITION_YES, FALL_CONDITION_NO = "Yes, hold on", "No, leave it as it is"
FALL_CONDITION_KEPT = "From now on balance exercises are done holding on."
FALL_FLOOR = (
    "From now on there are no exercises on the floor, as getting up without help wasn’t possible. You can change that "
    "in the settings, under “Alone, and up from the floor”."
)
FALL_FAMILY = "Call {number} now, or ask someone to."


def fall_lines(stopped_by: str, answers: Mapping[str, bool], number: str) -> tuple[str, ...]:
    """What to do after a fall that is no emergency, line by line."""
    lines = FALL_ASK if stopped_by else FALL_WELL
    first = (FALL_THINNERS,) if answers.get(e.THINNERS) else ()
    return (*first, *(line.format(number=number) for line in lines))


# ------------------------------------------------------------------ illness and medicine

ILL_HEAD: Pair = ("Ill", "{name} is ill")
ILL_WHICH = "What is it?"
ILL_FEVER: Pair = ("A fever now, or in the last two days?", "A fever now, or in the last two days?")
ILL_FEVER_SHORT = "Fever"
ILL_MISSING = "Please say whether there is or was a fever: sessions start again only once it has been gone for a while."
ILL_STOPPED = (
    "Don’t train with a fever, or for two days after it has gone.",
    "Ask a doctor if it is high or lasts, or if you feel very unwell.",
)
ILL_LIGHT = (
    "Rest as long as you need. The next session is a light one, and then it builds up again step by step.",
    "Each morning we still ask first whether anything is new or worrying.",
)
MEDICINE_HEAD = "A medicine"
MEDICINE_WHICH = "Which of these fits best?"
MEDICINE_WHICH_HINT = "Choose the first that fits."
MEDICINE_ASK = (
    "Ask the doctor or pharmacist whether it affects exercise: dizziness when standing up, the pulse, sugar or bruises."
)
MEDICINE_NOW: Mapping[str, str] = {
    "slows_heart": "From now on go by breathing and being able to talk, never by the pulse.",
    "insulin": "From now on there is a reminder before each session to check the sugar and have something sweet near.",
    "thins_blood": "After a fall, call for help at once, even if nothing seems to have happened.",
    "pressure": "Get up slowly, and take a breath before you walk off, especially in the first weeks.",
    "sleep": "Get up slowly. If you are unsteady in the morning, do the balance exercises another day.",
}

# ------------------------------------------------------------------ moving about

ACTIVITY_HEAD = "What was it?"
ACTIVITY_MINUTES = "How many minutes?"
MINUTES = (10, 15, 20, 30, 45, 60, 90)
ACTIVITY_MISSING = "Please choose what it was and how long it took."
FRAME_HEAD = "This week in minutes"


def minutes_name(minutes: int) -> str:
    """The spoken name of a choice: `30 minutes`."""
    return f"{minutes} minutes"


def frame_line(frame: Frame) -> str:
    """The week in a sentence or two, beside what guidelines speak of."""
    parts = [f"{count(frame.session_minutes, 'minute')} of sessions"] if frame.session_minutes else []
    parts += [f"{count(frame.activity_minutes, 'minute')} of other activity"] if frame.activity_minutes else []
    days = f" Strength work on {count(frame.strength_days, 'day')}." if frame.strength_days else ""
    return f"{listed(parts).capitalize() or 'Nothing in the diary yet'}.{days}"


FRAME_NOTE = (
    f"General guidance for later life is {GUIDE_MINUTES[0]} to {GUIDE_MINUTES[1]} minutes a week that make you breathe "
    "a little faster, with strength work on two days. It is a guide, not a target: every bit helps."
)

# ------------------------------------------------------------------ goals

GOAL_TITLE: Pair = ("What is it for?", "What is it for, in {name}’s words?")
GOAL_LABEL = "What I want to be able to do"
GOAL_HINT = "For example: carry the shopping up the stairs"
GOAL_SAVE = "Keep this goal"
GOAL_NONE = "Please write a few words, or go back."
GOAL_REVIEW_HEAD = "Still your goal?"
GOAL_STILL, GOAL_REACHED, GOAL_CHANGE = "Still my goal", "Reached", "It has changed"
GOAL_REACHED_NEXT = "Well done. Is there something else you would like to be able to do?"
GOAL_KEPT = "It stays as it is, and we’ll ask again in four weeks."


def goal_quote(goal: str) -> str:
    """The goal in the person's words."""
    return f"“{goal}”"


# ------------------------------------------------------------------ pauses

PAUSE_TITLE = "A break"
PAUSE_WHY = "A journey, visitors, an operation coming up, or simply a rest. Your coach’s list allows for it."
PAUSE_FROM, PAUSE_LENGTH = "From", "How long?"
PAUSE_WEEKS: Mapping[int, str] = {7: "1 week", 14: "2 weeks", 21: "3 weeks", 28: "4 weeks", 56: "8 weeks"}
PAUSE_MISSING = "Please choose how long."
PAUSE_AFTER = "The programme waits where you are. After a longer break the first sessions are automatically lighter."
PAUSE_END = "End the break"
PAUSE_ENDED = "The break has ended."


def pause_line(event: Event) -> str:
    """`A break from Monday 2 March to Sunday 15 March.`"""
    first = event.since or event.stamp.local
    return f"A break from {day_words(first)} to {day_words(event.until or first)}."


def paused_line(event: Event, asked: str = "") -> str:
    """What Today says."""
    who = f"{asked} is" if asked else "You are"
    return f"{who} on a break until {day_words(event.until or event.stamp.local)}. Nothing to do until then."


PAUSED_MAY: Pair = ("You can still train if you like.", "{name} can still train, if {name} likes.")


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
COACH_NONE = "Nothing reported: no fall, illness, new medicine, other activity or break."
COACH_WITHHELD = "They don’t share falls, illness and medicine, so there may be some you can’t see here."


def answer_lines(event: Event) -> list[str]:
    """`more than a bruise: no`, one for each question that was answered."""
    order: Sequence[str] = [*e.FALL_QUESTIONS, e.FEVER]
    told = event.answers
    return [f"{QUESTIONS[key].lower()}: {'yes' if told[key] else 'no'}" for key in order if key in told]
