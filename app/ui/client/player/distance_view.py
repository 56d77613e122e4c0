"""The session from three metres: figure, numerals and name alone, as large as the page allows."""
from __future__ import annotations

import flet as ft

from app.ui.client.player.exercise_figure import main_figure
from app.ui.client.player.live_session import Live, Panel, SessionDrawnAs
from app.ui.client.player.step_words import phase_now, word_now
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.parts.count_panel import FIGURE_HEIGHT, FIGURE_WIDTH, edge, figures, inks
from app.ui.parts.letter_widths import in_two_lines
from app.words.client import pauses
from app.words.client import player as says

NAME_SHARE = 0.223
"""Size of the name where it is short, as a share of the lesser side of the page."""
NAME_LINE = 1.03
SIDE = 176
"""Width of the column of buttons, px."""
BAND = 14
LEAST = 90
"""Smaller than this a figure tells nothing from a distance, px."""


def distance_page(c: Card, live: Live) -> ft.Control:
    """One press leads here, one leads back; a tap on the figures pauses."""
    ground, colour = inks(c.p, phase_now(live))
    wide = c.width > c.height
    words, size = _name(c, live)
    name = ft.Semantics(content=ft.Text("\n".join(words), no_wrap=True, style=t.ink_style(
        c.p, size / c.scale, t.SEMI, colour, NAME_LINE)), heading_level=1)
    top = _beside(c, live, size * NAME_LINE * len(words)) if wide else _above(c, live, size * NAME_LINE * len(words))
    pieces = [edge(c.p, phase_now(live), c.width), top, ft.Container(expand=True),
              ft.Container(name, padding=ft.Padding.symmetric(horizontal=16))]
    column = ft.Column(pieces, spacing=0, expand=True)
    return ft.Container(column, bgcolor=ground, expand=True, padding=ft.Padding(left=0, right=0, top=0, bottom=6))


def _name(c: Card, live: Live) -> tuple[tuple[str, ...], float]:
    """The name in one or two lines, and its size, px."""
    found = live.now.library.get(live.now.state.step.exercise or "")
    said = found.name if found else word_now(live)
    lines, ems = in_two_lines(c.said(said))
    return lines, min(NAME_SHARE * min(c.width, c.height), (c.width - 32) / ems)


def _beside(c: Card, live: Live, below: float) -> ft.Control:
    """Figure, numerals and buttons in a row, on a page that lies."""
    height = c.height - below - BAND - 6
    count = says.count_words(live.now.state.left_ms)
    size = min(height / FIGURE_HEIGHT, (c.width - SIDE - 24) / (max(2, len(count)) * FIGURE_WIDTH))
    taken = max(2, len(count)) * FIGURE_WIDTH * size
    figure = _figure(live, max(0.0, c.width - taken - SIDE - 24), height)
    column = ft.Container(_buttons(c, live), width=SIDE, padding=ft.Padding(left=0, right=10, top=0, bottom=0))
    row = [*_boxed(c, figure), _count(c, live, count, taken if figure else c.width - SIDE - 24, size), column]
    return ft.Row(row, spacing=8, vertical_alignment=ft.CrossAxisAlignment.CENTER,
                  alignment=ft.MainAxisAlignment.SPACE_BETWEEN)


def _above(c: Card, live: Live, below: float) -> ft.Control:
    """Buttons, numerals and figure under one another, on a page that stands."""
    count = says.count_words(live.now.state.left_ms)
    size = min((c.width - 16) / (max(2, len(count)) * FIGURE_WIDTH), c.height * 0.5)
    left = c.height - below - size * FIGURE_HEIGHT - 3 * t.TARGET - 2 * BAND - 20
    figure = _boxed(c, _figure(live, c.width - 32, left)) if left > 80 else []
    return ft.Column([_buttons(c, live), _count(c, live, count, c.width, size), *figure], spacing=4,
                     horizontal_alignment=ft.CrossAxisAlignment.CENTER)


def _figure(live: Live, width: float, height: float) -> list[ft.Control]:
    return main_figure(live, width, height) if min(width, height) >= LEAST else []


def _boxed(c: Card, figure: list[ft.Control]) -> list[ft.Control]:
    """Figures are drawn for paper."""
    return [ft.Container(one, bgcolor=c.p.paper) for one in figure]


def _count(c: Card, live: Live, count: str, width: float, size: float) -> ft.Control:
    _, colour = inks(c.p, phase_now(live))
    drawn = ft.Semantics(content=figures(count, width, size, colour), exclude_semantics=True, label=f"{count} left")
    return ft.GestureDetector(drawn, on_tap=live.press(live.toggle), exclude_from_semantics=True)


def _buttons(c: Card, live: Live) -> ft.Control:
    """The word, the side, and the two presses that must never be looked for."""
    _, colour = inks(c.p, phase_now(live))
    size = t.T_BODY / c.scale * min(1.1, c.scale)
    back = c.button(pauses.CARD, live.press(live.show, SessionDrawnAs.CARD), size=size)
    stop = c.harm_button(says.STOP_SIGNS, live.press(live.open, Panel.SIGNS), size=size)
    said = [word_now(live), *([side] if (side := says.side_word(live.now.state.step)) else [])]
    if c.width > c.height:
        return c.stack([*[_word(c, one, t.T_LEAD if len(said) > 1 else t.T_BIG, colour) for one in said], back, stop])
    back.expand = stop.expand = True
    words = ft.Row([_word(c, one, t.T_BIG, colour) for one in said], alignment=ft.MainAxisAlignment.SPACE_BETWEEN)
    word_row = ft.Container(words, padding=ft.Padding.symmetric(horizontal=16))
    row = ft.Container(ft.Row([back, stop], spacing=8), padding=ft.Padding.symmetric(horizontal=8))
    return ft.Column([row, word_row], spacing=6, horizontal_alignment=ft.CrossAxisAlignment.STRETCH)


def _word(c: Card, word: str, size: float, colour: str) -> ft.Control:
    # a node of its own, or it would be read as the name of the whole page
    style = t.ink_style(c.p, size / c.scale, t.EXTRA, colour, 1.0)
    return ft.Semantics(content=ft.Text(c.said(word).upper(), style=style), container=True)
