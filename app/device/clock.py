"""Time from outside, passed in: what runs a session, what dates a record, and what tests turn by hand."""
from __future__ import annotations

import asyncio
import heapq
import time
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, timezone
from itertools import count
from typing import Protocol


@dataclass(frozen=True)
class LocalDay:
    """The day that an instant belongs to where the person is, and the offset of that place from UTC."""

    day: date
    offset_min: int


class Clock(Protocol):
    """Two clocks in one: a monotonic one for lengths and a wall clock for dates. It also sleeps."""

    def monotonic_ms(self) -> int:
        """Whole milliseconds since some fixed moment; never goes back."""

    def now(self) -> datetime:
        """The instant, in UTC and aware."""

    def local(self, instant: datetime) -> LocalDay:
        """The local day of an instant, where the person is."""

    async def sleep(self, seconds: float) -> None:
        """Returns after so many seconds of this clock."""


def loop_s() -> float:
    """Seconds of the running event loop, the ones that `asyncio.sleep` goes by; for a machine's own spans."""
    return asyncio.get_running_loop().time()


class SystemClock:
    """The machine's own time."""

    def monotonic_ms(self) -> int:
        return time.monotonic_ns() // 1_000_000

    def now(self) -> datetime:
        return datetime.now(UTC)

    def local(self, instant: datetime) -> LocalDay:
        there = instant.astimezone()
        offset = there.utcoffset() or timedelta()
        return LocalDay(there.date(), round(offset.total_seconds() / 60))

    async def sleep(self, seconds: float) -> None:
        await asyncio.sleep(seconds)


class FastClock(SystemClock):
    """The machine's time from its making on, `rate` times as fast, both clocks alike."""

    def __init__(self, rate: float) -> None:
        if rate <= 0:
            raise ValueError(f"a clock cannot run at rate {rate}")
        self.rate = rate
        self._since_ns = time.monotonic_ns()
        self._began = datetime.now(UTC)

    def _passed_ms(self) -> int:
        return int((time.monotonic_ns() - self._since_ns) * self.rate) // 1_000_000

    def monotonic_ms(self) -> int:
        return self._since_ns // 1_000_000 + self._passed_ms()

    def now(self) -> datetime:
        return self._began + timedelta(milliseconds=self._passed_ms())

    async def sleep(self, seconds: float) -> None:
        await asyncio.sleep(seconds / self.rate)


class ManualClock:
    """Stands still until told to move; whoever sleeps wakes when its moment is reached. For tests."""

    def __init__(self, began: datetime, offset_min: int = 0) -> None:
        self._now = began.astimezone(UTC)
        self._ms = 0
        self._zone = timezone(timedelta(minutes=offset_min))
        self._order = count()
        self._sleepers: list[tuple[int, int, asyncio.Future[None]]] = []

    def monotonic_ms(self) -> int:
        return self._ms

    def now(self) -> datetime:
        return self._now

    def local(self, instant: datetime) -> LocalDay:
        there = instant.astimezone(self._zone)
        return LocalDay(there.date(), round((there.utcoffset() or timedelta()).total_seconds() / 60))

    async def sleep(self, seconds: float) -> None:
        woken = asyncio.get_running_loop().create_future()
        heapq.heappush(self._sleepers, (self._ms + max(0, round(seconds * 1000)), next(self._order), woken))
        await woken

    async def advance(self, seconds: float) -> None:
        """Moves both clocks on, waking sleepers one by one in order, each at its own moment.

        A woken task runs on, and may go to sleep again within the same stretch, before the next one wakes.
        """
        await self._settle()
        end = self._ms + round(seconds * 1000)
        while self._sleepers and self._sleepers[0][0] <= end:
            due, _, woken = heapq.heappop(self._sleepers)
            self._move_to(due)
            if not woken.done():
                woken.set_result(None)
            await self._settle()
        self._move_to(end)

    def jump(self, seconds: float) -> None:
        """Moves the wall clock alone, as when a machine sleeps or is set right; nobody wakes."""
        self._now += timedelta(seconds=seconds)

    def travel(self, offset_min: int) -> None:
        """Puts the person into another time zone."""
        self._zone = timezone(timedelta(minutes=offset_min))

    def _move_to(self, ms: int) -> None:
        self._now += timedelta(milliseconds=ms - self._ms)
        self._ms = ms

    async def _settle(self) -> None:
        """Lets every task that can run do so. Twenty turns of the loop are more than any chain of ours needs."""
        for _ in range(20):
            await asyncio.sleep(0)
