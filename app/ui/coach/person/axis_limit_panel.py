"""Limits that no condition names: one kind of demand, how much, who said so and until when."""
from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

import flet as ft

from app.domain.model.client import AxisLimit
from app.domain.model.exercise import Axis
from app.ui.coach.stable_field import typed_field, use_typed
from app.ui.parts import AnswerOption, Card, bind, options
from app.ui.shell.shell import Shell
from app.words import text
from app.words.coach import reply as words

AXES = options(*((axis, text.AXIS_WORDS[axis].capitalize()) for axis in Axis))
MONTH = timedelta(days=30)


@dataclass(frozen=True)
class AxisLimitDraft:
    """A limit being entered; closed until it is asked for."""

    is_open: bool = False
    axis: Axis | None = None
    at_most: int = 1
    months: int = 3
    complaint: str = ""


@ft.component
def AxisLimitPanel(shell: Shell, told: Sequence[AxisLimit], today: date,
                   on_change: Callable[[tuple[AxisLimit, ...]], object]) -> ft.Control:
    """What is set, each to be taken away, and a form for one more."""
    c = shell.card()
    chosen: tuple[AxisLimitDraft, Callable[[AxisLimitDraft], None]] = ft.use_state(AxisLimitDraft())
    draft, set_draft = chosen
    said_by = use_typed()

    def keep(_: object) -> None:
        if draft.axis is None or not said_by.words.strip():
            set_draft(replace(draft, complaint=words.AXIS_LACKS))
            return
        until = today + draft.months * MONTH if draft.months else None
        one = AxisLimit(draft.axis, draft.at_most, said_by.words.strip(), until)
        said_by.words = ""
        set_draft(AxisLimitDraft())
        on_change((*(t for t in told if t.axis is not one.axis), one))

    rows: list[ft.Control] = [_row(c, one, bind(on_change, tuple(t for t in told if t is not one))) for one in told]
    pieces: list[ft.Control] = [c.rows(rows)] if rows else []
    if not draft.is_open:
        pieces.append(c.small_button(words.AXIS_ADD, bind(set_draft, replace(draft, is_open=True))))
        return c.stack(pieces, 8)
    caps = [AnswerOption(level, name) for level, name in words.CAPS.items()]
    pieces += [
        c.strong(words.AXIS_WHICH), c.one_of(AXES, draft.axis, lambda axis: set_draft(replace(draft, axis=axis))),
        c.one_of(caps, draft.at_most, lambda n: set_draft(replace(draft, at_most=n))),
        typed_field(shell, words.AXIS_SAID_BY, said_by),
        c.strong(words.AXIS_UNTIL),
        c.one_of(options(*words.AXIS_MONTHS.items()), draft.months, lambda n: set_draft(replace(draft, months=n))),
        *([c.notice(draft.complaint)] if draft.complaint else []),
        c.small_button(words.AXIS_KEEP, keep),
    ]
    return c.aside(c.stack(pieces, 12))


def _row(c: Card, one: AxisLimit, take_away: Callable[..., object]) -> ft.Control:
    name = text.AXIS_WORDS[one.axis]
    says = c.text(words.axis_line(name, one), expand=True)
    return ft.Row([says, c.small_button(words.TAKE_AWAY, take_away, name=f"{words.TAKE_AWAY}: {name}")])
