"""Which page leads which session: of all the pages that this process shows, one at a time."""
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
