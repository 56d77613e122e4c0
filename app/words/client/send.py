"""Words for sending the diary, for the copies to keep, and for a coach's message. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime

from app.words.client.today import Pair, moment_words
from app.words.signs import sign_words
from app.words.text import AXIS_WORDS, count, listed

TITLE = "Send"
GOES, STAYS = "What goes", "What stays here"
WAYS = "Other ways"
SAVE_FILE, COPY = "Save as a file", "Copy as text"
SENT_HEAD = "Last time"
NEVER = "Nothing was sent from this device yet."
NO_COACH_HEAD = "No coach to send to yet"
NO_COACH = "Once you have a coach’s programme on this device, the diary can be sent from here."
TO_PROGRAMME = "Open a programme"
CHANGE_SENDS = "Change what goes"
OWN_HEAD = "My own readable copy"
OWN: Pair = ("All of your diary in plain words. It is not sealed: keep it where only you can reach it.",
             "All of {name}’s diary in plain words. It is not sealed: keep it where only the two of you can reach it.")
PAGE, TABLES = "Save a page to read or print", "Save as tables for a spreadsheet"
CAN_READ_YOU = "You can open it again yourself, on this device."
SHARED = "It has left this device. Whether it arrived, you will hear from your coach."
SAVED = "The file is saved on this device. It is not sent: send it yourself."
COPIED = "Copied. It is not sent: paste it into a message, all of it, from the first bracket to the last."
UNTOLD = "It was handed on or saved: this device does not say which. If nothing opened, it is saved: send it yourself."
SENT_IT = "I have sent it"
SAID_SENT = "It counts as sent. Whether it arrived, you will hear from your coach."
#: By `Left`: what happened to a diary that is not sent yet, and what is still to be done.
WAITING: Mapping[str, tuple[str, str]] = {
    "saved": ("saved as a file", "Attach it to a message or put it on a stick"),
    "copied": ("copied as text", "Paste it into a message and send that"),
    "untold": ("handed on or saved as a file", "See that it leaves, or attach the file to a message"),
}
NOT_SHARED = "Nothing was sent. Try “Save as a file”."
DISMISSED = "Nothing was sent."
KEPT_COPY = "Saved. It is yours to keep."
NOT_SAVED = "It could not be saved here."
WORKING = "One moment"
#: What may be sent, in the order shown: (key of Person.sends, words).
KINDS: tuple[tuple[str, str], ...] = (
    ("sessions", "Sessions: what was planned and done, how hard it was"),
    ("pain", "Pain and tired muscles"),
    ("check_ins", "Check-ins: sleep, energy, anything worrying"),
    ("notes", "Notes and goals"),
)
ALWAYS: Pair = (
    "Your name, and what you told us about yourself: year of birth, health, what to spare, kit, who is with you",
    "{name}’s name, and what you told us about {name}: year of birth, health, what to spare, kit, who is there",
)


def first_name(name: str) -> str:
    """`Odile` of `Odile Marsh`; the whole name where it begins with a title."""
    words = name.split()
    return words[0] if words and not words[0].endswith(".") else name


def send_to(coach: str, asked: str = "") -> str:
    """The main act: `Send my diary to Odile`; for a leader `Send Ines’s diary to Odile`."""
    whose, to = (f"{asked}’s", "the coach") if asked else ("my", "my coach")
    return f"Send {whose} diary to {first_name(coach) or to}"


def only(coach: str) -> str:
    """Who can open it."""
    return f"Sealed before it leaves: only {coach} can read it. {CAN_READ_YOU}"


def unsent(number: int) -> str:
    """How much is new."""
    return "Nothing new since then." if number == 0 else f"{count(number, 'entry', 'entries')} new or changed."


def last_time(number: int, when: datetime) -> str:
    """`Number 3, on Monday 2 March, 07:30.`"""
    return f"Number {number}, on {moment_words(when)}."


def waiting(number: int, left: str, when: datetime) -> str:
    """A diary that was saved or copied and is not sent: `Number 3 was saved as a file on Monday 2 March, 07:30 …`"""
    return f"Number {number} was {WAITING[left][0]} on {moment_words(when)}. It is not sent yet."


def waiting_next(left: str) -> str:
    """What is still to be done."""
    return f"{WAITING[left][1]}, then say so here. Only then does it count as sent."


def stopped(because: str) -> str:
    """What stopped them, before the line that says whether the coach knows."""
    known = because in {"pain", "soreness", "pain_rise"}
    what = "After what was told" if known or not because else sign_words(because)
    return f"{what}. Nothing is sent automatically."


def whom_to_call(number: str, contact: str) -> str:
    """Whom to call, which is not the coach."""
    ring = f", or ring {contact}" if contact else ""
    return f"If it is bad now, call {number}{ring}. Otherwise ask your doctor today."


# ------------------------------------------------------------------ messages

def message_head(coach: str) -> str:
    """The section of messages."""
    return f"Message from {first_name(coach) or 'your coach'}"


MESSAGE_HOW = "Open the file that you were sent, or paste the text of it."
OPEN_FILE = "Open a message"
PASTE_FIELD = "Text of a message"
THIS_TEXT = "This text"
PASTE_HINT = "[evenload reply begin] …"
TAKE = "Read the text"
NO_MESSAGE = "No message yet."
KNOWN = "This message was here already. Nothing was changed."
NEW = "A new message. What it says counts from now on."
#: By what a later message, opened before, decides.
PASSED_OVER: Mapping[str, str] = {"limits": "limits", "held": "what stays as it is", "swaps": "an exercise to change"}
PAST = "A later message says otherwise."


def came(what: str, number: int, passed_over: Sequence[str], coach: str, *, has_effect: bool) -> str:
    """What became of a message. `what`: `new`, `known` or `same_number`; then about what a later message decides."""
    if what == "known":
        return KNOWN
    told = [same_number(number, coach)] if what == "same_number" else []
    if passed_over:
        rest = "The rest counts from now on." if has_effect else "Nothing else in it changes anything."
        about = listed(tuple(PASSED_OVER[one] for one in passed_over))
        told += [f"It is older than one that is here. About {about} the later message holds. {rest}"]
    return " ".join(told) if told else NEW


def same_number(number: int, coach: str) -> str:
    """Two messages under one number."""
    return (f"{first_name(coach) or 'Your coach'} has sent two different messages with the number {number}. Both are "
            "here, and the one written later counts. Ask which was meant.")


NOTHING_PICKED = "Nothing was chosen."
LIMITS_LIFTED = "The limits from earlier messages are taken back."
CAPS = ("nothing of it", "only a little", "some")


def limit_line(what: str, cap: int) -> str:
    """`left knee: only a little`."""
    return f"{AXIS_WORDS.get(what, what)}: {CAPS[cap] if cap < len(CAPS) else 'as usual'}"


def limits_line(limits: Sequence[tuple[str, int]]) -> str:
    """All of them in a line."""
    return f"Go easy on {listed(tuple(limit_line(what, cap) for what, cap in limits))}."


def yes_line(yes: str) -> str:
    """A recorded yes."""
    return f"A yes to train again: {yes}."


def swap_line(was: str, now: str, names: Mapping[str, str]) -> str:
    """One exercise in place of another."""
    return f"{names.get(now, now)} instead of {names.get(was, was)}."


def held_line(held: Sequence[str], names: Mapping[str, str]) -> str:
    """Exercises that the coach holds where they are."""
    return f"Stays as it is: {listed(tuple(names.get(one, one) for one in held))}."


def numbered(number: int, when: datetime, coach: str = "") -> str:
    """Over a message: its number, its moment and whose it is, by the name known here."""
    return f"Number {number}, {moment_words(when)}" + (f", from {coach}" if coach else "")
