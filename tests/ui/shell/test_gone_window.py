"""A window that has gone: what is done, drawn or asked for its page fails nobody, and who comes back is answered."""
from __future__ import annotations

import gc
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from app.device.abilities import Device
from app.device.device import HELD_AS
from app.words.client import player as says
from app.words.client import today
from tests.tree.driver import TreeWalker
from tests.tree.nodes import named
from tests.tree.window import window

KEPT_S = 1800


@pytest.fixture
def person(ready: Path, tmp_path: Path) -> Iterator[TreeWalker]:
    """Somebody whose session is one press away, and who bears motion."""
    with window(Path(shutil.copytree(ready, tmp_path / "data")), calm=False) as one:
        yield one


def gone(person: TreeWalker) -> None:
    """Nobody sees the page any more; its visit is kept."""
    person.loop.finish(person.client.session.disconnect(KEPT_S))


def back(person: TreeWalker) -> TreeWalker:
    """The window is there again."""
    person.loop.finish(person.client.session.connect(person.client))
    return person.settle()


def over(person: TreeWalker) -> None:
    """Half an hour later."""
    person.loop.finish(_close(person))
    person.settle()


async def _close(person: TreeWalker) -> None:
    person.client.session.close()


def press(person: TreeWalker, name: str) -> None:
    """Presses, and waits for nothing."""
    control = person.found(named("button", name))[0].control
    assert control is not None
    person.client.event(control, "click")


def press_late(person: TreeWalker, name: str) -> None:
    """A press of which the app hears when the window has gone."""
    press(person, name)
    person.loop.advance(10)


def test_a_press_on_its_way_is_done_all_the_same(person: TreeWalker) -> None:
    """A session begins, which asks the window to keep its screen on; and stands still, since nobody is there."""
    person.go("/play").sees_button(says.START)
    press(person, says.START)
    gone(person)
    person.loop.advance(10)
    assert not person.errors
    back(person).sees(says.CAME_BACK)


def test_an_address_that_nobody_is_there_to_go_to_is_let_be(person: TreeWalker) -> None:
    """Also when the visit is over and nobody came back."""
    person.sees_button(today.START)
    gone(person)
    press_late(person, today.START)
    over(person)
    gc.collect()
    assert not person.errors


def test_a_window_that_goes_before_it_has_answered_is_no_error(person: TreeWalker, monkeypatch: pytest.MonkeyPatch
                                                               ) -> None:
    """It was asked for an address; the answer never comes."""
    person.sees_button(today.START)
    monkeypatch.setattr(person.client, "_answer", lambda **_: None)
    press_late(person, today.START)
    gone(person)
    over(person)
    gc.collect()
    assert not person.errors


def test_whether_figures_may_move_is_asked_again_of_who_comes_back(person: TreeWalker, monkeypatch: pytest.MonkeyPatch
                                                                   ) -> None:
    """They would stand still for the whole session otherwise."""
    def moves() -> bool:
        return any(type(one).__name__ == "Lottie" and getattr(one, "animate", False) for one in person.controls())

    answer: Any = person.client._answer
    monkeypatch.setattr(person.client, "_answer", lambda **_: None)
    person.go("/play")
    gone(person)
    person.loop.advance(60)
    monkeypatch.setattr(person.client, "_answer", answer)
    back(person).press(says.START).sees(re.compile("left$"))
    assert moves()


def test_a_window_that_has_gone_lacks_nothing(person: TreeWalker) -> None:
    """It could not be told to keep its screen on; when it is back, nothing says that it cannot."""
    person.go("/play").sees_button(says.START)
    gone(person)
    press_late(person, says.START)
    device = person.client.session.store.get(HELD_AS)
    assert isinstance(device, Device) and not device.missing


def test_a_visit_that_ends_in_the_midst_of_a_session_leaves_nothing_frozen(person: TreeWalker) -> None:
    """All that was in memory when a session was opened is passed over by Python's collector until it is left."""
    gc.unfreeze()
    person.go("/play").sees_button(says.START)
    assert gc.get_freeze_count() > 0
    gone(person)
    over(person)
    assert gc.get_freeze_count() == 0
