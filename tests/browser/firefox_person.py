"""A person at a Firefox: presses and reads by role and name, in the verbs of the stories."""
from __future__ import annotations

import re
import time
from collections.abc import Callable
from typing import Any, Self
from urllib.parse import urlsplit

from tests.browser.firefox import Firefox, Refused
from tests.browser.page_scripts import QUIET, SPOKEN, TREE_ON
from tests.browser.window import ERROR_CARD
from tests.stories.person import Name

WAIT_S = 40.0
START_S = 150.0
STILL_MS = 400
BUTTON = "[role=button], button, [role=tab], a[href], [role=link]"
BOX = "[role=checkbox], [role=switch], input[type=checkbox]"
FIELD = "input, textarea"
HEADING = "h1, h2, h3, h4, h5, h6, [role=heading]"
#: Of the first element of these roles with that name: where it is, and its state. It may be scrolled into view.
FOUND = """const [roles, source, flags, scroll] = args, wanted = new RegExp(source, flags);
  for (const e of document.querySelectorAll(`flt-semantics-host :is(${roles})`)) {
    const name = (e.getAttribute('aria-label') || e.textContent || '').replace(/\\s+/g, ' ').trim();
    if (!wanted.test(name)) continue;
    let r = e.getBoundingClientRect();
    const moved = scroll && (r.top < 60 || r.bottom > innerHeight - 160);
    if (moved) { e.scrollIntoView({block: 'center'}); r = e.getBoundingClientRect(); }
    return {name, moved, x: r.left + r.width / 2, y: r.top + r.height / 2,
            left: r.left, top: r.top, width: r.width, height: r.height,
            checked: e.getAttribute('aria-checked') || String(e.checked ?? ''),
            current: e.getAttribute('aria-current') || e.getAttribute('aria-selected')};
  } return null;"""


class FirefoxPerson:
    """What somebody does at one window; what is looked for is waited for."""

    def __init__(self, firefox: Firefox) -> None:
        self.firefox = firefox

    # -------------------------------------------------------------- going

    def open(self, address: str) -> Self:
        """Opens an address and switches the tree on, once the first screen stands."""
        self.firefox.go(address)
        self._until(lambda: self.firefox.js(
            "return location.href.startsWith(args[0]) && document.querySelector("
            "'flt-semantics-placeholder, flt-semantics-host flt-semantics') !== null", address.partition("#")[0]
            .partition("?")[0]), START_S, "no client")
        self._until(self._speaks, WAIT_S, "no tree")
        self._until(lambda: len(self.spoken()) > 1, START_S, "says nothing")
        return self

    def _speaks(self) -> bool:
        if self.firefox.js("return document.querySelector('flt-semantics-host flt-semantics') !== null"):
            return True
        self.firefox.js(f"({TREE_ON})()")
        return False

    def restart(self, address: str) -> Self:
        """Ends the browser and starts it again with what it kept."""
        self.firefox.quit()
        self.firefox.start()
        return self.open(address)

    @property
    def route(self) -> str:
        """The address within the app."""
        parts = urlsplit(str(self.firefox.js("return location.href")))
        return parts.fragment or parts.path

    def wait(self, seconds: float) -> Self:
        """So much time passes."""
        time.sleep(seconds)
        return self

    # -------------------------------------------------------------- reading

    def spoken(self) -> list[str]:
        """Everything that the tree says now."""
        return [line for line in self.firefox.js(f"return ({SPOKEN})()") if line]

    def sees(self, *said: Name) -> Self:
        """Waits for words."""
        for words in said:
            self._until(lambda words=words: any(_has(line, words) for line in self.spoken()), WAIT_S,
                        f"does not see {words!r}")
        return self

    def sees_heading(self, name: Name) -> Self:
        """Waits for a heading."""
        self._until(lambda: self.found(HEADING, name) is not None, WAIT_S, f"no heading {name!r}")
        return self

    def sees_button(self, name: Name) -> Self:
        """Waits for a button."""
        self._until(lambda: self.shows_button(name), WAIT_S, f"no button {name!r}")
        return self

    def shows_button(self, name: Name) -> bool:
        """Whether there is one now."""
        return self.found(BUTTON, name) is not None

    def is_well(self) -> Self:
        """No error card stands on the page."""
        cards = [line for line in self.spoken() if ERROR_CARD.search(line)]
        assert not cards, cards
        return self

    def found(self, roles: str, name: Name, *, scroll: bool = False) -> dict[str, Any] | None:
        """Where it is and how it stands; None where there is none."""
        source = name.pattern if isinstance(name, re.Pattern) else f"^{_plain(name)}$"
        flags = "i" if isinstance(name, re.Pattern) and name.flags & re.IGNORECASE else ""
        place: dict[str, Any] | None = self.firefox.js(FOUND, roles, source, flags, scroll)
        return place

    # -------------------------------------------------------------- doing

    def press(self, *names: Name, roles: str = BUTTON) -> Self:
        """Presses, one after the other."""
        for name in names:
            self._until(lambda name=name: self.found(roles, name) is not None, WAIT_S, f"nothing to press: {name!r}")
            self.firefox.js(f"await ({QUIET})(args[0])", STILL_MS)  # a scroll while the tree is written is lost
            moved = (self.found(roles, name, scroll=True) or {}).get("moved")
            self.wait(1.5 if moved else 0.3)  # the canvas follows the tree at its own pace
            spot = self._still(roles, name)
            self.firefox.click(spot["x"], spot["y"])
            self.wait(0.25)
        return self

    def _still(self, roles: str, name: Name) -> dict[str, Any]:
        before: dict[str, Any] | None = None
        for _ in range(30):
            now = self.found(roles, name)
            if now and before and (now["x"], now["y"]) == (before["x"], before["y"]):
                return now
            before = now
            self.wait(0.12)
        assert before, f"gone: {name!r}"
        return before

    def choose(self, *names: Name) -> Self:
        """Presses answers; each stands as chosen then."""
        return self._set(BUTTON, "current", names)

    def tick(self, *names: Name) -> Self:
        """Ticks boxes."""
        return self._set(BOX, "checked", names)

    def _set(self, roles: str, state: str, names: tuple[Name, ...]) -> Self:
        for name in names:
            self.press(name, roles=roles)
            self._until(lambda name=name: (self.found(roles, name) or {}).get(state) == "true", WAIT_S,
                        f"not {state}: {name!r}")
        return self

    def write(self, label: Name, value: str) -> Self:
        """Fills a field in."""
        self.press(label, roles=FIELD).wait(0.4)
        self.firefox.keys(value)
        return self.wait(0.4)

    def _until(self, test: Callable[[], Any], seconds: float, why: str) -> None:
        end = time.monotonic() + seconds
        while not self._holds(test):
            if time.monotonic() > end:
                raise AssertionError(f"{why}; the page says {self._at_last()}")
            time.sleep(0.15)

    def _holds(self, test: Callable[[], Any]) -> bool:
        try:
            return bool(test())
        except Refused:  # the page is just going
            return False

    def _at_last(self) -> str:
        try:
            return str(self.spoken())[:1500]
        except Refused as error:
            return repr(error)


def _has(line: str, words: Name) -> bool:
    return bool(words.search(line)) if isinstance(words, re.Pattern) else words.casefold() in line.casefold()


def _plain(name: str) -> str:
    """As a script's regular expression."""
    return re.sub(r"([.*+?^${}()|[\]\\/])", r"\\\1", name)
