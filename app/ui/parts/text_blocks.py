"""Words, rules and boxes: the plainest pieces, bound to one palette and one width."""
from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import flet as ft

from app.ui.parts import theme as t

Size = float


class Words:
    """Pieces of print. A screen names words and sizes; the palette sees to the rest.

    Args:
        palette: the inks.
        width: of the window, px.
        scale: how much larger than usual the person reads, 1–2; see `text_scale.probe`.
        height: of the window, px.
        english: puts every sentence into the reader's own English; None: as it was written.
    """

    def __init__(self, palette: t.Palette, width: Size = 412, scale: float = 1.0, height: Size = 915,
                 english: Callable[[str], str] | None = None) -> None:
        self.p = palette
        self._english = english
        self.width = width
        self.scale = scale
        self.height = height

    @property
    def is_wide(self) -> bool:
        """Whether the navigation stands at the side."""
        return self.width >= t.WIDE

    @property
    def margin(self) -> Size:
        """Room at the sides of the page, px."""
        return t.MARGIN_WIDE if self.is_wide else t.MARGIN

    def text(
        self, words: str, size: Size = t.T_BODY, weight: ft.FontWeight = t.REGULAR, colour: str = "",
        height: float = 1.25, **more: Any,
    ) -> ft.Text:
        """Words in any size and weight; `more` goes to ft.Text."""
        if self._english is not None and (name := more.get("semantics_label")):
            more["semantics_label"] = self.said(name)
        return ft.Text(self.said(words), style=t.ink_style(self.p, size, weight, colour, height), **more)

    def said(self, words: str) -> str:
        """A sentence, or the name of something drawn, in the reader's own English."""
        return words if self._english is None or not words else self._english(words)

    def title(self, words: str, size: Size = t.T_TITLE) -> ft.Control:
        """The name of the page, heading 1."""
        return ft.Semantics(content=self.text(words, size, t.EXTRA, height=1.08), heading_level=1)

    def head(self, words: str, aside: str = "", icon: ft.IconData | None = None, size: Size = t.T_HEAD) -> ft.Control:
        """A section head under its rule, heading 2; `aside` stands at the right in small."""
        heading = ft.Semantics(content=self.text(words, size, t.EXTRA, height=1.15), heading_level=2, expand=True)
        row: list[ft.Control] = [self.icon(icon)] if icon else []
        row.append(heading)
        end: list[ft.Control] = [self.text(aside, t.T_CAPTION, t.SEMI, self.p.soft)] if aside else []
        under = end if self.scale > t.LARGE_PRINT else []
        row += [] if under else end
        return ft.Column([self.rule(t.RULE), ft.Row(row, spacing=10), *under], spacing=6)

    def subhead(self, words: str, size: Size = t.T_LEAD, level: int = 3) -> ft.Control:
        """A head within a section, without a rule; heading 2 where it stands in none, right under the page's title."""
        return ft.Semantics(content=self.text(words, size, t.EXTRA, height=1.2), heading_level=level)

    def lead(self, words: str) -> ft.Text:
        """The one sentence that matters on a page."""
        return self.text(words, t.T_LEAD, t.SEMI)

    def body(self, words: str) -> ft.Text:
        """Ordinary words."""
        return self.text(words)

    def strong(self, words: str) -> ft.Text:
        """Ordinary words, heavy."""
        return self.text(words, t.T_BODY, t.EXTRA)

    def soft(self, words: str) -> ft.Text:
        """Words of second rank."""
        return self.text(words, colour=self.p.soft)

    def caption(self, words: str) -> ft.Text:
        """Small words beside a drawing, such as its legend; never an instruction."""
        return self.text(words, t.T_LEGEND, t.SEMI, self.p.soft)

    def rule(self, width: Size = t.RULE, colour: str = "") -> ft.Control:
        """A rule across."""
        return ft.Container(height=width, bgcolor=colour or self.p.ink)

    def hairline(self) -> ft.Control:
        """The thin rule between rows."""
        return self.rule(t.HAIR, self.p.line)

    def icon(self, icon: ft.IconData, colour: str = "", size: Size = 28) -> ft.Icon:
        """A symbol; silent, so a word must stand beside it."""
        return ft.Icon(icon, size=size * min(self.scale, 1.6), color=colour or self.p.ink)

    def border(self, width: Size = t.RULE, colour: str = "") -> ft.Border:
        """A square edge."""
        return ft.Border.all(width, colour or self.p.ink)

    def box(self, content: ft.Control, **more: Any) -> ft.Container:
        """A ruled box."""
        return ft.Container(content, border=self.border(), bgcolor=self.p.sheet, padding=t.GAP, **more)

    def harm_box(self, content: ft.Control) -> ft.Container:
        """A box with the double rule: for harm, and nothing else."""
        inner = ft.Container(content, border=self.border(2), padding=t.GAP, margin=4)
        return ft.Container(inner, border=self.border(4), bgcolor=self.p.sheet)

    def aside(self, content: ft.Control) -> ft.Container:
        """Something hung on a thick rule at its left: a question that follows from the one above."""
        edge = ft.Border(left=ft.BorderSide(t.RULE_THICK, self.p.ink))
        return ft.Container(content, border=edge, padding=ft.Padding(left=12, right=0, top=2, bottom=2))

    def tag(self, words: str) -> ft.Container:
        """A word in reverse: "Left"."""
        face = self.text(words, t.T_LEAD, t.EXTRA, self.p.paper, 1.0)
        return ft.Container(face, bgcolor=self.p.ink, padding=ft.Padding(left=12, right=12, top=8, bottom=8))

    def rows(self, rows: Sequence[ft.Control], spacing: Size = 10) -> ft.Column:
        """Rows with hairlines between them."""
        out: list[ft.Control] = []
        for row in rows:
            out += [self.hairline(), row] if out else [row]
        return ft.Column(out, spacing=spacing)

    def stack(self, pieces: Sequence[ft.Control], spacing: Size = t.GAP_S) -> ft.Column:
        """Pieces under one another, as wide as the room."""
        return ft.Column(list(pieces), spacing=spacing, horizontal_alignment=ft.CrossAxisAlignment.STRETCH)

    def side_by_side(self, pieces: Sequence[ft.Control], spacing: Size = t.GAP_S) -> ft.Row:
        """Pieces beside one another that go on to the next line where there is no room."""
        return ft.Row(list(pieces), spacing=spacing, run_spacing=spacing, wrap=True)
