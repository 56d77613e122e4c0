"""How to reach somebody: a press telephones or begins an e-mail, by whatever the device has for that."""
from __future__ import annotations

import flet as ft

from app.ui.parts import Card, Look
from app.words.client import coach_told as words
from app.words.contacts import phone_address, ways_in


def reach(c: Card, contact: str) -> list[ft.Control]:
    """A button for each number and address in it; as it was written where it holds neither."""
    buttons = [_leads_to(c.button(words.reach_words(way.words, phone=way.is_phone), _nothing, size=19,
                                  icon=ft.Icons.CALL_SHARP if way.is_phone else ft.Icons.MAIL_OUTLINE_SHARP),
                         way.address) for way in ways_in(contact)]
    return buttons or ([c.lead(contact)] if contact else [])


def call_button(c: Card, number: str) -> ft.Control:
    """The emergency number. The device asks once more before it dials."""
    return _leads_to(c.button(words.call_number(number), _nothing, look=Look.HARM, icon=ft.Icons.CALL_SHARP),
                     phone_address(number))


def _nothing(_: object) -> None:
    """The client opens the address itself, since a browser wants it inside the press."""


def _leads_to(button: ft.Control, address: str) -> ft.Control:
    assert isinstance(button, ft.Container)
    button.url = ft.Url(address, target=ft.UrlTarget.SELF)
    return button
