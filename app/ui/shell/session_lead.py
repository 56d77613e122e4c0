"""Which page leads which session, one at a time of all that this process shows; and that Start was pressed."""
from __future__ import annotations

from typing import Protocol


class Page(Protocol):
    """A page that may lead a session."""

    def give_way(self) -> None:
        """Another page leads it from now on: it stands still here."""


class Leading:
    """By the id of the session. Kept for as long as the process, since a session outlives its page."""

    def __init__(self) -> None:
        self._pages: dict[str, Page] = {}

    def takes(self, run: str, page: Page) -> bool:
        """Whether the page leads it: because it does already, or because nobody did."""
        return self._pages.setdefault(run, page) is page

    def take_over(self, run: str, page: Page) -> None:
        """The page leads it, and the one that did gives way."""
        before = self._pages.get(run)
        self._pages[run] = page
        if before is not None and before is not page:
            before.give_way()

    def leave(self, run: str, page: Page) -> None:
        """The page no longer leads it; another's lead stays."""
        if self._pages.get(run) is page:
            del self._pages[run]


class StartPressed:
    """Start was pressed on today's card of this page. The player takes it up once, so no address begins a session."""

    def __init__(self) -> None:
        self._is = False

    def press(self) -> None:
        """It was pressed."""
        self._is = True

    def taken(self) -> bool:
        """Whether it was pressed since this was asked last."""
        was, self._is = self._is, False
        return was
