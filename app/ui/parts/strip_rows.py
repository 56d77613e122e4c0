"""The time strip in rows, where one line would be a bar code: a row for each part, with its name and its minutes.

The grammar is that of the strip in one line. The player shows the row that one is in, and the session as a thread.
"""
from __future__ import annotations

from collections.abc import Callable, Sequence

import flet as ft
import flet.canvas as cv

from app.domain.model.plan import Timeline
from app.domain.model.record import DoneStep
from app.ui.parts import strip_geometry as geo
from app.ui.parts import strip_lines as rows
from app.ui.parts import strokes
from app.ui.parts import theme as t
from app.ui.parts.fitted_words import em
from app.ui.parts.text_blocks import Words
from app.words import parts as words_of

LANE, LANE_REVIEW, LANE_NOW = 24.0, 16.0, 14.0
BETWEEN = 3.0
Lanes = Callable[[rows.StripLine, geo.Scale], list[cv.Shape]]
"""Draws the lanes of a row."""
HATCHED_FROM = 7.0
"""Narrower rests are a bar: hatched they would be a blot, px."""
FLAG_HALF = 9.0


def plan_rows(c: Words, timeline: Timeline, width: float) -> ft.Control:
    """A session as planned."""
    def lanes(line: rows.StripLine, scale: geo.Scale) -> list[cv.Shape]:
        return lane_shapes(c.p, rows.planned_in(line, scale), 0, LANE)

    return _drawn(c, timeline, width, lanes, LANE)


def review_rows(c: Words, timeline: Timeline, done: Sequence[DoneStep], width: float) -> ft.Control:
    """Planned above, done below: low = easier, dotted = left out, double bar = stopped."""
    under, high = LANE_REVIEW + BETWEEN, 2 * LANE_REVIEW + BETWEEN

    def lanes(line: rows.StripLine, scale: geo.Scale) -> list[cv.Shape]:
        shapes = lane_shapes(c.p, rows.planned_in(line, scale), 0, LANE_REVIEW)
        shapes += lane_shapes(c.p, rows.done_in(line, timeline.steps, done, scale), under, high)
        return shapes + _stop(c, rows.stop_in(line, timeline.steps, done, scale), scale, under, high)

    return _drawn(c, timeline, width, lanes, high, words_of.strip_done(done))


def folded_strip(c: Words, timeline: Timeline, done: Sequence[DoneStep], width: float, span_ms: int) -> ft.Control:
    """A session that was done in one low line, to scale with others of the same `span_ms`: what was done of it, in ink
    on a rule as long as the plan.
    """
    scale = geo.Scale(max(span_ms, timeline.total_ms, geo.SHORTEST_SPAN_MS), width)
    whole = rows.StripLine(timeline.steps[0].part, None, timeline.steps)
    shapes = lane_shapes(c.p, rows.done_in(whole, timeline.steps, done, scale), 0, LANE_REVIEW)
    shapes += _stop(c, rows.stop_in(whole, timeline.steps, done, scale), scale, 0, LANE_REVIEW)
    shapes += _base(c.p, scale.x_of(timeline.total_ms), LANE_REVIEW)
    return _image(c, cv.Canvas(shapes, width=width, height=LANE_REVIEW + 4), words_of.strip_review(timeline, done))


def row_now(c: Words, timeline: Timeline, now_ms: int, width: float) -> ft.Control:
    """The part that one is in with the marker, and under it the whole session. Cheap to draw anew each second."""
    lines = rows.lines_in(timeline.steps)
    line = rows.line_at(lines, now_ms)
    scale, top = geo.Scale(line.length_ms or 1, width), 12.0
    shapes = lane_shapes(c.p, rows.planned_in(line, scale, now_ms), top, top + LANE_NOW)
    shapes += strokes.lines([((0, top + LANE_NOW + 1), (width, top + LANE_NOW + 1))], strokes.stroke(c.p.ink, 2))
    shapes += _marker(c.p, scale.x_of(now_ms - line.start_ms), width, -4, top + LANE_NOW + 3)
    part = words_of.part_name(line.part, line.round, later=line.is_later)
    name = c.text(part, t.T_CAPTION, t.SEMI, height=1.2, expand=True)
    left = c.text(words_of.minutes_to_go(timeline.total_ms - now_ms), t.T_CAPTION, t.SEMI, height=1.2)
    row, thread = ft.Row([name, left]), _thread(c.p, lines, now_ms, width, 2)
    column = ft.Column([row, cv.Canvas(shapes, width=width, height=top + LANE_NOW + 4),
                        cv.Canvas(thread, width=width, height=13)], spacing=0, tight=True)
    return _image(c, column, words_of.strip_now(timeline, now_ms))


