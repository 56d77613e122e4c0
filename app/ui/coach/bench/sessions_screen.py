"""The sessions that a coach writes: open one, begin a new one; before there are any, take over what comes along."""
from __future__ import annotations

import flet as ft

from app.actions.bench import drafting, shelf_source
from app.actions.desk import publishing
from app.domain.bench.session_checks import timeline_of
from app.domain.bench.sheet import SessionSheet
from app.ui.coach.coach_layout import coach_page
from app.ui.coach.stable_field import typed_field, use_typed
from app.ui.parts import Look, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.coach.bench import session as words


@ft.component
def SessionsScreen(shell: Shell) -> ft.Control:
    """The list, or the way to one."""
    turn, set_turn = ft.use_state(0)
    current = shelf_source.current_source(shell.store)
    if not current:
        return _Empty(shell, lambda: set_turn(turn + 1))
    return _Listed(shell, current)


@ft.component
def _Empty(shell: Shell, began: object) -> ft.Control:
    c, name = shell.card(), use_typed()
    known = publishing.coach_name(shell.store)
    name.words = name.words or known

    def take() -> None:
        if not name.words.strip():
            shell.say(words.NO_NAME)
            return
        shelf_source.take_shipped_over(shell.store, shell.clock, publishing.came_along(), name.words.strip())
        began()  # type: ignore[operator]
    act = c.button(words.TAKE_OVER, safe(shell, bind(take)), look=Look.SOLID)
    return coach_page(shell, "sessions", [
        c.title(words.TITLE), c.empty(words.EMPTY_HEAD, words.EMPTY),
        typed_field(shell, words.YOUR_NAME, name), c.side_by_side([act])])


@ft.component
def _Listed(shell: Shell, source_id: str) -> ft.Control:
    c, name = shell.card(), use_typed()
    every = ft.use_memo(lambda: drafting.sessions(shell.store, source_id), [source_id])
    library = ft.use_memo(lambda: shelf_source.written_source(shell.store, source_id).library(), [source_id])

    def begin() -> None:
        if not name.words.strip():
            shell.say(words.NO_NEW_NAME)
            return
        new = drafting.begin_session(shell.store, shell.clock, source_id, name.words.strip())
        shell.go(f"/session/{new}")

    rows = [c.row(sheet.name, _said(sheet, library, changed=changed),
                  safe(shell, bind(shell.go, f"/session/{sheet.id}"))) for sheet, changed in every]
    return coach_page(shell, "sessions", [
        c.title(words.TITLE), c.lead(words.LEAD), c.rows(rows, 0),
        c.box(c.stack([typed_field(shell, words.NEW_NAME, name),
                       c.side_by_side([c.small_button(words.NEW, safe(shell, bind(begin)))])], t.GAP_S))])


def _said(sheet: SessionSheet, library: object, *, changed: bool) -> str:
    timeline = timeline_of(sheet, library)  # type: ignore[arg-type]
    return words.listed(timeline.total_ms if timeline else 0, len({line.item.exercise for line in sheet.lines()}),
                        changed=changed)
