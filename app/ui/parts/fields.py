"""Fields for words, and the notices, rows and empty states around them."""
from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import flet as ft

from app.ui.parts import theme as t
from app.ui.parts.buttons import Press, room
from app.ui.parts.choices import Choices


class Fields(Choices):
    """Text fields, notices and rows."""

    def field(
        self, label: str, value: str = "", on_change: Callable[..., Any] | None = None, *, hint: str = "",
        error: str = "", lines: int = 1, **more: Any,
    ) -> ft.TextField:
        """A labelled field. Found by `get_by_label(label)`. `on_change` gets the Flet event (`e.control.value`)."""
        return ft.TextField(
            label=self.said(label), value=value, on_change=on_change, hint_text=self.said(hint) or None,
            error=self.said(error) or None,
            multiline=lines > 1, min_lines=lines, max_lines=max(lines, 8) if lines > 1 else 1,
            text_style=t.ink_style(self.p, t.T_LEAD, t.SEMI), label_style=t.ink_style(self.p, t.T_LEAD, t.SEMI),
            hint_style=t.ink_style(self.p, t.T_BODY, colour=self.p.soft),
            error_style=t.ink_style(self.p, t.T_BODY, t.EXTRA), error_max_lines=4,
            filled=True, bgcolor=self.p.sheet, border=self._field_edges(), cursor_color=self.p.ink,
            content_padding=ft.Padding(left=14, right=14, top=18, bottom=14), **more,
        )

    def _field_edges(self) -> dict[ft.ControlState, ft.InputBorder]:
        def edge(width: float) -> ft.InputBorder:
            return ft.OutlineInputBorder(side=ft.BorderSide(width, self.p.ink), border_radius=0)

        state = ft.ControlState
        return {state.DEFAULT: edge(t.RULE), state.FOCUSED: edge(t.RULE_THICK), state.ERROR: edge(t.RULE_THICK),
                state.DISABLED: edge(t.HAIR)}

    def note(self, words: str, icon: ft.IconData = ft.Icons.INFO_SHARP) -> ft.Control:
        """A quiet remark with a symbol."""
        row: list[ft.Control] = [self.icon(icon, self.p.soft, 24), self.text(words, colour=self.p.soft, expand=True)]
        return ft.Row(row, spacing=10, vertical_alignment=ft.CrossAxisAlignment.START)

    def notice(
        self, happened: str, kept: str = "", next_step: str = "", acts: Sequence[ft.Control] = (),
        icon: ft.IconData = ft.Icons.ERROR_SHARP,
    ) -> ft.Control:
        """A banner: what happened, what was kept, what to do next. Announced when it appears."""
        says: list[ft.Control] = [self.text(happened, t.T_BODY, t.EXTRA)]
        says += [self.text(line) for line in (kept, next_step) if line]
        row: list[ft.Control] = [self.icon(icon), ft.Column(says, spacing=4, tight=True, expand=True)]
        told = ft.Semantics(
            content=ft.Row(row, spacing=12, vertical_alignment=ft.CrossAxisAlignment.START), live_region=True
        )
        pieces = [told, self.side_by_side(list(acts))] if acts else [told]
        edge = ft.Border(left=ft.BorderSide(12, self.p.ink), **dict.fromkeys(
            ("top", "right", "bottom"), ft.BorderSide(t.RULE, self.p.ink)))
        return ft.Container(self.stack(pieces, 12), border=edge, bgcolor=self.p.sheet, padding=t.GAP)

    def empty(self, head: str, words: str, acts: Sequence[ft.Control] = ()) -> ft.Control:
        """What stands where there is nothing yet: what would be here, and how it comes."""
        dash = ft.Border.all(t.HAIR, self.p.soft)
        pieces: list[ft.Control] = [self.text(head, t.T_LEAD, t.EXTRA), self.text(words, colour=self.p.soft)]
        pieces += [self.side_by_side(list(acts))] if acts else []
        return ft.Container(self.stack(pieces, t.GAP_S), border=dash, padding=t.GAP_L)

    def reason(self, what: str, why: str) -> ft.Control:
        """What was changed, and why."""
        return self.stack([self.hairline(), self.strong(what), self.soft(why)], 2)

    def fact(self, name: str, value: str) -> ft.Control:
        """A name at the left, its value at the right; under one another in large print."""
        if self.scale > t.LARGE_PRINT:
            return self.stack([self.soft(name), self.strong(value)], 0)
        row: list[ft.Control] = [self.text(name, colour=self.p.soft, expand=True), self.strong(value)]
        return ft.Row(row, spacing=12)

    def row(
        self, head: str, says: str = "", on_click: Press = None, *, trailing: str = "", name: str = "",
        icon: ft.IconData = ft.Icons.CHEVRON_RIGHT_SHARP,
    ) -> ft.Control:
        """A row of a list; a button where `on_click` is given, named by `name` or its words."""
        lines: list[ft.Control] = [self.text(head, t.T_LEAD, t.EXTRA, height=1.15, semantics_label=name or None)]
        lines += [self.text(says, height=1.2)] if says else []
        end = [self.text(trailing, t.T_BODY, t.SEMI, self.p.soft)] if trailing else []
        lines += end if self.scale > t.LARGE_PRINT else []
        cells: list[ft.Control] = [ft.Column(lines, spacing=2, tight=True, expand=True)]
        cells += [] if self.scale > t.LARGE_PRINT else end
        if on_click is None:
            return ft.Container(ft.Row(cells, spacing=12), padding=ft.Padding.symmetric(vertical=8))
        cells.append(self.icon(icon))
        return self.press(ft.Row(cells, spacing=12), on_click, "", None, room(t.TARGET, t.T_LEAD * 1.15, 4), None)
