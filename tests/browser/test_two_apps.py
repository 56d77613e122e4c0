"""Two studios' apps on one host, in one browser: each with its own records, its own kept parts, its own lock."""
from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from app.words.client import settings, welcome
from app.words.page_titles import page_title
from tests.browser.offline import SETTLED, Visitor
from tests.browser.static_site import StaticSite
from tests.browser.test_frozen import whole_copy
from tests.browser.web_app import make_web_app
from tests.browser.window import WAIT_MS
from tests.stories import steps

pytestmark = pytest.mark.browser

#: What the origin holds: caches, top folders of the private file system, and locks, each by name.
HELD = """async () => {
  const folders = [];
  for await (const name of (await navigator.storage.getDirectory()).keys()) folders.push(name);
  return { caches: (await caches.keys()).sort(), folders: folders.sort(),
           locks: (await navigator.locks.query()).held.map(lock => lock.name).sort() }; }"""
PLACES = {
    "at the root and below it": {"/": "saltmarsh", "/linden/": "linden-court"},
    "side by side": {"/salt/": "saltmarsh", "/linden/": "linden-court"},
    "alike but for a stroke": {"/a_b/": "saltmarsh", "/a/b/": "linden-court"},
}


@pytest.mark.whole(keep=0)
@pytest.mark.parametrize("case", PLACES)
def test_two_apps_on_one_host_know_nothing_of_each_other(
        browser: Browser, case: str, ready: Path, tmp_path: Path) -> None:
    """Both run at once, without the host too; what is entered, or erased, in one leaves the other as it was.

    What came with an app is there again after everything was erased.
    """
    (salt_path, salt), (linden_path, linden) = PLACES[case].items()
    site = StaticSite({salt_path: make_web_app(tmp_path / salt, salt),
                       linden_path: make_web_app(tmp_path / linden, linden, store=whole_copy(ready))})
    with Visitor(browser, site.address + salt_path[1:]) as visitor:
        visitor.visit().sees_heading(welcome.TITLE)
        visitor.keep()
        first = visitor.page, visitor.address
        second = beside(visitor, site.address + linden_path[1:])
        assert first[0].title() == page_title("welcome", "Saltmarsh Steady")
        assert second[0].title().endswith("Linden Court Mornings")
        held = second[0].evaluate(HELD)
        assert held["caches"] == sorted(f"evenload {address}" for _, address in (first, second))
        assert len(held["folders"]) == 2 and held["locks"] == [f"store:{name}" for name in held["folders"]]
        visitor.cut_off(site)

        start_again(visitor, *first)
        steps.be_welcomed(visitor, "Nora Lind")
        visitor.visit("#/settings").sees(settings.about("Nora Lind"))
        start_again(visitor, *second)
        holds_greta_alone(visitor)
        turn_to(visitor, *first).visit("#/settings/erase")
        visitor.sees(re.compile(f"{settings.BUNDLED_STAYS}$"))
        visitor.press(settings.ERASE_DEVICE, settings.ERASE_NOW).sees_heading(welcome.TITLE)
        steps.be_welcomed(visitor, "Nora Lind")
        visitor.sees(re.compile("^“Steady by the water” by Ines Vandel"))
        start_again(visitor, *second)
        holds_greta_alone(visitor)


def holds_greta_alone(visitor: Visitor) -> None:
    """The other app, as it came."""
    visitor.visit("#/settings").sees(settings.about("Greta Olsen"))
    visitor.never_says(re.compile("Nora"))
    assert visitor.page.title() == page_title("settings", "Linden Court Mornings")


def beside(visitor: Visitor, address: str) -> tuple[Page, str]:
    """Another app in a second tab, kept whole."""
    visitor.new_tab()
    visitor.address = address
    visitor.visit()
    expect(visitor.page).to_have_title(re.compile("."), timeout=WAIT_MS)
    visitor.page.evaluate(SETTLED)
    return visitor.page, address


def turn_to(visitor: Visitor, page: Page, address: str) -> Visitor:
    """The other tab."""
    visitor.page, visitor.address = page, address
    page.bring_to_front()
    return visitor


def start_again(visitor: Visitor, page: Page, address: str) -> None:
    """The other tab, loaded again."""
    turn_to(visitor, page, address).page.reload()
    visitor.listen()
