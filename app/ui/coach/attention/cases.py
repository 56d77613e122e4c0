"""One person's item on the attention list: name, reasons, evidence, a small line, and what can be done about it."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

import flet as ft

from app.actions.desk.attention_list import Case
from app.domain.measures.attention_summary import AttentionReason, Flag, PersonSummary
from app.domain.measures.told_together import lines_of
from app.domain.model.record import Record
from app.storage.attention_marks import MarkState
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.parts.buttons import room
from app.ui.parts.chart import spark_line
from app.words.coach import attention as why
from app.words.coach import desk as words

POINTS = 8
"""Answers in a small line."""
SPARK = 132
OF_EFFORT = frozenset({AttentionReason.EFFORT, AttentionReason.TOO_MUCH, AttentionReason.TOO_EASY})


@dataclass(frozen=True)
class Act:
    """What the buttons of an item do."""

    seen: Callable[..., Any]
    called: Callable[..., Any]
    later: Callable[..., Any]
    undo: Callable[..., Any]
    show: Callable[..., Any]


@dataclass(frozen=True)
class Done:
    """What was just done about it."""

    state: MarkState
    until: date | None = None


def case_row(
    c: Card, case: Case, line: PersonSummary | None, evidence: Mapping[str, Record], act: Act, done: Done | None,
    part: str = "",
) -> ft.Control:
    """The item; once dealt with, one line with Undo in its place. `part`: its heading, for who stands in two."""
    if done is not None:
        return _dealt(c, case, act, done, part)
    reasons = c.stack([_reason(c, flag, too, line, evidence) for flag, too in lines_of(case.flags)], 10)
    says = c.stack([ft.Row([_name(c, case.name, act.show)]), reasons], 0)
    buttons = c.side_by_side([
        c.small_button(word, press, name=words.act_on(word, case.name, part))
        for word, press in ((words.SEEN, act.seen), (words.CALLED, act.called), (words.LATER, act.later))
    ])
    if not _is_beside(c):
        return c.stack([says, buttons], t.GAP_S)
    says.expand = True
    buttons.wrap = False
    return ft.Row([says, buttons], spacing=t.GAP_L, vertical_alignment=ft.CrossAxisAlignment.START)


def _name(c: Card, name: str, show: Callable[..., Any]) -> ft.Control:
    style = t.ink_style(c.p, t.T_LEAD, t.EXTRA)
    style.decoration = ft.TextDecoration.UNDERLINE
    return c.press(ft.Text(name, style=style), show, "", None, room(t.TARGET_DESK, t.T_LEAD * 1.25, 0))


def _is_beside(c: Card) -> bool:
    return c.is_wide and c.scale <= t.LARGE_PRINT


def _reason(
    c: Card, flag: Flag, too: tuple[Flag, ...], line: PersonSummary | None, evidence: Mapping[str, Record]
) -> ft.Control:
    record = evidence.get(flag.records[-1]) if flag.records else None
    says = c.stack([c.strong(why.head_words(flag, too)), c.body(why.flag_text(flag, record, line))], 2)
    values = _values(flag, line)
    if len(values) < 3:
        return says
    small = spark_line(c, values, width=SPARK, spoken=words.spark_said(flag))
    if c.scale > t.LARGE_PRINT or c.width < 600:
        return c.stack([says, ft.Row([small])], 4)
    says.expand = True
    return ft.Row([says, small], spacing=t.GAP)


def _values(flag: Flag, line: PersonSummary | None) -> list[float]:
    """The numbers that the reason is about, oldest first."""
    told = line.told if line else ()
    if flag.because in (AttentionReason.PAIN, AttentionReason.RISING):
        return [float(t.pain) for t in told if t.pain is not None][-POINTS:]
    if flag.because in OF_EFFORT:
        return [float(t.rpe) for t in told if t.rpe is not None and t.strength is not False][-POINTS:]
    if flag.because is AttentionReason.SORENESS:
        return [float(t.soreness) for t in told if t.soreness is not None][-POINTS:]
    return []


def _dealt(c: Card, case: Case, act: Act, done: Done, part: str) -> ft.Control:
    told = ft.Semantics(
        content=c.soft(words.marked(case.name, done.state.value, done.until)), live_region=True, expand=True)
    undo = c.small_button(words.UNDO, act.undo, name=words.act_on(words.UNDO, case.name, part))
    return ft.Row([told, undo], spacing=t.GAP)
