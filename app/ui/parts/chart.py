"""Plain charts: one scale, words at the lines' ends instead of a legend, and a sentence that says the same aloud."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

import flet as ft
import flet.canvas as cv

from app.ui.parts import chart_geometry as geo
from app.ui.parts import strokes
from app.ui.parts import theme as t
from app.ui.parts.fields import Fields
from app.ui.parts.text_blocks import Words
from app.words import parts as words_of


class LineStroke(Enum):
    """How a line is printed: told apart by its stroke as well as its ink."""

    PLAIN = "plain"
    WORK = "work"
    DASHED = "dashed"


@dataclass(frozen=True)
class Series:
    """One line: its name, and values in equal steps of time; None where nothing was said."""

    name: str
    values: tuple[float | None, ...]
    line: LineStroke = LineStroke.PLAIN


@dataclass(frozen=True)
class Bar:
    """One bar, with the word under it and, where there is one, what it was meant to be."""

    name: str
    value: float
    target: float | None = None


def line_chart(
    c: Fields, series: Sequence[Series], width: float, *, since: str, until: str, top: float = 10,
    guide: float | None = None, height: float = 150, empty: str = "",
) -> ft.Control:
    """Lines over time on one scale from 0 to `top`.

    Args:
        since: word under the left end, "6 weeks ago".
        until: word under the right end, "today".
        guide: a dotted line, such as the level from which a session is eased.
        empty: what stands there when no value was given; empty takes a plain sentence.
    """
    told = [s for s in series if geo.last_known(s.values) is not None]
    if not told:
        return c.soft(empty or words_of.NOTHING_TO_DRAW)
    letter, height = t.T_CAPTION * c.scale, height * min(c.scale, 1.6)
    names = [words_of.line_end(s.name, geo.last_known(s.values) or 0) for s in told]
    beside = width >= 360 * c.scale
    right = max(len(n) for n in names) * letter * t.LETTER if beside else 0.0
    plot = geo.Plot(letter * 1.6 + 4, width - right - 14, letter * 0.7, height - letter * 1.4 - 6, top)
    shapes = _axes(c.p, plot, guide) + [shape for s in told for shape in _line(c.p, s, plot)]
    words = _scale_words(c, plot, (since, until))
    words += _end_words(c, told, names, plot, letter) if beside else []
    drawing = _seen(c, shapes, words, width, height, words_of.chart_told([(s.name, s.values) for s in told], until))
    under = [] if beside else [c.caption(words_of.joined(names))]
    return c.stack([*under, drawing], 4)


def week_bars(
    c: Fields, bars: Sequence[Bar], width: float, *, unit: str, height: float = 150, top: float = 0, empty: str = ""
) -> ft.Control:
    """Bars, each with its number above and its word below; a notched line across where a target is known.

    Args:
        unit: "minutes": for the sentence said aloud.
        top: value at the upper edge; 0 takes the highest.
    """
    if not any(b.value or b.target for b in bars):
        return c.soft(empty or words_of.NOTHING_TO_DRAW)
    letter, height = t.T_CAPTION * c.scale, height * min(c.scale, 1.6)
    highest = max(max(b.value, b.target or 0) for b in bars)
    plot = geo.Plot(0, width, letter * 1.4, height - letter * 1.4 - 6, top or highest)
    places = geo.bars(len(bars), plot)
    shapes = _bar_shapes(c.p, bars, places, plot)
    words = _bar_words(c, bars, places, plot, letter)
    return _seen(c, shapes, words, width, height, words_of.bars_told([(b.name, b.value) for b in bars], unit))


def spark_line(c: Words, values: Sequence[float | None], *, top: float = 10, width: float = 120, height: float = 48,
               spoken: str = "") -> ft.Control:
    """A line without words for a row of a list; its number must stand beside it."""
    plot = geo.Plot(3, width - 8, 6, height - 4, top)
    shapes = strokes.lines([((0, plot.foot), (width, plot.foot))], strokes.stroke(c.p.ink, t.HAIR))
    shapes += _line(c.p, Series("", tuple(values)), plot)
    return _seen(c, shapes, [], width, height, spoken)


def _seen(c: Words, shapes: list[cv.Shape], words: list[ft.Control], width: float, height: float, spoken: str
          ) -> ft.Control:
    stack = ft.Stack([cv.Canvas(shapes, width=width, height=height), *words], width=width, height=height)
    return ft.Semantics(content=stack, label=c.said(spoken), image=True, exclude_semantics=True)


def _axes(p: t.Palette, plot: geo.Plot, guide: float | None) -> list[cv.Shape]:
    level = [plot.y(plot.top / 2), plot.y(plot.top)]
    shapes = strokes.lines((((plot.left, y), (plot.right, y)) for y in level), strokes.stroke(p.line, t.HAIR))
    shapes += strokes.lines([((plot.left, plot.foot), (plot.right, plot.foot))], strokes.stroke(p.ink, t.RULE))
    if guide is not None:
        y = plot.y(guide)
        shapes += strokes.lines([((plot.left, y), (plot.right, y))], strokes.stroke(p.ink, 1.5, (2, 4)))
    return shapes


def _line(p: t.Palette, series: Series, plot: geo.Plot) -> list[cv.Shape]:
    colour = _ink_of(p, series)
    paint = strokes.stroke(colour, 3, (8, 5) if series.line is LineStroke.DASHED else None)
    runs = geo.runs(series.values, plot)
    shapes = [shape for run in runs for shape in strokes.polyline(run, paint)]
    alone = [run[0] for run in runs if len(run) == 1]
    marks = [(x - 2.5, y - 2.5, x + 2.5, y + 2.5) for x, y in alone]
    x, y = runs[-1][-1] if runs else (0.0, 0.0)
    ends = [(x - 5, y - 5, x + 5, y + 5)] if runs else []
    return shapes + strokes.boxes(marks + ends, strokes.fill(colour))


def _ink_of(p: t.Palette, series: Series) -> str:
    return {LineStroke.PLAIN: p.ink, LineStroke.WORK: p.work, LineStroke.DASHED: p.rest}[series.line]


def _scale_words(c: Words, plot: geo.Plot, ends: tuple[str, str]) -> list[ft.Control]:
    half = t.T_CAPTION * c.scale * 0.6
    words: list[ft.Control] = [
        ft.Container(c.text(words_of.number(v), t.T_CAPTION, t.SEMI, height=1.15), left=0, top=plot.y(v) - half)
        for v in (0, plot.top / 2, plot.top)
    ]
    since, until = (c.text(w, t.T_CAPTION, t.SEMI, c.p.soft, 1.15) for w in ends)
    row = ft.Row([since, until], alignment=ft.MainAxisAlignment.SPACE_BETWEEN)
    return [*words, ft.Container(row, left=plot.left, width=plot.right - plot.left, top=plot.foot + 5)]


def _end_words(
    c: Words, series: Sequence[Series], names: Sequence[str], plot: geo.Plot, letter: float
) -> list[ft.Control]:
    wanted = [plot.y(geo.last_known(s.values) or 0) - letter * 0.6 for s in series]
    heights = geo.spread(wanted, letter * 1.2, 0, plot.foot - letter)
    return [
        ft.Container(c.text(name, t.T_CAPTION, t.EXTRA, _ink_of(c.p, one), 1.15), left=plot.right + 12, top=y)
        for one, name, y in zip(series, names, heights, strict=True)
    ]


def _bar_shapes(
    p: t.Palette, bars: Sequence[Bar], places: Sequence[tuple[float, float]], plot: geo.Plot
) -> list[cv.Shape]:
    solid = [(x0, plot.y(b.value), x1, plot.foot) for b, (x0, x1) in zip(bars, places, strict=True)]
    meant = [
        ((x0 - 4, plot.y(b.target)), (x1 + 4, plot.y(b.target)))
        for b, (x0, x1) in zip(bars, places, strict=True) if b.target is not None
    ]
    return [
        *strokes.boxes(solid, strokes.fill(p.work)), *strokes.lines(meant, strokes.stroke(p.paper, 7)),
        *strokes.lines(meant, strokes.stroke(p.ink, 3)),
        *strokes.lines([((plot.left, plot.foot), (plot.right, plot.foot))], strokes.stroke(p.ink, t.RULE)),
    ]


def _bar_words(
    c: Words, bars: Sequence[Bar], places: Sequence[tuple[float, float]], plot: geo.Plot, letter: float
) -> list[ft.Control]:
    """Numbers above and names below.

    Where they would touch, every second, third … one is named, the last always, and the numbers stand in one row.
    """
    each = (plot.right - plot.left) / len(bars)
    longest = max(max(len(b.name), len(words_of.number(b.value))) for b in bars)
    every = max(1, -int(-(longest * letter * t.LETTER + 4) // each))
    words: list[ft.Control] = []
    for i, (bar, (x0, x1)) in enumerate(zip(bars, places, strict=True)):
        if (len(bars) - 1 - i) % every:
            continue
        room = each * every
        middle = (x0 + x1 - room) / 2
        left = min(max(middle, 0), plot.right - room)
        align = ft.TextAlign.RIGHT if left < middle else ft.TextAlign.LEFT if left > middle else ft.TextAlign.CENTER
        over = plot.y(bar.value) - letter * 1.35 if every == 1 else 0
        for word, y in ((words_of.number(bar.value), over), (bar.name, plot.foot + 5)):
            text = c.text(word, t.T_CAPTION, t.SEMI, height=1.15, text_align=align, width=room, no_wrap=True)
            words.append(ft.Container(text, left=left, top=y))
    return words
