"""What a person does at the app, whatever it is shown by: the stories are told in these verbs alone."""
from __future__ import annotations

import re
from collections.abc import Sequence
from contextlib import AbstractContextManager
from datetime import datetime
from pathlib import Path
from typing import Protocol, Self

PHONE, DESKTOP = (412, 915), (1280, 800)
Name = str | re.Pattern[str]
"""Of a button, a heading, a box: text must be the whole of it. Of words: any part."""


class SavedFile(Protocol):
    """A file that the app gave to the person."""

    @property
    def suggested_filename(self) -> str:
        """The name that the app gave it."""

    def save_as(self, path: Path) -> None:
        """Keeps it there."""


class Person(Protocol):
    """Somebody at one window of the app. What is looked for is waited for; what is absent must stay so."""

    @property
    def route(self) -> str:
        """The address that is shown: `/today`."""

    def go(self, path: str) -> Self:
        """To another address of the app, as by the browser's own history."""

    def look(self, size: tuple[int, int]) -> Self:
        """Another size of the window."""

    def settle(self) -> Self:
        """Lets everything come to rest that an act has set going."""

    def wait(self, seconds: float) -> Self:
        """So much time of the machine passes."""

    def press(self, *names: Name) -> Self:
        """Buttons, one after the other."""

    def choose(self, *names: Name) -> Self:
        """Answers, one after the other; each stands as chosen then."""

    def tick(self, *names: Name) -> Self:
        """Boxes."""

    def write(self, label: Name, value: str) -> Self:
        """Fills a field in and leaves it."""

    def paste(self, label: Name, text: str) -> Self:
        """Puts a long text into a field."""

    def choose_file(self, button: Name, *files: Path) -> Self:
        """Presses a button that asks for files, and gives it these."""

    def download(self) -> AbstractContextManager[Sequence[SavedFile]]:
        """What is saved within."""

    def spoken(self) -> list[str]:
        """Everything that the page says now."""

    def says(self) -> list[str]:
        """The same, once it says something."""

    def sees(self, *said: Name) -> Self:
        """Words."""

    def sees_heading(self, name: Name) -> Self:
        """A heading."""

    def sees_button(self, name: Name) -> Self:
        """A button."""

    def sees_chosen(self, name: Name) -> Self:
        """A button that stands as chosen."""

    def sees_no_button(self, name: Name) -> Self:
        """No button of that name, once the page has come to rest."""

    def shows_button(self, name: Name) -> bool:
        """Whether there is one at this moment."""

    def is_well(self) -> Self:
        """No error card stands on the page, and nothing has complained."""


class PersonAt(Protocol):
    """Opens a window on a data directory, for somebody to sit down at."""

    def __call__(self, data: Path, at: str = "/", *, began: datetime | None = None, rate: float = 1,
                 size: tuple[int, int] = PHONE) -> AbstractContextManager[Person]:
        """At an address; the clock begins at a moment, or now, and runs so much faster than the machine's.

        Ends by asserting that nothing was amiss.
        """
