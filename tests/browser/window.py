"""One window of a browser: goes to addresses, waits until the app has answered, and notices what is wrong."""
from __future__ import annotations

import os
import re
import time
from collections.abc import Callable
from types import TracebackType
from typing import Self, TypeVar
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Locator, Page, Playwright, WebSocket, expect

from tests.browser.page_scripts import DRAWS, LARGE_PRINT, QUIET, SPOKEN, TREE_ON
from tests.hung import FROZEN
from tests.stories.person import PHONE

WAIT_MS = 60_000
"""For what has to come: a busy machine takes long, and nothing is waited for longer than it needs."""
#: One script of the client that the page forbids itself; nothing of ours needs it.
KNOWN_OUTSIDE = re.compile(r"rive", re.IGNORECASE)
QUIET_MS = 120
STILL_S = 0.15
DRAWN_WITHIN_MS = 20_000
SAME_WITHIN_S = 20
T = TypeVar("T")
ERROR_CARD = re.compile(r"Error running app|Something went wrong|Traceback", re.IGNORECASE)


def launch(playwright: Playwright, path: str) -> Browser:
    """A Chromium without a window, which knows no other machine than this one."""
    args = ["--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1", "--autoplay-policy=no-user-gesture-required"]
    args += ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    return playwright.chromium.launch(executable_path=path, args=args)


