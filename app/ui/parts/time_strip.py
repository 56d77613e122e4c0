"""The time strip: a session on one ruler, true to scale, for today and the review; in rows where it has no room.

Solid block: work. Low hatched block: rest. Bare ruler: set-up or changing. Notch: the position changes; a bracket
names the stretch. L, R: the side. Colour: planned; ink: done.
"""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import flet as ft
import flet.canvas as cv

from app.domain.model.plan import Timeline
from app.domain.model.record import DoneStep
from app.ui.parts import strip_geometry as geo
from app.ui.parts import strokes
from app.ui.parts import theme as t
from app.ui.parts.strip_lines import is_cramped
from app.ui.parts.strip_rows import plan_rows, review_rows
from app.ui.parts.text_blocks import Words
from app.words import parts as words_of

LANE, LANE_REVIEW = 84, 30
"""Heights of a lane on the day's page and in the review, px."""
BETWEEN = 5


@dataclass(frozen=True)
class _Layout:
    """Heights from above, px: the words' room, then the lane or lanes, the base line, the minutes."""

    top: float
    lane: float
    base: float
    height: float
    scale: geo.Scale


def plan_strip(
    c: Words, timeline: Timeline, width: float, *, lane: float = LANE, span_ms: int = 0
) -> ft.Control:
    """A session as planned; in rows where one line has not 6 px for each block. Strips that are compared share
    `span_ms`.
    """
    if is_cramped(timeline.steps, geo.scale_of(timeline, width, span_ms)):
        return plan_rows(c, timeline, width)
    at = _layout(c, timeline, width, lane, lane, span_ms)
    shapes = _lane(c.p, geo.planned_blocks(timeline.steps, at.scale), at.top, at.top + lane)
    over = _side_letters(c, timeline, at)
    return _drawn(c, timeline, at, shapes, over, words_of.strip_plan(timeline))


def review_strip(
    c: Words, timeline: Timeline, done: Sequence[DoneStep], width: float, *, lane: float = LANE_REVIEW, span_ms: int = 0
) -> ft.Control:
    """Planned above, done below in ink: low = easier, dotted = left out, double bar = stopped. In rows as above."""
    if is_cramped(timeline.steps, geo.scale_of(timeline, width, span_ms)):
        return review_rows(c, timeline, done, width)
    at = _layout(c, timeline, width, lane, 2 * lane + BETWEEN, span_ms)
    under = at.top + lane + BETWEEN
    shapes = _lane(c.p, geo.planned_blocks(timeline.steps, at.scale), at.top, at.top + lane)
    shapes += _lane(c.p, geo.done_blocks(timeline.steps, done, at.scale), under, under + lane)
    stopped = geo.stop_x(timeline.steps, done, at.scale)
    if stopped is not None:
        x = min(stopped + 3, width - 11)
        shapes += strokes.boxes([(x, under, x + 4, under + lane), (x + 7, under, x + 11, under + lane)],
                                strokes.fill(c.p.ink))
    over = _side_letters(c, timeline, at)
    return _drawn(c, timeline, at, shapes, over, words_of.strip_review(timeline, done))


def _layout(c: Words, timeline: Timeline, width: float, lane: float, lanes: float, span_ms: int) -> _Layout:
    scale = geo.scale_of(timeline, width, span_ms)
    letter = t.T_TICK * 1.2 * c.scale
    floor = bool(geo.brackets(timeline.steps, scale))
    top = 2 * letter + 7 if floor else max(letter + 2, 28)
    base = top + lanes + 1
    return _Layout(top, lane, base, base + 11 + t.T_CAPTION * 1.25 * c.scale, scale)


def _drawn(
    c: Words, timeline: Timeline, at: _Layout, shapes: list[cv.Shape], over: list[ft.Control], spoken: str,
) -> ft.Control:
    marks = geo.ticks(at.scale, t.T_CAPTION * 2.4 * c.scale)
    stretches = geo.brackets(timeline.steps, at.scale)
    drawing = [*shapes, *_ruler(c.p, marks, at), *_floor(c, stretches, at.top)]
    over = [*over, *_minutes(c, marks, at), *_floor_words(c, stretches, at)]
    canvas = cv.Canvas(drawing, width=at.scale.width, height=at.height)
    stack = ft.Stack([canvas, *over], width=at.scale.width, height=at.height)
    return ft.Semantics(content=stack, label=c.said(spoken), image=True, exclude_semantics=True)


