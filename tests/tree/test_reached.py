"""Every screen and panel is drawn in the tree by some story: a mistake in any of them is seen without a browser."""
from __future__ import annotations

from pathlib import Path

import pytest

from tests.tree.reached import reached, screens_and_panels

STORIES = Path(__file__).resolve().parents[1] / "stories"
#: Drawn by no story, and why.
ELSEWHERE = {
    "parts/figure.py: photo": "a coach's own photograph, which no programme here has",
    "client/profile/where_kept.py: keep_page": "a browser's own question; tests/ui/client/profile/test_keeping.py",
    "shell/moving_figures.py: _photo": "the same; tests/actions/files/test_pack_media.py reads one",
}


def test_every_screen_and_panel_is_drawn_in_some_story(request: pytest.FixtureRequest) -> None:
    """Of all functions of `app/ui` that give back controls. Only where every story has run."""
    told = {item.path for item in request.session.items}
    if not set(STORIES.glob("test_*.py")) <= told or request.config.option.keyword:
        pytest.skip("only where every story has run")
    missing = sorted(set(screens_and_panels()) - reached() - set(ELSEWHERE))
    assert not missing, "drawn by no story:\n" + "\n".join(missing)


def test_what_stands_elsewhere_exists() -> None:
    """And no name in the list outlives its function."""
    assert set(ELSEWHERE) <= set(screens_and_panels())