class Window:
    """As a context manager it ends by asserting that nothing was amiss.

    `scale` is dots per px: few of them where pages are measured and not looked at. `proxy` is asked for every machine
    but this one.
    """

    def __init__(self, browser: Browser, *, size: tuple[int, int] = PHONE, scale: float = 1, proxy: str = "") -> None:
        self.context = browser.new_context(
            viewport={"width": size[0], "height": size[1]}, accept_downloads=True, reduced_motion="reduce",
            locale="en-GB", device_scale_factor=scale,
            proxy={"server": proxy, "bypass": "127.0.0.1"} if proxy else None,
        )
        self.outside: list[str] = []
        self.errors: list[str] = []
        self.context.on("request", lambda request: self._watch(request.url))
        self._heard, self._stirred = 0, time.monotonic()
        self._speaks = False  # an app within the browser needs no server to speak with
        self._look: dict[str, object] = {"size": size, "ink": False, "print": False}
        self.page = self._tab()

    def _tab(self) -> Page:
        page = self.context.new_page()
        page.set_default_timeout(WAIT_MS)
        page.on("console", lambda message: self._note(message.text) if message.type == "error" else None)
        page.on("pageerror", lambda error: self._note(str(error)))
        page.on("websocket", self._listen_in)
        return page

    def _watch(self, url: str) -> None:
        parts = urlsplit(url)
        if parts.scheme in {"http", "https", "ws", "wss"} and parts.hostname != "127.0.0.1":
            self.outside.append(url)

    def _note(self, words: str) -> None:
        if not KNOWN_OUTSIDE.search(words):
            self.errors.append(words)

    # -------------------------------------------------------------- going

    def open(self, address: str) -> Self:
        """Opens an address and switches the accessibility tree on."""
        self.page.goto(address)
        return self.listen()

    def let_in(self, address: str) -> Self:
        """As another window of this browser that opens an address: what is open here goes on with its cookie."""
        assert self.context.request.get(address).ok
        return self

    def listen(self) -> Self:
        """Switches the accessibility tree on."""
        page = self.page
        page.wait_for_selector("flt-semantics-placeholder, flt-semantics-host flt-semantics", state="attached",
                               timeout=2 * WAIT_MS)
        for _ in range(40):
            if page.locator("flt-semantics-host flt-semantics").count():
                break
            page.evaluate(TREE_ON)
            page.wait_for_timeout(250)
        return self

    def go(self, path: str, heading: str = "") -> Self:
        """Goes to another address of the app without loading it anew, as by the browser's own history.

        Waits for the app's answer, so that what is read next is not the page before; and for the address's own heading,
        where that is given. To the same address again there is no answer.
        """
        heard, same = self._heard, self.route == path
        self.page.evaluate("to => { history.pushState(null, '', to); dispatchEvent(new PopStateEvent('popstate')); }",
                           path)
        if self._speaks and not same:
            self._answered(heard)
        self.settle()
        return self.sees_heading(heading) if heading else self

    def until(self, read: Callable[[], T], wanted: T) -> T:
        """What is read, once it is what was wanted; else what is still read after a while."""
        end = time.monotonic() + SAME_WITHIN_S
        while (found := read()) != wanted and time.monotonic() < end:
            self.page.wait_for_timeout(100)
        return found

    def look(self, size: tuple[int, int], *, dark: bool = False, large_print: bool = False) -> Self:
        """Another size of the window, other inks, text at 200 %; each once the app has answered the one before."""
        page = self.page
        width, height = size
        changes: dict[str, tuple[object, Callable[[], object]]] = {
            "print": (large_print, lambda: page.evaluate(LARGE_PRINT, "32px" if large_print else "")),
            "ink": (dark, lambda: page.emulate_media(color_scheme="dark" if dark else "light")),
            "size": (size, lambda: page.set_viewport_size({"width": width, "height": height})),
        }
        for name, (wanted, change) in changes.items():
            if self._look.get(name) != wanted:
                heard = self._heard
                change()
                self._look[name] = wanted
                self._answered(heard)
                self.settle()
        return self

    def settle(self) -> Self:
        """Waits until neither the app nor the page has stirred for a moment; a second or two at most."""
        self.page.wait_for_timeout(60)
        self._until(lambda: time.monotonic() - self._stirred > STILL_S, 1.5)
        if not self.page.evaluate(QUIET, QUIET_MS):
            assert self.page.evaluate(DRAWS, DRAWN_WITHIN_MS), f"{FROZEN} {DRAWN_WITHIN_MS // 1000} s"
        return self

    def _answered(self, heard: int) -> None:
        self._until(lambda: self._heard > heard, 3)

    def _until(self, test: Callable[[], bool], seconds: float) -> None:
        end = time.monotonic() + seconds
        while not test() and time.monotonic() < end:
            self.page.wait_for_timeout(30)

    def _listen_in(self, socket: WebSocket) -> None:
        """Notes when the app speaks with the page."""
        self._speaks = True

        def heard(_: object) -> None:
            self._heard += 1
            self._stirred = time.monotonic()

        def said(_: object) -> None:
            self._stirred = time.monotonic()
        socket.on("framereceived", heard)
        socket.on("framesent", said)

    def new_tab(self) -> Self:
        """Another tab of the same window; this walker goes on in it."""
        self.page = self._tab()
        return self

    def wait(self, seconds: float) -> Self:
        """So much time passes."""
        self.page.wait_for_timeout(seconds * 1000)
        return self

    # -------------------------------------------------------------- what stands there

    @property
    def route(self) -> str:
        """The address within the app: without the server and the key, or what stands behind the hash."""
        parts = urlsplit(self.page.url)
        return parts.fragment or parts.path

    def sees_heading(self, name: str | re.Pattern[str]) -> Self:
        """Waits for a heading."""
        self._expect(self.page.get_by_role("heading", name=name, exact=isinstance(name, str)).first)
        return self

    def spoken(self) -> list[str]:
        """Everything that the accessibility tree says now."""
        return [line for line in self.page.evaluate(SPOKEN) if line]

    def _expect(self, found: Locator) -> None:
        try:
            expect(found).to_be_attached(timeout=WAIT_MS)
        except AssertionError as absent:
            raise AssertionError(f"{absent}\nThe page says: {self.spoken()}") from None

    # -------------------------------------------------------------- being well

    def is_well(self) -> Self:
        """No error card stands on the page."""
        cards = [line for line in self.spoken() if ERROR_CARD.search(line)]
        assert not cards, cards
        return self

    def forgive(self) -> Self:
        """Forgets complaints of the browser so far, as when its server was killed on purpose."""
        self.errors.clear()
        return self

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None,
                 trace: TracebackType | None) -> None:
        try:
            if kind is None:
                self.is_well()
                assert not [url for url in self.outside if not KNOWN_OUTSIDE.search(url)], self.outside
                assert not self.errors, self.errors
        finally:
            self.context.close()
