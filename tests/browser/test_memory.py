"""Python's memory in the offline web app: kept by the browser after a start, taken up by the next one."""
from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from app.storage.copies import keep_copy
from app.storage.schema import LINEAGE
from app.words.client import player, today, welcome
from tests.browser.offline import MEMORY, Visitor
from tests.browser.static_site import StaticSite
from tests.browser.web_app import make_web_app

pytestmark = pytest.mark.browser

SPOIL = """async () => { for (const name of await caches.keys()) { const store = await caches.open(name);
  for (const one of await store.keys())
    if (one.url.includes('memory.bin')) await store.put(one, new Response(new Uint8Array(5_000_000))); } }"""
#: Whether the Python in the page's worker was taken up from a kept memory.
TAKEN_UP = "() => Boolean(self.pyodide._api.config._loadSnapshot)"
DRAWN = "() => self.pyodide.runPython('import random; str(random.random())')"
#: Set while a start is on its way, and taken back once something is shown.
TRIED = "() => Object.keys(localStorage).filter(name => name.startsWith('evenload memory'))"
NOT_SHOWN = "() => localStorage.setItem('evenload memory ' + new URL('./', document.baseURI).href, '')"


def taken_up(visitor: Visitor) -> bool:
    """Whether a new start, which shows the welcome, came out of the kept memory."""
    visitor.start_anew().sees_heading(welcome.TITLE)
    assert visitor.page.evaluate(TRIED) == []
    return bool(visitor.python.evaluate(TAKEN_UP))


@pytest.mark.whole(keep=0)
def test_a_later_start_takes_it_up(browser: Browser, tmp_path: Path) -> None:
    """The same welcome, and other random numbers at each start."""
    with StaticSite({"/": make_web_app(tmp_path)}) as site, Visitor(browser, site.address) as visitor:
        visitor.visit().sees_heading(welcome.TITLE)
        assert not visitor.python.evaluate(TAKEN_UP)
        visitor.keep_memory()
        assert taken_up(visitor)
        drawn = visitor.python.evaluate(DRAWN)
        assert taken_up(visitor) and visitor.python.evaluate(DRAWN) != drawn


@pytest.mark.whole(keep=0)
def test_the_room_that_it_takes_is_told(browser: Browser, ready: Path, tmp_path: Path) -> None:
    """The app's own 39 MB and the memory's 45, told as soon as the memory is there."""
    store = keep_copy(ready / "evenload.db", LINEAGE.head).read_bytes()
    with StaticSite({"/": make_web_app(tmp_path, store=store)}) as site, Visitor(browser, site.address) as visitor:
        visitor.visit().sees_button(today.START)
        visitor.keep_memory()
        visitor.visit("#/settings").sees(re.compile(r"^It takes up about (8|9)\d MB on this device"))


@pytest.mark.whole(keep=0)
def test_damaged_or_once_failed_it_is_not_trusted(browser: Browser, tmp_path: Path) -> None:
    """Everything is loaded anew, and the memory made anew."""
    with StaticSite({"/": make_web_app(tmp_path)}) as site, Visitor(browser, site.address) as visitor:
        visitor.visit().sees_heading(welcome.TITLE)
        visitor.keep_memory()
        visitor.page.evaluate(SPOIL)
        assert not taken_up(visitor)
        visitor.keep_memory()
        visitor.page.evaluate(NOT_SHOWN)
        assert not taken_up(visitor)
        visitor.keep_memory()
        assert taken_up(visitor)


@pytest.mark.whole(keep=0)
def test_none_is_made_beside_a_session(browser: Browser, ready: Path, tmp_path: Path) -> None:
    """Nor is one gone on with; a later start makes it."""
    store = keep_copy(ready / "evenload.db", LINEAGE.head).read_bytes()
    with StaticSite({"/": make_web_app(tmp_path, store=store)}) as site, Visitor(browser, site.address) as visitor:
        visitor.visit("#/play").sees_heading(player.BEFORE)
        visitor.page.wait_for_timeout(15_000)
        assert visitor.page.evaluate(MEMORY) == []
        visitor.start_anew().sees_button(today.START)
        visitor.keep_memory()
