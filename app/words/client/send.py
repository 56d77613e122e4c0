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
NEVER = "Nothing has been sent from this device yet."
NO_COACH_HEAD = "No coach to send to yet"
NO_COACH = "Once you have opened a coach’s programme file on this device, you can send the diary from here."
TO_PROGRAMME = "Open a programme file"
CHANGE_SENDS = "Change what you share"
OWN_HEAD = "My own readable copy"
OWN: Pair = ("Your whole diary in plain words. It isn’t sealed, so keep it where only you can get at it.",
             "{name}’s whole diary in plain words. It isn’t sealed, so keep it where only the two of you can get at "
             "it.")
PAGE, TABLES = "Save a page to read or print", "Save as tables for a spreadsheet"
CAN_READ_YOU = "You can open it again yourself, on this device."
SHARED = "It has left this device. Your coach can tell you whether it arrived."
SAVED = "The file is saved on this device. It hasn’t been sent: please send it yourself."
COPIED = "Copied, but not sent yet: paste all of it into a message, from the first bracket to the last."
UNTOLD = (
    "It was shared or saved: this device doesn’t say which. If nothing opened, it was saved, so please send it "
    "yourself."
)
SENT_IT = "I have sent it"
SAID_SENT = "Noted as sent. Your coach can tell you whether it arrived."
#: By `Left`: what happened to a diary that is not sent yet, and what is still to be done.
WAITING: Mapping[str, tuple[str, str]] = {
    "saved": ("saved as a file", "Attach it to a message or put it on a USB stick"),
    "copied": ("copied as text", "Paste it into a message and send that"),
    "untold": ("shared or saved as a file", "Check that it was sent, or attach the file to a message"),
}
NOT_SHARED = "Nothing was sent. Try “Save as a file”."
DISMISSED = "Nothing was sent."
KEPT_COPY = "Saved. It is yours to keep."
NOT_SAVED = "It couldn’t be saved here."
WORKING = "One moment"
#: What may be sent, in the order shown: (key of Person.sends, words).
KINDS: tuple[tuple[str, str], ...] = (
    ("sessions", "Sessions: what was planned and done, how hard it was"),
    ("pain", "Pain and achy muscles"),
    ("check_ins", "Check-ins: sleep, energy, anything worrying"),
    ("notes", "Notes and goals"),
)
ALWAYS: Pair = (
    "Your name, and what you told us about yourself: year of birth, health, what to go easy on, kit, who is with you",
    "{name}’s name, and what you told us about {name}: year of birth, health, what to go easy on, kit, who is there",
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
    return f"It is sealed before it leaves, so only {coach} can read it. {CAN_READ_YOU}"


def unsent(number: int) -> str:
    """How much is new."""
    return "Nothing new since then." if number == 0 else f"{count(number, 'entry', 'entries')} new or changed."


def last_time(number: int, when: datetime) -> str:
    """`Diary 3, on Monday 2 March, 07:30.`"""
    return f"Diary {number}, on {moment_words(when)}."


def waiting(number: int, left: str, when: datetime) -> str:
    """A diary that was saved or copied and is not sent: `Diary 3 was saved as a file on Monday 2 March, 07:30 …`"""
    return f"Diary {number} was {WAITING[left][0]} on {moment_words(when)}. It hasn’t been sent yet."


def waiting_next(left: str) -> str:
    """What is still to be done."""
    return f"{WAITING[left][1]}, then press “{SENT_IT}”."


def stopped(because: str) -> str:
    """What stopped them, before the line that says whether the coach knows."""
    known = because in {"pain", "soreness", "pain_rise"}
    what = "Training is on hold after your answers" if known or not because else sign_words(because)
    return f"{what}. Nothing is sent automatically."


def whom_to_call(number: str, contact: str) -> str:
    """Whom to call, which is not the coach."""
    phone = f", or phone {contact}" if contact else ""
    return f"If it is bad now, call {number}{phone}. Otherwise ask your doctor today."


# ------------------------------------------------------------------ messages

def message_head(coach: str) -> str:
    """The section of messages."""
    return f"Message from {first_name(coach) or 'your coach'}"


MESSAGE_HOW = "Open the file you were sent, or paste its text."
OPEN_FILE = "Open a message"
PASTE_FIELD = "Text of the message"
THIS_TEXT = "This text"
PASTE_HINT = "[evenload reply begin] …"
TAKE = "Read the text"
NO_MESSAGE = "No message yet."
KNOWN = "You already have this message. Nothing was changed."
NEW = "You have a new message. It applies from now on."
#: By what a later message, opened before, decides.
PASSED_OVER: Mapping[str, str] = {"limits": "limits", "held": "what stays as it is", "swaps": "an exercise to change"}
PAST = "A later message has changed this."


def came(what: str, number: int, passed_over: Sequence[str], coach: str, *, has_effect: bool) -> str:
    """What became of a message. `what`: `new`, `known` or `same_number`; then about what a later message decides."""
    if what == "known":
        return KNOWN
    told = [same_number(number, coach)] if what == "same_number" else []
    if passed_over:
        rest = "The rest applies from now on." if has_effect else "Nothing else in it changes anything."
        about = listed(tuple(PASSED_OVER[one] for one in passed_over))
        told += [f"You already have a later message, which decides about {about}. {rest}"]
    return " ".join(told) if told else NEW


def same_number(number: int, coach: str) -> str:
    """Two messages under one number."""
    return (f"{first_name(coach) or 'Your coach'} has sent two different messages with the number {number}. We’ve kept "
            "both, and the later one applies. Please ask which one is right.")


NOTHING_PICKED = "Nothing was chosen."
LIMITS_LIFTED = "The limits from earlier messages are lifted."
CAPS = ("no load at all", "only a little", "a fair amount")


def limit_line(what: str, cap: int) -> str:
    """`left knee: only a little`."""
    return f"{AXIS_WORDS.get(what, what)}: {CAPS[cap] if cap < len(CAPS) else 'as usual'}"


def limits_line(limits: Sequence[tuple[str, int]]) -> str:
    """All of them in a line."""
    return f"Go easy on {listed(tuple(limit_line(what, cap) for what, cap in limits))}."


def yes_line(yes: str) -> str:
    """A recorded go-ahead."""
    return f"Go-ahead to train again: {yes}."


def swap_line(was: str, now: str, names: Mapping[str, str]) -> str:
    """One exercise in place of another."""
    return f"{names.get(now, now)} instead of {names.get(was, was)}."


def held_line(held: Sequence[str], names: Mapping[str, str]) -> str:
    """Exercises that the coach holds where they are."""
    return f"These stay as they are: {listed(tuple(names.get(one, one) for one in held))}."


def numbered(number: int, when: datetime, coach: str = "") -> str:
    """Over a message: its number, its moment and whose it is, by the name known here."""
    return f"Message {number}, {moment_words(when)}" + (f", from {coach}" if coach else "")
