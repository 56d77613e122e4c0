"""A session under way in a browser, as it is seen there."""
from __future__ import annotations

import re
import time
from collections.abc import Callable
from functools import partial
from itertools import pairwise

from app.words import positions
from app.words.client import player as says
from tests.browser.count import Sight, sights, watch
from tests.browser.driver import Walker


class Session:
    """A session under way in a browser."""

    def __init__(self, walker: Walker) -> None:
        self.walker = walker

    def now(self) -> Sight:
        """What stands on the screen."""
        return sights(self.walker.page)[-1]

    def until(self, test: Callable[[Sight], bool], seconds: float = 20) -> Sight:
        """Waits until what is seen passes a test."""
        end = time.monotonic() + seconds
        while not test(seen := self.now()):
            assert time.monotonic() < end, f"still {seen}; the page says {self.walker.spoken()}"
            time.sleep(0.02)
        return seen

    def start(self) -> None:
        """From the look around to the first count."""
        self.walker.press(says.START).sees(re.compile("left$"))
        watch(self.walker.page)

    def skip_until_easier(self, most: int = 8) -> None:
        """To the next exercise that has an easier option."""
        for _ in range(most):
            if self.walker.button(re.compile(f"^{says.EASIER}")).count():
                return
            before = self.now()
            self.walker.key("ArrowRight")
            self.until(lambda seen, was=before: seen.leaps_from(was))
        raise AssertionError(f"no easier option; the page says {self.walker.spoken()}")

    def skip(self, steps: int) -> None:
        """So many steps on, by the keyboard, and further to one that counts without a tap."""
        while steps > 0 or self.now().kind in (positions.UP, positions.DOWN):
            before = self.now()
            self.walker.key("ArrowRight")
            self.until(partial(Sight.leaps_from, other=before))
            steps -= 1

    def first(self, since_ms: float) -> Sight:
        """What was seen first from an instant on."""
        return sights(self.walker.page, since_ms)[0]

    def second_hand(self, since_ms: float) -> Sight:
        """The first sight of a second passing, whose instant is therefore known, from an instant on."""
        end = time.monotonic() + 20
        while time.monotonic() < end:
            seen = sights(self.walker.page, since_ms)
            for one, other in pairwise(seen):
                if other.left_s == one.left_s - 1 and other.said == one.said:
                    return other
            time.sleep(0.1)
        raise AssertionError(f"no second passed; the page says {self.walker.spoken()}")
