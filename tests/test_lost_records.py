"""An app without a command line has a way back too."""
from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import flet as ft
import pytest

from app.domain.branding.brand import EVENLOAD
from app.domain.errors import DamagedDatabase, NoRoom
from app.lost_records import show_lost
from app.storage import settings
from app.storage.copies import keep_copy
from app.storage.database import open_store
from app.words.machine import web


class PlainPage:
    """As much of a page as a notice needs."""

    def __init__(self) -> None:
        self.title, self.controls, self.fonts = "", [], {}
        self.width = self.height = None
        self.theme = self.dark_theme = self.theme_mode = self.bgcolor = self.padding = None
        self.platform_brightness = ft.Brightness.LIGHT

    def update(self) -> None:
        """Nothing to do."""


def inside(control: Any) -> Iterator[Any]:
    """A control and all within it."""
    yield control
    for name in ("controls", "content"):
        held = getattr(control, name, None)
        for one in held if isinstance(held, list) else [held]:
            if isinstance(one, ft.Control):
                yield from inside(one)


def said(page: PlainPage) -> str:
    """All words on it."""
    return " ".join(str(getattr(c, "value", "") or "") for top in page.controls for c in inside(top))


def press(page: PlainPage) -> None:
    """Its one button."""
    button, = [c for top in page.controls for c in inside(top) if getattr(c, "on_click", None)]
    button.on_click(None)


def damaged(place: Path) -> DamagedDatabase:
    """What is raised for a store that was written over."""
    place.write_bytes(b"spoilt" * 1_000)
    with pytest.raises(DamagedDatabase) as caught:
        open_store(place)
    return caught.value


def test_after_damage_a_button_goes_back_to_the_last_good_copy(tmp_path: Path) -> None:
    """And says what to do then."""
    store = open_store(tmp_path)
    with store.begin() as db:
        settings.save_setting(db, "x", 1)
    assert store.path is not None
    place = store.path
    keep_copy(place, "0001")
    store.close()
    page: Any = PlainPage()
    show_lost(page, EVENLOAD, damaged(place))
    assert "not deleted" in said(page) and "good copy" in said(page)
    press(page)
    assert "as they were" in said(page)
    again = open_store(place)
    with again.read() as db:
        assert settings.setting(db, "x") == 1


def test_without_a_copy_it_says_how_to_begin_anew(tmp_path: Path) -> None:
    """No button that could not keep its promise; the next start works."""
    page: Any = PlainPage()
    show_lost(page, EVENLOAD, damaged(tmp_path / "evenload.db"))
    assert web.DAMAGED_FOR_GOOD in said(page)
    open_store(tmp_path).close()


def test_anything_else_is_its_sentence(tmp_path: Path) -> None:
    """As ever."""
    page: Any = PlainPage()
    show_lost(page, EVENLOAD, NoRoom(path="x"))
    assert "no space left" in said(page)
