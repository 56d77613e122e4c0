"""The whole programme at a glance: every week a line of blocks, the week that one is in opened under the table."""
from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby

import flet as ft
import flet.canvas as cv

from app.actions.training.today import Today
from app.domain.progress.due_session import Due
from app.ui.client.today.locked_card import goes
from app.ui.client.today.plan_day import day_line
from app.ui.parts import Card, bind, strokes
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.client import plan as plans
from app.words.client import today as words

HIGH, LIGHTER_HIGH, LINE = 22.0, 13.0, 30.0
"""Height of a session's block, of one in a lighter week, and of the whole line, px."""
TWO_COLUMNS = 640.0
"""From this width, px, on the week that is open stands beside the table."""
LONG_WORDS = 110.0
"""Room for "Week 12" and for "2 of 3", px."""


@ft.component
def PlanWeeks(shell: Shell, card: Today, plan: Sequence[Due], width: float) -> ft.Control:
    """Each week is a button of one line; pressed, it opens."""
    c = shell.card()
    weeks = [(week, list(found)) for week, found in groupby(plan, key=lambda due: due.week)]
    here = card.due.week if card.due else weeks[0][0]
    opened, open_week = ft.use_state(here)
    beside = width >= TWO_COLUMNS and c.scale <= t.LARGE_PRINT
    across = width / 2 if beside else width
    most = max(len(found) for _, found in weeks)
    lines = [_line(c, card, found, across, most, week == opened, safe(shell, bind(open_week, week)))
             for week, found in weeks]
    chosen = next((found for week, found in weeks if week == opened), weeks[0][1])
    table, sessions = c.stack(lines, 0), _opened(c, shell, card, chosen)
    if not beside:
        return c.stack([table, sessions], t.GAP)
    table.expand, sessions.expand = 5, 4
    return ft.Row([table, sessions], spacing=t.GAP_L, vertical_alignment=ft.CrossAxisAlignment.START)


def _line(c: Card, card: Today, found: list[Due], width: float, most: int, opened: bool, press: Callable[..., None]
          ) -> ft.Control:
    """`Week 3`, its blocks, `2 of 3`: ink is done, outlined to come, low is a lighter week, the flag is next."""
    week, done = found[0].week, sum(1 for one in found if one.done_on)
    here = card.due is not None and card.due.week == week
    heavy = t.EXTRA if here else t.SEMI
    edge = min(LONG_WORDS * c.scale, width * 0.27)
    room = max(80.0, (width - 20) if c.scale > t.LARGE_PRINT else (width - 2 * edge - 30))
    spoken = plans.week_spoken(week, done, len(found), lighter=found[0].lighter, here=here)
    name = c.text(plans.week_head(week), t.T_BODY, heavy, height=1.1, semantics_label=spoken)
    end = c.text(plans.week_done(done, len(found), lighter=found[0].lighter, here=here), t.T_BODY, heavy, height=1.1,
                 text_align=ft.TextAlign.RIGHT)
    silent = ft.Semantics(content=end, exclude_semantics=True)
    drawn = ft.Semantics(content=cv.Canvas(_blocks(c, card, found, room, most), width=room, height=LINE),
                         exclude_semantics=True)
    if c.scale > t.LARGE_PRINT:
        name.expand = True
        content: ft.Control = c.stack([ft.Row([name, silent]), drawn], 2)
    else:
        name.width, end.width = edge, edge
        content = ft.Row([name, drawn, silent], spacing=4)
    border = c.border(t.RULE) if opened else ft.Border(bottom=ft.BorderSide(t.HAIR, c.p.line))
    box = c.press(content, press, c.p.sheet if opened else "", border, ft.Padding.symmetric(horizontal=8, vertical=9))
    return ft.MergeSemantics(ft.Semantics(content=box, selected=opened))


def _blocks(c: Card, card: Today, found: list[Due], room: float, most: int) -> list[cv.Shape]:
    each = room / most
    done, ahead, marker = list[strokes.Box](), list[strokes.Box](), list[cv.Shape]()
    for n, one in enumerate(found):
        high = LIGHTER_HIGH if one.lighter else HIGH
        (done if one.done_on else ahead).append((n * each + 2, LINE - 2 - high, (n + 1) * each - 5, LINE - 2))
        if card.due and (one.week, one.number) == (card.due.week, card.due.number) and not card.due.repeats:
            x = n * each + each / 2
            flag = [(x - 9, 0.0), (x + 9, 0.0), (x + 9, 9.0), (x, 17.0), (x - 9, 9.0)]
            marker = [strokes.polygon(flag, strokes.stroke(c.p.paper, 5)), strokes.polygon(flag, strokes.fill(c.p.ink))]
    return [*strokes.boxes(done, strokes.fill(c.p.ink)), *strokes.boxes(ahead, strokes.stroke(c.p.work, 2)),
            *strokes.lines([((0, LINE - 1), (room, LINE - 1))], strokes.stroke(c.p.ink, 2)), *marker]


def _opened(c: Card, shell: Shell, card: Today, sessions: list[Due]) -> ft.Control:
    """The sessions of the week that was pressed, with the coach's note."""
    first = sessions[0]
    is_open = any(due.done_on is None for due in sessions)
    note: list[ft.Control] = [c.body(words.week_again(first.again))] if first.again and is_open else []
    note += [c.soft(first.note)] if first.note else []
    rows = [_session(c, shell, card, due) for due in sessions]
    return c.aside(c.stack([c.head(plans.week_head(first.week), plans.LIGHTER if first.lighter else ""), *note,
                            c.rows(rows, 4)]))


def _session(c: Card, shell: Shell, card: Today, due: Due) -> ft.Control:
    source = card.source
    session = source.session(due.session) if source else None
    name = session.name if session else due.session
    if due.done_on:
        return c.row(name, plans.done_on(due.done_on), name=name)
    is_next = card.due is not None and (due.week, due.number) == (card.due.week, card.due.number)
    route = "/today" if is_next else f"/today/{due.session}"
    spoken = plans.plan_name(due.week, due.number, name)
    row = c.row(name, "", goes(shell, route), trailing=plans.NEXT_ONE if is_next else "", name=spoken)
    moving = day_line(c, shell, card, due, name)
    return c.stack([row, *moving], 0) if moving else row
