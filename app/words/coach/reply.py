"""Words of a coach's message to one person: limits, changes, a go-ahead. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from app.domain.dosing.way_back import Stop
from app.domain.model.client import AxisLimit
from app.domain.model.thresholds import FEVER_FREE_HOURS
from app.words.client.today import STOP_CAUSES, day_words
from app.words.signs import SIGN_WORDS
from app.words.text import count, listed

STOP_HEAD = "On hold"
REPLY_HEAD = "Write to them"
REPLY_OPEN = "Write a message"
YES_OPEN = "Record a go-ahead"
MESSAGE = "Message"
YES_WHO, YES_KIND = "Who gave the go-ahead", "Their profession"
YES_MINE = "I give the go-ahead"
YES_WHY_CLINICIAN = "This needs a clinician’s go-ahead. Write who gave it, to you or to them, and their profession."
YES_WHY_COACH = "This needs your go-ahead, or a clinician’s."
PROFESSIONS: Mapping[str, str] = {
    "doctor": "Doctor", "physiotherapist": "Physiotherapist", "nurse": "Nurse", "coach": "Coach (me)",
}
LIMITS_HEAD = "Go easy on"
LIMITS_WHY = "What you set here replaces what you sent before. They see it as a limit from you."
NO_LIMITS = "No limits from you."
SIDES: Mapping[str, str] = {"": "Both sides", "left": "Left", "right": "Right"}
CAPS: Mapping[int, str] = {0: "Leave out", 1: "Light only", 2: "Nothing hard"}
AXIS_ADD = "Limit one kind of demand"
AXIS_WHICH, AXIS_UNTIL = "Which?", "Review it after"
AXIS_SAID_BY = "Who said so"
AXIS_MONTHS: Mapping[int, str] = {1: "1 month", 3: "3 months", 6: "6 months", 0: "No date"}
AXIS_KEEP = "Keep this limit"
AXIS_LACKS = "Please choose which kind of demand, and write who said so."
HOLD_HEAD = "Stays as it is"
HOLD_WHY = "Ticked: it won’t get harder until you untick it. It can still be made easier on a poor day."
LASTING_HEAD = "Exercises they swapped"
LASTING_WHY = "Ticked: from now on it is always swapped, unless their body or the room rules it out."
TAKE_AWAY = "Take away"
SEAL = "Seal this message"
SAVE_FILE, COPY_TEXT = "Save as file", "Copy as text"
CANCEL = "Cancel"
COPIED = "Copied. Paste it into any messaging app; only they can read it."
NOT_COPIED = "It couldn’t be copied here. Save the file instead."
SEALED_HEAD = "Messages so far"
NO_KEY = "They haven’t sent a diary yet, and you need one before you can seal a message for them."


def stop_line(stop: Stop, day: date) -> str:
    """What stopped them, and when."""
    cause = STOP_CAUSES.get(stop.because) or SIGN_WORDS.get(stop.because) or "Something to ask about"
    return f"{cause}, on {day_words(day)}. They are on hold until a go-ahead is recorded."


def stop_needs(stop: Stop) -> str:
    """Whose go-ahead it needs."""
    needs = {"clinician": "It needs a clinician’s go-ahead, with their profession.",
             "coach": "It needs your go-ahead, or a clinician’s.",
             "self":
                 f"They can decide themselves once the fever has been gone for {FEVER_FREE_HOURS} hours; until then "
                 "you can."}
    return needs[stop.yes_from]


def yes_on_its_way(who: str, kind: str, number: int) -> str:
    """A go-ahead that was sent and isn't confirmed yet."""
    return f"{who} ({kind}) gave the go-ahead; it is in message {number}. It applies once they open that message."


def sealed(number: int, name: str) -> str:
    """A message that is ready."""
    return f"Message {number} for {name} is sealed. Only {name} can read it. Save or copy it, then send it."


def file_called(file_name: str) -> str:
    """Which file it is, for who saves several: the file itself names nobody."""
    return f"The file is called {file_name}, so that its name doesn’t say who it is for."


def sealed_line(number: int, day: date, message: str, extras: str) -> str:
    """One message that was sealed."""
    said = f"“{message}”" if message else ""
    return f"Message {number}, {day_words(day)}: {'; '.join(p for p in (said, extras) if p)}"


def said_sent(day: date) -> str:
    """A message that the coach has said to have sent. Whether it was opened, nobody knows here."""
    return f"Sent on {day_words(day)}, as you said."


def sent_it(number: int) -> str:
    """The act of saying so."""
    return f"I have sent message {number}"


def limit_line(spot: str, cap: int) -> str:
    """One limit."""
    return f"{spot.capitalize()}: {CAPS[cap].lower()}"


def axis_line(name: str, one: AxisLimit) -> str:
    """`Lifting or bracing hard: light only; said by Dr Moss; to be reviewed from 3 March`."""
    until = f"; to be reviewed from {day_words(one.until)}" if one.until else ""
    return f"{name.capitalize()}: {CAPS[one.at_most].lower()}; said by {one.said_by}{until}"


def stays(name: str) -> str:
    """An exercise that is not to get harder."""
    return f"“{name}” stays as it is"


def always(pair: tuple[str, str], names: Mapping[str, str]) -> str:
    """A change by hand that is to last."""
    written, chosen = (names.get(one, one.replace("-", " ")) for one in pair)
    return f"Always “{chosen}” instead of “{written}”"


def sent_extras(spare: Mapping[str, int] | None, yes: tuple[str, str] | None, held: int | None = None,
                swaps: int = 0) -> str:
    """Limits, changes and a go-ahead that a message carried."""
    told = [f"go-ahead from {yes[0]} ({yes[1]})"] if yes else []
    told += [f"kept as now: {count(held, 'exercise') if held else 'nothing any more'}"] if held is not None else []
    told += [f"{count(swaps, 'swap')} to last"] if swaps else []
    if spare is not None:
        told.append("go easy on " + (listed([f"{spot} ({CAPS[cap].lower()})" for spot, cap in spare.items()])
                                     or "nothing any more"))
    return ", ".join(told)
