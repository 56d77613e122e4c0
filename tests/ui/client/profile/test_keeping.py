"""A browser that would put a question to the person is let do so only after the set-up, and after our own words."""
from __future__ import annotations

from pathlib import Path

import pytest

from app.device.store_place import StorePlace
from app.ui.client.profile import where_kept
from app.ui.client.settings import store_safety
from app.words.client import today
from app.words.machine import web
from tests.stories import steps
from tests.tree.window import window


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[StorePlace]:
    """The places whose browser was asked."""
    asked: list[StorePlace] = []
    for page in (where_kept, store_safety):
        monkeypatch.setattr(page, "ask_to_keep", asked.append)
    return asked


@pytest.mark.parametrize("answer", [web.KEEP_ASK, web.KEEP_LATER])
def test_the_browser_asks_after_the_set_up_and_after_our_sentence(
        answer: str, asked: list[StorePlace], tmp_path: Path) -> None:
    """Either answer goes on; only one has the browser ask. The settings offer it again."""
    place = StorePlace(in_browser=True, asks_to_keep=True)
    with window(tmp_path, place=place) as walker:
        steps.be_welcomed(walker, "Nora Lind", onto=web.KEEP_HEAD)
        assert asked == []
        walker.sees(web.KEEP_WHY).press(answer).sees_heading(today.PROGRAMME_TITLE)
        assert len(asked) == (answer == web.KEEP_ASK)
        walker.go("/settings").press(web.KEEP_ASK)
        assert asked and all(one is place for one in asked)


@pytest.mark.parametrize("place", [StorePlace(in_browser=True),
                                   StorePlace(in_browser=True, is_kept=True, asks_to_keep=True)])
def test_nothing_is_said_where_nobody_would_be_asked(
        place: StorePlace, asked: list[StorePlace], tmp_path: Path) -> None:
    """By a browser that decides alone, or has decided."""
    with window(tmp_path, place=place) as walker:
        steps.be_welcomed(walker, "Nora Lind")
        walker.go("/settings").sees_heading(web.KEPT_HEAD).sees_no_button(web.KEEP_ASK)
    assert asked == []
