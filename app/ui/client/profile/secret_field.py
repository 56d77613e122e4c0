"""Secrets that a page keeps until it is left: a passphrase, a PIN."""
from __future__ import annotations

from typing import Any

import flet as ft

from app.ui.client.profile.profile_draft import Held
from app.ui.parts import Card
from app.ui.parts.secret_field import SecretField


def secret_field(c: Card, label: str, typed: Held[str], **more: Any) -> ft.Control:
    """What is typed is kept in `typed`."""
    return SecretField(c, label, typed.value, typed.note, **more)


def pin_field(c: Card, label: str, typed: Held[str], **more: Any) -> ft.Control:
    """The same, for digits."""
    return secret_field(c, label, typed, keyboard_type=ft.KeyboardType.NUMBER, **more)
