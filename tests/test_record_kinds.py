"""A kind of record has its place everywhere: kept, sent, read by anybody, shown in the diary, and agreed to."""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, get_args

import pytest
from pydantic import TypeAdapter

from app.domain.model.person import Person
from app.domain.model.record import CheckDone, Event, EventKind, FunctionalCheck, Record, Stamp
from app.domain.model.record_kinds import BY_KEPT, BY_SENT, KIND_OF, RECORD_KINDS, RecordKind
from app.exchange.forms.record_form import RecordValue, record_table
from app.exchange.letters.agreed_records import agreed_records
from app.exchange.letters.readable_copy import readable_tables
from app.storage.codec import from_text, to_text
from app.storage.records import emptied
from app.storage.summaries import narrow_columns
from app.storage.tables import record as table
from app.ui.client.diary.other_entries import entry_words
from app.words.client.diary import OTHER
from tests.domain.past import check_in, session, stamp, yes

#: Sends everything, and nothing.
OPEN, CLOSED = Person("p", "Ana"), Person("p", "Ana", sends=frozenset())
READ: TypeAdapter[Any] = TypeAdapter(RecordValue)


#: One of each kind, on a day on which all is well.
EXAMPLES: dict[type[Any], Record] = {
    type(made): made for made in (
        check_in(), session(pack="0" * 64), yes("c", 1), CheckDone(stamp("k"), FunctionalCheck.CHAIR_STAND, stands=9),
        Event(stamp("e"), EventKind.ACTIVITY, what="walk", minutes=30))}


def lacks(kind: RecordKind) -> Iterator[str]:
    """The places in which this kind is missing."""
    if KIND_OF.get(kind.of) != kind or BY_KEPT.get(kind.kept) != kind or BY_SENT.get(kind.sent) != kind:
        yield "the table of kinds"
    made = EXAMPLES.get(kind.of)
    if made is None:
        yield "the examples"
        return
    for place, holds in PLACES.items():
        try:
            held = holds(made)
        except (AssertionError, KeyError, LookupError, TypeError, ValueError, AttributeError):
            held = False
        if not held:
            yield place


def _kept(made: Record) -> bool:
    column = table.c.kind.type.length
    word = KIND_OF[type(made)].kept
    return from_text(type(made), to_text(made)) == made and len(word) <= column and bool(narrow_columns(made))


def _sent(made: Record) -> bool:
    taken = replace(made, stamp=replace(made.stamp, deleted=True))
    back = READ.validate_python(record_table(taken))
    return READ.validate_python(record_table(made)) is not None and type(back) is type(made)


PLACES: dict[str, Any] = {
    "the store": _kept,
    "taking back": lambda made: type(emptied(made)) is type(made),
    "the return": _sent,
    "what was agreed": lambda made: agreed_records(OPEN, [made]) != () and agreed_records(CLOSED, [made]) == (),
    "the readable copy": lambda made: any(one.rows for one in readable_tables([made], str)),
    "the diary": lambda made: entry_words(made)[0] != OTHER,
}


def test_every_kind_of_record_is_in_the_table_once() -> None:
    """As `Record` lists them."""
    assert [kind.of for kind in RECORD_KINDS] == list(get_args(Record))
    assert len(RECORD_KINDS) == len(BY_KEPT) == len(BY_SENT)


def test_the_words_of_the_kinds_are_those_of_the_stores_and_returns_there_are() -> None:
    """They never change."""
    assert [(kind.kept, kind.sent) for kind in RECORD_KINDS] == [
        ("check_in", "check_in"), ("session", "session_done"), ("clearance", "clearance"), ("check", "check_done"),
        ("event", "event")]


@pytest.mark.parametrize("kind", RECORD_KINDS, ids=lambda kind: kind.kept)
def test_every_kind_has_all_its_places(kind: RecordKind) -> None:
    """Kept, taken back, sent, agreed to, read and shown."""
    assert list(lacks(kind)) == []


@dataclass(frozen=True)
class Weighing:
    """A kind that nobody knows yet."""

    stamp: Stamp
    grams: int = 0


def test_a_new_kind_is_told_its_places(monkeypatch: pytest.MonkeyPatch) -> None:
    """One that is in no place is missed in each; put into the table alone, in those that need more."""
    kind: Any = RecordKind(Weighing, "weighing", "weighing", Weighing)  # type: ignore[arg-type]
    assert list(lacks(kind)) == ["the table of kinds", "the examples"]
    for known, key in ((KIND_OF, Weighing), (BY_KEPT, "weighing"), (BY_SENT, "weighing")):
        monkeypatch.setitem(known, key, kind)  # type: ignore[arg-type]
    monkeypatch.setitem(EXAMPLES, Weighing, Weighing(stamp("w")))  # type: ignore[arg-type]
    assert list(lacks(kind)) == ["the return", "what was agreed", "the readable copy", "the diary"]


def test_what_is_said_of_one_record_is_not_said_of_another() -> None:
    """The diary's heads differ from kind to kind."""
    assert len({entry_words(made)[0] for made in EXAMPLES.values()}) == len(EXAMPLES) == len(RECORD_KINDS)
