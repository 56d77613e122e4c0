"""Words of the coach's side: the desk, the people, publishing. One person's page: `person.py`. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from app.domain.measures.attention_summary import Flag
from app.words.client.today import day_words
from app.words.coach.attention import REASON_WORDS
from app.words.text import count, listed

NAVIGATION: Mapping[str, str] = {"desk": "Desk", "people": "People", "publish": "Publish", "settings": "Settings"}

# ------------------------------------------------------------------ the desk

DESK_TITLE = "Who needs you"
HARM, PROGRESS, SILENCE, DEALT_WITH = "Needs a call", "Programme to review", "Not heard from", "Dealt with"
NOBODY = "nobody"
NO_HARM = "Nobody has reported pain, a fall or a warning sign in the last four weeks."
NO_PROGRESS = "Nobody is stuck, and nobody finds it much too easy."
NO_SILENCE = "You have heard from everyone in the last two weeks."


def withheld(names: Sequence[str]) -> str:
    """Who may need a call without its showing here."""
    who = listed(tuple(names)) if len(names) <= 3 else f"{len(names)} people"
    share = "does" if len(names) == 1 else "do"
    return f"{who} {share} not share all of their pain and check-ins, so you may not see here that they need a call."


SEEN, CALLED, LATER, UNDO = "Seen", "Called", "Later", "Undo"
MARKED: Mapping[str, str] = {"seen": "seen", "called": "called", "later": "put off"}
OPEN_RETURNS = "Open diaries"
PASTE = "Paste a diary"
PASTE_LABEL = "The text of a diary"
PASTE_HINT = "Everything from [evenload return begin] to the end line; any text around it doesn’t matter."
PASTED = "Pasted text"
TAKE_IN = "Add it"
CLOSE = "Close"
WORKING = "Opening diaries"
NOTHING_PICKED = "No file was chosen."
RESULTS = "What came in"
NEW_PHONE = "Accept the new phone"
NEW_PHONE_WHY = (
    "Do they have a new phone? Call and ask before you accept it. If they don’t, someone else made this file."
)
SHOW_MORE = "Show more"
FIRST_HEAD = "Nobody has sent you a diary yet"
FIRST_STEPS = (
    "1. Publish a programme: check it and save the programme file.",
    "2. Send it by email, message or USB stick, and read out your five matching words the first time.",
    "3. After some sessions your clients send you their diary, as a file or as text.",
    "4. Open it here. This page will show who needs you, and why.",
)
TO_PUBLISH = "Publish a programme"
DISCLAIMER = (
    "This list sorts what people report. It is not a diagnosis and does not monitor anyone: people who send nothing "
    "can’t show up as needing a call. In an emergency, local emergency advice comes first."
)

def of_people(today: date, listed_now: int, people: int) -> str:
    """`Monday 2 March: 5 of your 84 people need attention`."""
    return (
        f"{day_words(today)}: {listed_now} of your {count(people, 'person', 'people')} "
        f"{'needs' if listed_now == 1 else 'need'} attention"
    )


def part_head(part: str, number: int) -> str:
    """`Needs a call, 3`."""
    return f"{part}, {number}"


def spark_said(flag: Flag) -> str:
    """What the small line of an item says aloud: nothing, since its sentence says it."""
    return REASON_WORDS[flag.because]


def act_on(act: str, name: str, part: str = "") -> str:
    """The spoken name of a button: `Seen: Maud Ellery`; in two parts `Seen: Maud Ellery, needs a call`."""
    return f"{act}: {name}{', ' + part[:1].lower() + part[1:] if part else ''}"


def marked(name: str, state: str, until: date | None) -> str:
    """What was done about an item: `Maud Ellery: put off until Thursday 5 March`."""
    until_words = f" until {day_words(until)}" if until else ""
    return f"{name}: {MARKED[state]}{until_words}"


def dealt_line(flags: Sequence[Flag], state: str, day: date, until: date | None) -> str:
    """What of one person was dealt with in one go: `Pain and harder than planned; seen on Monday 2 March`."""
    when = f"until {day_words(until)}" if until else f"on {day_words(day)}"
    first, *more = dict.fromkeys(REASON_WORDS[flag.because] for flag in flags)
    reasons = listed((first, *(reason[:1].lower() + reason[1:] for reason in more)))
    return f"{reasons}; {MARKED[state]} {when}"


def in_progress(done: int, of: int) -> str:
    """`Opening diaries: 3 of 40`."""
    return f"{WORKING}: {done} of {of}"


def came_in(new: int, newer: int, known: int) -> str:
    """What one diary brought."""
    told = [count(new, "new record")]
    told += [f"{newer} corrected"] if newer else []
    told += [f"{known} you already had"] if known else []
    return listed(told)


def unread(number: int) -> str:
    """Records that a later version wrote."""
    return f"{count(number, 'record')} of a newer kind set aside; update the app to read them"


def misdated(number: int) -> str:
    """Records with impossible dates."""
    return (f"{count(number, 'record')} with an impossible date, kept aside. Ask them to correct the clock on their "
            "device.")


CLOCK_IS_WRONG = "It says it was made on a future date, so the clock on their device is wrong."


def resembles(names: Sequence[str]) -> str:
    """Of somebody who is new, and whose name reads like one that is here."""
    return (f"New here, and the name is very like one you know ({listed(tuple(names))}). They are kept as two "
            "people: ask whether it is the same person on a second device.")


UNREADABLE_NAME = "The name in it is blank or has hidden characters in it. Ask who sent this before you rely on it."


def odd_lines(misdated_records: int, alike: Sequence[str], clock_is_wrong: bool, is_unreadable: bool = False
              ) -> tuple[str, ...]:
    """What is odd about a diary that was added; none where nothing is. `is_unreadable` is said of its name."""
    told = (UNREADABLE_NAME if is_unreadable else "", resembles(alike) if alike else "",
            misdated(misdated_records) if misdated_records else "", CLOCK_IS_WRONG if clock_is_wrong else "")
    return tuple(filter(None, told))


# ------------------------------------------------------------------ people

PEOPLE_TITLE = "People"
SEARCH = "Search by name"
SORTS: Mapping[str, str] = {"name": "By name", "session": "Last session", "return": "Last diary"}
NEVER = "never"
NO_MATCH = "Nobody of that name."
LAST_SESSION, LAST_RETURN = "Last session", "last diary"
PREVIOUS, NEXT = "Previous", "Next"


def last_heard(session: date | None, back: date | None) -> str:
    """`Last session Monday 2 March; last diary never`."""
    told = ((LAST_SESSION, session), (LAST_RETURN, back))
    return "; ".join(f"{what} {day_words(day) if day else NEVER}" for what, day in told)


def page_of(first: int, last: int, of: int) -> str:
    """`1 to 50 of 3000`."""
    return f"{first} to {last} of {of}" if of else NO_MATCH
