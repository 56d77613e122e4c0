"""A person at the app without a browser: presses and reads by role and name, as `tests/browser/driver.py` does.

The real app runs on a real Flet session; `client.py` stands where the client would be, and `nodes.py` reckons roles and
names from the controls.
"""
from __future__ import annotations

import asyncio
import logging
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Self

import flet as ft

from tests.stories.person import PHONE, Name
from tests.tree.client import Client, Machine, Main, Saved
from tests.tree.nodes import (
    Node,
    Test,
    every,
    lost_in_live_regions,
    named,
    nodes,
    saying,
    shown_in_chromium_alone,
    skipped_levels,
)
from tests.tree.still_loop import StillLoop

#: Of the loop's time, which costs nothing.
WAIT_S = 15.0
#: What an act takes a person: no two records are of one instant, and no press comes sooner than a hand could.
ACT_S = 0.2


class Complaints(logging.Handler):
    """Notes what the app and Flet log as errors."""

    def __init__(self, errors: list[str]) -> None:
        super().__init__(logging.ERROR)
        self._errors = errors

    def emit(self, record: logging.LogRecord) -> None:
        trace = logging.Formatter().formatException(record.exc_info) if record.exc_info else ""
        self._errors.append(f"{record.getMessage()}\n{trace}")


class TreeWalker:
    """One window of the app. As a context manager it ends by asserting that nothing was amiss."""

    def __init__(self, loop: StillLoop, main: Main, *, size: tuple[int, int] = PHONE, calm: bool = True) -> None:
        self.loop, self._main, self.size = loop, main, size
        self.machine = Machine(calm=calm)
        self.client = Client(loop, self.machine)
        self.errors: list[str] = []
        loop.set_exception_handler(lambda _, what: self.errors.append(str(what.get("exception") or what["message"])))
        self._log = Complaints(self.errors)
        logging.getLogger().addHandler(self._log)

    # -------------------------------------------------------------- going

    def open(self, route: str = "/") -> Self:
        """Opens the app at one of its addresses."""
        width, height = self.size
        self.client.register(self._main, {"route": route, "web": True, "platform": "linux", "width": width,
                                          "height": height, "platform_brightness": "light"})
        return self.settle()

    def go(self, route: str) -> Self:
        """Goes to another address, as by the browser's own history."""
        self.client.event(self.client.page, "route_change", {"route": route}, route=route)
        return self.settle()

    def look(self, size: tuple[int, int]) -> Self:
        """Another size of the window."""
        props = dict(zip(("width", "height"), size, strict=True))
        self.client.event(self.client.page, "resize", props, **props)
        return self.settle()

    def settle(self) -> Self:
        """Lets everything run that follows from an act."""
        self.loop.advance(ACT_S)
        return self

    def wait(self, seconds: float) -> Self:
        """So much time passes."""
        self.loop.advance(seconds)
        return self

    # -------------------------------------------------------------- reading

    @property
    def route(self) -> str:
        """The address."""
        return self.client.page.route or "/"

    def nodes(self) -> list[Node]:
        """Everything on the page and over it."""
        return [node for part in self._parts() for node in nodes(part)]

    def controls(self) -> list[ft.BaseControl]:
        """Every control that is shown, whether a screen reader finds it or not."""
        return list(every(self._parts()))

    def _parts(self) -> tuple[Sequence[ft.BaseControl], ...]:
        page = self.client.page
        return page.views, page.overlay, [one for one in page._dialogs.controls if getattr(one, "open", True)]

    def spoken(self) -> list[str]:
        """Everything that the page says now."""
        return [node.name for node in self.nodes() if node.name]

    def says(self) -> list[str]:
        """The same, once it says something."""
        self._await(lambda node: bool(node.name), "anything")
        return self.spoken()

    def found(self, test: Test) -> list[Node]:
        """All nodes that pass a test."""
        return [node for node in self.nodes() if test(node)]

    def shows_button(self, name: Name) -> bool:
        """Whether there is such a button now."""
        return bool(self.found(named("button", name)))

    def sees(self, *said: Name) -> Self:
        """Waits for words."""
        for words in said:
            self._await(saying(words), words)
        return self

    def sees_heading(self, name: Name) -> Self:
        """Waits for a heading."""
        self._await(named("heading", name), name)
        return self

    def sees_button(self, name: Name) -> Self:
        """Waits for a button."""
        self._await(named("button", name), name)
        return self

    def sees_chosen(self, name: Name) -> Self:
        """Waits until that button stands as chosen."""
        self._await(named("button", name, state="chosen"), name)
        return self

    def sees_no_button(self, name: Name) -> Self:
        """There is no such button when the page has come to rest."""
        assert not self.settle().shows_button(name), f"still there: {name}"
        return self

    def _await(self, test: Test, wanted: Name) -> Node:
        end = self.loop.time() + WAIT_S
        while not (there := self.found(test)):
            assert self.loop.time() < end, f"not there: {wanted}\nThe page says: {self.spoken()}"
            self.loop.advance(end - self.loop.time(), to_next_timer=True)
        return there[0]

    # -------------------------------------------------------------- doing

    def press(self, *names: Name) -> Self:
        """Presses buttons, one after the other."""
        for name in names:
            self._press(self._await(named("button", name), name))
        return self

    def choose(self, *names: Name) -> Self:
        """Presses answers, one after the other; each must stand as chosen then."""
        for name in names:
            self.press(name).sees_chosen(name)
        return self

    def tick(self, *names: Name) -> Self:
        """Ticks boxes."""
        for name in names:
            self._press(self._await(named("checkbox", name), name))
            self._await(named("checkbox", name, state="ticked"), name)
        return self

    def _press(self, node: Node) -> None:
        control = node.control
        assert control is not None and not getattr(control, "disabled", False), f"cannot be pressed: {node.name}"
        if isinstance(control, (ft.Checkbox, ft.Switch)):
            self.client.event(control, "change", not control.value, value=not control.value)
        else:
            self.client.event(control, "click")
        self.settle().is_well()

    def write(self, label: Name, value: str) -> Self:
        """Fills a field in and leaves it."""
        field = self._await(saying(label, "textbox"), label).control
        assert field is not None
        self.client.event(field, "change", value, value=value)
        self.settle()
        if getattr(field, "on_blur", None):
            self.client.event(field, "blur")
        return self.settle()

    def paste(self, label: Name, text: str) -> Self:
        """Puts a long text into a field."""
        return self.write(label, text)

    def choose_file(self, button: Name, *files: Path) -> Self:
        """Presses a button that asks for files, and gives it these."""
        self.machine.to_pick = list(files)
        return self.press(button)

    @contextmanager
    def download(self) -> Iterator[list[Saved]]:
        """What is saved within."""
        before, got = len(self.machine.saved), list[Saved]()
        yield got
        got += self.machine.saved[before:]
        assert got, "nothing was saved"

    # -------------------------------------------------------------- being well

    def is_well(self) -> Self:
        """The app has not crashed, nothing was logged as an error, and all that can be pressed can be found."""
        assert not self.client.crashes and not self.errors, [*self.client.crashes, *self.errors]
        shown = self.controls()
        lost = lost_in_live_regions(shown)
        assert not lost, f"within a live region: {lost}"
        skipped = skipped_levels(shown)
        assert not skipped, f"{self.route}: heads that skip a level: {skipped}"
        unshown = shown_in_chromium_alone(shown)
        assert not unshown, f"seen in Chromium alone: {unshown}"
        return self

    @contextmanager
    def beside(self, route: str) -> Iterator[TreeWalker]:
        """Another window of the same app, open at the same time."""
        other = TreeWalker(self.loop, self._main, size=self.size)
        try:
            yield other.open(route)
            other.settle().is_well()
        finally:
            logging.getLogger().removeHandler(other._log)
            self.loop.finish(other.client.session.disconnect(0))

    def close(self) -> None:
        """Closes the window, and everything that still runs in it."""
        logging.getLogger().removeHandler(self._log)
        self.loop.finish(self.client.session.disconnect(0))
        tasks = asyncio.all_tasks(self.loop)
        for task in tasks:
            task.cancel()
        if tasks:  # of none there would be a future of another loop
            self.loop.finish(asyncio.gather(*tasks, return_exceptions=True))
        self.loop.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None,
                 trace: TracebackType | None) -> None:
        try:
            if kind is None:
                self.settle().is_well()
        finally:
            self.close()
