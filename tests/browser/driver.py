"""A person at the browser: goes to an address, presses and reads by role and name, and notices what is wrong."""
from __future__ import annotations

import os
import re
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType
from typing import Self, TypeVar
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Download, Locator, Page, Playwright, WebSocket, expect

from tests.stories.person import DESKTOP as DESKTOP
from tests.stories.person import PHONE as PHONE

LYING = (915, 412)
WAIT_MS = 15_000
#: One script of the client that the page forbids itself; nothing of ours needs it.
KNOWN_OUTSIDE = re.compile(r"rive", re.IGNORECASE)
#: A click alone does nothing on a phone's placeholder: the pointer has to go down and up in its middle.
TREE_ON = """() => { const e = document.querySelector('flt-semantics-placeholder'); if (!e) return;
  const r = e.getBoundingClientRect();
  const o = {bubbles: true, clientX: r.left + r.width / 2, clientY: r.top + r.height / 2, pointerType: 'touch'};
  for (const t of ['pointerdown', 'pointerup', 'click'])
    e.dispatchEvent(new (t == 'click' ? MouseEvent : PointerEvent)(t, o)); }"""
#: Waits until the tree has stood still for a moment, so that nothing moves away under the pointer; a second at most.
QUIET = """still => new Promise(done => {
  const end = () => { seen.disconnect(); clearTimeout(late); done(); };
  let soon = setTimeout(end, still);
  const late = setTimeout(end, 8 * still);
  const seen = new MutationObserver(() => { clearTimeout(soon); soon = setTimeout(end, still); });
  seen.observe(document.body, {subtree: true, childList: true, attributes: true, characterData: true}); })"""
QUIET_MS = 120
STILL_S = 0.15
SAME_WITHIN_S = 6
T = TypeVar("T")
LARGE_PRINT = "size => document.documentElement.style.fontSize = size"
ERROR_CARD = re.compile(r"Error running app|Something went wrong|Traceback", re.IGNORECASE)


PRESSABLES = """() => [...document.querySelectorAll(
    'flt-semantics-host :is([role=button], [role=checkbox], [role=radio], [role=switch], [role=tab], input, textarea)')]
  .map(e => { const r = e.getBoundingClientRect();
    return {name: (e.getAttribute('aria-label') || e.textContent || '').trim(), role: e.getAttribute('role') || 'field',
            left: r.left, right: r.right, top: r.top, bottom: r.bottom}; })"""


@dataclass(frozen=True)
class Pressable:
    """Something to press or write in, and where it stands, px."""

    name: str
    role: str
    left: float
    right: float
    top: float
    bottom: float

    @property
    def is_large_enough(self) -> bool:
        """At least 48 px each way, less what rounding takes."""
        return min(self.right - self.left, self.bottom - self.top) >= 47.5


def launch(playwright: Playwright, path: str) -> Browser:
    """A Chromium without a window, which knows no other machine than this one."""
    args = ["--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1", "--autoplay-policy=no-user-gesture-required"]
    args += ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    return playwright.chromium.launch(executable_path=path, args=args)


