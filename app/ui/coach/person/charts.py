"""Six weeks of pain, soreness, effort and load, each with its numbers in words."""
from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from app.domain.measures.symptom_series import (
    WEEKS,
    SpotSeries,
    effort,
    pain_by_spot,
    pain_told_until,
    soreness_by_spot,
    soreness_told_until,
)
from app.domain.measures.training_load import weekly_loads
from app.domain.model.thresholds import PAIN_CAPS, SORENESS_EASES
from app.ui.coach.person.person_sheet import Sheet
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.parts.chart import Bar, LineStroke, Series, line_chart, week_bars
from app.words.coach import person as words

SPOTS = 6
BESIDE = 16
SMALL = 124
NARROWEST = 170
"""Below this width, px, small charts stand under one another."""


def charts(c: Card, sheet: Sheet, width: float) -> list[ft.Control]:
    """Every chart of the page under its head."""
    shares_pain = "pain" in sheet.person.sends
    pain = pain_by_spot(sheet.records, sheet.day)
    sore = soreness_by_spot(sheet.records, sheet.day)
    no_pain, no_soreness = (
        words.no_pain(pain_told_until(sheet.records, sheet.day)),
        words.no_soreness(soreness_told_until(sheet.records, sheet.day)),
    ) if shares_pain else (words.NOT_TOLD, words.NOT_TOLD)
    found = [c.stack([c.head(words.PAIN_HEAD), *_spots(c, pain, width, PAIN_CAPS, no_pain)]),
             c.stack([c.head(words.SORENESS_HEAD), *_spots(c, sore, width, SORENESS_EASES, no_soreness)])]
    return [*found, _effort(c, sheet, width), _load(c, sheet, width)]


def _spots(c: Card, series: Sequence[SpotSeries], width: float, guide: int, empty: str) -> list[ft.Control]:
    if not series:
        return [c.soft(empty)]
    beside = len(series) > 1 and (width - BESIDE) / 2 >= NARROWEST * c.scale
    each = (width - BESIDE) / 2 if beside else width
    drawn = [
        line_chart(c, [Series(str(s.spot).capitalize(), tuple(s.values))], each, since=words.WEEKS_AGO,
                   until=words.TODAY, guide=guide, height=SMALL * max(1.0, c.scale * 0.8))
        for s in series[:SPOTS]
    ]
    rows = [drawn[at:at + 2] for at in range(0, len(drawn), 2)] if beside else [[one] for one in drawn]
    said = c.caption(words.worst_of_three(guide))
    return [said, *(ft.Row([ft.Container(one, width=each) for one in row], spacing=BESIDE) for row in rows)]


def _effort(c: Card, sheet: Sheet, width: float) -> ft.Control:
    told = effort(sheet.records, sheet.day)
    lines = [Series(words.EFFORT_TOLD, tuple(rpe for rpe, _ in told), LineStroke.WORK),
             Series(words.EFFORT_MEANT, tuple(meant for _, meant in told), LineStroke.DASHED)]
    if all(rpe is None for rpe, _ in told):
        return c.stack([c.head(words.EFFORT_HEAD), c.soft(words.NO_EFFORT)])
    drawing = line_chart(c, lines, width, since=words.FIRST, until=words.LAST)
    return c.stack([c.head(words.EFFORT_HEAD), c.caption(words.EFFORT_SAID), drawing])


def _load(c: Card, sheet: Sheet, width: float) -> ft.Control:
    weeks = weekly_loads(sheet.sessions, sheet.day, WEEKS)
    bars = [Bar(f"{day.day} {day:%b}", load) for day, load in weeks]
    drawing = week_bars(c, bars, width, unit=words.LOAD_UNIT, empty=words.NO_LOAD)
    return c.stack([c.head(words.LOAD_HEAD), c.caption(words.LOAD_SAID), drawing], t.GAP_S)
