"""The count: readable from three metres, work and rest told apart by shape and word as well as by colour."""
from __future__ import annotations

from collections.abc import Sequence
from enum import Enum

import flet as ft
import flet.canvas as cv

from app.ui.parts import strokes
from app.ui.parts import theme as t
from app.ui.parts.text_blocks import Words
from app.words import parts as words_of

BAND = 14
FIGURE_WIDTH = 0.62
"""Width of a figure of the heaviest cut, as a share of its size."""
FIGURE_HEIGHT, FIGURE_DROP = 0.8, 0.055
"""Room for its height, and how far its middle lies below that of its line, as shares of its size."""


class Phase(Enum):
    """What is going on. Work is a solid block; rest lies open between hatched rules."""

    WORK = "work"
    REST = "rest"
    SETUP = "set-up"
    WAIT = "wait"
    """Paused, or waiting for a press."""


def count_panel(
    c: Words, phase: Phase, word: str, count: str, width: float, *, aside: str = "", foot: str = "",
    spoken: str = "", tallest: float = t.T_COUNT,
) -> ft.Control:
    """The panel.

    Args:
        word: "Work", "Rest", in print in capitals.
        count: the figures, "28" or "1:20"; they ignore the text scale, being as tall as the width allows.
        aside: "round 2 of 2".
        foot: "Then: wall push".
        spoken: announced when it changes, so it must not hold the seconds; empty takes word, aside and foot.
        tallest: of the figures, px.
    """
    ground, colour = inks(c.p, phase)
    size = figure_size(count, width - 2 * t.MARGIN, tallest)
    pieces = [_header(c, word, aside, colour), figures(count, width, size, colour)]
    pieces += [_padded(c.text(foot, t.T_LEAD, t.SEMI, colour, 1.15))] if foot else []
    body = ft.Column([edge(c.p, phase, width), *pieces, edge(c.p, phase, width)], spacing=0, tight=True,
                     horizontal_alignment=ft.CrossAxisAlignment.STRETCH)
    seen = ft.Semantics(content=ft.Container(body, bgcolor=ground, width=width), exclude_semantics=True,
                        label=words_of.left(count))
    said = ft.Semantics(content=ft.Container(width=2, height=2), live_region=True, container=True,
                        label=c.said(spoken or words_of.joined([w for w in (word, aside, foot) if w])))
    return ft.Stack([seen, said])


def figure_size(count: str, width: float, tallest: float) -> float:
    """Size of the figures, px, so that they fill the width but grow no taller than `tallest`."""
    return min(tallest, width / (max(2, len(count)) * FIGURE_WIDTH))


def inks(p: t.Palette, phase: Phase) -> tuple[str, str]:
    return {
        Phase.WORK: (p.panel, p.on_work), Phase.REST: (p.tint, p.rest), Phase.SETUP: (p.sheet, p.ink),
        Phase.WAIT: (p.paper, p.ink),
    }[phase]


def edge(p: t.Palette, phase: Phase, width: float) -> ft.Control:
    """What stands above and below: nothing, hatching, a rule, a broken rule."""
    box = [(0.0, 0.0, width, float(BAND))]
    middle = BAND / 2
    shapes: Sequence[cv.Shape] = {
        Phase.WORK: [],
        Phase.REST: strokes.hatch(box, p.rest, 4, 12),
        Phase.SETUP: strokes.boxes([(0, middle - 3, width, middle + 3)], strokes.fill(p.ink)),
        Phase.WAIT: strokes.lines([((0, middle), (width, middle))], strokes.stroke(p.ink, 6, (18, 12))),
    }[phase]
    return cv.Canvas(list(shapes), width=width, height=BAND)


def _header(c: Words, word: str, aside: str, colour: str) -> ft.Control:
    pieces: list[ft.Control] = [c.text(word.upper(), t.T_BIG, t.EXTRA, colour, 1.0)]
    pieces += [c.text(aside, t.T_LEAD, t.SEMI, colour, 1.0)] if aside else []
    row = ft.Row(pieces, alignment=ft.MainAxisAlignment.SPACE_BETWEEN, wrap=True, spacing=12, run_spacing=0)
    return _padded(row)


def _padded(content: ft.Control) -> ft.Control:
    return ft.Container(content, padding=ft.Padding.symmetric(horizontal=t.MARGIN, vertical=2))


def figures(count: str, width: float, size: float, colour: str) -> ft.Control:
    height = size * FIGURE_HEIGHT
    style = ft.TextStyle(size=size, weight=t.EXTRA, color=colour, font_family=t.FAMILY, height=1.0, letter_spacing=0)
    text = cv.Text(width / 2, height / 2 + size * FIGURE_DROP, count, style=style, alignment=ft.Alignment.CENTER)
    return cv.Canvas([text], width=width, height=height)
