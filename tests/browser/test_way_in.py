"""The page in the data directory leads a real browser in, to its own host name where the browser finds it."""
from __future__ import annotations

import os
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import ClassVar

import pytest
from playwright.sync_api import Browser, Page, Playwright

from app.data_folder import WAY_IN
from tests import small_app

pytestmark = pytest.mark.browser

NAME = "evenload.localhost"


@pytest.fixture
def knowing(playwright: Playwright, browser_path: str) -> Iterator[Browser]:
    """A Chromium that finds this machine by every name below `localhost`, as it does by itself."""
    args = ["--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1 , EXCLUDE *.localhost"]
    args += ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    chromium = playwright.chromium.launch(executable_path=browser_path, args=args)
    yield chromium
    chromium.close()


class _Neighbour(BaseHTTPRequestHandler):
    """Another server on this machine, which keeps every cookie that it is sent."""

    seen: ClassVar[list[str]] = []

    def do_GET(self) -> None:
        self.seen.append(self.headers.get("Cookie", ""))
        self.send_response(200)
        self.end_headers()

    def log_message(self, *_: object) -> None:
        """Nothing."""


@pytest.fixture
def neighbour() -> Iterator[str]:
    """Its address."""
    _Neighbour.seen.clear()
    server = ThreadingHTTPServer(("127.0.0.1", 0), _Neighbour)
    Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()


def led_in(browser: Browser, page_file: Path) -> Page:
    """A window that opened the page and was led on until the app was drawn."""
    page = browser.new_context().new_page()
    sockets: list[str] = []
    page.on("websocket", lambda socket: sockets.append(socket.url))
    page.goto(page_file.as_uri(), wait_until="commit")
    page.wait_for_selector("flutter-view", state="attached", timeout=60_000)
    assert "key" not in page.url and sockets
    return page


def test_the_app_is_at_its_own_name_and_its_cookie_goes_nowhere_else(
    knowing: Browser, neighbour: str, tmp_path: Path,
) -> None:
    """Neither a key nor the cookie reaches another server of this machine; the window can be loaded again."""
    with small_app.running(tmp_path, NAME):
        page = led_in(knowing, tmp_path / WAY_IN)
        assert page.url.startswith(f"http://{NAME}:")
        cookie, = page.context.cookies()
        assert (cookie["domain"], cookie["httpOnly"], cookie["sameSite"]) == (NAME, True, "Strict")
        page.reload()
        page.wait_for_selector("flutter-view", state="attached", timeout=60_000)
        page.goto(neighbour)
        assert _Neighbour.seen and set(_Neighbour.seen) == {""}
        assert page.context.cookies()


def test_a_browser_that_does_not_know_the_name_stays_at_the_address(browser: Browser, tmp_path: Path) -> None:
    """And a second window is let in by the same page, whose key is another one by now."""
    with small_app.running(tmp_path, NAME):
        for _ in range(2):
            page = led_in(browser, tmp_path / WAY_IN)
            assert page.url.startswith("http://127.0.0.1:")
            page.context.close()
