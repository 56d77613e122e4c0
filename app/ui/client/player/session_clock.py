"""A session that a page looks at: the clock moves it on, one page at a time leads it, and it is drawn anew.

It holds no control. Everything that happens is kept by the actions before it is shown.
"""
from __future__ import annotations

import asyncio
import gc
import time
from collections.abc import Callable
from typing import Any, NamedTuple

from app.actions.people import current_person
from app.actions.training import playing as act
from app.actions.training.playing import Playing
from app.actions.training.today import Today, today
from app.domain.errors import StorageError
from app.domain.model.plan import StepSide
from app.domain.player import player as events
from app.domain.player.player_state import OVER, Cause, PlayerState, Status, Unseen
from app.domain.player.repetition_count import repetition
from app.ui.client.player.cue_output import Caller
from app.ui.client.player.track_keeper import stands_at
from app.ui.shell.session_lead import Leading
from app.ui.shell.shell import Shell
from app.words import errors

BEAT_S = 0.2
"""How often the position is looked at, seconds of the session's clock."""
BREATH_S = 0.02
"""The least that is left to the rest of the page between two looks, seconds of the machine: for a fast clock."""
DRAW_EACH_S = 0.1
"""The least between two drawings of one step; another step is drawn at once."""
HUSH_MS = 300
"""So long before another step figures stand still, and the disk, which may be slow, is not waited for."""
LEAD_MS = 50
"""Another step is drawn so much ahead of its time: about what a page takes to show it."""
GOES_S = 10
"""For so long a page that was just opened waits for the one that led the session to go: it may be this page, loaded
again, and the one before it is not known to be gone yet. Later only a tap takes it over."""


class Pictured(NamedTuple):
    """Which figure stands on the page: of which step, its exercise or the coming one's, and its side."""

    at: int
    exercise: str
    side: StepSide | None


def pictured_in(state: PlayerState) -> Pictured:
    """The figure of the step that it stands in."""
    after = state.next_effort() if state.step.side is None else None
    return Pictured(state.index, state.step.exercise or "", state.step.side or (after.side if after else None))


