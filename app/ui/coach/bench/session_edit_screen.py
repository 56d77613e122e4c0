"""The page on which a session is written: the strip under the pen, the card in lines, the checks beside it."""
from __future__ import annotations

import flet as ft

from app.actions.bench import drafting, shelf_source
from app.actions.bench.pen import Pen
from app.domain.errors import AppError
from app.ui.coach.bench.checks_margin import checks_margin
from app.ui.coach.bench.edited_session import EditedSession
from app.ui.coach.bench.session_card import session_card
from app.ui.coach.bench.writing_line import WritingLine
from app.ui.coach.stable_field import typed_field, use_typed
from app.ui.parts import bind
from app.ui.parts import theme as t
from app.ui.parts.time_strip import plan_strip
from app.ui.shell.shell import Shell, safe
from app.words.coach.bench import session as words
from app.words.errors import error_text
from app.words.text import session_sentence

LANE, BESIDE, MARGIN_COLUMN = 64, 28, 380
"""Heights and widths, px: the strip's lane, between card and checks, the checks' column."""


@ft.component
def SessionEditScreen(shell: Shell) -> ft.Control:
    """Opens the session of the address; one that is not there leads back to the list in a sentence."""
    opened: EditedSession | AppError = ft.use_memo(lambda: _opened(shell), [])
    c = shell.card()
    if isinstance(opened, AppError):
        back = c.button(words.BACK, safe(shell, bind(shell.go, "/sessions")))
        return c.page([c.title(words.TITLE), c.notice(error_text(opened), acts=[back])])
    return _Editor(shell, opened)


def _opened(shell: Shell) -> EditedSession | AppError:
    try:
        source_id = shelf_source.current_source(shell.store)
        source = shelf_source.written_source(shell.store, source_id)
        draft = drafting.open_session(shell.store, shell.clock, source_id, shell.route_id())
        drafting.tidy(shell.store, draft)
        return EditedSession(shell, source, Pen(shell.store, shell.clock, draft))
    except AppError as error:
        return error


@ft.component
def _Editor(shell: Shell, edited: EditedSession) -> ft.Control:
    _, set_turn = ft.use_state(0)
    name = use_typed()
    edited.shell, edited.redraw = shell, lambda: set_turn(lambda n: n + 1)
    renamed = ft.use_callback(lambda said: edited.rename(said), [])
    name.words = name.words or edited.sheet.name
    page = shell.tools.page

    def keys() -> None:
        page.on_keyboard_event = safe(shell, lambda event: press_key(edited, event))

    def leave() -> None:
        page.on_keyboard_event = None
        edited.keep()

    ft.use_effect(keys, dependencies=[], cleanup=leave)
    c = shell.card()
    width = shell.width - 2 * c.margin
    beside = width >= 900 and c.scale <= t.LARGE_PRINT
    room = width - MARGIN_COLUMN - BESIDE if beside else width
    card = [session_card(shell, edited, room), WritingLine(shell, edited)]
    checks = checks_margin(shell, edited)
    body: list[ft.Control] = [_bar(shell, edited), typed_field(shell, words.NAME, name, told=renamed)]
    body += [_trouble(shell, edited)] if edited.trouble else []
    body += _summary(shell, edited, width)
    if beside:
        body.append(ft.Row([ft.Container(c.stack(card, t.GAP), width=room), ft.Container(checks, expand=True)],
                           spacing=BESIDE, vertical_alignment=ft.CrossAxisAlignment.START))
    else:
        body += [*card, checks]
    return c.page(body, measure=width)


def press_key(edited: EditedSession, event: ft.KeyboardEvent) -> None:
    """Undo and redo; and with Alt, what carries the chosen line."""
    if event.ctrl or event.meta:
        if event.key.upper() == "Z":
            (edited.redo if event.shift else edited.undo)()
        elif event.key.upper() == "Y":
            edited.redo()
    elif event.alt and edited.chosen:
        if event.key == "Arrow Down" and event.shift:
            edited.second(edited.chosen)
        elif event.key in ("Arrow Up", "Arrow Down"):
            edited.carry(edited.chosen, 1 if event.key == "Arrow Down" else -1)
        elif event.key == "Delete":
            edited.take_out(edited.chosen)


def _bar(shell: Shell, edited: EditedSession) -> ft.Control:
    c, history = shell.card(), edited.pen.draft.history
    if edited.trouble:
        kept = words.NOT_KEPT
    elif not edited.pen.is_kept:
        kept = words.NOT_YET_KEPT
    elif edited.kept:
        there = shell.clock.local(edited.kept)
        kept = words.kept_at(f"{words.local_time(edited.kept, there.offset_min)}")
    else:
        kept = words.NO_CHANGES
    undo = words.act_on(words.UNDO, history.undoes) if history.undoes else words.NOTHING_TO_UNDO
    redo = words.act_on(words.REDO, history.redoes) if history.redoes else words.NOTHING_TO_REDO
    return ft.Row([
        c.small_button(words.BACK, safe(shell, bind(shell.go, "/sessions")), name=words.BACK_NAME),
        c.small_button(words.UNDO, safe(shell, bind(edited.undo)) if history.undoes else None, name=undo),
        c.small_button(words.REDO, safe(shell, bind(edited.redo)) if history.redoes else None, name=redo),
        c.soft(kept),
    ], wrap=True, spacing=8, run_spacing=6, vertical_alignment=ft.CrossAxisAlignment.CENTER)


def _trouble(shell: Shell, edited: EditedSession) -> ft.Control:
    c = shell.card()
    if edited.trouble_text == words.CHANGED_ELSEWHERE:
        return c.notice(edited.trouble_text, words.BOTH_ARE_THERE, acts=[
            c.small_button(words.GO_ON_WITH_THAT, safe(shell, bind(edited.go_on_with_that))),
            c.small_button(words.KEEP_MINE, safe(shell, bind(edited.keep_mine)))])

    def again() -> None:
        edited.keep()
        edited.redraw()
    return c.notice(words.NOT_KEPT, edited.trouble_text,
                    acts=[c.small_button(words.TRY_AGAIN, safe(shell, bind(again)))])


def _summary(shell: Shell, edited: EditedSession, width: float) -> list[ft.Control]:
    """The sentence and the strip; nothing of an empty session."""
    c = shell.card()
    if edited.timeline is None:
        return [c.soft(words.NOTHING_WRITTEN)]
    kit = sorted({k for line in edited.sheet.lines() for k in edited.library[line.item.exercise].needs()})
    return [c.strong(session_sentence(edited.timeline, kit)), plan_strip(c, edited.timeline, width, lane=LANE)]
