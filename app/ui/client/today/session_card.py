"""The card of a session: its strip, today's amount and every change with its reason, where one is, what to mind."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import flet as ft

from app.actions import people
from app.actions.training.today import Today
from app.domain.dosing.way_back import sessions_of
from app.domain.model.client import Condition, Place
from app.domain.model.exercise import Space
from app.domain.model.level import Level
from app.domain.model.person import Person
from app.domain.progress.progression_today import is_waiting
from app.ui.parts import AnswerOption, Card
from app.ui.parts import theme as t
from app.ui.parts.time_strip import plan_strip
from app.ui.shell.shell import Shell, safe
from app.words import text
from app.words.amounts import amount_sentence, day_sentence
from app.words.client import plan, progression, today, welcome
from app.words.client import safety as safety_words
from app.words.reasons import reason_text

PULSE = frozenset({Condition.BETA_BLOCKER, Condition.PACEMAKER})


def session_head(c: Card, card: Today, width: float) -> list[ft.Control]:
    """The name, one sentence, then the drawing."""
    assert card.session is not None
    due = card.due if card.due and card.due.session == card.session.id else None
    pieces: list[ft.Control] = [c.title(card.session.name)]
    if card.timeline and card.check_in:
        pieces += [c.text(day_sentence(card.timeline, card.session), t.T_LEAD, t.EXTRA, height=1.2), *_changes(c, card)]
    if card.timeline and card.timeline.steps:
        pieces += [c.lead(text.session_sentence(card.timeline, card.kit())), plan_strip(c, card.timeline, width)]
    pieces += [c.soft(today.due_line(due))] if due else []
    pieces += [c.soft(today.week_note(due.note, card.person.asked, eased=_is_eased(card)))] if due and due.note else []
    return pieces


def _is_eased(card: Today) -> bool:
    return bool(card.check_in and card.timeline and card.timeline.dose.level >= Level.REDUCED)


def amount(c: Card, card: Today) -> list[ft.Control]:
    """Today's amount with every reason; what stands in for what; what is left out. Nothing is hidden."""
    timeline = card.timeline
    if timeline is None or card.check_in is None:
        first = today.said(today.AFTER_QUESTIONS, card.person.asked)
        return [c.head(today.AMOUNT_HEAD), c.body(first), *_changes(c, card)]
    assert card.session is not None
    dose = timeline.dose
    reasons: list[ft.Control] = [c.body(reason_text(reason, card.person.asked)) for reason in dose.reasons]
    pieces: list[ft.Control] = [c.head(today.AMOUNT_HEAD), c.strong(amount_sentence(dose, card.session))]
    pieces += [c.rows(reasons, 6)] if reasons else []
    pieces += [c.body(progression.WAITING)] if is_waiting(timeline, sessions_of(card.records)) else []
    if not reasons and not _changes(c, card):
        pieces.append(c.body(today.said(today.NOTHING_CHANGED, card.person.asked)))
    return pieces


def _changes(c: Card, card: Today) -> list[ft.Control]:
    timeline, names = card.timeline, card.names
    if timeline is None:
        return []
    told: list[ft.Control] = [
        c.reason(names.get(s.to, s.to), text.substitution_text(s, names)) for s in timeline.substitutions
    ]
    told += [c.reason(names.get(out.exercise, out.exercise), text.left_out_text(out)) for out in timeline.left_out]
    told += [c.reason(names.get(one.exercise, one.exercise), text.one_sided_text(one)) for one in timeline.one_sided]
    pounds = card.person.pounds
    told += [c.reason(names.get(m.to or m.exercise, m.exercise), progression.move_text(m, names, pounds=pounds))
             for m in timeline.moves]
    return [c.head(today.CHANGED_HEAD), *told] if told else []


# ------------------------------------------------------------------ the room and the time

def where(c: Card, shell: Shell, card: Today) -> list[ft.Control]:
    """Which place, and how many minutes there are."""
    person = card.person

    def place(name: str) -> None:
        people.choose_place(shell.store, person, name)
        shell.refresh()

    def minutes(number: int | None) -> None:
        people.change_place(shell.store, person, replace(card.place, minutes=number))
        shell.refresh()

    places = [AnswerOption(p.name, p.name) for p in person.places]
    numbers = sorted({*today.MINUTE_CHOICES, *((card.place.minutes,) if card.place.minutes else ())})
    among = [AnswerOption(n, today.minutes_option(n), name=today.minutes_name(n)) for n in (None, *numbers)]
    return [
        c.head(today.PLACE_HEAD), c.one_of(places, card.place.name, safe(shell, place)),
        c.soft(place_words(person, card.place)),
        c.link(today.CHANGE_PLACES, safe(shell, lambda _: shell.go("/settings/places"))),
        c.head(today.MINUTES_HEAD), c.one_of(among, card.place.minutes, safe(shell, minutes)),
    ]


