"""The parts in a real browser: found by role and name, told which is chosen, whole in large print."""
from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect, sync_playwright

from tests.ui.gallery_figures import PAIR, RUNS, STANDS, STILL, TURNED

pytestmark = pytest.mark.browser
ROOT = Path(__file__).resolve().parents[3]
LARGE_PRINT = "addEventListener('DOMContentLoaded', () => document.documentElement.style.fontSize = '32px')"
#: A click alone does nothing on a phone's placeholder: the pointer has to go down and up in its middle.
SPEAK = """() => { const e = document.querySelector('flt-semantics-placeholder'); if (!e) return;
  const r = e.getBoundingClientRect();
  const o = {bubbles: true, clientX: r.left + r.width / 2, clientY: r.top + r.height / 2};
  for (const t of ['pointerdown', 'pointerup', 'click'])
    e.dispatchEvent(new (t == 'click' ? MouseEvent : PointerEvent)(t, o)); }"""


@pytest.fixture(scope="module")
def gallery() -> Iterator[str]:
    """The address of a gallery that runs for these tests."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    server = subprocess.Popen([sys.executable, str(ROOT / "tests/ui/gallery.py"), str(port)], cwd=ROOT)
    try:
        _wait_for(port)
        yield f"http://127.0.0.1:{port}"
    finally:
        server.terminate()
        server.wait(10)


def _wait_for(port: int) -> None:
    end = time.monotonic() + 60
    while time.monotonic() < end:
        with socket.socket() as knock:
            if knock.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.1)
    pytest.fail("the gallery did not start")


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """A Chromium without a window."""
    path = os.environ.get("EVENLOAD_BROWSER") or shutil.which("chromium") or shutil.which("google-chrome")
    if not path:
        pytest.skip("no Chromium on this machine")
    with sync_playwright() as driver:
        chromium = driver.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield chromium
        chromium.close()


expect.set_options(timeout=60_000)  # a machine under load draws late


def opened(browser: Browser, address: str, height: int = 3600, script: str = "") -> Page:
    """A page with its semantics switched on."""
    page = browser.new_page(viewport={"width": 412, "height": height})
    if script:
        page.add_init_script(script)
    page.goto(address)
    page.wait_for_selector("flt-semantics-placeholder", state="attached", timeout=60_000)
    for _ in range(20):
        page.evaluate(SPEAK)
        if page.locator("flt-semantics-host flt-semantics").count():
            break
        page.wait_for_timeout(500)
    return page


def test_answers_are_found_by_role_and_tell_which_is_chosen(browser: Browser, gallery: str) -> None:
    """A button for one of many, a checkbox for several, a square with its whole meaning."""
    page = opened(browser, f"{gallery}/choices/light")
    hotel = page.get_by_role("button", name="Hotel room", exact=True)
    expect(hotel).to_have_attribute("aria-current", "false")
    hotel.click()
    home = page.get_by_role("button", name="Home", exact=True)
    home.click()
    expect(home).to_have_attribute("aria-current", "true")
    expect(page.get_by_role("checkbox", name="Osteoporosis")).to_be_checked()
    expect(page.get_by_role("checkbox", name="Resistance band")).not_to_be_checked()
    six = page.get_by_role("button", name="Right knee 6 of 10", exact=True)
    six.click()
    expect(six).to_have_attribute("aria-current", "true")
    expect(page.get_by_role("textbox", name="Year of birth")).to_be_visible()
    page.close()


def test_the_keyboard_reaches_and_presses(browser: Browser, gallery: str) -> None:
    """Tab goes from answer to answer, Enter presses."""
    page = opened(browser, f"{gallery}/choices/light")
    yes = page.get_by_role("button", name="Anything new or worrying: Yes")
    expect(yes).to_have_attribute("aria-current", "false")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(yes).to_have_attribute("aria-current", "true")
    page.close()


def test_a_spot_is_picked_rated_and_taken_back(browser: Browser, gallery: str) -> None:
    """By names alone; the sheet holds the list above and the picture below, sharing their answers."""
    page = opened(browser, f"{gallery}/body/light")
    page.get_by_role("button", name="Left hip", exact=True).first.click()
    page.get_by_role("button", name="Left hip 4 of 10", exact=True).click()
    expect(page.get_by_role("button", name="Left hip: 4", exact=True)).to_have_count(2)
    page.get_by_role("button", name="Left hip: leave it out", exact=True).first.click()
    expect(page.get_by_role("button", name="Left hip: 4", exact=True)).to_have_count(0)
    page.close()


DRAWN = 3000
"""An empty picture would be smaller, bytes."""


@pytest.mark.whole(keep=1)
@pytest.mark.parametrize("sheet", ["buttons", "choices", "body"])
def test_large_print_keeps_every_button_whole(browser: Browser, gallery: str, sheet: str) -> None:
    """At twice the text size no button reaches past the edge or loses its height, and the bar goes two by two."""
    page = opened(browser, f"{gallery}/{sheet}/light", 7000, LARGE_PRINT)
    expect(page.get_by_role("button").nth(10)).to_be_visible()
    page.wait_for_timeout(1000)  # the measure of the text travels to the server and the new layout back
    if sheet == "buttons":
        send = page.get_by_role("button", name="Send", exact=True)
        above = page.get_by_role("button", name="Diary", exact=True).bounding_box()
        below = send.bounding_box()
        assert above and below and below["y"] >= above["y"] + above["height"]
    boxes = [b.bounding_box() for b in page.get_by_role("button").all()]
    assert len(boxes) > 10
    for box in boxes:
        assert box and box["x"] >= 0 and box["x"] + box["width"] <= 412.5 and box["height"] >= 48
    page.close()


def test_a_figure_runs_and_stands_as_it_is_told(browser: Browser, gallery: str) -> None:
    """What runs has moved a moment later, what stands has not; each is a picture with a name."""
    page = opened(browser, f"{gallery}/figures/light", 1500)
    runs, stands = (page.get_by_role("img", name=name, exact=True) for name in (RUNS, STANDS))
    for name in (RUNS, STANDS, TURNED, STILL, PAIR):
        expect(page.get_by_role("img", name=name, exact=True)).to_be_visible()
    _until(page, lambda: len(_seen(page, stands)) > DRAWN and len(_seen(page, runs)) > DRAWN)
    first, still = _seen(page, runs), _seen(page, stands)
    _until(page, lambda: _seen(page, runs) != first)
    assert _seen(page, stands) == still
    page.close()


def _until(page: Page, holds: Callable[[], bool]) -> None:
    """Looks again and again, for up to a minute."""
    for _ in range(120):
        if holds():
            return
        page.wait_for_timeout(500)
    raise AssertionError("it never came")


def _seen(page: Page, figure: Locator) -> bytes:
    box = figure.bounding_box()
    assert box
    return page.screenshot(clip={key: box[key] for key in ("x", "y", "width", "height")})
