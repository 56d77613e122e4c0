"""A session that a page looks at: what is kept of it, which figure stands on the page, and its end.

It holds no control. Everything that happens is kept by the actions before it is shown.
"""
from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from app.actions.people import current_person
from app.actions.training import playing as act
from app.actions.training.playing import Playing
from app.actions.training.today import Today, today
from app.domain.model.plan import StepSide
from app.domain.player import player as events
from app.domain.player.player_state import OVER, PlayerState, Status
from app.ui.client.player.cue_output import Caller
from app.ui.shell.shell import Shell


class Pictured(NamedTuple):
    """Which figure stands on the page: of which step, its exercise or the coming one's, and its side."""

    at: int
    exercise: str
    side: StepSide | None


def pictured_in(state: PlayerState) -> Pictured:
    """The figure of the step that it stands in; where nothing is done in it, of what comes."""
    step = state.step
    after = (state.next_effort() if step.side is None or step.exercise is None else None) or step
    return Pictured(state.index, step.exercise or after.exercise or "", step.side or after.side)


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
        self._closed = False
        self.open_session()

    def open_session(self) -> None:
        """The session that is under way as it is kept; else today's card."""
        person = current_person(self.store)
        if person is None:
            return
        self.playing = act.resume_session(self.store, self.clock, person.id)
        self.card = None if self.playing else today(self.store, self.clock, person.id, self.shell.route_id() or None)
        self.pictured = pictured_in(self.playing.state) if self.playing else None

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
        self.shell.run(self.device.awake.release)
        self._caller.leave()
        if self.playing is not None and not self.elsewhere and self.status is Status.RUNNING:
            self.playing = act.do(self.store, self.clock, self.playing, events.Paused())
