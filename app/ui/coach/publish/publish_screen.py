"""Publish: the coach's matching words and recovery sheet, and every source with what the proofreader says."""
from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import flet as ft

from app.actions.desk import brand_apps, publishing
from app.domain.errors import AppError
from app.ui.coach.coach_layout import coach_page
from app.ui.coach.publish.app_panel import AppPanel
from app.ui.coach.publish.keys_panel import KeysPanel
from app.ui.coach.publish.source_panel import SourcePanel
from app.ui.parts import Card, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.coach import publish as words
from app.words.errors import error_text
from app.words.rules import plain_rules

#: With a key, so that a source that was checked again starts afresh.
PANEL: Callable[..., ft.Control] = SourcePanel


@ft.component
def PublishScreen(shell: Shell) -> ft.Control:
    """Keys first, then the programmes."""
    c = shell.card()
    turn, set_turn = ft.use_state(0)
    folders = ft.use_memo(lambda: publishing.source_folders(shell.store), [turn])
    opened = ft.use_memo(lambda: tuple(_opened(folder) for folder in folders), [turn])
    body: list[ft.Control] = [c.title(words.PUBLISH_TITLE), KeysPanel(shell), c.head(words.SOURCES_HEAD)]
    own = publishing.own_sources(shell.store)
    where = f"{words.SOURCES_WHY} {words.sources_where(str(own))}" if own else words.SOURCES_WHY
    body.append(c.soft(where))
    body.append(c.side_by_side([c.small_button(words.RECHECK, safe(shell, bind(set_turn, turn + 1))),
                                c.small_button(plain_rules.COACH_LINK, safe(shell, bind(shell.go, "/why")))]))
    for folder, found in zip(folders, opened, strict=True):
        if isinstance(found, AppError):
            body.append(_unreadable(c, folder.name, found))
        else:
            body.append(PANEL(shell, found, key=f"{folder}:{turn}"))
    body += [AppPanel(shell)] if brand_apps.can_make(shell.store) else []
    return coach_page(shell, "publish", body)


def _opened(folder: Path) -> publishing.PublishableSource | AppError:
    try:
        return publishing.open_source(folder)
    except AppError as error:
        return error


def _unreadable(c: Card, name: str, error: AppError) -> ft.Control:
    return c.box(c.stack([c.subhead(name), c.notice(error_text(error))], t.GAP_S))
