"""The page: a scrolling body, a fixed foot with the main act, and the navigation."""
from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import flet as ft

from app.ui.parts import theme as t
from app.ui.parts.buttons import bind, room
from app.ui.parts.fields import Fields

MAIN, NAVIGATION = "main", "navigation"
"""Names of landmarks."""


@dataclass(frozen=True)
class Destination:
    """One place in the navigation: `key` is what `on_go` gets, `words` its name."""

    key: str
    words: str


@dataclass(frozen=True)
class Nav:
    """Where one can go, and where one is."""

    places: tuple[Destination, ...]
    chosen: str
    on_go: Callable[[str], Any]
    brand: str = ""
    """Stands above the side navigation."""


class Card(Fields):
    """Everything a screen is set from: `Card(palette, page.width, text_scale, page.height)`."""

    def room(self, nav: Nav | None = None, measure: float = t.MEASURE, *, beside: bool = False) -> float:
        """Width of the body column, px: what a strip or chart on the page may take.

        With `beside`, of the first of two columns, where the page has room for two.
        """
        whole = self._across(nav)
        least = t.LEAST_BESIDE + t.BETWEEN if beside and self.has_two_columns(nav) else 0
        return max(200, min(measure, whole - least))

    def room_beside(self, nav: Nav | None = None) -> float:
        """Width of the second column, px; of the only one, where there is no room for two."""
        if not self.has_two_columns(nav):
            return self.room(nav)
        return min(t.MOST_BESIDE, self._across(nav) - t.BETWEEN - self.room(nav, beside=True))

    def has_two_columns(self, nav: Nav | None = None) -> bool:
        """Whether words in two columns are both readable."""
        least = t.LEAST_MAIN + t.BETWEEN + t.LEAST_BESIDE
        return self.is_wide and self.scale <= t.LARGE_PRINT and self._across(nav) >= least * max(1.0, self.scale)

    def page(
        self, body: Sequence[ft.Control], foot: Sequence[ft.Control] = (), nav: Nav | None = None, *,
        measure: float = t.MEASURE, spacing: float = t.GAP, beside: Sequence[ft.Control] = (),
    ) -> ft.Control:
        """A whole page. The foot stays in view unless the window is low; the navigation is below or at the side.

        `beside` stands in a second column of a wide page, and after the rest on any other.
        """
        column = self.room(nav, measure, beside=bool(beside))
        if beside:
            first, second = self.stack(body, spacing), self.stack(beside, spacing)
            body = [first, second]
            if self.has_two_columns(nav):
                across = column + t.BETWEEN + self.room_beside(nav)
                first.width, second.width = column, self.room_beside(nav)
                body = [ft.Row([first, second], spacing=t.BETWEEN, vertical_alignment=ft.CrossAxisAlignment.START)]
                return self._whole(body, foot, nav, across, column, spacing)
        return self._whole(body, foot, nav, column, column, spacing)

    def _whole(self, body: Sequence[ft.Control], foot: Sequence[ft.Control], nav: Nav | None, across: float,
               column: float, spacing: float) -> ft.Control:
        """Body as wide as `across`, the foot as its first column."""
        under = self._foot(foot, column)
        bar = [self.nav_bar(nav)] if nav and not self.is_wide else []
        pieces = [self.stack(body, spacing), *(under if self._is_low else [])]
        own = ft.Column([self._scroll(pieces, across), *([] if self._is_low else under)], spacing=0)
        main = self.landmark(MAIN, own)
        if nav and self.is_wide:
            return ft.Row(
                [self.side_nav(nav), main], spacing=0, expand=True, vertical_alignment=ft.CrossAxisAlignment.STRETCH
            )
        return ft.Column([main, *bar], spacing=0, expand=True)

    def landmark(self, name: str, content: ft.Control) -> ft.Control:
        """A part of the page that a screen reader can jump to; `assets/page/reach.js` gives it its role."""
        return ft.Semantics(content=content, identifier=name, expand=name == MAIN)

    def nav_bar(self, nav: Nav) -> ft.Control:
        """The bar at the bottom of a phone; two by two where one row would cut a word."""
        widest = max(len(p.words) for p in nav.places) * t.T_BODY * t.LETTER * self.scale + 8
        columns = max(1, min(len(nav.places), int(self.width // widest)))
        columns = 2 if columns in (1, 3) and len(nav.places) % 2 == 0 else columns
        rows = [nav.places[i : i + columns] for i in range(0, len(nav.places), columns)]
        lines: list[ft.Control] = [
            ft.Row([self._place(nav, p, self.width / columns) for p in row], spacing=0, intrinsic_height=True,
                   vertical_alignment=ft.CrossAxisAlignment.STRETCH)
            for row in rows
        ]
        return self.landmark(NAVIGATION, ft.Column([self.rule(), *lines], spacing=0, tight=True))

    def side_nav(self, nav: Nav) -> ft.Control:
        """The column at the left of a desk."""
        brand = [self.text(nav.brand, t.T_HEAD, t.EXTRA), self.rule(t.RULE_THICK)] if nav.brand else []
        places = ft.Column(
            [*brand, *(self._side_place(nav, p) for p in nav.places)], spacing=8, scroll=ft.ScrollMode.AUTO
        )
        edge = ft.Border(right=ft.BorderSide(t.RULE, self.p.ink))
        side = ft.Container(places, width=self._side, border=edge, padding=20, alignment=ft.Alignment.TOP_LEFT)
        return self.landmark(NAVIGATION, side)

    def _across(self, nav: Nav | None) -> float:
        return self.width - (self._side if nav and self.is_wide else 0) - 2 * self.margin

    @property
    def _side(self) -> float:
        return t.SIDE * min(self.scale, 1.5)

    @property
    def _is_low(self) -> bool:
        return self.height < t.LOW

    def _scroll(self, pieces: Sequence[ft.Control], column: float) -> ft.Control:
        inner = ft.Container(
            self.stack(pieces, t.GAP), width=column + 2 * self.margin,
            padding=ft.Padding.symmetric(horizontal=self.margin, vertical=t.GAP),
        )
        return ft.Column([inner], scroll=ft.ScrollMode.AUTO, expand=True)

    def _foot(self, foot: Sequence[ft.Control], column: float) -> list[ft.Control]:
        if not foot:
            return []
        side = 0 if self._is_low else self.margin
        padding = ft.Padding(left=side, right=side, top=10, bottom=12)
        # each a node of its own: a lone button would be lost in the landmark and lend it its name
        acts = [ft.Semantics(content=one, container=True) for one in foot]
        inner = ft.Container(self.stack(acts), width=column + 2 * side, padding=padding)
        return [inner] if self._is_low else [self.hairline(), inner]

    def _place(self, nav: Nav, place: Destination, width: float) -> ft.Control:
        on = place.key == nav.chosen
        size = min(t.T_BODY, (width - 8) / (len(place.words) * t.LETTER * self.scale))
        word = self.text(place.words, size, t.EXTRA if on else t.SEMI, height=1.1, text_align=ft.TextAlign.CENTER)
        edge = ft.Border(top=ft.BorderSide(t.CHOSEN_EDGE, self.p.ink if on else self.p.paper))
        padding = room(64 - t.CHOSEN_EDGE, t.T_BODY * 1.1, 2)
        box = self.press(word, bind(nav.on_go, place.key), self.p.tint if on else self.p.paper, edge, padding,
                         ft.Alignment.CENTER)
        return ft.MergeSemantics(ft.Semantics(content=box, selected=on), expand=True)

    def _side_place(self, nav: Nav, place: Destination) -> ft.Control:
        on = place.key == nav.chosen
        size = min(t.T_LEAD, (self._side - 72) / (len(place.words) * t.LETTER * self.scale))
        word = self.text(place.words, size, t.EXTRA if on else t.SEMI, height=1.15)
        ground, left = self.p.tint if on else self.p.paper, ft.Alignment.CENTER_LEFT
        edge = ft.Border(left=ft.BorderSide(t.CHOSEN_EDGE, self.p.ink if on else self.p.paper))
        box = self.press(word, bind(nav.on_go, place.key), ground, edge, room(t.TARGET, t.T_LEAD * 1.15, 12), left)
        return ft.MergeSemantics(ft.Semantics(content=box, selected=on))
