"""The clock moves a session on, and says when its page is drawn anew."""
from __future__ import annotations

import asyncio
import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

from app.actions.training import playing as act
from app.device.clock import loop_s
from app.domain.errors import StorageError
from app.domain.model.session_timing import BREATH_S, LOOK_S
from app.domain.player.player_state import Status
from app.domain.player.repetition_count import repetition
from app.ui.client.player.page_lead import LedOnOnePage
from app.ui.client.player.track_keeper import stands_at
from app.ui.client.player.watched_session import pictured_in
from app.ui.shell.shell import Shell
from app.words import errors

DRAW_EACH_S = 0.1
"""The least between two drawings of one step; another step is drawn at once."""
HUSH_MS = 300
"""So long before another step figures stand still, and the disk, which may be slow, is not waited for."""
LEAD_MS = 50
"""Another step is drawn so much ahead of its time: about what a page takes to show it."""


@contextmanager
def nothing_swept() -> Iterator[None]:
    """What is in memory is not looked through for waste meanwhile: a library is large, and would hold a step up.

    It ends also where nobody leaves the page and its visit is over: all that had been drawn for anybody would stay.
    """
    gc.collect()
    gc.freeze()
    try:
        yield
    finally:
        gc.unfreeze()


class MovedByTheClock(LedOnOnePage):
    """A session that follows the clock until its page is left."""

    def __init__(self, shell: Shell, changed: Callable[[], None]) -> None:
        super().__init__(shell, changed)
        self._shown: tuple[Any, ...] = ()
        self._drawn_at = 0.0

    async def run(self) -> None:
        """Follows the clock until the page is left."""
        self.shell.run(self.device.sounds.load)
        with nothing_swept():
            while not self._closed:
                await self._follow()

    async def _follow(self) -> None:
        await asyncio.sleep(BREATH_S)  # what was drawn goes out before the disk is waited for
        try:
            self._keep_beat()
        except StorageError as error:
            self._failed(errors.error_text(error))
        await self.clock.sleep(self._until_next_s())
        try:
            self._given_up()
            self._loaded_again()
            self.tick()
            self._picture()
        except StorageError as error:
            self._failed(errors.error_text(error))

    def _until_next_s(self) -> float:
        """Until the count on the screen changes, at most a beat."""
        if self.playing is None or self.status is not Status.RUNNING:
            return LOOK_S
        left_ms = self._left_ms()
        marks_ms = (left_ms % 1000 or 1000, *(left_ms - one for one in (HUSH_MS, LEAD_MS) if left_ms > one))
        return min(LOOK_S, min(marks_ms) / 1000)

    def _ahead_ms(self) -> int:
        """What is left of a step that is all but over, and after which another one comes."""
        state, left_ms = self.now.state, self._left_ms()
        return left_ms if 0 < left_ms <= LEAD_MS and state.index + 1 < len(state.steps) else 0

    def _left_ms(self) -> int:
        """Of the step that is shown, by the clock."""
        return self.now.state.step.end_ms - stands_at(self.now.state, self.clock)

    def tick(self) -> None:
        """Brings the position to now, gives the cue that is due, and draws what has changed."""
        if self.elsewhere or self.playing is None or self.status is not Status.RUNNING or not self.leads():
            return
        self.playing = act.move_on(self.store, self.clock, self.playing, self._ahead_ms())
        self._caller.call(self.playing)
        self.finish_if_over()
        self._draw()

    def _keep_beat(self) -> None:
        if self.playing is not None and not self.elsewhere and self._left_ms() > HUSH_MS:
            self.playing = act.keep_beat(self.store, self.clock, self.playing)
            self.fault = ""

    def _failed(self, words: str) -> None:
        if words != self.fault:
            self.fault = words
            self.changed()

    @property
    def hushed(self) -> bool:
        """Whether figures stand still, so that nothing but the words and the count of another step is drawn."""
        state = self.now.state
        return state.left_ms <= HUSH_MS or self.pictured != pictured_in(state)

    def _picture(self) -> None:
        """Draws the figure of another step, once its words have had the time to be drawn."""
        new = pictured_in(self.playing.state) if self.playing else None
        if new != self.pictured and not self._closed and loop_s() - self._drawn_at > DRAW_EACH_S:
            self.pictured = new
            self.changed()

    def _draw(self) -> None:
        state = self.now.state
        shown = (state.status, state.index, -(-state.left_ms // 1000), repetition(state), self.hushed)
        may_wait = shown[:2] == self._shown[:2] and loop_s() - self._drawn_at < DRAW_EACH_S
        if shown != self._shown and not may_wait:
            self._shown, self._drawn_at = shown, loop_s()
            self.changed()
