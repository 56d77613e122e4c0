"""A person at the browser: presses and reads by role and name, in a window that notices what is wrong."""
from __future__ import annotations

import re
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Self

from playwright.sync_api import Download, Error, Locator, expect
from playwright.sync_api import TimeoutError as StillMoving

from tests.browser.page_scripts import PRESSABLES, QUIET
from tests.browser.window import QUIET_MS, WAIT_MS, Window
from tests.stories.person import DESKTOP as DESKTOP
from tests.stories.person import PHONE as PHONE

LYING = (915, 412)
BRINGS, BRING_MS = 5, 10_000
"""So often something is scrolled to that is drawn anew meanwhile."""
#: A figure lies over this button and lets presses through, which the browser driver's own click does not believe.
OVERLAID = re.compile("^Easier: ")


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


class Walker(Window):
    """Whoever sits before one window of a browser."""

    # -------------------------------------------------------------- reading

    def button(self, name: str | re.Pattern[str]) -> Locator:
        """The button of that name; a name given as text must be the whole of it."""
        return self.page.get_by_role("button", name=name, exact=isinstance(name, str))

    def words(self, words: str | re.Pattern[str]) -> Locator:
        """Words on the page, or what a drawing says aloud."""
        return self.page.get_by_text(words).or_(self.page.get_by_label(words)).first

    def sees(self, *said: str | re.Pattern[str]) -> Self:
        """Waits for words."""
        for words in said:
            self._expect(self.words(words))
        return self

    def sees_button(self, name: str | re.Pattern[str]) -> Self:
        """Waits for a button."""
        self._expect(self.button(name).first)
        return self

    def sees_chosen(self, name: str | re.Pattern[str]) -> Self:
        """Waits until that button stands as chosen."""
        expect(self.button(name).first).to_have_attribute("aria-current", "true", timeout=WAIT_MS)
        return self

    def sees_no_button(self, name: str | re.Pattern[str]) -> Self:
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

    def pressables(self) -> list[Pressable]:
        """Everything on the page that can be pressed or written in."""
        return [Pressable(**one) for one in self.page.evaluate(PRESSABLES)]

    def focused(self) -> str:
        """The name of what the keyboard would press now; empty for nothing."""
        return str(self.page.evaluate(
            "() => (document.activeElement?.getAttribute('aria-label') || document.activeElement?.textContent || '')"))

    # -------------------------------------------------------------- doing

    def press(self, *names: str | re.Pattern[str]) -> Self:
        """Presses buttons, one after the other."""
        for name in names:
            self._press(self.button(name).first)
        return self

    def choose(self, *names: str | re.Pattern[str]) -> Self:
        """Presses answers, one after the other, and waits until each stands as chosen."""
        for name in names:
            self.press(name).sees_chosen(name)
        return self

    def tick(self, *names: str | re.Pattern[str]) -> Self:
        """Ticks boxes."""
        for name in names:
            box = self.page.get_by_role("checkbox", name=name, exact=isinstance(name, str)).first
            self._press(box)
            expect(box).to_be_checked(timeout=WAIT_MS)
        return self

    def _press(self, found: Locator) -> None:
        self._expect(found)
        self.page.evaluate(QUIET, QUIET_MS)
        if OVERLAID.search(found.get_attribute("aria-label") or found.text_content() or ""):
            self.press_at(found)
        else:
            self._bring(found)
            found.click()
        self.is_well()

    def _bring(self, found: Locator) -> None:
        """Scrolls to it where it is out of sight; the app's own picture follows the page's scrolling somewhat later."""
        for tries in range(BRINGS):
            before = found.bounding_box()
            try:
                found.scroll_into_view_if_needed(timeout=BRING_MS)
                break
            except StillMoving:  # it is drawn anew all the time; what presses it waits until it stands
                break
            except Error as error:  # drawn anew meanwhile: another node has its place
                if "not attached" not in str(error) or tries == BRINGS - 1:
                    raise
        if found.bounding_box() != before:
            self.page.evaluate(QUIET, QUIET_MS)

    def press_at(self, found: Locator, off: tuple[float, float] = (0, 0)) -> None:
        """With the pointer, so many px beside the middle of what is found."""
        self._bring(found)
        box, before = found.bounding_box(), None
        while box is None or box != before:  # a page that still moves would be pressed elsewhere
            self.page.wait_for_timeout(100)
            box, before = found.bounding_box(), box
        self.page.mouse.click(box["x"] + box["width"] / 2 + off[0], box["y"] + box["height"] / 2 + off[1])

    def write(self, label: str | re.Pattern[str], value: str) -> Self:
        """Fills a field in."""
        field = self.page.get_by_role("textbox", name=label).first
        self._expect(field)
        self.page.evaluate(QUIET, QUIET_MS)
        self._bring(field)
        field.focus()  # a pointer would press where the app's picture, which follows later, shows something else
        self._filled(field, value)
        self.page.keyboard.press("Tab")
        return self

    def _filled(self, field: Locator, value: str) -> None:
        """Until it stands there: what is written in the moment in which Flutter takes the field over is emptied."""
        until = time.monotonic() + WAIT_MS / 1000
        while time.monotonic() < until:
            field.fill(value)
            self.page.wait_for_timeout(QUIET_MS)
            if field.input_value() == value:
                return
        raise AssertionError(f"It does not take {value!r}: {self.spoken()}")

    def paste(self, label: str | re.Pattern[str], text: str) -> Self:
        """Puts a long text into a field at once; typing it would take minutes."""
        field = self.page.get_by_role("textbox", name=label).first
        expect(field).to_be_attached(timeout=WAIT_MS)
        self.settle()
        field.focus()
        self.page.evaluate("text => document.execCommand('insertText', false, text)", text)
        expect(field).not_to_have_value("", timeout=WAIT_MS)
        return self.settle()

    def choose_file(self, button: str | re.Pattern[str], *files: Path) -> Self:
        """Presses a button that asks for files, and gives it these."""
        with self.page.expect_file_chooser() as chooser:
            self.press(button)
        chooser.value.set_files(list(files))
        return self

    @contextmanager
    def download(self) -> Iterator[list[Download]]:
        """What is downloaded within."""
        got: list[Download] = []
        with self.page.expect_download(timeout=WAIT_MS) as waiting:
            yield got
        got.append(waiting.value)

    def key(self, name: str) -> Self:
        """Presses a key."""
        self.page.keyboard.press(name)
        return self

    def picture(self, place: Path) -> None:
        """Saves what is on the screen, once it stands still."""
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(self._still())

    def stands_still(self) -> Self:
        """Waits until what is on the screen has stopped changing: the picture follows the tree somewhat later."""
        self._still()
        return self

    def _still(self) -> bytes:
        self.page.mouse.move(0, 0)
        seen, alike = self.page.screenshot(), 0
        for _ in range(40):
            self.page.wait_for_timeout(120)
            before, seen = seen, self.page.screenshot()
            alike = alike + 1 if seen == before else 0
            if alike == 2:
                break
        return seen
