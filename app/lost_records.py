"""What an app without a command line shows where its store cannot be opened: why, and the way back if there is one."""
from __future__ import annotations

from functools import partial
from pathlib import Path

import flet as ft

from app.domain.branding.brand import Brand
from app.domain.errors import AppError, DamagedDatabase, NoPrivateFiles
from app.storage.copies import last_good_copy, made_on, restore_copy
from app.ui.notice_page import show_choice, show_notice
from app.words.errors import error_text
from app.words.machine import web


def show_lost(page: ft.Page, brand: Brand, error: AppError) -> None:
    """The sentence; after damage, a button that goes back to the last good copy, for the next start."""
    if not isinstance(error, DamagedDatabase):
        title = web.NO_PLACE_TITLE if isinstance(error, NoPrivateFiles) else web.LOST_TITLE
        show_notice(page, brand, title, error_text(error))
        return
    place = Path(str(error.what["path"]))
    copy = last_good_copy(place)
    if copy is None:
        show_notice(page, brand, web.LOST_TITLE, web.DAMAGED_FOR_GOOD)
    else:
        day = made_on(copy)
        show_choice(page, brand, web.LOST_TITLE, web.damaged(day), web.go_back_to(day), partial(_go_back, place, copy))


def _go_back(place: Path, copy: Path) -> str:
    day = made_on(copy)
    try:
        restore_copy(place, copy)
    except AppError as error:
        return error_text(error)
    return web.went_back_to(day)
