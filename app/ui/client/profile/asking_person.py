"""Questions about the person themselves: who they are, whom to call, what may be sent."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import flet as ft

from app.domain.branding.brand import EmergencyNumber
from app.domain.model.person import Person
from app.ui.client.profile.profile_draft import (
    OLDEST,
    Held,
    ProfileDraft,
    birth_year,
    with_country,
    with_known,
    with_person,
)
from app.ui.parts import AnswerOption, Card
from app.ui.shell.shell import Shell
from app.words.client import welcome as words
from app.words.client.today import said


def typed(held: Held[ProfileDraft], name: str) -> Any:
    """A handler that keeps what is typed about the person."""
    return lambda e: held.note(with_person(held.value, **{name: e.control.value or ""}))


def ask_names(c: Card, shell: Shell, held: Held[ProfileDraft]) -> list[ft.Control]:
    """Name, year of birth, and who leads them."""
    draft = held.value
    asked = "them" if draft.leads else ""

    def born(e: Any) -> None:
        held.note(replace(held.value, born=e.control.value or ""))

    pieces: list[ft.Control] = [
        c.field(said(words.NAME, asked), draft.person.name, typed(held, "name"), autofocus=True),
        c.field(said(words.BORN, asked), draft.born, born, keyboard_type=ft.KeyboardType.NUMBER),
    ]
    if draft.leads:
        pieces.append(c.field(words.LEADER, draft.person.led_by, typed(held, "led_by")))
    return pieces


def names_lack(draft: ProfileDraft, this_year: int) -> str:
    """What is missing or wrong on that page."""
    if not draft.person.name.strip():
        return words.NAME_MISSING
    if draft.leads and not draft.person.led_by.strip():
        return words.LEADER_MISSING
    if draft.born.strip() and birth_year(draft.born, this_year) is None:
        return words.born_wrong(OLDEST, this_year)
    return ""


def ask_emergency(c: Card, shell: Shell, held: Held[ProfileDraft]) -> list[ft.Control]:
    """The number to call, to be confirmed, and somebody close."""
    draft = held.value
    tick = AnswerOption(True, words.NUMBER_RIGHT)

    def country(e: Any) -> None:
        held.note(with_country(held.value, e.control.value or "", shell.brand.emergency))

    def number(e: Any) -> None:
        told = e.control.value or ""
        right = held.value.number_right and told.strip() == held.value.number.strip()
        held.note(replace(held.value, number=told, number_typed=True, number_right=right))

    def right(_: bool) -> None:
        held.set(replace(held.value, number_right=not held.value.number_right, complaint=""))

    return [
        c.body(words.EMERGENCY_HINT),
        *_known_numbers(c, shell, held),
        c.field(words.COUNTRY, draft.person.country, country, on_blur=lambda _: held.set(held.value)),
        c.field(words.NUMBER, draft.number, number, keyboard_type=ft.KeyboardType.PHONE,
                on_blur=lambda _: held.set(held.value)),
        c.several_of_list([tick], [True] if draft.number_right else [], right),
        c.field(said(words.CONTACT, draft.asked), draft.person.emergency_contact, typed(held, "emergency_contact")),
        c.soft(words.CONTACT_HINT),
    ]


def _known_numbers(c: Card, shell: Shell, held: Held[ProfileDraft]) -> list[ft.Control]:
    """The countries that the coach entered a number for; none of them is taken for granted."""
    among = [AnswerOption(one, one.country, one.number) for one in shell.brand.emergency]
    chosen = next((one for one in shell.brand.emergency if one.country == held.value.person.country), None)

    def choose(one: EmergencyNumber) -> None:
        held.set(with_known(held.value, one))

    pieces = [c.subhead(words.WHERE, level=2), c.soft(words.WHERE_NOTE), c.one_of_list(among, chosen, choose)]
    return pieces if among else []


def emergency_lacks(draft: ProfileDraft, this_year: int) -> str:
    """What is missing or wrong on that page."""
    figures = draft.number.replace(" ", "").replace("-", "").lstrip("+")
    if not figures.isdigit():
        return words.NUMBER_WRONG
    return "" if draft.number_right else words.NUMBER_MISSING


def ask_sends(c: Card, shell: Shell, held: Held[ProfileDraft]) -> list[ft.Control]:
    """What may go to the coach; nothing is ticked beforehand."""
    sends = held.value.person.sends
    among = [AnswerOption(key, name, note) for key, (name, note) in words.SENDS.items()]

    def toggle(key: str) -> None:
        held.set(with_person(held.value, sends=held.value.person.sends ^ {key}))

    def all_of_it(_: Any) -> None:
        held.set(with_person(held.value, sends=frozenset(words.SENDS)))

    return [
        c.body(words.SENDS_HINT),
        c.several_of_list(among, sends, toggle),
        c.button(words.ALL_OF_IT, all_of_it if len(sends) < len(words.SENDS) else None),
        *([] if sends else [c.note(words.NOTHING_SENT)]),
    ]


def goes(person: Person) -> list[str]:
    """What they agreed to send, in words."""
    return [name for key, (name, _) in words.SENDS.items() if key in person.sends]
