"""Clocks: the machine's, a fast one, and one that tests turn by hand."""
from __future__ import annotations

import asyncio
import time
from datetime import UTC, date, datetime, timedelta

import pytest

from app.device.clock import Clock, FastClock, ManualClock, SystemClock

START = datetime(2026, 3, 2, 7, 30, tzinfo=UTC)


def test_the_system_clock_is_aware_and_never_goes_back() -> None:
    """Its instants are in UTC, its milliseconds whole."""
    clock = SystemClock()
    first, second = clock.monotonic_ms(), clock.monotonic_ms()
    assert isinstance(first, int)
    assert second >= first
    assert clock.now().utcoffset() == timedelta()
    assert abs(clock.now() - datetime.now(UTC)) < timedelta(seconds=5)


def test_the_local_day_is_the_machines(monkeypatch: pytest.MonkeyPatch) -> None:
    """Late evening in London is already tomorrow in Tokyo."""
    if not hasattr(time, "tzset"):
        pytest.skip("this system cannot change its zone for a test")
    try:
        monkeypatch.setenv("TZ", "JST-9")
        time.tzset()
        there = SystemClock().local(datetime(2026, 3, 2, 22, 0, tzinfo=UTC))
    finally:
        monkeypatch.undo()
        time.tzset()
    assert (there.day, there.offset_min) == (date(2026, 3, 3), 540)


def test_a_fast_clock_runs_both_its_clocks_at_its_rate() -> None:
    """A minute of it passes in 60 ms of ours, asleep or awake."""
    clock = FastClock(1000)
    before_ms, before, real = clock.monotonic_ms(), clock.now(), time.monotonic()
    asyncio.run(clock.sleep(60))
    took = time.monotonic() - real
    passed = clock.monotonic_ms() - before_ms
    assert 0.05 < took < 5
    assert passed == pytest.approx(took * 1_000_000, rel=0.2)
    assert (clock.now() - before).total_seconds() == pytest.approx(passed / 1000, rel=0.2)


@pytest.mark.parametrize("rate", [0, -1])
def test_a_fast_clock_cannot_stand_or_run_back(rate: float) -> None:
    """It would sleep for ever."""
    with pytest.raises(ValueError, match="rate"):
        FastClock(rate)


def test_a_manual_clock_stands_still(clock: ManualClock) -> None:
    """However long one waits."""
    time.sleep(0.01)
    assert (clock.monotonic_ms(), clock.now()) == (0, START)


def test_a_sleeper_wakes_at_its_moment_and_not_before() -> None:
    """To the millisecond."""
    async def story() -> list[int]:
        clock, woken = ManualClock(START), []

        async def sleeper() -> None:
            await clock.sleep(1.5)
            woken.append(clock.monotonic_ms())

        task = asyncio.create_task(sleeper())
        await clock.advance(1.499)
        assert woken == []
        await clock.advance(0.001)
        await task
        return woken

    assert asyncio.run(story()) == [1500]


def test_a_ticking_task_sees_every_tick_of_a_long_advance() -> None:
    """Each at its own moment, with the wall clock beside it, in order among several."""
    async def story() -> list[tuple[str, int, datetime]]:
        clock: ManualClock = ManualClock(START)
        seen: list[tuple[str, int, datetime]] = []

        async def tick(name: str, every: float) -> None:
            while True:
                await clock.sleep(every)
                seen.append((name, clock.monotonic_ms(), clock.now()))

        tasks = [asyncio.create_task(tick("a", 1)), asyncio.create_task(tick("b", 2.5))]
        await clock.advance(5)
        assert clock.monotonic_ms() == 5000
        for task in tasks:
            task.cancel()
        return seen

    seen = asyncio.run(story())
    assert [(name, ms) for name, ms, _ in seen if name == "a"] == [("a", n * 1000) for n in range(1, 6)]
    assert [ms for name, ms, _ in seen if name == "b"] == [2500, 5000]
    assert [ms for _, ms, _ in seen] == sorted(ms for _, ms, _ in seen)
    assert all(now == START + timedelta(milliseconds=ms) for _, ms, now in seen)


def test_a_cancelled_sleeper_does_not_stop_the_others() -> None:
    """A screen that was left does not hold the clock up."""
    async def story() -> bool:
        clock = ManualClock(START)
        gone, stays = asyncio.create_task(clock.sleep(1)), asyncio.create_task(clock.sleep(2))
        await asyncio.sleep(0)
        gone.cancel()
        await clock.advance(3)
        return stays.done()

    assert asyncio.run(story())


def test_the_wall_clock_can_part_from_the_monotonic_one(clock: ManualClock) -> None:
    """As when a machine has slept."""
    clock.jump(90)
    assert clock.now() == START + timedelta(seconds=90)
    assert clock.monotonic_ms() == 0


def test_a_traveller_changes_the_local_day(clock: ManualClock) -> None:
    """The same instant, another date."""
    late = datetime(2026, 3, 2, 22, 0, tzinfo=UTC)
    assert clock.local(late).day == date(2026, 3, 2)
    clock.travel(540)
    assert (clock.local(late).day, clock.local(late).offset_min) == (date(2026, 3, 3), 540)


def test_all_three_are_clocks() -> None:
    """Checked by the type checker where it runs, and by use here."""
    clocks: list[Clock] = [SystemClock(), FastClock(10), ManualClock(START)]
    assert all(isinstance(clock.local(clock.now()).day, date) for clock in clocks)