class Walker:
    """One window of a browser. As a context manager it ends by asserting that nothing was amiss.

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

    def open(self, address: str) -> Walker:
        """Opens an address and switches the accessibility tree on."""
        self.page.goto(address)
        return self.listen()

    def let_in(self, address: str) -> Walker:
        """As another window of this browser that opens an address: what is open here goes on with its cookie."""
        assert self.context.request.get(address).ok
        return self

    def listen(self) -> Walker:
        """Switches the accessibility tree on."""
        page = self.page
        page.wait_for_selector("flt-semantics-placeholder, flt-semantics-host flt-semantics", state="attached",
                               timeout=60_000)
        for _ in range(40):
            if page.locator("flt-semantics-host flt-semantics").count():
                break
            page.evaluate(TREE_ON)
            page.wait_for_timeout(250)
        return self

    def go(self, path: str, heading: str = "") -> Walker:
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

    def look(self, size: tuple[int, int], *, dark: bool = False, large_print: bool = False) -> Walker:
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

    def settle(self) -> Walker:
        """Waits until neither the app nor the page has stirred for a moment; a second or two at most."""
        self.page.wait_for_timeout(60)
        self._until(lambda: time.monotonic() - self._stirred > STILL_S, 1.5)
        self.page.evaluate(QUIET, QUIET_MS)
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

    def new_tab(self) -> Walker:
        """Another tab of the same window; this walker goes on in it."""
        self.page = self._tab()
        return self

    def wait(self, seconds: float) -> Walker:
        """So much time passes."""
        self.page.wait_for_timeout(seconds * 1000)
        return self

    # -------------------------------------------------------------- reading

    @property
    def route(self) -> str:
        """The address within the app: without the server and the key, or what stands behind the hash."""
        parts = urlsplit(self.page.url)
        return parts.fragment or parts.path

    def button(self, name: str | re.Pattern[str]) -> Locator:
        """The button of that name; a name given as text must be the whole of it."""
        return self.page.get_by_role("button", name=name, exact=isinstance(name, str))

    def words(self, words: str | re.Pattern[str]) -> Locator:
        """Words on the page, or what a drawing says aloud."""
        return self.page.get_by_text(words).or_(self.page.get_by_label(words)).first

    def sees(self, *said: str | re.Pattern[str]) -> Walker:
        """Waits for words."""
        for words in said:
            self._expect(self.words(words))
        return self

    def sees_heading(self, name: str | re.Pattern[str]) -> Walker:
        """Waits for a heading."""
        self._expect(self.page.get_by_role("heading", name=name, exact=isinstance(name, str)).first)
        return self

    def sees_button(self, name: str | re.Pattern[str]) -> Walker:
        """Waits for a button."""
        self._expect(self.button(name).first)
        return self

    def sees_chosen(self, name: str | re.Pattern[str]) -> Walker:
        """Waits until that button stands as chosen."""
        expect(self.button(name).first).to_have_attribute("aria-current", "true", timeout=WAIT_MS)
        return self

    def sees_no_button(self, name: str | re.Pattern[str]) -> Walker:
        """There is no such button once the page has come to rest."""
        self.settle()
        expect(self.button(name)).to_have_count(0)
        return self

    def shows_button(self, name: str | re.Pattern[str]) -> bool:
        """Whether there is such a button now."""
        return bool(self.button(name).count())

    def says(self) -> list[str]:
        """Everything that the page says, once it says something."""
        end = time.monotonic() + WAIT_MS / 1000
        while len(said := self.spoken()) < 2:
            assert time.monotonic() < end, f"{self.page.url} says only {said}"
            self.page.wait_for_timeout(50)
        return said

    def spoken(self) -> list[str]:
        """Everything that the accessibility tree says now."""
        return [line for line in self.page.evaluate(SPOKEN) if line]

    def pressables(self) -> list[Pressable]:
        """Everything on the page that can be pressed or written in."""
        return [Pressable(**one) for one in self.page.evaluate(PRESSABLES)]

    def focused(self) -> str:
        """The name of what the keyboard would press now; empty for nothing."""
        return str(self.page.evaluate(
            "() => (document.activeElement?.getAttribute('aria-label') || document.activeElement?.textContent || '')"))

    def _expect(self, found: Locator) -> None:
        try:
            expect(found).to_be_attached(timeout=WAIT_MS)
        except AssertionError as absent:
            raise AssertionError(f"{absent}\nThe page says: {self.spoken()}") from None

    # -------------------------------------------------------------- doing

    def press(self, *names: str | re.Pattern[str]) -> Walker:
        """Presses buttons, one after the other."""
        for name in names:
            self._press(self.button(name).first)
        return self

    def choose(self, *names: str | re.Pattern[str]) -> Walker:
        """Presses answers, one after the other, and waits until each stands as chosen."""
        for name in names:
            self.press(name).sees_chosen(name)
        return self

    def tick(self, *names: str | re.Pattern[str]) -> Walker:
        """Ticks boxes."""
        for name in names:
            box = self.page.get_by_role("checkbox", name=name, exact=isinstance(name, str)).first
            self._press(box)
            expect(box).to_be_checked(timeout=WAIT_MS)
        return self

    def _press(self, found: Locator) -> None:
        self._expect(found)
        self.page.evaluate(QUIET, QUIET_MS)
        found.click()
        self.is_well()

    def write(self, label: str | re.Pattern[str], value: str) -> Walker:
        """Fills a field in."""
        field = self.page.get_by_role("textbox", name=label).first
        self._expect(field)
        field.click()
        field.fill(value)
        self.page.keyboard.press("Tab")
        return self

    def paste(self, label: str | re.Pattern[str], text: str) -> Walker:
        """Puts a long text into a field at once; typing it would take minutes."""
        field = self.page.get_by_role("textbox", name=label).first
        expect(field).to_be_attached()
        self.settle()
        field.focus()
        self.page.evaluate("text => document.execCommand('insertText', false, text)", text)
        expect(field).not_to_have_value("")
        return self.settle()

    def choose_file(self, button: str | re.Pattern[str], *files: Path) -> Walker:
        """Presses a button that asks for files, and gives it these."""
        with self.page.expect_file_chooser() as chooser:
            self.press(button)
        chooser.value.set_files(list(files))
        return self

    @contextmanager
    def download(self) -> Iterator[list[Download]]:
        """What is downloaded within."""
        got: list[Download] = []
        with self.page.expect_download(timeout=30_000) as waiting:
            yield got
        got.append(waiting.value)

    def key(self, name: str) -> Walker:
        """Presses a key."""
        self.page.keyboard.press(name)
        return self

    def picture(self, place: Path) -> None:
        """Saves what is on the screen, once it stands still."""
        place.parent.mkdir(parents=True, exist_ok=True)
        self.page.mouse.move(0, 0)
        seen, alike = self.page.screenshot(), 0
        for _ in range(40):
            self.page.wait_for_timeout(120)
            before, seen = seen, self.page.screenshot()
            alike = alike + 1 if seen == before else 0
            if alike == 2:
                break
        place.write_bytes(seen)

    # -------------------------------------------------------------- being well

    def is_well(self) -> Walker:
        """No error card stands on the page."""
        cards = [line for line in self.spoken() if ERROR_CARD.search(line)]
        assert not cards, cards
        return self

    def forgive(self) -> Walker:
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


SPOKEN = """() => [...document.querySelectorAll('flt-semantics-host *')]
  .map(e => e.getAttribute('aria-label') || (e.children.length ? '' : e.textContent))"""
