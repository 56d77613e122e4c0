"""A page that is frozen while a session runs: it takes the clock's word for it, asks, and invents nothing.

The lifecycle that DevTools can set stops a page and not its worker, so the processes are stopped instead.
"""
from __future__ import annotations

import os
import re
import signal
import sys
import time
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from app.actions.backup import backup_of
from app.device.clock import SystemClock
from app.storage.database import open_store
from app.words.client import pauses
from app.words.client import player as says
from tests.browser.offline import Visitor, fast_from
from tests.browser.session import Session
from tests.browser.static_site import StaticSite
from tests.browser.web_app import make_web_app

pytestmark = [pytest.mark.browser, pytest.mark.skipif(sys.platform == "win32", reason="needs SIGSTOP")]

RATE = 5
FROZEN_S = 16.0
"""80 seconds of the session, longer than any step of it."""


@pytest.mark.whole(keep=0)
def test_a_page_that_was_frozen_asks_where_to_go_on(browser: Browser, ready: Path, tmp_path: Path) -> None:
    """It stands where it stood, says for how long nobody looked, and goes on from there by a tap."""
    folder = make_web_app(tmp_path / "app", entry=fast_from(SystemClock().now(), RATE),
                          store=whole_copy(ready))
    with StaticSite({"/": folder}) as site, Visitor(browser, site.address) as visitor:
        session = Session(visitor.visit("#/play"))
        session.start()
        session.until(lambda seen: seen.kind == "Work")
        before = session.now()
        freeze(browser, FROZEN_S)
        visitor.sees(says.CAME_BACK, re.compile("^This device paused for [12] minutes?"), pauses.NOT_COUNTED)
        visitor.press(re.compile("^Carry on from minute")).sees(re.compile("left$"))
        after = session.until(lambda seen: seen.kind == "Work")
        assert after.about == before.about and before.left_s - 3 * RATE <= after.left_s <= before.left_s


def whole_copy(data_dir: Path) -> bytes:
    """A store as one file that any device can open."""
    store = open_store(data_dir)
    data = backup_of(store, SystemClock())[1]
    store.close()
    return data


def freeze(browser: Browser, seconds: float) -> None:
    """Stops every page and worker of a browser for so long, as a phone does with what nobody looks at."""
    told = browser.new_browser_cdp_session().send("SystemInfo.getProcessInfo")["processInfo"]
    pages = [int(one["id"]) for one in told if one["type"] == "renderer"]
    assert pages
    for page in pages:
        os.kill(page, signal.SIGSTOP)
    time.sleep(seconds)
    for page in pages:
        os.kill(page, signal.SIGCONT)
