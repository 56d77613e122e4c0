"""A slim field for a number: it takes effect with each key that leaves it possible, and takes no letter away."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import flet as ft

from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.coach.bench import session as words

WIDTH = 76


@dataclass(frozen=True)
class NumberAsked:
    """What a field asks for. `value` None: nothing of its own is said and `empty` is what holds."""

    label: str
    value: int | None
    least: int
    most: int
    unit: str = ""
    empty: str = ""
    width: float = WIDTH


@ft.component
def _Number(
    shell: Shell, asked: NumberAsked, turn: int, told: Callable[[int | None], None], focused: Callable[[], None]
) -> ft.Control:
    """`turn` grows when the number was changed from outside; until then what was typed stands."""
    typed = ft.use_ref("")
    seen = ft.use_ref(-1)
    if seen.current != turn:
        seen.current, typed.current = turn, "" if asked.value is None else str(asked.value)
    now = typed.current or ""
    number = int(now) if now.isdecimal() else None
    wrong = (now != "" and (number is None or not asked.least <= number <= asked.most)) or (not now and not asked.empty)

    def change(event: ft.Event[ft.TextField]) -> None:
        typed.current = event.control.value or ""
        given = int(typed.current) if typed.current.isdecimal() else None
        if given is not None and asked.least <= given <= asked.most:
            told(given)
        elif not typed.current and asked.empty:
            told(None)
    return _slim(shell.card(), asked, now, safe(shell, change), safe(shell, lambda _: focused()), wrong=wrong)


def _slim(
    c: Card, asked: NumberAsked, value: str, change: Callable[..., None], focus: Callable[..., None], *, wrong: bool
) -> ft.Control:
    def edge(width: float) -> ft.InputBorder:
        return ft.OutlineInputBorder(side=ft.BorderSide(width, c.p.ink), border_radius=0)
    state = ft.ControlState
    field = ft.TextField(
        value=value, text_style=t.ink_style(c.p, t.T_BODY, t.SEMI), dense=True, filled=True, bgcolor=c.p.sheet,
        border={state.DEFAULT: edge(t.HAIR), state.FOCUSED: edge(t.RULE), state.ERROR: edge(t.RULE)},
        cursor_color=c.p.ink, text_align=ft.TextAlign.RIGHT, width=asked.width * max(1.0, c.scale ** 0.5),
        suffix=c.text(asked.unit, t.T_CAPTION, colour=c.p.soft) if asked.unit else None, on_change=change,
        on_focus=focus, hint_text=asked.empty or None, hint_style=t.ink_style(c.p, t.T_BODY, colour=c.p.soft),
        content_padding=ft.Padding(left=8, right=8, top=13, bottom=13),
        input_filter=ft.InputFilter(regex_string=r"^[0-9]*$"),
        error=words.between(asked.least, asked.most) if wrong else None,
        error_style=t.ink_style(c.p, t.T_CAPTION, t.EXTRA))
    return ft.MergeSemantics(ft.Semantics(label=asked.label, content=field))


_NUMBER: Callable[..., ft.Control] = _Number


def number_field(
    shell: Shell, asked: NumberAsked, turn: int, told: Callable[[int | None], None], focused: Callable[[], None]
) -> ft.Control:
    """The field. `told` hears of each number that can be, and of None where the field may be empty."""
    return _NUMBER(shell, asked, turn, told, focused, key=asked.label)
