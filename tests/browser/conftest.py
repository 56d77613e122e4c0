"""One browser for all tests of this folder; servers of their own where a test needs one."""
from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

from tests.browser.driver import launch
from tests.browser.prepared import prepare
from tests.browser.server import Server


@pytest.fixture(scope="package")
def browser(browser_path: str) -> Iterator[Browser]:
    """A Chromium without a window."""
    with sync_playwright() as playwright:
        chromium = launch(playwright, browser_path)
        yield chromium
        chromium.close()


@pytest.fixture(scope="package")
def demo_data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's story as it stands on one certain morning. To be copied, not to be changed."""
    return prepare("demo", tmp_path_factory.mktemp("story") / "data")


@pytest.fixture(scope="package")
def ready(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Somebody whose session is one press away. To be copied."""
    return prepare("ready", tmp_path_factory.mktemp("ready") / "data")


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
