"""A hand that shakes does a whole session: every press lands 12 px off the middle of what it is meant for."""
from __future__ import annotations

import math
import random
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from app.words.client import diary
from app.words.client import player as says
from tests.browser.driver import PHONE, Walker
from tests.browser.server import Server
from tests.stories.kept import kept_sessions

pytestmark = pytest.mark.browser

OFF_PX = 12
RATE = "4"
"""Slow enough that what is to be pressed stands still; what makes the session short is what the hand skips."""
SEED = 20260302
LOOKS = 400
SKIPS = 10
"""So many steps are skipped at a pause."""
ASKED = (says.I_AM_DOWN, says.I_AM_UP, re.compile("^Carry on from minute"))


class ShakingHand:
    """Presses beside the middle, in a direction of chance."""

    def __init__(self, walker: Walker, seed: int) -> None:
        self.walker, self.chance, self.presses = walker, random.Random(seed), 0

    def press(self, name: str | re.Pattern[str]) -> None:
        """Once, where it stands still."""
        angle = self.chance.uniform(0, math.tau)
        self.walker.press_at(self.walker.button(name).first, (OFF_PX * math.cos(angle), OFF_PX * math.sin(angle)))
        self.presses += 1

    def there(self, name: str | re.Pattern[str]) -> bool:
        """Whether it can be pressed now."""
        return self.walker.shows_button(name)

    def pause_and_go_on(self) -> None:
        """Pause; perhaps the easier option is taken; some steps are skipped; on again."""
        self.press(says.PAUSE)
        while not self.there(says.GO_ON):
            if not self.walker.route.startswith("/play") or any(self.there(asked) for asked in ASKED):
                return  # its step ended under the finger
            self.walker.wait(0.2)
        easier = re.compile(f"^{says.EASIER} ")
        if self.chance.random() < 0.2 and self.there(easier):
            self.press(easier)
            self.walker.sees_button(re.compile(f"^{says.UNDO}: "))
        for _ in range(SKIPS):
            if self.walker.settle().shows_button(says.SKIP):
                self.press(says.SKIP)
        if self.walker.settle().shows_button(says.GO_ON):  # after the last step there is nothing to go on with
            self.press(says.GO_ON)


@pytest.mark.parametrize("size", [PHONE, (915, 412)], ids=["standing", "lying"])
@pytest.mark.whole(keep=1)
def test_a_shaking_hand_completes_a_session(size: tuple[int, int], browser: Browser, ready: Path,
                                            serve: Callable[..., Server], tmp_path: Path) -> None:
    """From Start to the question how hard it was; nothing is pressed that was not meant."""
    data = Path(shutil.copytree(ready, tmp_path / "data"))
    server = serve(data, "--rate", RATE)
    with Walker(browser, size=size) as walker:
        walker.open(server.at("/play")).sees_button(says.START)
        hand = ShakingHand(walker, SEED)
        hand.press(says.START)
        walker.sees(re.compile("left$"))
        for _ in range(LOOKS):
            if not walker.route.startswith("/play"):
                break
            for asked in ASKED:
                if hand.there(asked):
                    hand.press(asked)
            if hand.there(says.PAUSE):
                hand.pause_and_go_on()
            walker.wait(0.2)
        walker.sees(diary.HOW_HARD)
        assert hand.presses > 15
    done = kept_sessions(data)[-1]
    assert not done.hurts and not done.sign and done.ending.value == "finished"
