"""Six weeks in two plain charts, each after a sentence that says the same."""
from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import flet as ft

from app.domain.measures.symptom_series import pain_by_spot, pain_told_until
from app.domain.measures.weeks import weekly_minutes
from app.domain.model.record import Record
from app.domain.model.thresholds import PAIN_CAPS
from app.ui.parts import Card
from app.ui.parts.chart import Bar, LineStroke, Series, line_chart, week_bars
from app.words.client import diary as says
from app.words.parts import spot as spot_name

SPOTS = 3
"""More lines in one chart cannot be told apart."""
LINES = (LineStroke.PLAIN, LineStroke.WORK, LineStroke.DASHED)


def charts(c: Card, everything: Sequence[Record], today: date, width: float) -> list[ft.Control]:
    """Pain by spot, and minutes of training by week."""
    return [*_pain(c, everything, today, width), *_minutes(c, everything, today, width)]


def _pain(c: Card, everything: Sequence[Record], today: date, width: float) -> list[ft.Control]:
    found = pain_by_spot(everything, today)
    if not found:
        return [c.head(says.PAIN_HEAD), c.body(says.no_pain(pain_told_until(everything, today)))]
    lines = [Series(spot_name(s.spot), tuple(s.values), line) for s, line in zip(found[:SPOTS], LINES, strict=False)]
    drawn = line_chart(c, lines, width, since=says.WEEKS_AGO, until=says.TODAY, guide=PAIN_CAPS)
    return [c.head(says.PAIN_HEAD), c.body(says.pain_summary([(s.spot, s.values) for s in found])), drawn,
            c.caption(says.GUIDE)]


def _minutes(c: Card, everything: Sequence[Record], today: date, width: float) -> list[ft.Control]:
    weeks = weekly_minutes(everything, today)
    if not any(minutes for _, minutes in weeks):
        return [c.head(says.MINUTES_HEAD), c.body(says.NO_MINUTES)]
    bars = [Bar(says.week_label(monday), minutes) for monday, minutes in weeks]
    return [c.head(says.MINUTES_HEAD), c.body(says.minutes_summary([m for _, m in weeks])),
            week_bars(c, bars, width, unit="minutes")]
