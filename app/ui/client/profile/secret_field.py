"""Fields whose words are not shown unless asked for."""
from __future__ import annotations

from typing import Any

import flet as ft

from app.ui.client.profile.profile_draft import Held
from app.ui.parts import Card


def secret_field(c: Card, label: str, typed: Held[str], **more: Any) -> ft.Control:
    """No keyboard learns what is typed."""
    return c.field(label, typed.value, lambda e: typed.note(e.control.value or ""), password=True,
                   can_reveal_password=True, autocorrect=False, enable_suggestions=False, **more)


def pin_field(c: Card, label: str, typed: Held[str], **more: Any) -> ft.Control:
    """The same, for digits."""
    return secret_field(c, label, typed, keyboard_type=ft.KeyboardType.NUMBER, **more)