def thread_now(c: Words, timeline: Timeline, now_ms: int, width: float) -> ft.Control:
    """The whole session as one line, a segment for each part, with the marker."""
    shapes = _thread(c.p, rows.lines_in(timeline.steps), now_ms, width, 14)
    shapes += _marker(c.p, now_ms / max(1, timeline.total_ms) * width, width, -4, 25)
    return _image(c, cv.Canvas(shapes, width=width, height=26), words_of.strip_now(timeline, now_ms))


def lane_shapes(p: t.Palette, blocks: Sequence[rows.LineBlock], y0: float, y1: float) -> list[cv.Shape]:
    """One lane, in as few shapes as can be."""
    shapes: list[cv.Shape] = []
    middle = (y0 + y1) / 2
    for done, work, rest in ((False, p.work, p.rest), (True, p.ink, p.ink)):
        mine = [b for b in blocks if b.done is done]
        solid = [(b.x0, y0, b.x1, y1) for b in mine if b.print is geo.Print.WORK]
        low = [(b.x0, y0 + (y1 - y0) * 0.55, b.x1, y1) for b in mine if b.print is geo.Print.LOW]
        half = [(b.x0, middle, b.x1, y1) for b in mine if b.print is geo.Print.REST]
        wide = [box for box in half if box[2] - box[0] >= HATCHED_FROM]
        thin = [(x0, (middle + y1) / 2 - 1.5, x1, (middle + y1) / 2 + 1.5) for x0, _, x1, _ in half
                if x1 - x0 < HATCHED_FROM]
        dotted = [(b.x0 + 1, y0 + 1, max(b.x1 - 1, b.x0 + 2), y1 - 1) for b in mine if b.print is geo.Print.DOTTED]
        shapes += strokes.boxes(solid + low, strokes.fill(work)) + strokes.hatch(wide, rest)
        shapes += strokes.lines((((x0, y), (x1, y)) for x0, y, x1, _ in wide), strokes.stroke(rest, 2))
        shapes += strokes.boxes(thin, strokes.fill(rest)) + strokes.boxes(dotted, strokes.stroke(p.ink, 1.5, (2, 3)))
    return shapes


# ------------------------------------------------------------------ how rows are set

def _drawn(c: Words, timeline: Timeline, width: float, lanes: Lanes, high: float, done: str = "") -> ft.Control:
    """Name, lanes and minutes in a row each; in large print the words over the lanes."""
    lines = rows.lines_in(timeline.steps)
    size, large = t.T_BODY * c.scale, c.scale > t.LARGE_PRINT
    names = [words_of.part_name(line.part, line.round, later=line.is_later) for line in lines]
    ends = [words_of.minutes(line.minutes) for line in lines]
    name_w = 0.0 if large else max((em(name) for name in names), default=0) * size + 8
    end_w = 0.0 if large else max((em(end) for end in ends), default=0) * size + 8
    room = width - name_w - end_w
    scale = rows.line_scale(lines, room)
    pieces: list[ft.Control] = []
    for line, name, end in zip(lines, names, ends, strict=True):
        shapes = [*lanes(line, scale), *_base(c.p, scale.x_of(line.length_ms), high)]
        drawn = cv.Canvas(shapes, width=room, height=high + 4)
        said = c.text(name, t.T_BODY, t.SEMI, height=1.1, no_wrap=True)
        length = c.text(end, t.T_BODY, t.EXTRA, height=1.1, no_wrap=True, text_align=ft.TextAlign.RIGHT)
        if large:
            said.expand = True
            pieces.append(ft.Column([ft.Row([said, length]), drawn], spacing=2, tight=True))
            continue
        said.width, length.width = name_w, end_w
        pieces.append(ft.Row([said, drawn, length], spacing=0))
    told = [words_of.row_told(name, line.minutes) for name, line in zip(names, lines, strict=True)]
    spoken = words_of.joined([words_of.strip_plan(timeline), *told, *([done] if done else [])])
    return _image(c, ft.Column([*pieces, _key(c)], spacing=6, tight=True), spoken)