@ft.component
def FoldedWhere(shell: Shell, card: Today) -> ft.Control:
    """What stands of place and minutes in a line; pressed, both can be changed."""
    c = shell.card()
    is_open, set_open = ft.use_state(False)
    minutes = today.minutes_name(card.place.minutes)
    row = c.row(today.WHERE_AND_LONG, f"{card.place.name}. {minutes}.", safe(shell, lambda _: set_open(not is_open)),
                trailing=today.CLOSE_FOLD if is_open else today.OPEN_FOLD, name=today.WHERE_AND_LONG)
    return c.stack([row, *(where(c, shell, card) if is_open else [])])


@ft.component
def FoldedOthers(shell: Shell, card: Today) -> ft.Control:
    """The other sessions, behind their name."""
    c = shell.card()
    is_open, set_open = ft.use_state(False)
    row = c.row(today.OTHER_HEAD, "", safe(shell, lambda _: set_open(not is_open)),
                trailing=today.CLOSE_FOLD if is_open else today.OPEN_FOLD, name=today.OTHER_HEAD)
    return c.stack([row, *(others(c, shell, card)[1:] if is_open else [])])


def place_words(person: Person, place: Place) -> str:
    """What a room has, in a line."""
    kit = place.kit if place.kit is not None else person.body.kit
    return today.place_line(place.floor, place.noise, place.space is Space.SMALL, welcome.kit_words(kit))


# ------------------------------------------------------------------ what to mind

def safety_lines(person: Person) -> list[str]:
    """What to see to before a session, for this body and these circumstances."""
    body = person.body
    lines: list[tuple[bool, str | today.Pair]] = [
             (bool(person.led_by), safety_words.SAFETY_LEAD), (body.alone, safety_words.SAFETY_ALONE),
             (body.alone and not body.rises_unaided, safety_words.SAFETY_NO_RISING),
             (Condition.INSULIN in body.conditions, safety_words.SAFETY_INSULIN),
             (bool(PULSE & body.conditions), safety_words.SAFETY_PULSE),
             (Condition.FALLS in body.conditions, safety_words.SAFETY_FALLS)]
    told = [line if isinstance(line, str) else today.said(line, person.asked) for applies, line in lines if applies]
    return [*told, safety_words.SAFETY_ALWAYS]


def safety(c: Card, person: Person) -> list[ft.Control]:
    """The same on the card."""
    lines: list[ft.Control] = [c.body(line) for line in safety_lines(person)]
    return [c.head(safety_words.SAFETY_HEAD, icon=ft.Icons.FRONT_HAND_SHARP), c.rows(lines, 6)]


def others(c: Card, shell: Shell, card: Today) -> list[ft.Control]:
    """Every other session that may be done instead."""
    shown = card.session.id if card.session else ""
    if card.source is None or not any(s.id != shown for s in card.source.sessions):
        return []
    return [c.head(today.OTHER_HEAD), c.soft(today.OTHER_HINT), OtherSessions(shell, card, shown)]


@ft.component
def OtherSessions(shell: Shell, card: Today, shown: str) -> ft.Control:
    """Those of the programme that is followed; the coach's others at a press."""
    c = shell.card()
    is_open, set_open = ft.use_state(False)
    source = card.source
    if source is None:
        return c.rows([])
    own = set(card.programme.session_ids()) if card.programme else set()
    rest = [s for s in source.sessions if s.id != shown]
    listed = [s for s in rest if is_open or s.id in own]

    def look(session_id: str) -> Any:
        return safe(shell, lambda _: shell.go(f"/today/{session_id}"))

    rows: list[ft.Control] = [c.row(s.name, s.about, look(s.id)) for s in listed]
    if len(listed) < len(rest):
        more = plan.all_sessions(len(rest))
        return c.stack([c.rows(rows, 2), c.link(more, safe(shell, lambda _: set_open(True)))])
    return c.rows(rows, 2)
