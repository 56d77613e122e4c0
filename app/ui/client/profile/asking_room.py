"""Questions about what is at hand, and about being alone."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import flet as ft

from app.ui.client.profile.profile_draft import Held, ProfileDraft, weights_g, with_body, with_person
from app.ui.parts import Card, options
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell
from app.words.client import welcome as words
from app.words.client.today import said


def ask_kit(c: Card, shell: Shell, held: Held[ProfileDraft]) -> list[ft.Control]:
    """What is at hand at home, and the weights owned."""
    draft = held.value
    kit = draft.body.kit or frozenset()

    def toggle(item: str) -> None:
        held.set(with_body(held.value, kit=(held.value.body.kit or frozenset()) ^ {item}))

    pieces: list[ft.Control] = [
        c.body(words.KIT_HINT), c.several_of_list(options(*words.KIT.items()), kit, toggle),
    ]
    return [*pieces, c.aside(c.stack(_weights(c, held), t.GAP))] if "dumbbell" in kit else pieces


def _weights(c: Card, held: Held[ProfileDraft]) -> list[ft.Control]:
    def typed(e: Any) -> None:
        held.note(replace(held.value, weights=e.control.value or ""))

    def unit(pounds: bool) -> None:
        held.set(with_person(held.value, pounds=pounds))

    return [
        c.field(words.WEIGHTS, held.value.weights, typed), c.soft(words.WEIGHTS_HINT),
        c.one_of(options(*words.UNITS), held.value.person.pounds, unit),
        c.soft(words.WEIGHTS_NOTE),
    ]


def kit_lacks(draft: ProfileDraft, this_year: int) -> str:
    """What is wrong on that page."""
    owned = weights_g(draft.weights, pounds=draft.person.pounds)
    has = "dumbbell" in (draft.body.kit or ())
    return words.WEIGHTS_WRONG if has and not owned else ""


def ask_around(c: Card, shell: Shell, held: Held[ProfileDraft]) -> list[ft.Control]:
    """Alone or not; up from the floor alone or not."""
    draft = held.value

    def alone(value: bool) -> None:
        held.set(replace(held.value, alone=value, complaint=""))

    def rises(value: bool) -> None:
        held.set(replace(held.value, rises=value, complaint=""))

    return [
        c.lead(said(words.ALONE, draft.asked)), c.yes_no(words.ALONE_SHORT, draft.alone, alone),
        c.hairline(),
        c.lead(said(words.RISES, draft.asked)), c.yes_no(words.RISES_SHORT, draft.rises, rises),
        c.note(words.ALONE_NOTE),
    ]


def around_lacks(draft: ProfileDraft, this_year: int) -> str:
    """What is missing on that page."""
    return words.BOTH_MISSING if draft.alone is None or draft.rises is None else ""