class Watched:
    """`changed` draws the page anew."""

    def __init__(self, shell: Shell, changed: Callable[[], None]) -> None:
        self.shell, self.changed = shell, changed
        self.store, self.clock, self.device = shell.store, shell.clock, shell.device
        self.card: Today | None = None
        self.playing: Playing | None = None
        self.elsewhere = False
        """Another page leads it."""
        self.fault = ""
        self.kept = ""  # id of the record, once it is kept
        self._caller = Caller(shell)
        self.pictured: Pictured | None = None
        """A figure is large: it follows a moment after the words and the count of another step."""
        self._shown: tuple[Any, ...] = ()
        self._drawn_at = 0.0
        self._closed = self._yielded = False
        self._gone_ms: int | None = None
        self._opened_at = time.monotonic()
        self.open_session()

    def open_session(self) -> None:
        """The session that is under way as it is kept, if this page may lead it; else today's card."""
        person = current_person(self.store)
        if person is None:
            return
        self.playing = act.resume_session(self.store, self.clock, person.id)
        self.card = None if self.playing else today(self.store, self.clock, person.id, self.shell.route_id() or None)
        self.elsewhere = self.playing is not None and not self.leading.takes(self.playing.run, self)
        self.pictured = pictured_in(self.playing.state) if self.playing else None

    @property
    def leading(self) -> Leading:
        """Who leads which session."""
        return self.shell.tools.leading

    @property
    def can_start(self) -> bool:
        """Whether today's answers lead to a session."""
        card = self.card
        return bool(card and card.check_in and card.timeline and card.timeline.steps
                    and not card.ask_again and not card.person.waiting)

    @property
    def now(self) -> Playing:
        """The session; only asked for once there is one."""
        assert self.playing is not None
        return self.playing

    @property
    def status(self) -> Status | None:
        """The player's status, or None before there is a session."""
        return self.playing.state.status if self.playing else None

    @property
    def minute(self) -> int:
        """The minute that it stands in, from 1 on."""
        return self.now.state.at_ms // 60_000 + 1

    # -------------------------------------------------------------- time

    async def run(self) -> None:
        """Follows the clock until the page is left."""
        self.shell.run(self.device.sounds.load)
        gc.collect()
        gc.freeze()  # a library is large: looking through it for waste would hold a step up
        while not self._closed:
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
            return BEAT_S
        left_ms = self._left_ms()
        marks_ms = (left_ms % 1000 or 1000, *(left_ms - one for one in (HUSH_MS, LEAD_MS) if left_ms > one))
        return min(BEAT_S, min(marks_ms) / 1000)

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
        if new != self.pictured and not self._closed and time.monotonic() - self._drawn_at > DRAW_EACH_S:
            self.pictured = new
            self.changed()

    def _draw(self) -> None:
        state = self.now.state
        shown = (state.status, state.index, -(-state.left_ms // 1000), repetition(state), self.hushed)
        may_wait = shown[:2] == self._shown[:2] and time.monotonic() - self._drawn_at < DRAW_EACH_S
        if shown != self._shown and not may_wait:
            self._shown, self._drawn_at = shown, time.monotonic()
            self.changed()

    # -------------------------------------------------------------- its end

    def finish_if_over(self) -> None:
        """Keeps a session that has ended, also one that had ended when the program was killed."""
        if self.playing is not None and self.status in OVER and not self._closed:
            self.finish()

    def finish(self) -> None:
        """Keeps the record, once, and leaves for what is asked afterwards."""
        if not self.kept:
            self.kept = act.keep_session(self.store, self.clock, self.now).stamp.id
        self.close()
        self.shell.go(f"/afterwards/{self.kept}")

    def close(self) -> None:
        """The page is left: nothing runs on unseen."""
        if self._closed:
            return
        self._closed = True
        gc.unfreeze()
        self.shell.run(self.device.awake.release)
        self._caller.leave()
        if self.playing is not None and not self.elsewhere:
            if self.status is Status.RUNNING:
                self.playing = act.do(self.store, self.clock, self.playing, events.Paused())
            self.leading.leave(self.playing.run, self)

    # -------------------------------------------------------------- one page at a time

    def leads(self) -> bool:
        """Whether this page may move the session on; where another does, that is said."""
        if self.playing is None:
            return True
        self.elsewhere = not self.leading.takes(self.playing.run, self)
        if self.elsewhere:
            self.changed()
        return not self.elsewhere

    def take_over(self) -> None:
        """Leads it here from now on; it asks before it goes on."""
        self.leading.take_over(self.now.run, self)
        self._take_up()

    def _loaded_again(self) -> None:
        """Takes up what the page that led it has left in the moment in which this one was opened."""
        new = time.monotonic() - self._opened_at < GOES_S
        if new and self.elsewhere and not self._closed and self.leading.takes(self.now.run, self):
            self._take_up()

    def _take_up(self) -> None:
        self.open_session()
        if self.playing is None:
            self.shell.go("/today")
        self.changed()

    def give_way(self) -> None:
        """Another page leads it: here nothing is moved on any more. Called from there, so it draws nothing."""
        if self.status is Status.RUNNING:
            self.playing = act.do(self.store, self.clock, self.now, events.Gap())
        self.elsewhere = self._yielded = True

    def _given_up(self) -> None:
        """Says so on this page, once."""
        if self._yielded:
            self._yielded = False
            self.shell.run(self.device.awake.release)
            self.changed()

    def away(self) -> None:
        """The page is gone, as when the app is closed: it stands still, and asks when somebody is back."""
        if self.playing is None or self.elsewhere or self._closed:
            return
        self._gone_ms = act.moment(self.clock).wall_ms
        if self.status is Status.RUNNING:
            self.playing = act.stand_away(self.store, self.clock, self.playing)
        self.leading.leave(self.playing.run, self)

    def back_again(self) -> None:
        """The page is here again; another may have gone on with the session meanwhile."""
        if self._gone_ms is None or self._closed:
            return
        away_ms, self._gone_ms = act.moment(self.clock).wall_ms - self._gone_ms, None
        self.open_session()
        if self.playing is not None and self.playing.state.unseen is not None:
            self.playing = act.unseen(self.playing, Unseen(Cause.CLOSED, max(0, away_ms)))
        if self.playing is not None:
            self._caller.follow(self.playing)
        self.changed()
