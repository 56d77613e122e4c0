"""Entries of the diary that are neither check-ins nor sessions: checks, and what happened around the sessions."""
from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import flet as ft

from app import text_checks, text_events
from app.domain.frame import week_frame
from app.domain.record import CheckDone, Event, EventKind, Record
from app.text_diary import OTHER
from app.ui.client.today_locked import goes
from app.ui.parts import Card
from app.ui.shell import Shell

#: Kinds that may have changed something about the person.
CHANGING = frozenset({EventKind.FALL, EventKind.MEDICINE, EventKind.GOAL})


def other_words(record: Record) -> tuple[str, str]:
    """What it was, and the rest in a line."""
    if isinstance(record, CheckDone):
        return text_checks.NAMES[record.check], f"{text_checks.result_words(record)}."
    if isinstance(record, Event):
        return text_events.NAMES[record.kind], text_events.event_detail(record)
    return OTHER, ""


def other_entry(c: Card, record: Record) -> list[ft.Control]:
    """The same on a page of its own."""
    head, line = other_words(record)
    pieces: list[ft.Control] = [c.title(head), *([c.lead(line)] if line else [])]
    if isinstance(record, CheckDone):
        pieces.append(c.note(text_checks.HONEST))
    if isinstance(record, Event) and record.kind in CHANGING:
        pieces.append(c.note(text_events.STAYS))
    return pieces


def note_something(c: Card, shell: Shell) -> ft.Control:
    """The way to note something around the sessions."""
    return c.button(text_events.NOTE_SOMETHING, goes(shell, "/note"), icon=ft.Icons.EDIT_SHARP, height=72)


def week_in_minutes(c: Card, everything: Sequence[Record], today: date) -> list[ft.Control]:
    """This week in minutes, once anything but sessions is written down in it."""
    frame = week_frame(everything, today)
    moved = any(isinstance(r, Event) and r.kind is EventKind.ACTIVITY and not r.stamp.deleted for r in everything)
    if not moved:
        return []
    return [c.head(text_events.FRAME_HEAD), c.body(text_events.frame_line(frame)), c.soft(text_events.FRAME_NOTE)]
