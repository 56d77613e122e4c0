"""What every screen is handed: the store, the machine, the clock, the page's size, and where to go."""
from __future__ import annotations

import functools
import inspect
import logging
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import parse_qs

import flet as ft

from app.actions.files.bundled import Bundled
from app.actions.people import chosen_id
from app.device.abilities import Device
from app.device.clock import Clock
from app.device.window import answer_of
from app.domain.branding.brand import EVENLOAD, Brand
from app.domain.branding.palette import Palette
from app.domain.errors import AppError
from app.storage.database import Store
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.shell.session_lead import Leading, StartPressed
from app.ui.shell.visit import start
from app.words import errors

#: First words of the addresses that a coach's link leads to: a file beside the app, and a key.
LINKS = frozenset({"get", "key"})
log = logging.getLogger("evenload")


@dataclass(frozen=True)
class Tools:
    """Wired once per page; the same for every screen."""

    store: Store
    device: Device
    clock: Clock
    page: ft.Page
    brand: Brand = EVENLOAD
    leading: Leading = field(default_factory=Leading)
    bundled: Bundled = tuple
    start: StartPressed = field(default_factory=StartPressed)
    opened: set[str] = field(default_factory=set)
    """Whose PIN was given on this page."""


@dataclass(frozen=True)
class Shell:
    """One rendering's surroundings. A screen is a component that takes a Shell; `turn` grows with each `refresh`."""

    tools: Tools
    width: float
    height: float
    scale: float
    palette: Palette
    turn: int
    refresh: Callable[[], None]
    choose_theme: Callable[[ft.ThemeMode], None]
    whose: str = ""
    """The id of the person whose answers this page asks for; empty where it asks for nobody’s."""

    english: Callable[[str], str] | None = None
    """Puts a sentence into the reader's own English; None: as it was written."""
    locked: str = ""
    """Whose PIN this page asks for before it shows anything; empty where it asks for none."""

    @property
    def store(self) -> Store:
        """The store."""
        return self.tools.store

    @property
    def device(self) -> Device:
        """The machine."""
        return self.tools.device

    @property
    def clock(self) -> Clock:
        """The time."""
        return self.tools.clock

    @property
    def brand(self) -> Brand:
        """Whose app it is."""
        return self.tools.brand

    def card(self) -> Card:
        """The pieces every screen is set from, at this size and in these inks."""
        return Card(self.palette, self.width, self.scale, self.height, self.english)

    def said(self, words: str) -> str:
        """A sentence in the reader's own English."""
        return words if self.english is None else self.english(words)

    def route_id(self) -> str:
        """What stands after the first word of the address, such as an id; empty if nothing."""
        parts = [part for part in (self.tools.page.route or "/").split("?")[0].split("/") if part]
        return parts[1] if len(parts) > 1 else ""

    @property
    def link(self) -> str:
        """`get` or `key` where the page was opened by a coach's link; else empty."""
        first = (self.tools.page.route or "").partition("?")[0].rstrip("/").rpartition("/")[2]
        return first if first in LINKS else ""

    def route_says(self, name: str) -> str:
        """What stands under that name behind the address's question mark; empty if nothing."""
        return parse_qs((self.tools.page.route or "").partition("?")[2]).get(name, [""])[0]

    def go(self, route: str) -> None:
        """Shows another screen."""
        page = self.tools.page
        start(page, answer_of(lambda: page.push_route(route)))

    def run(self, task: Callable[..., Any], *values: Any) -> None:
        """Starts an async task of a handler, whether or not the window has gone; what it raises is said."""
        start(self.tools.page, safe(self, task)(*values))

    def say(self, words: str) -> None:
        """A short note over the page."""
        message = ft.SnackBar(
            self.card().text(words, t.T_BODY, t.SEMI, self.palette.paper),
            bgcolor=self.palette.ink, duration=5000, shape=ft.RoundedRectangleBorder(radius=0),
        )
        self.tools.page.show_dialog(message)


def safe(shell: Shell, act: Callable[..., Any]) -> Callable[..., Any]:
    """`act` with every error said in a sentence. Flet replaces the whole page by an error card otherwise.

    Where another window has chosen somebody else meanwhile, nothing is done, so that nothing is kept under their name.
    """
    if inspect.iscoroutinefunction(act):
        @functools.wraps(act)
        async def later(*values: Any) -> Any:
            try:
                return None if _others_turn(shell) else await act(*values)
            except Exception as error:  # the last line before the page is lost
                _told(shell, error)
        return later

    @functools.wraps(act)
    def now(*values: Any) -> Any:
        try:
            return None if _others_turn(shell) else act(*values)
        except Exception as error:  # the last line before the page is lost
            _told(shell, error)
    return now


def _others_turn(shell: Shell) -> bool:
    if not shell.whose or chosen_id(shell.store) == shell.whose:
        return False
    shell.say(errors.OTHERS_TURN)
    shell.refresh()
    return True


def _told(shell: Shell, error: Exception) -> None:
    if isinstance(error, AppError):
        shell.say(errors.error_text(error))
        return
    log.error("a handler failed", exc_info=error)
    shell.say(errors.SOMETHING_WRONG)
