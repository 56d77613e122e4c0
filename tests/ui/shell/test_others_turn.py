"""Where another window has chosen somebody else, a page does nothing more for the one it was drawn for."""
from __future__ import annotations

import asyncio
from pathlib import Path
from typing import Any

import pytest

from app.actions import people
from app.device.clock import ManualClock
from app.domain.branding.brand import EVENLOAD
from app.domain.model.person import Person
from app.storage.database import Store, open_store
from app.ui.routes import asks_somebody
from app.ui.shell.shell import Shell, Tools, safe
from app.words.errors import OTHERS_TURN


class NotedPage:
    """Notes what was said over it."""

    def __init__(self) -> None:
        self.said: list[str] = []

    def show_dialog(self, bar: Any) -> None:
        """A short note."""
        self.said.append(bar.content.value)


def drawn_for(store: Store, whose: str, refreshed: list[int]) -> tuple[Shell, NotedPage]:
    """A page of somebody, and what was said over it."""
    page: Any = NotedPage()
    tools = Tools(store, Any, Any, page)  # type: ignore[arg-type]
    shell = Shell(tools, 400, 900, 1.0, EVENLOAD.light, 0, lambda: refreshed.append(1), lambda _: None, whose)
    return shell, page


@pytest.mark.parametrize("is_later", [False, True])
def test_nothing_is_done_for_somebody_whose_turn_is_over(is_later: bool, tmp_path: Path, clock: ManualClock) -> None:
    """It is said, and the page is drawn anew; before that, and where the page asks for nobody, all goes on as ever."""
    store, refreshed, done = open_store(tmp_path), list[int](), list[int]()
    ines = people.register(store, clock, Person("", "Ines"))

    async def later() -> None:
        done.append(1)

    def press(shell: Shell) -> None:
        if is_later:
            asyncio.run(safe(shell, later)())
        else:
            safe(shell, lambda: done.append(1))()

    hers, page = drawn_for(store, ines.id, refreshed)
    press(hers)
    assert (done, page.said) == ([1], [])
    otto = people.register(store, clock, Person("", "Otto"))
    press(hers)
    assert (done, refreshed, page.said) == ([1], [1], [OTHERS_TURN])
    people.leave(store)
    press(hers)
    assert done == [1]
    for whose in ("", otto.id):
        people.choose_person(store, otto.id)
        press(drawn_for(store, whose, refreshed)[0])
    assert done == [1, 1, 1]


def test_whoever_wants_to_stop_stops() -> None:
    """The player is never held up, nor is a page that asks for nobody's answers."""
    assert asks_somebody("/check-in") and asks_somebody("/note/goal?x=1")
    assert not any(map(asks_somebody, ("/play", "/play/x", "/who", "/welcome", "/desk", "/person/a", "/get", "/", "")))
