"""The stop questions in their groups and what follows from the answers, for the welcome and for asking again."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import flet as ft

from app.domain.dosing.screening import Outcome, may_start, outcome, questions, settings_of, stopping
from app.ui.client.profile.profile_draft import Held, ProfileDraft
from app.ui.client.reach import call_button
from app.ui.parts import Card, options
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.client import stop_questions as words
from app.words.conditions import CLIENT_WORDS


def ask_stops(c: Card, shell: Shell, held: Held[ProfileDraft]) -> list[ft.Control]:
    """Every stop question that is due, group by group, and "none of these", which is an answer too."""
    ticked, before = held.value.ticked, held.value.asked_list
    due = set(questions(held.value.body.conditions, before))

    def toggle(stop: str) -> None:
        held.set(replace(held.value, ticked=(held.value.ticked or frozenset()) ^ {stop} or None, complaint=""))

    def none(_: Any) -> None:
        held.set(replace(held.value, ticked=frozenset(), complaint=""))

    pieces: list[ft.Control] = [c.body(words.NEW_HINT if before else words.STOPS_HINT)]
    for head, group in words.STOP_GROUPS:
        among = options(*((stop, said) for stop, said in group.items() if stop in due))
        if among:
            pieces += [c.subhead(head, level=2), c.several_of_list(among, ticked or (), safe(shell, toggle))]
    return [*pieces, c.rule(),
            c.one_of_list(options((True, words.NONE_OF_THESE)), ticked == frozenset() or None, safe(shell, none))]


def stops_lack(draft: ProfileDraft, this_year: int) -> str:
    """What is missing on that page."""
    return words.STOPS_MISSING if draft.ticked is None else ""


def show_outcome(c: Card, ticked: frozenset[str], number: str, onward: str) -> list[ft.Control]:
    """What follows from the answers under the page's heading, and what is done next: `onward`, or whom to ask first."""
    found = outcome(ticked)
    head, says, then = words.OUTCOMES[found]
    icon = ft.Icons.CHECK_SHARP if may_start(found) else ft.Icons.FRONT_HAND_SHARP
    title = c.title(head)
    title.expand = True
    row = ft.Row([c.icon(icon, size=36), title], spacing=12, vertical_alignment=ft.CrossAxisAlignment.START)
    told: list[ft.Control] = [*_settings(c, ticked, found), c.body(says)]
    following: list[ft.Control] = [c.head(words.OUTCOME_NEXT), c.body(then), c.lead(onward)]
    if may_start(found):
        return [row, c.rule(), *told, *following]
    named = [c.strong(words.STOPS[stop]) for stop in words.STOPS if stop in stopping(ticked)]
    now: list[ft.Control] = [c.strong(words.OUTCOME_EMERGENCY), c.body(words.call_line(number)), call_button(c, number)]
    return [row, c.harm_box(c.stack([c.rows(named), *told, c.rule(), *now], t.GAP)), *following]


def _settings(c: Card, ticked: frozenset[str], found: Outcome) -> list[ft.Control]:
    """Each condition that a tick set, with what follows from it."""
    rows: list[ft.Control] = [c.stack([c.strong(name), c.body(follows)], 0)
                              for name, follows in (CLIENT_WORDS[one] for one in settings_of(ticked))]
    if not rows:
        return []
    head = [] if found is Outcome.GO_WITH_SETTINGS else [c.strong(words.SETS_HEAD)]
    return [*head, c.rows(rows, 10)]
