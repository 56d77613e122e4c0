"""One page at a time leads a session: it takes it, gives way to another, goes, and is back again."""
from __future__ import annotations

from collections.abc import Callable

from app.actions.training import playing as act
from app.device.clock import loop_s
from app.domain.player import player as events
from app.domain.player.player_state import Cause, Status, Unseen
from app.ui.client.player.watched_session import Watched
from app.ui.shell.session_lead import Leading
from app.ui.shell.shell import Shell

GOES_S = 10
"""For so long a page that was just opened waits for the one that led the session to go: it may be this page, loaded
again, and the one before it is not known to be gone yet. Later only a tap takes it over."""


class LedOnOnePage(Watched):
    """A session of which one page at a time moves on; where that is another one, this page says so."""

    def __init__(self, shell: Shell, changed: Callable[[], None]) -> None:
        super().__init__(shell, changed)
        self._yielded = False
        self._gone_ms: int | None = None
        self._opened_at = loop_s()

    @property
    def leading(self) -> Leading:
        """Who leads which session."""
        return self.shell.tools.leading

    def open_session(self) -> None:
        """As it is kept, and led here if no other page leads it."""
        super().open_session()
        self.elsewhere = self.playing is not None and not self.leading.takes(self.playing.run, self)

    def close(self) -> None:
        """The page is left: nothing runs on unseen, and another page may lead it."""
        leaves = self.playing is not None and not self.elsewhere and not self._closed
        super().close()
        if leaves:
            self.leading.leave(self.now.run, self)

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
        new = loop_s() - self._opened_at < GOES_S
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