def _key(c: Words) -> ft.Control:
    """Two words: which blocks are work and which rest."""
    side = 14.0
    work = strokes.boxes([(0, 0, side, side)], strokes.fill(c.p.work))
    rest = [*strokes.hatch([(0, side / 2, 2 * side, side)], c.p.rest),
            *strokes.lines([((0, side / 2), (2 * side, side / 2))], strokes.stroke(c.p.rest, 2))]
    pieces: list[ft.Control] = []
    for shapes, width, word in ((work, side, words_of.KEY_WORK), (rest, 2 * side, words_of.KEY_REST)):
        pieces += [cv.Canvas(shapes, width=width, height=side), c.text(word, t.T_LEGEND, t.SEMI, c.p.soft, 1.1)]
    return ft.Row(pieces, spacing=8)


def _base(p: t.Palette, width: float, y: float) -> list[cv.Shape]:
    return strokes.lines([((0, y + 1.5), (width, y + 1.5))], strokes.stroke(p.ink, 3))


def _stop(c: Words, x: float | None, scale: geo.Scale, y0: float, y1: float) -> list[cv.Shape]:
    """Two bars."""
    if x is None:
        return []
    at = min(x + 2, scale.width - 9)
    return strokes.boxes([(at, y0, at + 3, y1), (at + 6, y0, at + 9, y1)], strokes.fill(c.p.ink))


def _thread(p: t.Palette, lines: Sequence[rows.StripLine], now_ms: int, width: float, top: float) -> list[cv.Shape]:
    """Done in ink; what is to come is outlined in it, since a hairline would be too pale."""
    total = max(1, lines[-1].end_ms) if lines else 1
    todo, done = [], []
    for line in lines:
        x0, x1 = line.start_ms / total * width, line.end_ms / total * width - 4
        cut = min(max(now_ms / total * width, x0), x1)
        todo.append((x0 + 0.75, top + 0.75, x1 - 0.75, top + 8))
        done += [(x0, top, cut, top + 8)] if cut > x0 else []
    rule = strokes.lines([((0, top + 9.5), (width, top + 9.5))], strokes.stroke(p.ink, 2))
    return strokes.boxes(todo, strokes.stroke(p.ink, 1.5)) + strokes.boxes(done, strokes.fill(p.ink)) + rule


def _marker(p: t.Palette, x: float, width: float, y0: float, y1: float) -> list[cv.Shape]:
    """The flag keeps within the strip at both ends; its point stays true."""
    x = min(max(x, 2.5), width - 2.5)
    left = min(max(x - FLAG_HALF, 0), width - 2 * FLAG_HALF)
    flag = [(left, y0), (left + 2 * FLAG_HALF, y0), (left + 2 * FLAG_HALF, y0 + 9), (x, y0 + 17), (left, y0 + 9)]
    return [
        *strokes.boxes([(x - 5, y0 + 12, x + 5, y1)], strokes.fill(p.paper)),
        strokes.polygon(flag, strokes.stroke(p.paper, 4)), strokes.polygon(flag, strokes.fill(p.ink)),
        *strokes.boxes([(x - 2, y0 + 12, x + 2, y1)], strokes.fill(p.ink)),
    ]


def _image(c: Words, drawn: ft.Control, spoken: str) -> ft.Control:
    """Its own words for a screen reader: one picture, not twelve pieces."""
    return ft.Semantics(content=drawn, label=c.said(spoken), image=True, exclude_semantics=True)
