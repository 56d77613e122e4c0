"""Time for the story: it stands still until it is moved on."""
from __future__ import annotations

from datetime import UTC, datetime, timedelta

from app.device.clock import LocalDay, SystemClock


class StoryClock:
    """A clock that is set by hand. Days are those of the machine's own zone."""

    def __init__(self, start: datetime) -> None:
        self._now = start.astimezone(UTC)
        self._mono_ms = 0
        self._here = SystemClock()

    def set(self, moment: datetime) -> None:
        """Goes forward to a moment."""
        self.forward(int((moment - self._now).total_seconds() * 1000))

    def forward(self, by_ms: int) -> None:
        """Moves both clocks on."""
        self._now += timedelta(milliseconds=by_ms)
        self._mono_ms += by_ms

    def monotonic_ms(self) -> int:
        return self._mono_ms

    def now(self) -> datetime:
        return self._now

    def local(self, instant: datetime) -> LocalDay:
        return self._here.local(instant)

    async def sleep(self, seconds: float) -> None:
        self.forward(int(seconds * 1000))
