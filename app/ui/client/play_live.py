"""The session that one page is in: time moves it on, presses change it, and the page is told when to draw itself anew.

It holds no control. Every press is kept by the actions before anything is shown.
"""
from __future__ import annotations

import asyncio
import time
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from typing import Any

from app import text
from app.actions import playing as act
from app.actions.easing import undo_easier
from app.actions.people import current_person
from app.actions.playing import Playing
from app.actions.today import Today, today
from app.domain import player as events
from app.domain.changes import Changes, changes_between
from app.domain.errors import StorageError
from app.domain.exercise import Exercise
from app.domain.plan import StepKind
from app.domain.record import Ending, Hurt
from app.domain.run import OVER, Status
from app.ui.client.play_cues import Caller
from app.ui.shell import Shell, safe

BEAT_S = 0.2
"""How often the position is looked at, seconds of the session's clock."""
BREATH_S = 0.02
"""The least that is left to the rest of the page between two looks, seconds of the machine: for a fast clock."""
DRAW_EACH_S = 0.1


class Panel(Enum):
    """What lies over the session."""

    NONE = "none"
    SIGNS = "signs"
    ENDING = "ending"
    AMISS = "amiss"
    CHANGED = "changed"


@dataclass(frozen=True)
class Eased:
    """The easier option taken last, and what it stands for."""

    was: Exercise
    now: Exercise


class Live:
    """`changed` draws the page anew."""

    def __init__(self, shell: Shell, changed: Callable[[], None]) -> None:
        self.shell, self.changed = shell, changed
        self.store, self.clock, self.device = shell.store, shell.clock, shell.device
        person = current_person(self.store)
        self.card: Today | None = None
        self.playing: Playing | None = None
        if person is not None:
            self.playing = act.resume_session(self.store, self.clock, person.id)
            self.card = None if self.playing else today(self.store, self.clock, person.id, shell.route_id() or None)
        self.panel = Panel.NONE
        self.changes = Changes()
        self.hurt: Hurt | None = None
        self.eased: Eased | None = None
        self.fault = ""
        self.kept = ""  # id of the record, once it is kept
        self._caller = Caller(shell)
        self._shown: tuple[Any, ...] = ()
        self._drawn_at = 0.0
        self.pressed_at = 0.0
        self._closed = False

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

    async def run(self) -> None:
        """Follows the clock until the page is left."""
        while not self._closed:
            await self.clock.sleep(BEAT_S)
            await asyncio.sleep(BREATH_S)
            try:
                self.tick()
            except StorageError as error:
                self._failed(text.error_text(error))

    def tick(self) -> None:
        """Brings the position to now, gives the cue that is due, and draws what has changed."""
        if self.playing is None or self.status is not Status.RUNNING:
            return
        self.playing = act.go_on(self.store, self.clock, self.playing)
        self.fault = ""
        self.kept = ""  # id of the record, once it is kept
        self._caller.call(self.playing)
        self.finish_if_over()
        self._draw()

    def _failed(self, words: str) -> None:
        if words != self.fault:
            self.fault = words
            self.changed()

    def _draw(self) -> None:
        state = self.now.state
        shown = (state.status, state.index, -(-state.left_ms // 1000))
        pause = time.monotonic() - self._drawn_at
        if shown != self._shown and (pause >= DRAW_EACH_S or shown[0] is not (self._shown or (None,))[0]):
            self._shown, self._drawn_at = shown, time.monotonic()
            self.changed()

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

    def press(self, task: Callable[..., Any], *values: Any) -> Callable[[Any], Any]:
        """`task(*values)` as a handler whose errors are said, and which the space bar does not double."""
        def pressed(_: Any) -> None:
            self.pressed_at = time.monotonic()
            task(*values)
        return safe(self.shell, pressed)

    def start(self) -> None:
        """Begins today's session, or the one that was opened and never begun."""
        if self.playing is None and self.card is not None:
            self.playing = act.start_session(self.store, self.clock, self.card)
        self.shell.run(self.device.awake.keep)
        self.do(events.Started())

    def do(self, event: events.Event) -> None:
        """Keeps the event and shows what follows from it."""
        before = self.now.state
        self.playing = act.do(self.store, self.clock, self.now, event)
        self._moved(before.index)

    def _moved(self, index: int) -> None:
        state = self.now.state
        self._caller.stands_at(state.at_ms, jumped=state.index != index)
        if state.index != index:
            self.eased = None
        self.finish_if_over()
        self.changed()

    def go_on(self) -> None:
        """On from a pause, a wait, a question or what changed."""
        self.panel = Panel.NONE
        self.start()

    def toggle(self) -> None:
        """Pause, or on from it."""
        if self.status is Status.RUNNING:
            self.do(events.Paused())
        elif self.status in (Status.PAUSED, Status.WAITING):
            self.go_on()

    def ready(self) -> None:
        """Down, or standing: on, whether the time for it has run out or not."""
        if self.status is Status.RUNNING and self.now.state.step.kind is StepKind.CHANGE:
            self.do(events.Skipped())
        else:
            self.go_on()

    def ease(self) -> None:
        """The easier option, for the rest of the session."""
        now = self.now.easier()
        step = self.now.state.step if self.now.state.step.exercise else self.now.state.next_effort()
        if now is None or step is None or step.exercise is None:
            return
        was = self.now.library[step.exercise]
        self.playing = act.take_easier(self.store, self.clock, self.now)
        self.eased = Eased(was, now)
        self.changed()

    def undo_ease(self) -> None:
        """What was there before the easier option."""
        if self.eased is not None:
            self.playing = undo_easier(self.store, self.clock, self.now, self.eased.was, self.eased.now)
            self.eased = None
            self.changed()

    def stand_still(self) -> None:
        """ "That hurts": everything stops."""
        self.panel = Panel.NONE
        self.do(events.StoodStill())

    def tell(self, hurt: Hurt) -> None:
        """The answers after "that hurts"."""
        before = self.now.state
        self.playing = act.tell_hurt(self.store, self.clock, self.now, hurt)
        self.hurt, self.changes = hurt, changes_between(before, self.now.state)
        self.panel = Panel.CHANGED
        self._moved(-1)

    def open(self, panel: Panel) -> None:
        """Lays something over the session, which stands still meanwhile."""
        if self.status is Status.RUNNING and panel is not Panel.NONE:
            self.do(events.Paused())
        self.panel = panel
        self.changed()

    def end(self, ending: Ending, sign: str = "") -> None:
        """Ends it before its end."""
        self.playing = act.end_session(self.store, self.clock, self.now, ending, sign)
        self._moved(-1)

    def away(self) -> None:
        """The page is gone, as when the app is closed: it stands still, and asks when somebody is back."""
        if self.playing is not None and self.status is Status.RUNNING:
            self.do(events.Gap())

    def close(self) -> None:
        """The page is left: nothing runs on unseen."""
        if self._closed:
            return
        self._closed = True
        self.shell.run(self.device.awake.release)
        if self.playing is not None and self.status is Status.RUNNING:
            self.playing = act.do(self.store, self.clock, self.playing, events.Paused())
