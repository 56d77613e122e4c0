"""A field whose words are not shown unless asked for; what shows them has a name, which Flutter's own button lacks."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

import flet as ft

from app.ui.parts.frame import Card
from app.words import parts as words


@ft.component
def SecretField(c: Card, label: str, value: str, note: Callable[[str], Any], **more: Any) -> ft.Control:
    """No keyboard learns what is typed. `note` gets it at each key; another `key` begins a new, empty field."""
    is_shown, show = ft.use_state(False)
    typed: ft.MutableRef[str] = ft.use_ref(lambda: value)

    def keep(event: Any) -> None:
        typed.current = event.control.value or ""
        note(typed.current)

    field = c.field(label, typed.current or "", keep, password=not is_shown, autocorrect=False,
                    enable_suggestions=False, **more)
    word = words.HIDE_TYPED if is_shown else words.SHOW_TYPED
    return c.stack([field, c.link(word, lambda _: show(not is_shown), words.of_field(word, label))], 2)
