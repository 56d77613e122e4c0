"""One browser for all tests of this folder; servers of their own where a test needs one."""
from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Playwright, sync_playwright

from tests.browser.lab import LAB_FILES, Lab
from tests.browser.server import Server
from tests.browser.static_site import StaticSite
from tests.browser.web_app import make_web_app
from tests.browser.window import launch


@pytest.fixture(scope="package")
def playwright() -> Iterator[Playwright]:
    """What drives browsers; one for all."""
    with sync_playwright() as driver:
        yield driver


@pytest.fixture(scope="package")
def browser(playwright: Playwright, browser_path: str) -> Iterator[Browser]:
    """A Chromium without a window."""
    chromium = launch(playwright, browser_path)
    yield chromium
    chromium.close()


@pytest.fixture
def serve() -> Iterator[Callable[..., Server]]:
    """Starts the app on a data directory; all of them are ended afterwards, and none may have complained."""
    servers: list[Server] = []

    def started(data_dir: Path, *more: str) -> Server:
        data_dir.mkdir(parents=True, exist_ok=True)
        servers.append(Server(data_dir, *more).start())
        return servers[-1]

    yield started
    for server in servers:
        server.stop()
    assert not [s.complaints() for s in servers if s.complaints()]


@pytest.fixture(scope="session")
def web_app(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The offline web app as a folder for any static host, made once. Only to be read."""
    given = os.environ.get("EVENLOAD_SITE")
    return Path(given) if given else make_web_app(tmp_path_factory.mktemp("web"))


@pytest.fixture(scope="module")
def lab_site(web_app: Path) -> Iterator[StaticSite]:
    """The web app's folder served at `/`, with the lab beside it."""
    with StaticSite({"/": web_app}, LAB_FILES) as site:
        yield site


@pytest.fixture(scope="module")
def lab(browser: Browser, lab_site: StaticSite) -> Iterator[Lab]:
    """One Python in the browser for all tests of a module."""
    page = Lab(browser, lab_site.address)
    yield page
    page.close()
