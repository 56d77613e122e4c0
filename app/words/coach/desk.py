"""Words of the coach's side: the desk, the people, publishing. One person's page: `person.py`. Knows no Flet."""
from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date

from app.domain.measures.attention import AttentionReason, Flag, PersonSummary
from app.domain.model.body import Spot
from app.domain.model.record import CheckIn, Event, Record, SessionDone
from app.words.client.events import event_detail
from app.words.client.today import STOP_CAUSES, day_words
from app.words.signs import sign_words
from app.words.text import count, listed

NAVIGATION: Mapping[str, str] = {"desk": "Desk", "people": "People", "publish": "Publish", "settings": "Settings"}

# ------------------------------------------------------------------ the desk

DESK_TITLE = "Who needs you"
HARM, SILENCE, DEALT_WITH = "Harm", "Silence", "Dealt with"
NOBODY = "nobody"
NO_HARM = "Nobody told of harm in the last four weeks."
NO_SILENCE = "Everybody was heard of in the last two weeks."


def withheld(names: Sequence[str]) -> str:
    """Of whom harm cannot show, since they do not send it."""
    who = listed(tuple(names)) if len(names) <= 3 else f"{len(names)} people"
    share = "does" if len(names) == 1 else "do"
    return f"{who} {share} not share all of pain and check-ins: harm of theirs may not show here."


SEEN, CALLED, LATER, UNDO = "Seen", "Called", "Later", "Undo"
MARKED: Mapping[str, str] = {"seen": "seen", "called": "called", "later": "put off"}
OPEN_RETURNS = "Open returns"
PASTE = "Paste a return"
PASTE_LABEL = "The text of a return"
PASTE_HINT = "Everything from [evenload return begin] to the end line; what stands around it does not matter."
PASTED = "Pasted text"
TAKE_IN = "Take in"
CLOSE = "Close"
WORKING = "Opening returns"
NOTHING_PICKED = "No file was chosen."
RESULTS = "What came in"
NEW_PHONE = "Accept the new phone"
NEW_PHONE_WHY = (
    "Do they have a new phone? Call them and ask before you accept it. If they have not, somebody else wrote this file."
)
SHOW_MORE = "Show more"
FIRST_HEAD = "Nobody sends you returns yet"
FIRST_STEPS = (
    "1. Publish a programme: check it, save the programme file.",
    "2. Hand it out by mail, messenger or stick, and read out your five matching words the first time.",
    "3. After some sessions your clients send you their diary: a file or a text.",
    "4. Open it here. Then this page says who needs you, and why.",
)
TO_PUBLISH = "Publish a programme"
DISCLAIMER = (
    "This list sorts what people told. It is no diagnosis and watches over nobody: whoever has sent nothing is not on "
    "it for harm. After a sign of an emergency local emergency advice comes first."
)

REASON_WORDS: Mapping[AttentionReason, str] = {
    AttentionReason.SIGN: "A stop",
    AttentionReason.FALL: "A fall",
    AttentionReason.PAIN: "Pain",
    AttentionReason.RISING: "Pain is rising",
    AttentionReason.EFFORT: "Harder than meant",
    AttentionReason.ILLNESS: "An illness",
    AttentionReason.SWAPPED: "Changed by hand again and again",
    AttentionReason.DATES: "Dates that cannot be",
    AttentionReason.FORTNIGHT: "No session",
    AttentionReason.NOTHING_BACK: "Nothing came back",
}
GAVE_WAY = "gave_way"
#: Pains told before the one that is shown beside it.
EARLIER = 3


def of_people(today: date, listed_now: int, people: int) -> str:
    """`Monday 2 March, 5 of 84 people`."""
    return f"{day_words(today)}, {listed_now} of {count(people, 'person', 'people')}"


def part_head(part: str, number: int) -> str:
    """`Harm, 3`."""
    return f"{part}, {number}"


def flag_text(flag: Flag, record: Record | None = None, line: PersonSummary | None = None) -> str:
    """The evidence of one item in plain words, with its numbers and days.

    Args:
        record: the last record that it rests on, which names the spot and the exercises.
        line: the person's recent numbers, for what came before.
    """
    return _EVIDENCE[flag.because](flag, record, line)


