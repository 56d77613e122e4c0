"""What is pressed while a session is done: each press is kept, and what follows from it is shown."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from typing import Any

from app.actions.training import playing as act
from app.actions.training.playing import undo_easier
from app.device.clock import loop_s
from app.domain.model.exercise import Exercise
from app.domain.model.plan import StepKind
from app.domain.model.record import Ending, Hurt
from app.domain.player import player as events
from app.domain.player.player_state import Status
from app.domain.player.rest_changes import Changes, changes_between
from app.ui.client.player.session_clock import MovedByTheClock
from app.ui.client.player.watched_session import pictured_in
from app.ui.shell.moving_figures import MotionComfort
from app.ui.shell.shell import Shell, safe


class Panel(Enum):
    """What lies over the session."""

    NONE = "none"
    SIGNS = "signs"
    ENDING = "ending"
    AMISS = "amiss"
    CHANGED = "changed"


class SessionDrawnAs(Enum):
    """How the session is drawn."""

    CARD = "card"
    DISTANCE = "distance"
    """Figure, numerals and name alone, for three metres."""


@dataclass(frozen=True)
class EasierTaken:
    """The easier option taken last, and what it stands for."""

    was: Exercise
    now: Exercise


class Live(MovedByTheClock):
    """The session that one page leads."""

    def __init__(self, shell: Shell, changed: Callable[[], None]) -> None:
        super().__init__(shell, changed)
        self.panel = Panel.NONE
        self.view = SessionDrawnAs.CARD
        self.changes = Changes()
        self.hurt: Hurt | None = None
        self.eased: EasierTaken | None = None
        self.pressed_at = 0.0
        self.motion = MotionComfort.UNKNOWN
        self.is_wanted = shell.tools.start.taken()
        """Start was pressed on today's card: nothing more is asked of who trains alone."""

    def press(self, task: Callable[..., Any], *values: Any) -> Callable[[Any], Any]:
        """`task(*values)` as a handler whose errors are said, and which the space bar does not double."""
        def pressed(_: Any) -> None:
            self.pressed_at = loop_s()
            task(*values)
        return safe(self.shell, pressed)

    def start(self) -> None:
        """Begins today's session, or the one that was opened and never begun; not a second one beside another's."""
        if self.playing is None:
            self.open_session()
            if self.playing is not None:
                self.changed()
                return
        if self.playing is None and self.card is not None:
            self.playing = act.start_session(self.store, self.clock, self.card)
            self.leading.takes(self.playing.run, self)
        self.shell.run(self.device.awake.keep)
        self.do(events.Started())

    def do(self, event: events.PlayerEvent) -> None:
        """Keeps the event and shows what follows from it; nothing where another page leads."""
        if not self.leads():
            return
        before = self.now.state
        self.playing = act.do(self.store, self.clock, self.now, event)
        self._moved(before.index)

    def _moved(self, index: int) -> None:
        state = self.now.state
        self._caller.stands_at(state.at_ms, jumped=state.index != index)
        self._caller.follow(self.now)
        if state.index != index:
            self.eased = None
        self.pictured = pictured_in(state)
        self._shown = ()  # what stands on the page from now on was not drawn by the clock
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

    def answer(self) -> None:
        """The tap that the session waits for, or will at the end of this step."""
        step = self.now.state.step
        if step.is_effort:
            self.do(events.Counted())
        elif step.kind is StepKind.CHANGE:
            self.do(events.Ready())
        else:
            self.do(events.AllRight())

    def show(self, view: SessionDrawnAs) -> None:
        """Draws the session otherwise; it runs on meanwhile."""
        self.view = view
        self.changed()

    def ease(self) -> None:
        """The easier option, for the rest of the session."""
        now = self.now.easier() if self.leads() else None
        step = self.now.state.step if self.now.state.step.exercise else self.now.state.next_effort()
        if now is None or step is None or step.exercise is None:
            return
        was = self.now.library[step.exercise]
        self.playing = act.take_easier(self.store, self.clock, self.now)
        self.eased = EasierTaken(was, now)
        self.pictured = pictured_in(self.now.state)
        self.changed()

    def undo_ease(self) -> None:
        """What was there before the easier option."""
        if self.eased is not None and self.leads():
            self.playing = undo_easier(self.store, self.clock, self.now, self.eased.was, self.eased.now)
            self.eased = None
            self.pictured = pictured_in(self.now.state)
            self.changed()

    def stand_still(self) -> None:
        """ "That hurts": everything stops."""
        self.panel = Panel.NONE
        self.do(events.StoodStill())

    def tell(self, hurt: Hurt) -> None:
        """The answers after "that hurts"."""
        if not self.leads():
            return
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
        if not self.leads():
            return
        self.playing = act.end_session(self.store, self.clock, self.now, ending, sign)
        self._moved(-1)
