"""Every address leads to a screen, whichever is asked for first."""
from __future__ import annotations

import pytest

from app.ui.routes import COACH_SIDE, OPEN_TO_ALL, SCREENS, load_next, screen_named


@pytest.mark.parametrize("first", SCREENS)
def test_every_word_names_a_screen(first: str) -> None:
    """The one of its name, and the same each time."""
    screen = screen_named(first)
    assert screen.__name__ == SCREENS[first][1] and screen_named(first) is screen


def test_loading_goes_on_until_every_screen_is_there() -> None:
    """One for each step; what is open to all, or to coaches, is among them."""
    assert list(load_next()) == list(SCREENS)
    assert set(SCREENS) >= OPEN_TO_ALL | COACH_SIDE