def _lane(p: t.Palette, blocks: Sequence[geo.StripBlock], y0: float, y1: float) -> list[cv.Shape]:
    """One lane, as few shapes: solid and hatched, planned and done, and the dotted ones."""
    shapes: list[cv.Shape] = []
    for done, work, rest in ((False, p.work, p.rest), (True, p.ink, p.ink)):
        mine = [b for b in blocks if b.done is done]
        solid = [(b.x0, y0, b.x1, y1) for b in mine if b.print is geo.Print.WORK]
        low = [(b.x0, y0 + (y1 - y0) * 0.55, b.x1, y1) for b in mine if b.print is geo.Print.LOW]
        half = [(b.x0, (y0 + y1) / 2, b.x1, y1) for b in mine if b.print is geo.Print.REST]
        dotted = [(b.x0 + 1, y0 + 1, max(b.x1 - 1, b.x0 + 2), y1 - 1) for b in mine if b.print is geo.Print.DOTTED]
        shapes += strokes.boxes(solid + low, strokes.fill(work))
        shapes += strokes.hatch(half, rest)
        shapes += strokes.lines((((x0, y), (x1, y)) for x0, y, x1, _ in half), strokes.stroke(rest, 2))
        shapes += strokes.boxes(dotted, strokes.stroke(p.ink, 1.5, (2, 3)))
    return shapes


def _ruler(p: t.Palette, marks: Sequence[geo.Tick], at: _Layout) -> list[cv.Shape]:
    y, width = at.base, at.scale.width
    base = strokes.lines([((0, y), (width, y))], strokes.stroke(p.ink, 3))
    held = [(min(max(m.x, 1.5), width - 1.5), m.long) for m in marks]
    long = strokes.lines((((x, y), (x, y + 11)) for x, is_long in held if is_long), strokes.stroke(p.ink, 3))
    short = strokes.lines((((x, y), (x, y + 5)) for x, is_long in held if not is_long), strokes.stroke(p.ink, 1.5))
    return base + short + long


def _floor(c: Words, stretches: Sequence[geo.Bracket], y: float) -> list[cv.Shape]:
    """Brackets over the letters, with a notch at each end that comes down to the lane."""
    full, high = strokes.fill(c.p.ink), _bracket_y(c, y)
    notches = [x for s in stretches for x, drawn in ((s.x0, s.opened), (s.x1, s.closed)) if drawn]
    bars = [(s.x0, high, s.x1, high + 4) for s in stretches] + [(x - 1.5, high, x + 1.5, y - 8) for x in notches]
    return strokes.boxes(bars, full) + [strokes.polygon([(x - 7, y - 10), (x + 7, y - 10), (x, y + 2)], full)
                                        for x in notches]


def _bracket_y(c: Words, y: float) -> float:
    return y - t.T_TICK * 1.2 * c.scale - 6


def _side_letters(c: Words, timeline: Timeline, at: _Layout) -> list[ft.Control]:
    """Letters as real text, so that they grow with it."""
    room = t.T_TICK * t.LETTER * c.scale + 1
    line = t.T_TICK * 1.2 * c.scale
    found = geo.letters(timeline.steps, at.scale, room)
    notches = [x for s in geo.brackets(timeline.steps, at.scale) for x in (s.x0, s.x1)]
    return [
        _word(c, words_of.SIDE_LETTERS[m.side.value], m.x, at.top - line - 1, t.T_TICK, at.scale.width)
        for m in found if all(abs(x - m.x) > 7 + room / 2 for x in notches)
    ]


def _floor_words(c: Words, stretches: Sequence[geo.Bracket], at: _Layout) -> list[ft.Control]:
    y = _bracket_y(c, at.top) - t.T_TICK * 1.2 * c.scale
    room = len(words_of.FLOOR) * t.T_TICK * t.LETTER * c.scale + 6
    middles = geo.spaced([(s.x0 + s.x1) / 2 for s in stretches], room)
    return [_word(c, words_of.FLOOR, x, y, t.T_TICK, at.scale.width) for x in middles]


def _minutes(c: Words, marks: Sequence[geo.Tick], at: _Layout) -> list[ft.Control]:
    """Numbers under the long ticks; the last carries the unit, and what it would cover is left out."""
    labelled = [m for m in marks if m.long]
    end = words_of.minutes(labelled[-1].minute)
    letter = t.T_CAPTION * t.LETTER * c.scale
    clear_to = min(labelled[-1].x - len(end) * letter / 2, at.scale.width - len(end) * letter) - letter
    kept = [(m.x, str(m.minute)) for m in labelled[:-1] if m.x + len(str(m.minute)) * letter / 2 <= clear_to]
    return [
        _word(c, word, x, at.base + 10, t.T_CAPTION, at.scale.width) for x, word in [*kept, (labelled[-1].x, end)]
    ]


def _word(c: Words, word: str, x: float, y: float, size: float, width: float) -> ft.Control:
    """A word centred at x, held within the strip."""
    half = max(len(word), 2) * size * t.LETTER * c.scale / 2
    left = min(max(x - half, 0), max(0, width - 2 * half))
    align = ft.TextAlign.LEFT if x < half else ft.TextAlign.RIGHT if x > width - half else ft.TextAlign.CENTER
    text = c.text(word, size, t.SEMI, height=1.15, text_align=align, no_wrap=True, width=2 * half)
    return ft.Container(text, left=left, top=y)
