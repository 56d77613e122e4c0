"""What is pressed: square, ruled, at least 48 px, with role button and one plain name."""
from __future__ import annotations

import inspect
from collections.abc import Callable
from enum import Enum
from typing import Any

import flet as ft

from app.ui.parts import theme as t
from app.ui.parts.text_blocks import Size, Words

KEY = 72
"""Width of the ink key at the left of a band, px."""
Press = Callable[..., Any] | None
"""Called with the Flet event, plain or async. None: it cannot be pressed now."""


class Look(Enum):
    """How a button is printed. The double rule means harm and nothing else."""

    SOLID = "solid"
    BOX = "box"
    HARM = "harm"


def bind(act: Callable[..., Any], *values: Any) -> Callable[[Any], Any]:
    """`act(*values)` as a Flet handler that drops the event; async stays async."""
    if inspect.iscoroutinefunction(act):
        async def later(_: Any) -> None:
            await act(*values)
        return later

    def now(_: Any) -> None:
        act(*values)
    return now


def room(height: Size, line: Size, across: Size = 10) -> ft.Padding:
    """Padding that makes one line of `line` px at least `height` px high, so larger words make it grow."""
    around = max(6, (height - line) / 2)
    return ft.Padding(left=across, right=across, top=around, bottom=around)


class Buttons(Words):
    """Buttons of every look."""

    def button(
        self, words: str, on_click: Press, *, look: Look = Look.BOX, icon: ft.IconData | None = None,
        name: str = "", height: Size = t.TARGET, size: Size = t.T_LEAD, **more: Any,
    ) -> ft.Control:
        """A button. Found by `get_by_role("button", name=name or words)`.

        Args:
            words: on its face.
            on_click: None prints it soft, with a thin edge, and unpressable.
            name: what a screen reader says, where the words alone are not unique on the page.
            height: least height, px.
            more: `expand`, `width` of the whole.
        """
        ground, colour = self._inks(look, on_click)
        face = self._face(words, name, size, colour, icon)
        # the edge of what is pressed lies within its padding; only the inner rule of the double one adds to it
        padding = room(height - (12 if look is Look.HARM else 0), max(size * 1.15, 30 if icon else 0))
        if look is Look.HARM:
            inner = ft.Container(face, border=self.border(2), margin=4, padding=padding)
            return self.press(inner, on_click, ground, self.border(4, colour), ft.Padding.all(0), **more)
        edge = self.border(t.RULE if on_click else t.HAIR, self.p.ink if on_click else self.p.soft)
        return self.press(face, on_click, ground, edge, padding, **more)

    def main_button(self, words: str, on_click: Press, icon: ft.IconData | None = None, **more: Any) -> ft.Control:
        """The one main act of a page: solid, big ("Start")."""
        sized = {"height": t.TARGET_START, "size": t.T_BIG} | more
        return self.button(words, on_click, look=Look.SOLID, icon=icon, **sized)

    def harm_button(self, words: str, on_click: Press, icon: ft.IconData | None = None, **more: Any) -> ft.Control:
        """A button under the double rule ("That hurts"); for harm only."""
        return self.button(words, on_click, look=Look.HARM, icon=icon, **more)

    def small_button(self, words: str, on_click: Press, icon: ft.IconData | None = None, **more: Any) -> ft.Control:
        """A button for the desk, 48 px."""
        sized = {"height": t.TARGET_DESK, "size": t.T_BODY} | more
        return self.button(words, on_click, icon=icon, **sized)

    def link(self, words: str, on_click: Press, name: str = "") -> ft.Control:
        """An act of second rank: underlined words, 48 px high."""
        style = t.ink_style(self.p, t.T_BODY, t.SEMI)
        style.decoration = ft.TextDecoration.UNDERLINE
        face = ft.Text(self.said(words), style=style, semantics_label=self.said(name) or None)
        return self.press(face, on_click, "", None, room(t.TARGET_DESK, t.T_BODY * 1.25, 2))

    def band(
        self, key: str, words: str, icon: ft.IconData, on_click: Press, height: Size = t.TARGET_PLAYER,
        figure: ft.Control | None = None,
    ) -> ft.Control:
        """A full-width band with an ink key at its left, all of it the button ("Easier: both heels together").

        `figure` stands at its right end.
        """
        says = ft.Column(
            [self.text(key, t.T_BODY, t.EXTRA, height=1.15), self.text(words, t.T_LEAD, t.SEMI, height=1.15)],
            spacing=0, tight=True,
        )
        padding = room(height, t.T_BODY * 1.15 + t.T_LEAD * 1.15, 14)
        row = ft.Row([ft.Container(says, expand=True, padding=padding), *([figure] if figure else [])], spacing=0,
                     vertical_alignment=ft.CrossAxisAlignment.CENTER)
        inner = ft.Container(row, border=ft.Border(left=ft.BorderSide(KEY, self.p.ink)),
                             padding=ft.Padding(left=0, right=8 if figure else 0, top=0, bottom=0))
        mark = ft.Container(self.icon(icon, self.p.paper, 36), left=0, top=0, bottom=0, width=KEY,
                            alignment=ft.Alignment.CENTER)
        side = ft.BorderSide(t.RULE, self.p.ink)
        edges = ft.Border(top=side, bottom=side)
        return self.press(ft.Stack([inner, mark]), on_click, self.p.sheet, edges, ft.Padding.all(0))

    def press(
        self, content: ft.Control, on_click: Press, ground: str, border: ft.Border | None, padding: ft.Padding,
        alignment: ft.Alignment | None = None, **more: Any,
    ) -> ft.Control:
        """Any content as one button, with the keyboard's ground of its own."""
        focus: Any = {"focus_color": self.p.focus_solid if ground == self.p.ink else self.p.focus}  # see `flet_theme`
        if on_click is None:
            still = ft.Container(content, bgcolor=ground or None, border=border, padding=padding, alignment=alignment)
            return ft.MergeSemantics(ft.Semantics(content=still, button=True), **more)
        return ft.Container(
            content, bgcolor=ground or None, border=border, padding=padding, alignment=alignment,
            ink=True, on_click=on_click, theme=focus, **more,
        )

    def choosable(
        self, face: ft.Control, on_click: Press, chosen: bool, padding: ft.Padding, *, tick: bool = True,
        alignment: ft.Alignment | None = None, **more: Any,
    ) -> ft.Control:
        """What can be chosen: a box; chosen it is tinted, with a thick edge at its left and a tick in its corner."""
        inner: ft.Control = ft.Container(face, padding=padding, alignment=alignment)
        if chosen and tick:
            corner = ft.Container(self.icon(ft.Icons.CHECK_SHARP, size=t.CHOSEN_TICK), right=1, top=1)
            inner = ft.Stack([inner, corner], fit=ft.StackFit.PASS_THROUGH)
        return self.press(inner, on_click, self.p.tint if chosen else self.p.sheet, self.chosen_border(chosen),
                          ft.Padding.all(0), **more)

    def chosen_border(self, chosen: bool) -> ft.Border:
        """The edge of a box, thick at its left once it is chosen."""
        line = ft.BorderSide(t.RULE, self.p.ink)
        left = ft.BorderSide(t.CHOSEN_EDGE, self.p.ink) if chosen else line
        return ft.Border(left=left, top=line, right=line, bottom=line)

    def _inks(self, look: Look, on_click: Press) -> tuple[str, str]:
        if on_click is None:
            return self.p.paper, self.p.soft
        return (self.p.ink, self.p.paper) if look is Look.SOLID else (self.p.sheet, self.p.ink)

    def _face(self, words: str, name: str, size: Size, colour: str, icon: ft.IconData | None) -> ft.Control:
        face = self.text(
            words, size, t.EXTRA, colour, 1.15, text_align=ft.TextAlign.CENTER, semantics_label=name or None
        )
        if icon is None:
            return face
        row: list[ft.Control] = [self.icon(icon, colour, 30), face]
        return ft.Row(row, alignment=ft.MainAxisAlignment.CENTER, spacing=12, run_spacing=2, wrap=True)
