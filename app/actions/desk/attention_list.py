"""Who needs the coach: the list in its parts, and what the coach did about each item of it."""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from app.device.clock import Clock
from app.domain.measures.attention import HARM_WINDOW_DAYS, LATER_DAYS, attention
from app.domain.measures.attention_summary import Flag, PersonSummary
from app.domain.model.record import Record
from app.domain.model.thresholds import FORTNIGHT_DAYS
from app.storage import attention_marks, review_summaries
from app.storage.attention_marks import Mark, MarkState
from app.storage.database import Store
from app.storage.evidence import told_in_full

TELLS_HARM = frozenset({"pain", "check_ins"})
"""What somebody has to send for harm to be seen here."""


@dataclass(frozen=True)
class Marked:
    """An item that was dealt with, and how."""

    flag: Flag
    mark: Mark


@dataclass(frozen=True)
class Case:
    """Everything that one person has in one part of the list."""

    person: str
    name: str
    flags: tuple[Flag, ...]


@dataclass(frozen=True)
class Attention:
    """The list. `people`: how many the desk knows."""

    harm: tuple[Flag, ...]
    silence: tuple[Flag, ...]
    people: int
    dealt_with: tuple[Marked, ...] = ()
    """Items that stay away until there is new evidence, or until their day."""
    lines: Mapping[str, PersonSummary] = field(default_factory=dict, repr=False)
    """The recent numbers of everybody on the list, by person."""
    withheld: tuple[str, ...] = ()
    """Names of those who agreed to send no pain or no check-ins, and whose harm therefore cannot be seen."""
    progress: tuple[Flag, ...] = ()
    """Neither harm nor silence: what leads nowhere, or asks too little."""


def attention_list(store: Store, clock: Clock) -> Attention:
    """The list as it stands today, in a few queries however many people there are."""
    today = clock.local(clock.now()).day
    since = today - timedelta(days=HARM_WINDOW_DAYS)
    with store.read() as db:
        lines = review_summaries.review_lines(db, since, today)
        dealt = attention_marks.marks(db)
    withheld = tuple(line.name for line in lines if not line.sends >= TELLS_HARM)
    parts = attention(lines, today)
    everything = tuple(flag for part in parts for flag in part)
    away = {flag: mark for flag in everything if (mark := dealt.get(_place(flag))) and holds(flag, mark, today)} \
        if dealt else {}
    listed = {flag.person for flag in everything}
    harm, progress, silence = (tuple(f for f in part if f not in away) for part in parts) if away else parts
    return Attention(
        harm, silence, len(lines), tuple(Marked(flag, mark) for flag, mark in away.items()),
        {line.person: line for line in lines if line.person in listed}, withheld, progress,
    )


def _place(flag: Flag) -> tuple[str, str, str]:
    """Where a mark on this item is kept: the same evidence, the same place."""
    reason, _, evidence = flag.key.partition(":")
    return flag.person, reason, evidence


def holds(flag: Flag, mark: Mark, today: date) -> bool:
    """Whether a mark still keeps its item off the list.

    New evidence is another item. "Later" ends on its day. A silence or a stall that was seen and goes on comes back
    after another fortnight, since it brings nothing new. [P]
    """
    if mark.state is MarkState.LATER:
        return mark.until is not None and today < mark.until
    return flag.is_harm or (today - mark.utc.date()).days < FORTNIGHT_DAYS


def mark(store: Store, clock: Clock, flags: Iterable[Flag], state: MarkState, until: date | None = None) -> None:
    """Seen, called about, or put off: until a day, three days from now where none is named."""
    now = clock.now()
    if state is MarkState.LATER and until is None:
        until = later_day(clock)
    with store.begin() as db:
        for flag in flags:
            attention_marks.save_mark(db, Mark(*_place(flag), state, now, until if state is MarkState.LATER else None))


def later_day(clock: Clock) -> date:
    """The day on which "later" without a day comes back."""
    return clock.local(clock.now()).day + timedelta(days=LATER_DAYS)


def undo(store: Store, flags: Iterable[Flag]) -> None:
    """As if the items had not been looked at."""
    with store.begin() as db:
        for flag in flags:
            attention_marks.remove_mark(db, *_place(flag))


def cases(flags: Sequence[Flag]) -> tuple[Case, ...]:
    """The items of one part by person, in the order of each person's gravest."""
    by_person: dict[str, list[Flag]] = {}
    for flag in flags:
        by_person.setdefault(flag.person, []).append(flag)
    return tuple(Case(person, own[0].name, tuple(own)) for person, own in by_person.items())


def evidence(store: Store, flags: Sequence[Flag]) -> Mapping[str, Record]:
    """The last record that each item rests on, whole, by its id. For the items shown, not for everybody."""
    wanted = [(f.person, f.records[-1]) for f in flags if f.records and f.records[-1]]
    with store.read() as db:
        return {record.stamp.id: record for record in told_in_full(db, wanted)}
