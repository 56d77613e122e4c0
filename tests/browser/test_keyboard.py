"""Without a pointer: the player's keys, and Tab and Enter to the main act of a page."""
from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from app.words import parts
from app.words.client import check_in
from app.words.client import player as says
from app.words.client import today as client
from tests.browser.count import Sight
from tests.browser.driver import DESKTOP, Walker
from tests.browser.server import Server
from tests.browser.session import Session

pytestmark = pytest.mark.browser

MOST_TABS = 90


def tab_to(walker: Walker, name: str) -> None:
    """Goes on by Tab until the keyboard would press that, once all that was pressed before is drawn.

    The browser tells of the focus a moment before the app has it: only what still has it then counts.
    """
    passed = []
    walker.settle()
    for _ in range(MOST_TABS):
        walker.key("Tab")
        passed.append(walker.focused())
        if passed[-1] == name and walker.settle().focused() == name:
            return
    raise AssertionError(f"Tab never reaches “{name}”, only {passed}")


def test_from_today_to_the_check_in_by_tab_and_enter(
    browser: Browser, ready: Path, serve: Callable[..., Server], tmp_path: Path,
) -> None:
    """Today's main act, a tab of the navigation, and an answer."""
    shutil.copytree(ready, tmp_path / "data")
    with Walker(browser, size=DESKTOP) as walker:
        walker.open(serve(tmp_path / "data").at("/check-in")).sees(check_in.ANYTHING_NEW[0])
        tab_to(walker, parts.answer(check_in.ANYTHING_SHORT, parts.NO))
        walker.key("Enter")
        tab_to(walker, client.NEXT)
        walker.key("Enter").sees(check_in.JOINTS[0])
        walker.go("/today").sees_button(client.START)
        tab_to(walker, client.START)
        walker.key("Enter").sees(re.compile("left$"))


def test_the_keys_of_the_player(
    browser: Browser, ready: Path, serve: Callable[..., Server], tmp_path: Path,
) -> None:
    """Space pauses and goes on, arrows skip and go back, E takes the easier one, H stops everything."""
    shutil.copytree(ready, tmp_path / "data")
    with Walker(browser, size=DESKTOP) as walker:
        session = Session(walker.open(serve(tmp_path / "data").at("/play")))
        session.start()
        walker.key("Space").sees_button(says.GO_ON)
        assert session.now().kind == says.PAUSED
        walker.key("Space").sees_button(says.PAUSE)
        for key in ("ArrowRight", "ArrowRight", "ArrowLeft"):
            before = session.now()
            walker.key(key)
            session.until(partial(Sight.leaps_from, other=before))
        session.skip_until_easier()
        walker.sees_button(re.compile(f"^{says.EASIER}")).key("e").sees(re.compile("^From now on: "))
        walker.key("h").sees(says.SIT_DOWN)
