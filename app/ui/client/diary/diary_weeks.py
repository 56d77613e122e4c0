"""The diary's weeks: a row for each, which opens; in it a line and a folded strip for each session."""
from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

import flet as ft

from app.domain.measures.weeks import CalendarWeek, DiaryDay
from app.domain.model.record import Record, SessionDone
from app.ui.client.diary.other_entries import entry_words
from app.ui.client.folded import Folded
from app.ui.parts import Card
from app.ui.parts.strip_rows import folded_strip
from app.ui.shell.shell import Shell, safe
from app.words.client import diary as says
from app.words.client import diary_weeks as words
from app.words.client.today import day_words

Go = Callable[[Any], Any]


def week_row(shell: Shell, week: CalendarWeek, today: date, asked: str, at_first: bool, width: float, span_ms: int
             ) -> ft.Control:
    """What the week was in a line; opened, day by day, the newest first."""
    def draw() -> list[ft.Control]:
        c = shell.card()
        return [c.aside(c.rows([_day(c, shell, day, asked, width, span_ms) for day in week.days]))]

    return Folded(shell, says.week_head(week.monday, today), words.week_line(week), draw, at_first)


def _day(c: Card, shell: Shell, day: DiaryDay, asked: str, width: float, span_ms: int) -> ft.Control:
    pieces: list[ft.Control] = [c.subhead(day_words(day.day))]
    for record in day.records:
        pieces += _entry(c, shell, record, asked, width, span_ms)
    return c.stack(pieces, 6)


def _entry(c: Card, shell: Shell, record: Record, asked: str, width: float, span_ms: int) -> list[ft.Control]:
    to = safe(shell, lambda _: shell.go(f"/diary/{record.stamp.id}"))
    if isinstance(record, SessionDone):
        return session_entry(c, record, to, width, span_ms)
    head, line = entry_words(record, asked)
    return [c.row(head, line, to, name=f"{head}, {day_words(record.stamp.local)}")]


def session_entry(c: Card, done: SessionDone, to: Go, width: float, span_ms: int) -> list[ft.Control]:
    """Its line, which leads to the whole strip; what was done, folded to one line; what eased it."""
    pieces = [c.row(done.name, says.session_line(done), to, name=f"{done.name}, {day_words(done.stamp.local)}")]
    if done.plan.steps:
        pieces.append(folded_strip(c, done.plan, done.done, width, span_ms))
    eased = words.eased_sentence(done.plan.dose)
    return [*pieces, *([c.soft(eased)] if eased else [])]
