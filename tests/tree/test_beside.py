"""What a story of one person in one window does not come to: a second window, figures that move, a brand's links."""
from __future__ import annotations

import re
import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from app.domain.branding.brand import EVENLOAD, Link
from app.words.client import pauses
from app.words.client import player as says
from tests.tree.window import window


@pytest.fixture
def data(ready: Path, tmp_path: Path) -> Path:
    """Somebody whose answers of this morning are in."""
    return Path(shutil.copytree(ready, tmp_path / "data"))


def test_one_window_at_a_time_leads_a_session(data: Path) -> None:
    """The second one may take it over, and asks before it goes on; the first one then says that it is elsewhere."""
    with window(data, "/play") as first:
        first.press(says.START).sees(re.compile("left$"))
        with first.beside("/play") as second:
            second.sees_heading(pauses.ELSEWHERE).press(pauses.TAKE_OVER).sees(says.CAME_BACK)
            first.sees_heading(pauses.ELSEWHERE)


def test_figures_move_for_who_bears_motion(data: Path) -> None:
    """And stand still for who does not."""
    moving = []
    for calm in (False, True):
        with window(data, "/play", calm=calm) as walker:
            walker.go("/today").go("/play")
            if walker.shows_button(says.START):
                walker.press(says.START)
            else:
                walker.press(re.compile("^Carry on from"))
            moving.append(any(type(one).__name__ == "Lottie" for one in walker.controls()))
    assert moving == [True, False]


def test_a_brands_pages_stand_in_the_settings(data: Path) -> None:
    """Each by its own words."""
    brand = replace(EVENLOAD, links=(Link("Our studio", "https://studio.example"),))
    with window(data, "/settings", brand=brand) as walker:
        walker.sees("Our studio")
