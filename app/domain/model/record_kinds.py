"""The one table of the kinds of record: under which word each is kept and sent, and what is left of one taken back.

The store, the return, the readable copy and the diary read it or are held against it by `tests/test_record_kinds.py`.
A new kind is added to `Record` and here; that test then names every place that it still lacks.
"""
from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from app.domain.model.plan import Dose, Timeline
from app.domain.model.record import (
    CheckDone,
    CheckIn,
    Clearance,
    Ending,
    Event,
    EventKind,
    FunctionalCheck,
    Record,
    SessionDone,
    Stamp,
)


@dataclass(frozen=True)
class RecordKind:
    """One kind of record. Both words stand in stores and returns and never change."""

    of: type[Record]
    kept: str
    """In the store's column `kind`, and in summaries."""
    sent: str
    """Under the key `record` of a return."""
    blank: Callable[[Stamp], Record]
    """A record of this kind that says nothing but its stamp."""


RECORD_KINDS: tuple[RecordKind, ...] = (
    RecordKind(CheckIn, "check_in", "check_in", CheckIn),
    RecordKind(SessionDone, "session", "session_done", lambda stamp: SessionDone(
        stamp, "", Timeline("", (), Dose(0, 0, 0, 100, 0)), "", Ending.FINISHED, (), 0)),
    RecordKind(Clearance, "clearance", "clearance", lambda stamp: Clearance(stamp, answers="", who="", kind="")),
    RecordKind(CheckDone, "check", "check_done", lambda stamp: CheckDone(stamp, FunctionalCheck.CHAIR_STAND)),
    RecordKind(Event, "event", "event", lambda stamp: Event(stamp, EventKind.ACTIVITY)),
)
KIND_OF: Mapping[type[Any], RecordKind] = {kind.of: kind for kind in RECORD_KINDS}
BY_KEPT: Mapping[str, RecordKind] = {kind.kept: kind for kind in RECORD_KINDS}
BY_SENT: Mapping[str, RecordKind] = {kind.sent: kind for kind in RECORD_KINDS}
