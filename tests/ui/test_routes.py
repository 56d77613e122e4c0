"""Every address leads to a screen, whichever is asked for first."""
from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from app.device.page_tree import NAME
from app.ui.routes import COACH_SIDE, OPEN_TO_ALL, SCREENS, load_next, screen_named
from app.words import parts
from app.words.client import settings
from app.words.page_titles import PAGE_TITLES, page_title
from tests.tree.window import window


@pytest.mark.parametrize("first", SCREENS)
def test_every_word_names_a_screen(first: str) -> None:
    """The one of its name, and the same each time."""
    screen = screen_named(first)
    assert screen.__name__ == SCREENS[first][1] and screen_named(first) is screen


def test_loading_goes_on_until_every_screen_is_there() -> None:
    """One for each step; what is open to all, or to coaches, is among them."""
    assert list(load_next()) == list(SCREENS)
    assert set(SCREENS) >= OPEN_TO_ALL | COACH_SIDE


def test_every_page_has_a_title_of_its_own_but_what_is_one_screen() -> None:
    """So that a list of windows and a screen reader tell them apart."""
    assert PAGE_TITLES.keys() == SCREENS.keys()
    by_screen = {screen: {PAGE_TITLES[word] for word in SCREENS if SCREENS[word] == screen}
                 for screen in SCREENS.values()}
    assert all(len(titles) == 1 for titles in by_screen.values())
    assert len(set(PAGE_TITLES.values())) == len(by_screen)


def test_the_title_follows_the_address(following: Path, tmp_path: Path) -> None:
    """Also where the start leads elsewhere, and without anybody's name."""
    data = Path(shutil.copytree(following, tmp_path / "data"))
    with window(data) as walker:
        assert walker.client.page.title == page_title("today", "Evenload")
        assert walker.go("/diary").client.page.title == page_title("diary", "Evenload")
        assert walker.go("/desk").client.page.title == page_title("today", "Evenload")
    with window(tmp_path / "new", "/diary") as walker:
        assert walker.client.page.title == page_title("welcome", "Evenload")


def test_the_wish_for_a_screen_reader_is_left_for_the_page(following: Path, tmp_path: Path) -> None:
    """At once, and again at each start, since a browser may have lost it."""
    data = Path(shutil.copytree(following, tmp_path / "data"))
    with window(data, "/settings") as walker:
        assert walker.machine.kept == {}
        walker.choose(parts.answer(settings.READER, parts.YES))
        assert walker.machine.kept == {NAME: True}
    with window(data) as walker:
        assert walker.machine.kept == {NAME: True}
        walker.go("/settings").choose(parts.answer(settings.READER, parts.NO))
        assert walker.machine.kept == {NAME: False}
