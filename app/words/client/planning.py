"""Words for days that somebody chooses, and for what follows at the end of a programme. Knows no Flet."""
from __future__ import annotations

from datetime import date, timedelta

from app.words.client.today import day_words

# ------------------------------------------------------------------ days

def day_choice(day: date, today: date) -> str:
    """A day to choose: `Today`, `Tomorrow`, `Thu 5 Mar`."""
    if day == today:
        return "Today"
    return "Tomorrow" if day == today + timedelta(days=1) else f"{day:%a} {day.day} {day:%b}"


def day_choice_back(day: date, today: date) -> str:
    """A day that has been: `Today`, `Yesterday`, `Thu 5 Mar`."""
    return "Yesterday" if day == today - timedelta(days=1) else day_choice(day, today)


AROUND_HEAD = "Around the sessions"
MOVE = "Do it on …"
MOVE_TITLE = "Which day?"
MOVE_CLEAR = "No day in particular"
MOVE_NOTE = "A day that you choose is a plan and no more. If it passes, the session waits and nothing is lost."
MOVE_SOON = "That is the day after strength work; muscles want a day between. On that day it would be much lighter."
MOVE_TODAY_SOON = "There was strength work today or yesterday; muscles want a day between."


def move_name(name: str) -> str:
    """The spoken name of moving one session: `Do it on …: Legs and back`."""
    return f"{MOVE}: {name}"


def planned_line(day: date, today: date) -> str:
    """`Planned for Thursday 5 March.`"""
    if day == today:
        return "Planned for today."
    return f"Planned for {day_words(day)}." if day > today else f"It was planned for {day_words(day)}, and waits."


def next_planned(name: str, day: date) -> str:
    """What Today says of a session that was put on a later day."""
    return f"“{name}” is planned for {day_words(day)}. It may be done today all the same."


# ------------------------------------------------------------------ the next block

BLOCK_HEAD = "The programme is through"
BLOCK_WORDS = (
    "All of its sessions are done. What comes next? Until that is chosen, its last full weeks come round again."
)
BLOCK_AGAIN = "Carry on with its last weeks"
BLOCK_AGAIN_NOTE = "They come round again, and the moves go on in them as before, until the coach sends another."
BLOCK_ASK_NOTE = "Send the diary, so that the coach can suggest what comes next."
BLOCK_TAKEN = "The next programme begins."


def block_ask(coach: str) -> str:
    """The button that asks the coach: `Ask Odile Marsh`."""
    return f"Ask {coach}"


def block_name(name: str) -> str:
    """The button of a programme that may follow: `Go on with “Two short sessions”`."""
    return f"Go on with “{name}”"


def suits_better(due: str, asked: str = "") -> str:
    """Another session stands for the one that is due, since less than half of that could be done."""
    how = f"{asked} sits or stands" if asked else "you sit or stand"
    return f"This stands for “{due}” today: it suits the way {how}, and the programme goes on with it."