def _sign(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    sign = flag.words[0] if flag.words else ""
    told = "a joint that gave way" if sign == GAVE_WAY else _small(STOP_CAUSES.get(sign) or sign_words(sign))
    happened = ("Told at the check-in" if isinstance(record, CheckIn)
                else "Told in the diary" if isinstance(record, Event) else "Stopped")
    spots = [str(h.spot) for h in record.hurts if h.gave_way] if isinstance(record, SessionDone) else []
    where = f" ({listed(spots)})" if sign == GAVE_WAY and spots else ""
    return f"{happened}: {told}{where}, on {day_words(flag.on)}"


def _happened(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    """A fall or an illness: what was told of it, and how often in four weeks."""
    what = (event_detail(record) if isinstance(record, Event) else "") or REASON_WORDS[flag.because]
    often = f", {flag.numbers[0]} in four weeks" if flag.numbers[0] > 1 else ""
    return f"{what.rstrip('.')}; told on {day_words(flag.on)}{often}"


def _pain(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    before = _pains_before(flag, line)
    after = f", after {', '.join(map(str, before))}" if before else ""
    return f"{_spot_of(record)} {flag.numbers[0]} of 10 on {day_words(flag.on)}{after}"


def _rising(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    *before, last = flag.numbers
    told = ", ".join(map(str, before[-EARLIER:]))
    return f"{_spot_of(record)} {told}, then {last} of 10 on {day_words(flag.on)}"


def _effort(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    *told, target = flag.numbers
    efforts = listed([str(n) for n in told]) if len(set(told)) > 1 else f"{told[0]} twice"
    return f"Effort {efforts} where {target} was meant, last on {day_words(flag.on)}"


def _swapped(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    names = record.names if isinstance(record, SessionDone) else {}
    written, chosen = (names.get(i, i.replace("-", " ")) for i in flag.words)
    return f"“{chosen}” instead of “{written}”, {flag.numbers[0]} times, last on {day_words(flag.on)}"


def _dates(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    said = f", one of them {day_words(record.stamp.local)} {record.stamp.local.year}" if record else ""
    return (f"{count(flag.numbers[0], 'record')} with a date that cannot be{said}: kept aside, since "
            f"{day_words(flag.on)}. Have the clock of their device put right")


def _fortnight(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    return f"Last session {day_words(flag.on)}, {count(flag.numbers[0], 'day')} ago"


def _nothing_back(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    heard = "Last return" if line is None or line.last_return else "Known since"
    return f"{heard} {day_words(flag.on)}, {count(flag.numbers[0], 'day')} ago"


_EVIDENCE: Mapping[AttentionReason, Callable[[Flag, Record | None, PersonSummary | None], str]] = {
    AttentionReason.SIGN: _sign, AttentionReason.FALL: _happened, AttentionReason.PAIN: _pain,
    AttentionReason.RISING: _rising,
    AttentionReason.EFFORT: _effort, AttentionReason.ILLNESS: _happened,
    AttentionReason.SWAPPED: _swapped, AttentionReason.DATES: _dates, AttentionReason.FORTNIGHT: _fortnight,
    AttentionReason.NOTHING_BACK: _nothing_back,
}


def _small(words: str) -> str:
    return words[:1].lower() + words[1:]


def _pains_before(flag: Flag, line: PersonSummary | None) -> list[int]:
    told = [t for t in (line.told if line else ()) if t.pain is not None]
    at = next((n for n, t in enumerate(told) if t.record in flag.records), len(told))
    return [t.pain or 0 for t in told[max(0, at - EARLIER):at]]


def _spot_of(record: Record | None) -> str:
    """The spot that hurt most; "Pain" where it is not known."""
    told: dict[Spot, int] = {}
    if isinstance(record, CheckIn):
        told = {**(record.pain or {})}
        for spot, level in (record.morning_after or {}).items():
            told[spot] = max(level, told.get(spot, 0))
    elif isinstance(record, SessionDone):
        told = {**(record.pain or {})}
        for hurt in record.hurts:
            told[hurt.spot] = max(hurt.level, told.get(hurt.spot, 0))
    worst = max(sorted(told), key=lambda s: told[s], default=None)
    return str(worst).capitalize() if worst else "Pain"


def spark_said(flag: Flag) -> str:
    """What the small line of an item says aloud: nothing, since its sentence says it."""
    return REASON_WORDS[flag.because]


def act_on(act: str, name: str) -> str:
    """The spoken name of a button: `Seen: Maud Ellery`."""
    return f"{act}: {name}"


def marked(name: str, state: str, until: date | None) -> str:
    """What was done about an item: `Maud Ellery: put off until Thursday 5 March`."""
    until_words = f" until {day_words(until)}" if until else ""
    return f"{name}: {MARKED[state]}{until_words}"


def dealt_line(flag: Flag, state: str, day: date, until: date | None) -> str:
    """One line of what was dealt with."""
    when = f"until {day_words(until)}" if until else f"on {day_words(day)}"
    return f"{REASON_WORDS[flag.because]}; {MARKED[state]} {when}"


def in_progress(done: int, of: int) -> str:
    """`Opening returns: 3 of 40`."""
    return f"{WORKING}: {done} of {of}"


def came_in(new: int, newer: int, known: int) -> str:
    """What one return brought."""
    told = [count(new, "new record")]
    told += [f"{newer} corrected"] if newer else []
    told += [f"{known} known already"] if known else []
    return listed(told)


def unread(number: int) -> str:
    """Records that a later version wrote."""
    return f"{count(number, 'record')} of a newer kind left aside; update to read them"


def misdated(number: int) -> str:
    """Records with dates that cannot be."""
    return (f"{count(number, 'record')} with a date that cannot be, kept aside. Have the clock of their device put "
            "right.")


CLOCK_IS_WRONG = "It says that it was made on a day to come: the clock of their device is wrong."


def resembles(names: Sequence[str]) -> str:
    """Of somebody who is new, and whose name reads like one that is here."""
    return (f"New here, and the name reads like one that you know ({listed(tuple(names))}). They are kept as two "
            "people: ask whether it is the same one, on a second device.")


def odd_lines(misdated_records: int, alike: Sequence[str], clock_is_wrong: bool) -> tuple[str, ...]:
    """What is odd about a return that was taken in; none where nothing is."""
    told = (resembles(alike) if alike else "", misdated(misdated_records) if misdated_records else "",
            CLOCK_IS_WRONG if clock_is_wrong else "")
    return tuple(filter(None, told))


# ------------------------------------------------------------------ people

PEOPLE_TITLE = "People"
SEARCH = "Search by name"
SORTS: Mapping[str, str] = {"name": "By name", "session": "Last session", "return": "Last return"}
NEVER = "never"
NO_MATCH = "Nobody of that name."
LAST_SESSION, LAST_RETURN = "Last session", "last return"
PREVIOUS, NEXT = "Previous", "Next"


def last_heard(session: date | None, back: date | None) -> str:
    """`Last session Monday 2 March; last return never`."""
    told = ((LAST_SESSION, session), (LAST_RETURN, back))
    return "; ".join(f"{what} {day_words(day) if day else NEVER}" for what, day in told)


def page_of(first: int, last: int, of: int) -> str:
    """`1 to 50 of 3000`."""
    return f"{first} to {last} of {of}" if of else NO_MATCH
