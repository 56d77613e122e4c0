"""A field that keeps what is typed by itself, so that nothing drawn anew while somebody types takes a letter away."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import flet as ft

from app.ui.shell.shell import Shell


@dataclass(eq=False)
class Typed:
    """What stands in a field now. Its owner reads it when a button is pressed."""

    words: str = ""


@ft.component
def _Field(shell: Shell, label: str, typed: Typed, lines: int, told: Callable[[str], None] | None) -> ft.Control:
    def note(event: ft.Event[ft.TextField]) -> None:
        typed.words = event.control.value or ""
        if told is not None:
            told(typed.words)
    return shell.card().field(label, typed.words, note, lines=lines)


_ONCE: Callable[..., ft.Control] = ft.memo(_Field)  # type: ignore[no-untyped-call]


def typed_field(
    shell: Shell, label: str, typed: Typed, *, lines: int = 1, told: Callable[[str], None] | None = None
) -> ft.Control:
    """The field. `told` hears of each change and must be the same function at each drawing (`ft.use_callback`)."""
    return _ONCE(shell, label, typed, lines, told)


def use_typed() -> Typed:
    """A hook: one `Typed` for the life of the component."""
    typed, _ = ft.use_state(Typed())
    return typed
