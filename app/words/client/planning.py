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
MOVE = "Choose a day"
MOVE_TITLE = "Which day?"
MOVE_CLEAR = "No day in particular"
MOVE_NOTE = "The day is only a plan. If it passes, the session waits for you."
MOVE_SOON = (
    "That is the day after strength work, and muscles need a rest day in between. The session would be much lighter."
)
MOVE_TODAY_SOON = "There was strength work today or yesterday, and muscles need a rest day in between."


def move_name(name: str) -> str:
    """The spoken name of moving one session: `Choose a day: Legs and back`."""
    return f"{MOVE}: {name}"


def planned_line(day: date, today: date) -> str:
    """`Planned for Thursday 5 March.`"""
    if day == today:
        return "Planned for today."
    when = day_words(day)
    return f"Planned for {when}." if day > today else f"It was planned for {when} and is still waiting."


def next_planned(name: str, day: date) -> str:
    """What Today says of a session that was put on a later day."""
    return f"“{name}” is planned for {day_words(day)}. It can still be done today."


# ------------------------------------------------------------------ the next block

BLOCK_HEAD = "The programme is finished"
BLOCK_WORDS = "All of its sessions are done. What comes next? Until that is chosen, its last full weeks repeat."
BLOCK_AGAIN = "Repeat its last weeks"
BLOCK_AGAIN_NOTE = (
    "The exercises still get a little harder after good sessions, until the coach sends another programme."
)
BLOCK_ASK_NOTE = "Send the diary, so that the coach can suggest what comes next."
BLOCK_TAKEN = "The next programme has started."


def block_ask(coach: str) -> str:
    """The button that asks the coach: `Ask Odile Marsh`."""
    return f"Ask {coach}"


def block_name(name: str) -> str:
    """The button of a programme that may follow: `Start “Two short sessions”`."""
    return f"Start “{name}”"


def suits_better(due: str, asked: str = "") -> str:
    """Another session stands for the one that is due, since less than half of that could be done."""
    how = f"{asked} sits or stands" if asked else "you sit or stand"
    return (
        f"This takes the place of “{due}” today, as it can all be done the way {how}. It counts towards the programme."
    )
