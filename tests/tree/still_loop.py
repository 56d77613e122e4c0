"""Time that moves only when it is told to: an event loop, and the app's clock by it."""
from __future__ import annotations

import asyncio
import selectors
from collections.abc import Coroutine, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from app.device.clock import LocalDay
from tests.tree.reached import noting


class _Selector(selectors.DefaultSelector):
    """Tells the loop when nothing can run, in place of waiting for the next timer."""

    loop: StillLoop

    def select(self, timeout: float | None = None) -> Any:
        ready = super().select(0)
        if ready or timeout == 0:
            return ready
        if self.loop.threads:  # no timer may pass a thread's work
            return super().select(1)
        self.loop.idle(timeout)
        return []


class StillLoop(asyncio.SelectorEventLoop):
    """An event loop whose time stands still while something runs, and otherwise moves on to the next timer."""

    def __init__(self) -> None:
        self._now, self._end, self._one = 0.0, 0.0, False
        self.threads = 0
        selector = _Selector()
        selector.loop = self
        super().__init__(selector)

    def time(self) -> float:
        return self._now

    def idle(self, timeout: float | None) -> None:
        """Nothing can run for so long: goes to that moment, or ends there."""
        due = self._end + 1 if timeout is None else self._now + timeout
        if due > self._end:
            self._now = max(self._now, self._end)
            self.stop()
        else:
            self._now, self._end = due, due if self._one else self._end

    def advance(self, seconds: float = 0, *, to_next_timer: bool = False) -> None:
        """Runs all that is due within so many seconds; or until the first timer that is."""
        self._end, self._one = self._now + seconds, to_next_timer
        with self._beside_others(), noting():
            self.run_forever()

    def finish(self, work: Coroutine[Any, Any, object] | asyncio.Future[Any]) -> None:
        """Runs until that is done."""
        with self._beside_others():
            self.run_until_complete(work)

    @contextmanager
    def _beside_others(self) -> Iterator[None]:
        """A browser driver keeps a loop of its own running in this thread."""
        other = asyncio._get_running_loop()
        asyncio._set_running_loop(None)
        try:
            yield
        finally:
            asyncio._set_running_loop(other)

    def run_in_executor(self, executor: Any, func: Any, *args: Any) -> Any:  # type: ignore[override]
        work = super().run_in_executor(executor, func, *args)
        self.threads += 1
        work.add_done_callback(self._joined)
        return work

    def _joined(self, _: object) -> None:
        self.threads -= 1


@dataclass(frozen=True)
class LoopClock:
    """The app's clock: begins at an instant and runs `rate` times as fast as the loop."""

    loop: StillLoop
    began: datetime
    rate: float = 1

    def monotonic_ms(self) -> int:
        return int(self.loop.time() * self.rate * 1000)

    def now(self) -> datetime:
        return self.began.astimezone(UTC) + timedelta(milliseconds=self.monotonic_ms())

    def local(self, instant: datetime) -> LocalDay:
        return LocalDay(instant.astimezone(UTC).date(), 0)

    async def sleep(self, seconds: float) -> None:
        await asyncio.sleep(seconds / self.rate)
