"""The device rooms in a real browser, through the real server."""
from __future__ import annotations

import os
import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Page, Request, Route, expect, sync_playwright

from tests import small_app

pytestmark = pytest.mark.browser

#: Switches the client's accessibility tree on, by which tests and screen readers find things.
TREE_ON = """() => {
  const it = document.querySelector('flt-semantics-placeholder');
  if (!it) return;
  const box = it.getBoundingClientRect();
  const where = {bubbles: true, clientX: box.left + box.width / 2, clientY: box.top + box.height / 2};
  it.dispatchEvent(new PointerEvent('pointerdown', where));
  it.dispatchEvent(new PointerEvent('pointerup', where));
  it.dispatchEvent(new MouseEvent('click', where));
}"""
SPY = "window.felt = []; navigator.vibrate = ms => { window.felt.push(ms); return true }"


@pytest.fixture
def outside() -> list[str]:
    """What the page asked of other machines."""
    return []


@pytest.fixture
def page(browser_path: str, tmp_path: Path, outside: list[str]) -> Iterator[Page]:
    """A page at a deep address of the small app; nothing from outside gets through."""
    with small_app.running(tmp_path) as (address, _), sync_playwright() as start:
        own = urlsplit(address).netloc

        def watch(route: Route, request: Request) -> None:
            if urlsplit(request.url).netloc in {own, ""}:
                route.continue_()
            else:
                outside.append(request.url)
                route.abort()

        rootless = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
        browser = start.chromium.launch(executable_path=browser_path, args=rootless)
        page = browser.new_page(accept_downloads=True)
        page.add_init_script(SPY)
        page.route("**/*", watch)
        page.goto(address.replace("/?", "/client/j.smith?"))
        page.wait_for_selector("flt-semantics-placeholder", state="attached", timeout=60_000)
        for _ in range(20):
            page.evaluate(TREE_ON)
            if page.locator("flt-semantics-host flt-semantics").count():
                break
            page.wait_for_timeout(250)
        yield page
        browser.close()


def test_the_machine_does_what_it_is_asked(page: Page, outside: list[str]) -> None:
    """Tones sound, patterns are felt, a file that no other program takes is downloaded; nothing leaves the machine."""
    expect(page.get_by_text("at /client/j.smith")).to_be_visible(timeout=30_000)
    with page.expect_download(timeout=30_000) as kept:
        page.get_by_role("button", name="Ask").click()
    assert kept.value.suggested_filename == "diary.txt"
    assert Path(kept.value.path()).read_bytes() == b"six weeks"
    expect(page.get_by_text("9 tones, 3 patterns, saved, same device True")).to_be_visible(timeout=10_000)
    assert page.evaluate("window.felt") == [30, 30, 50, 20, 20, 20]
    assert "key=" not in page.url
    assert not [url for url in outside if not re.search("rive", url)]
