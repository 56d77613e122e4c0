"""A person's check-ins, notes, body and limits, and what they chose not to send."""
from __future__ import annotations

from datetime import date

import flet as ft

from app.ui.coach.person.person_sheet import Sheet
from app.ui.parts import Card
from app.words.client.today import day_words
from app.words.coach import person as words

MORNINGS = 6
NOTES = 8


def check_ins(c: Card, sheet: Sheet) -> ft.Control:
    """The last mornings, each in two lines."""
    told = sheet.check_ins[:MORNINGS]
    rows = [c.stack([c.strong(words.check_in_head(one)), c.body(words.check_in_line(one))], 2) for one in told]
    empty = words.NO_CHECK_INS if "check_ins" in sheet.person.sends else words.SENDS["check_ins"]
    return c.stack([c.head(words.CHECK_INS_HEAD), c.rows(rows) if rows else c.soft(empty)])


def notes(c: Card, sheet: Sheet) -> ft.Control:
    """Own words from check-ins and sessions, the latest first."""
    told: list[tuple[date, str]] = [(one.stamp.local, one.note) for one in sheet.check_ins if one.note]
    told += [(one.stamp.local, one.note) for one in sheet.sessions if one.note]
    told.sort(key=lambda one: one[0], reverse=True)
    rows = [c.stack([c.strong(day_words(day)), c.body(f"“{note}”")], 2) for day, note in told[:NOTES]]
    empty = words.NO_NOTES if "notes" in sheet.person.sends else words.SENDS["notes"]
    return c.stack([c.head(words.NOTES_HEAD), c.rows(rows) if rows else c.soft(empty)])


def about(c: Card, sheet: Sheet) -> ft.Control:
    """Conditions, limits, kit and goals."""
    rows: list[ft.Control] = [c.stack([c.soft(name), c.strong(value)], 0)
                              for name, value in words.body_lines(sheet.person.body)]
    goals = [c.body(f"“{sheet.person.goals}”")] if sheet.person.goals else []
    return c.stack([c.head(words.ABOUT_HEAD), *goals, c.rows(rows, 6)])


def not_sent(c: Card, sheet: Sheet) -> ft.Control:
    """What is missing here because they do not send it."""
    missing = words.not_sent(sheet.person)
    lines = [c.body(line) for line in missing] or [c.soft(words.ALL_SENT)]
    return c.stack([c.head(words.NOT_SENT_HEAD), *lines, c.note(words.OWN_WORDS)])
