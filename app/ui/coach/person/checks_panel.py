"""A person's functional checks with the published bands and the honest error, and what happened around the sessions."""
from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from app.domain.checks import functional_checks as rules
from app.domain.checks import published_figures as figures
from app.domain.dosing.events import events_of
from app.domain.model.record import CheckDone, Event, FunctionalCheck
from app.ui.coach.person.person_sheet import Sheet
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.words.client import events
from app.words.client.checks import NAMES
from app.words.client.today import day_words
from app.words.coach import checks as words
from app.words.coach import person

SHOWN = 4
EVENTS = 8


def checks_and_events(c: Card, sheet: Sheet) -> list[ft.Control]:
    """Two sections for the page of a person."""
    return [_checks(c, sheet), _events(c, sheet)]


def _checks(c: Card, sheet: Sheet) -> ft.Control:
    found = [(check, rules.checks_of(sheet.records, check)) for check in FunctionalCheck]
    told = [(check, done) for check, done in found if done]
    head = c.head(words.COACH_HEAD)
    if not told:
        empty = words.COACH_NONE if "sessions" in sheet.person.sends else person.SENDS["sessions"]
        return c.stack([head, c.soft(empty)])
    pieces: list[ft.Control] = [head]
    for check, done in told:
        pieces += [c.subhead(NAMES[check], t.T_BODY), c.rows(_results(c, sheet, done), 4), *_bands(c, sheet, done[-1]),
                   c.soft(words.COACH_ERROR[check])]
    return c.stack([*pieces, c.note(words.COACH_CAUTION)])


def _results(c: Card, sheet: Sheet, done: Sequence[CheckDone]) -> list[ft.Control]:
    """The latest first, each beside the one before it."""
    held = sheet.person.body.conditions
    return [c.body(words.coach_result(one, rules.previous(done, one), held)) for one in reversed(done[-SHOWN:])]


def _bands(c: Card, sheet: Sheet, done: CheckDone) -> list[ft.Control]:
    """The last result beside what was published for that age."""
    point = figures.talking_point(done)
    talk: list[ft.Control] = [c.note(words.TALKING_POINTS[point])] if point else []
    if done.check not in {band.check for band in figures.BANDS}:
        return talk
    born = sheet.person.birth_year
    if born is None:
        return [*talk, c.soft(words.NO_BIRTH_YEAR)]
    age = words.age_at(done.stamp.local, born)
    bands = figures.bands_for(done.check, age, sheet.person.sex)
    return [*talk, *([c.body(words.placed_line(band, done)) for band in bands]
                     or [c.soft(words.NO_BAND.format(age=age))])]


def _events(c: Card, sheet: Sheet) -> ft.Control:
    told = events_of(sheet.records)[::-1][:EVENTS]
    rows: list[ft.Control] = [_event(c, event) for event in told]
    shared = "check_ins" in sheet.person.sends
    pieces: list[ft.Control] = [c.head(events.COACH_HEAD), *([c.rows(rows)] if rows else [])]
    if not shared or not rows:
        pieces.append(c.soft(events.COACH_NONE if shared else events.COACH_WITHHELD))
    return c.stack(pieces)


def _event(c: Card, event: Event) -> ft.Control:
    head = f"{day_words(event.stamp.local)}, {events.NAMES[event.kind].lower()}"
    detail = events.event_detail(event)
    return c.stack([c.strong(head), *([c.body(detail)] if detail else [])], 2)
