"""The coach's keys, remembered by a computer that has a password store; a browser's server here has none."""
from __future__ import annotations

import asyncio
import shutil
from pathlib import Path

import pytest

from app.actions.desk import publishing
from app.actions.desk.key_locks import lock_keys
from app.words.coach import desk
from app.words.coach import key_lock as words
from tests.browser.driver import DESKTOP
from tests.browser.prepared import MORNING
from tests.device.stand_in_keyring import put_in
from tests.stories.turns import COACH, Demo
from tests.tree.window import window

PHRASE = "kettle plum ladder north"


@pytest.fixture
def demo(demo_data: Path, tmp_path: Path) -> Demo:
    """The coach's keys are locked, and the next start has to open them."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "data")))
    demo.turn_of(COACH)
    publishing.confirm_sheet(demo.store)
    asyncio.run(lock_keys(demo.store, PHRASE))
    return demo


def test_the_computer_remembers_the_passphrase_and_forgets_it(demo: Demo, monkeypatch: pytest.MonkeyPatch) -> None:
    """A wrong one is not kept; from then on one press opens the keys."""
    put_in(monkeypatch)
    with window(demo.data, "/publish", began=MORNING, size=DESKTOP) as walker:
        walker.sees(words.LOCKED).sees_no_button(words.UNLOCK_HERE)
        walker.write(words.PASSPHRASE, PHRASE).press(words.UNLOCK).press(words.REMEMBER).sees(words.REMEMBER_WHY)
        walker.write(words.PASSPHRASE, "kettle plum ladder south").press(words.REMEMBER).sees_no_button(words.FORGET)
        walker.write(words.PASSPHRASE, PHRASE).press(words.REMEMBER).sees_button(words.FORGET)
        walker.press(words.LOCK_NOW).go("/desk").press(words.UNLOCK_HERE).sees(desk.OPEN_RETURNS)
        walker.go("/publish").press(words.FORGET, words.LOCK_NOW).sees_no_button(words.UNLOCK_HERE)


def test_a_store_that_refuses_says_so_and_the_passphrase_is_typed(demo: Demo, monkeypatch: pytest.MonkeyPatch) -> None:
    """And where there is none, nothing of it is offered."""
    behind = put_in(monkeypatch)
    with window(demo.data, "/publish", began=MORNING, size=DESKTOP) as walker:
        walker.write(words.PASSPHRASE, PHRASE).press(words.UNLOCK).press(words.REMEMBER)
        behind.refuses = True
        walker.write(words.PASSPHRASE, PHRASE).press(words.REMEMBER).sees(words.REMEMBER_REFUSED)
        behind.refuses = False
        walker.write(words.PASSPHRASE, PHRASE).press(words.REMEMBER).press(words.LOCK_NOW)
        behind.refuses = True
        walker.press(words.UNLOCK_HERE).sees(words.UNLOCK_HERE_REFUSED)
        behind.refuses, behind.priority = False, 0
        walker.write(words.PASSPHRASE, PHRASE).press(words.UNLOCK, words.FORGET).sees_no_button(words.REMEMBER)
