"""The card of a session: what is different today, its strip, and, folded, the reasons, the place and other sessions."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import flet as ft

from app.actions import people
from app.actions.training.today import Today
from app.domain.compile.dose_diff import eased_amounts
from app.domain.dosing.way_back import sessions_of
from app.domain.model.client import Place
from app.domain.model.exercise import Space
from app.domain.model.level import Level
from app.domain.model.person import Person
from app.domain.model.plan import Dose, Reason
from app.domain.progress.progression_today import is_waiting
from app.ui.client.folded import Folded
from app.ui.parts import AnswerOption, Card
from app.ui.parts import theme as t
from app.ui.parts.time_strip import plan_strip
from app.ui.shell.shell import Shell, safe
from app.words import text
from app.words.amounts import amount_sentence, day_sentence
from app.words.client import day_card, plan, progression, today, welcome
from app.words.reasons import reason_text

SHOWN_AT_FIRST = 3
"""So many changes stand on the card before the rest is folded."""
DECIDING = 2
"""So many reasons stand on the card at once; all of them are one press away."""


def session_head(c: Card, shell: Shell, card: Today, width: float) -> list[ft.Control]:
    """The name, what is different today in one sentence with the moves, then the drawing, and what the coach wrote."""
    assert card.session is not None
    due = card.due if card.due and card.due.session == card.session.id else None
    pieces: list[ft.Control] = [c.title(card.session.name)]
    if card.timeline and card.check_in:
        pieces += [c.text(day_sentence(card.timeline, card.session), t.T_LEAD, t.EXTRA, height=1.2)]
        missing = [r.missing for r in card.timeline.dose.reasons if r.missing]
        pieces += [c.body(day_card.unsaid_line(missing, card.person.asked))] if missing else []
        pieces += [c.body(reason_text(reason, card.person.asked)) for reason in deciding(card.timeline.dose)]
    pieces += changed_today(shell, card)
    if card.timeline and card.timeline.steps:
        pieces += [c.lead(text.session_sentence(card.timeline, card.kit())), plan_strip(c, card.timeline, width)]
    pieces += [c.soft(today.due_line(due))] if due else []
    pieces += [c.soft(note_line(card, due.note))] if due and due.note else []
    return pieces


def deciding(dose: Dose) -> list[Reason]:
    """What made it as light as it is, at most `DECIDING`; what was left unsaid stands in a line of its own."""
    told = [r for r in dose.reasons if r.level == dose.level and not r.missing]
    return told[:DECIDING]


def note_line(card: Today, note: str) -> str:
    """The coach's note for the week; where it could read like today's amount, that today comes first."""
    timeline = card.timeline
    eased = bool(card.check_in and timeline and timeline.dose.level >= Level.REDUCED)
    said = today.week_note(note, card.person.asked, eased=eased)
    if eased or timeline is None or card.session is None:
        return said
    differs = timeline.substitutions or timeline.left_out or eased_amounts(card.session, timeline.dose)
    return f"{said} {day_card.TODAY_FIRST}" if differs else said


def amount(c: Card, card: Today) -> list[ft.Control]:
    """Today's amount in numbers with every reason. Nothing is hidden."""
    timeline = card.timeline
    if timeline is None or card.check_in is None:
        return []
    assert card.session is not None
    dose = timeline.dose
    reasons: list[ft.Control] = [c.body(reason_text(reason, card.person.asked)) for reason in dose.reasons]
    sentence = amount_sentence(dose, card.session, len(timeline.left_out))
    pieces: list[ft.Control] = [c.strong(sentence)]
    pieces += [c.rows(reasons, 6)] if reasons else []
    pieces += [c.body(progression.WAITING)] if is_waiting(timeline, sessions_of(card.records)) else []
    if not reasons and not changes(c, card):
        pieces.append(c.body(today.said(today.NOTHING_CHANGED, card.person.asked)))
    return pieces


def folded_why(c: Card, shell: Shell, card: Today) -> list[ft.Control]:
    """Every reason behind one line; without reasons there is nothing to open."""
    if card.timeline is None or card.check_in is None:
        return []
    number = len(card.timeline.dose.reasons)

    return [Folded(shell, day_card.WHY_TODAY, day_card.why_line(number) if number else "", lambda: amount(c, card))]


def changed_today(shell: Shell, card: Today) -> list[ft.Control]:
    """What is done in place of what; the first three at once."""
    return [ChangedToday(shell, card)] if changes(shell.card(), card) else []


@ft.component
def ChangedToday(shell: Shell, card: Today) -> ft.Control:
    """The rest at a press."""
    c = shell.card()
    is_open, set_open = ft.use_state(False)
    told = changes(c, card)
    shown = told if is_open or len(told) - SHOWN_AT_FIRST < day_card.LEAST_FOLDED else told[:SHOWN_AT_FIRST]
    more: list[ft.Control] = []
    if len(shown) < len(told):
        more = [c.link(day_card.more_changes(len(told) - len(shown)), safe(shell, lambda _: set_open(True)))]
    return c.stack([c.head(today.CHANGED_HEAD), *shown, *more])


def changes(c: Card, card: Today) -> list[ft.Control]:
    """What stands in for what, what is left out, what is on one side alone, and how far one has come."""
    timeline, names = card.timeline, card.names
    if timeline is None:
        return []
    told: list[ft.Control] = [
        c.reason(names.get(s.to, s.to), text.substitution_text(s, names)) for s in timeline.substitutions
    ]
    told += [c.reason(names.get(out.exercise, out.exercise), text.left_out_text(out)) for out in timeline.left_out]
    told += [c.reason(names.get(one.exercise, one.exercise), text.one_sided_text(one)) for one in timeline.one_sided]
    pounds = card.person.pounds
    return told + [c.reason(names.get(m.to or m.exercise, m.exercise), progression.move_text(m, names, pounds=pounds))
                   for m in timeline.moves]


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


def folded_where(c: Card, shell: Shell, card: Today) -> ft.Control:
    """What stands of place and minutes in a line; pressed, both can be changed."""
    line = f"{card.place.name}. {today.minutes_name(card.place.minutes)}."
    return Folded(shell, today.WHERE_AND_LONG, line, lambda: where(c, shell, card))


def folded_others(c: Card, shell: Shell, card: Today) -> list[ft.Control]:
    """The other sessions, behind their name; nothing where there is none."""
    return [Folded(shell, today.OTHER_HEAD, "", lambda: others(c, shell, card)[1:])] if others(c, shell, card) else []


def place_words(person: Person, place: Place) -> str:
    """What a room has, in a line."""
    kit = place.kit if place.kit is not None else person.body.kit
    return today.place_line(place.floor, place.noise, place.space is Space.SMALL, welcome.kit_words(kit))


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
