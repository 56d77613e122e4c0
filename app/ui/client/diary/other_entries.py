"""Entries of the diary that are neither check-ins nor sessions: checks, and what happened around the sessions."""
from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import flet as ft

from app.domain.measures.week_minutes import week_frame
from app.domain.model.record import CheckDone, CheckIn, Clearance, Event, EventKind, Record, SessionDone
from app.ui.client.today.locked_card import goes
from app.ui.parts import Card
from app.ui.shell.shell import Shell
from app.words.client import checks, events
from app.words.client import diary as says

#: Kinds that may have changed something about the person.
CHANGING = frozenset({EventKind.FALL, EventKind.MEDICINE, EventKind.GOAL})


def entry_words(record: Record, asked: str = "") -> tuple[str, str]:
    """What it was, and the rest in a line."""
    if isinstance(record, CheckIn):
        return says.CHECK_IN, says.check_in_line(record)
    if isinstance(record, Clearance):
        return says.YES_NOTED, says.clearance_line(record, asked)
    if isinstance(record, SessionDone):
        return record.name, says.session_line(record)
    if isinstance(record, CheckDone):
        return checks.NAMES[record.check], f"{checks.result_words(record)}."
    if isinstance(record, Event):
        return events.NAMES[record.kind], events.event_detail(record)
    return says.OTHER, ""


def other_entry(c: Card, record: Record) -> list[ft.Control]:
    """The same on a page of its own."""
    head, line = entry_words(record)
    pieces: list[ft.Control] = [c.title(head), *([c.lead(line)] if line else [])]
    if isinstance(record, CheckDone):
        pieces.append(c.note(checks.HONEST))
    if isinstance(record, Event) and record.kind in CHANGING:
        pieces.append(c.note(events.STAYS))
    return pieces


def note_something(c: Card, shell: Shell) -> ft.Control:
    """The way to note something around the sessions."""
    return c.button(events.NOTE_SOMETHING, goes(shell, "/note"), icon=ft.Icons.EDIT_SHARP, height=72)


def week_in_minutes(c: Card, everything: Sequence[Record], today: date) -> list[ft.Control]:
    """This week in minutes, once anything but sessions is written down in it."""
    frame = week_frame(everything, today)
    moved = any(isinstance(r, Event) and r.kind is EventKind.ACTIVITY and not r.stamp.deleted for r in everything)
    if not moved:
        return []
    return [c.head(events.FRAME_HEAD), c.body(events.frame_line(frame)), c.soft(events.FRAME_NOTE)]
