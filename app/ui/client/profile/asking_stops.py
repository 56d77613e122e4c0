"""The stop questions and their three outcomes, for the welcome and for asking again."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import flet as ft

from app.domain.dosing.screening import ASK_FIRST, DO_NOT_START, Outcome, outcome
from app.ui.client.profile.profile_draft import Held, ProfileDraft
from app.ui.parts import Card, options
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell
from app.words.client import welcome as words


def ask_stops(c: Card, shell: Shell, held: Held[ProfileDraft]) -> list[ft.Control]:
    """Every stop question, and "none of these", which is an answer too."""
    ticked = held.value.ticked
    among = options(*((stop, words.STOPS[stop]) for stop in (*DO_NOT_START, *ASK_FIRST)))

    def toggle(stop: str) -> None:
        held.set(replace(held.value, ticked=(held.value.ticked or frozenset()) ^ {stop} or None, complaint=""))

    def none(_: Any) -> None:
        held.set(replace(held.value, ticked=frozenset(), complaint=""))

    return [
        c.body(words.STOPS_HINT),
        c.several_of_list(among, ticked or (), toggle),
        c.rule(),
        c.one_of_list(options((True, words.NONE_OF_THESE)), ticked == frozenset() or None, none),
    ]


def stops_lack(draft: ProfileDraft, this_year: int) -> str:
    """What is missing on that page."""
    return words.STOPS_MISSING if draft.ticked is None else ""


def show_outcome(c: Card, ticked: frozenset[str], number: str) -> ft.Control:
    """What follows from the answers, plainly."""
    found = outcome(ticked)
    head, says, then = words.OUTCOMES[found]
    icon = ft.Icons.CHECK_SHARP if found is Outcome.GO else ft.Icons.FRONT_HAND_SHARP
    row: list[ft.Control] = [c.icon(icon), c.text(head, t.T_HEAD, t.EXTRA, height=1.15, expand=True)]
    told: list[ft.Control] = [ft.Row(row, spacing=10), c.body(says), c.body(then)]
    if found is Outcome.GO:
        return c.box(c.stack(told, t.GAP))
    named = [c.strong(words.STOPS[stop]) for stop in (*DO_NOT_START, *ASK_FIRST) if stop in ticked]
    now: list[ft.Control] = [c.strong(words.OUTCOME_EMERGENCY), c.body(words.call_line(number))]
    return c.harm_box(c.stack([told[0], c.rows(named), *told[1:], c.rule(), *now], t.GAP))
