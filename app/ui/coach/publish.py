"""Publish: the coach's matching words and recovery sheet, and every source with what the proofreader says."""
from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import flet as ft

from app import text_publish as words
from app import text_why
from app.actions import coach, own_app
from app.domain.errors import AppError
from app.text_errors import error_text
from app.ui import theme as t
from app.ui.coach.publish_app import AppPanel
from app.ui.coach.publish_keys import KeysPanel
from app.ui.coach.publish_source import SourcePanel
from app.ui.coach.surroundings import coach_page
from app.ui.parts import Card, bind
from app.ui.shell import Shell, safe

#: With a key, so that a source that was checked again starts afresh.
PANEL: Callable[..., ft.Control] = SourcePanel


@ft.component
def PublishScreen(shell: Shell) -> ft.Control:
    """Keys first, then the programmes."""
    c = shell.card()
    turn, set_turn = ft.use_state(0)
    folders = ft.use_memo(lambda: coach.source_folders(shell.store), [turn])
    opened = ft.use_memo(lambda: tuple(_opened(folder) for folder in folders), [turn])
    body: list[ft.Control] = [c.title(words.PUBLISH_TITLE), KeysPanel(shell), c.head(words.SOURCES_HEAD)]
    own = coach.own_sources(shell.store)
    where = f"{words.SOURCES_WHY} {words.sources_where(str(own))}" if own else words.SOURCES_WHY
    body.append(c.soft(where))
    body.append(c.side_by_side([c.small_button(words.RECHECK, safe(shell, bind(set_turn, turn + 1))),
                                c.small_button(text_why.COACH_LINK, safe(shell, bind(shell.go, "/why")))]))
    for folder, found in zip(folders, opened, strict=True):
        if isinstance(found, AppError):
            body.append(_unreadable(c, folder.name, found))
        else:
            body.append(PANEL(shell, found, key=f"{folder}:{turn}"))
    body += [AppPanel(shell)] if own_app.can_make(shell.store) else []
    return coach_page(shell, "publish", body)


def _opened(folder: Path) -> coach.Shelf | AppError:
    try:
        return coach.open_source(folder)
    except AppError as error:
        return error


def _unreadable(c: Card, name: str, error: AppError) -> ft.Control:
    return c.box(c.stack([c.subhead(name), c.notice(error_text(error))], t.GAP_S))
