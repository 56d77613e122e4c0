"""Figures of a person's last sessions, planned and done, and their weeks beside the guidelines, as plain tables."""
from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import flet as ft

from app.actions.desk import session_statistics
from app.domain.errors import WrongValue
from app.domain.measures.energy import session_energy
from app.domain.measures.volume import done_statistics, planned_statistics
from app.domain.measures.week_guide import week_guides
from app.domain.model.exercise import Exercise
from app.domain.model.record import SessionDone
from app.ui.coach.person.person_sheet import Sheet
from app.ui.coach.stable_field import typed_field, use_typed
from app.ui.parts import Card, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.coach import statistics as words

SESSIONS, WEEKS = 3, 4


@ft.component
def FiguresPanel(shell: Shell, sheet: Sheet) -> ft.Control:
    """The latest sessions first; energy only while a weight is kept."""
    c = shell.card()
    library = ft.use_memo(lambda: session_statistics.known_exercises(shell.store), [])
    turn, set_turn = ft.use_state(0)
    weight = session_statistics.body_weight(shell.store, sheet.person.id)
    if not sheet.sessions:
        return c.stack([c.head(words.HEAD), c.soft(words.NONE)])
    pieces: list[ft.Control] = [c.head(words.HEAD), c.caption(words.SAID)]
    for done in sheet.sessions[:SESSIONS]:
        pieces += _session(c, done, library, weight)
    if any(planned_statistics(s.plan, library).unknown for s in sheet.sessions[:SESSIONS]):
        pieces.append(c.caption(words.UNKNOWN))
    pieces.append(EnergyPanel(shell, sheet.person.id, weight, bind(set_turn, turn + 1)))
    return c.stack([c.stack(pieces, 10), _weeks(c, sheet, library)], t.GAP_L)


def _session(c: Card, done: SessionDone, library: Mapping[str, Exercise], weight: int | None) -> list[ft.Control]:
    rows = words.statistics_rows(planned_statistics(done.plan, library), done_statistics(done, library))
    found: list[ft.Control] = [c.subhead(words.session_head(done), t.T_BODY), _table(c, rows)]
    if weight is not None:
        found.append(c.soft(words.energy_line(session_energy(done, weight))))
    return found


def _table(c: Card, rows: Sequence[words.Row]) -> ft.Control:
    head = _line(c, ("", words.PLANNED, words.DONE), t.SEMI)
    return c.rows([head, *(_line(c, row, t.REGULAR) for row in rows)], 4)


def _line(c: Card, row: words.Row, weight: ft.FontWeight) -> ft.Control:
    """One line that is read as one."""
    name, *values = row
    cells: list[ft.Control] = [ft.Container(c.text(name), expand=2)]
    cells += [ft.Container(c.text(value, weight=weight, text_align=ft.TextAlign.RIGHT), expand=1,
                           alignment=ft.Alignment.CENTER_RIGHT) for value in values]
    return ft.MergeSemantics(ft.Row(cells, spacing=8, vertical_alignment=ft.CrossAxisAlignment.START))


@ft.component
def EnergyPanel(shell: Shell, person_id: str, weight: int | None, on_change: Callable[..., object]
                ) -> ft.Control:
    """Off until a weight is entered, off again at a press."""
    c, typed = shell.card(), use_typed()

    def show(_: object) -> None:
        try:
            session_statistics.keep_body_weight(shell.store, person_id, typed.words)
        except WrongValue:
            shell.say(words.WRONG_WEIGHT)
            return
        on_change(None)

    def hide(_: object) -> None:
        session_statistics.forget_body_weight(shell.store, person_id)
        on_change(None)

    head = [c.subhead(words.ENERGY, t.T_BODY), c.caption(words.ENERGY_SAID)]
    if weight is not None:
        return c.stack([*head, c.side_by_side([c.small_button(words.HIDE_ENERGY, safe(shell, hide))])])
    field = typed_field(shell, words.WEIGHT, typed)
    return c.stack([*head, field, c.side_by_side([c.small_button(words.SHOW_ENERGY, safe(shell, show))])])


def _weeks(c: Card, sheet: Sheet, library: Mapping[str, Exercise]) -> ft.Control:
    rows = [c.stack([c.strong(words.week_head(week.frame.monday)), c.body(words.week_line(week))], 2)
            for week in week_guides(sheet.records, sheet.day, library, WEEKS)]
    return c.stack([c.head(words.WEEKS_HEAD), c.caption(words.WEEKS_SAID), c.rows(rows)])
