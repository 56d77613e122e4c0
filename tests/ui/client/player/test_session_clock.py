"""What is drawn when, as the clock moves a session on: another step's words at once, its figure a moment later."""
from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from types import SimpleNamespace
from typing import Any, NamedTuple

import pytest

from app.actions.training import playing as act
from app.device.clock import ManualClock
from app.device.recording import RecordingDevice
from app.ui.client.player.live_session import Live
from app.ui.client.player.session_clock import BREATH_S, DRAW_EACH_S, HUSH_MS, LEAD_MS
from app.ui.client.player.track_keeper import stands_at
from app.ui.shell.session_lead import Leading, StartPressed
from tests.actions.at_home import Home, home

MORNING = datetime(2026, 3, 2, 8, tzinfo=UTC)


class Drawn(NamedTuple):
    """One drawing: the step whose words it shows, the step whose figure, and whether figures stand still."""

    words: int
    figure: int
    still: bool


class Surroundings:
    """A page without a screen."""

    def __init__(self, made: Home, device: RecordingDevice) -> None:
        self.store, self.clock, self.device = made.store, made.clock, device
        self.tools = SimpleNamespace(leading=Leading(), start=StartPressed())
        self.drawn: list[Drawn] = []
        self._tasks: set[asyncio.Task[Any]] = set()

    def said(self, words: str) -> str:
        """As it was written."""
        return words

    def run(self, task: Callable[..., Awaitable[Any]], *values: Any) -> None:
        """As the shell does."""
        made = asyncio.ensure_future(task(*values))
        self._tasks.add(made)
        made.add_done_callback(self._tasks.discard)

    def route_id(self) -> str:
        """Today's session."""
        return ""

    def opened(self) -> Live:
        """The session, begun; every drawing is noted."""
        live = Live(self, lambda: None)  # type: ignore[arg-type]
        live.start()
        live.changed = lambda: self.drawn.append(Drawn(live.now.state.index, live.pictured.at, live.hushed))
        self.run(live.run)
        return live


@pytest.fixture
def page(tmp_path: Path, device: RecordingDevice) -> Iterator[Surroundings]:
    made = home(tmp_path, ManualClock(MORNING))
    made.answer()
    yield Surroundings(made, device)
    made.store.close()
    made.desk.close()


async def go(live: Live, ms: int, each_ms: int = 50) -> None:
    """So much of the session passes, in small parts."""
    for part_ms in (*(each_ms for _ in range(ms // each_ms)), ms % each_ms):
        await live.clock.advance(part_ms / 1000)  # type: ignore[attr-defined]
        await asyncio.sleep(BREATH_S * 2)


async def to_the_next_step(page: Surroundings) -> Live:
    """A session 500 ms before its second step."""
    live = page.opened()
    await asyncio.sleep(BREATH_S * 2)
    await go(live, live.now.state.step.length_ms - 500, each_ms=1_000)
    await asyncio.sleep(DRAW_EACH_S)
    page.drawn.clear()
    return live


def test_another_step_is_drawn_at_once_between_figures_that_stand_still(page: Surroundings) -> None:
    """Still before it; then its words with the figure of before; then its own figure, which moves."""
    async def story() -> list[Drawn]:
        live = await to_the_next_step(page)
        await go(live, 1_000)
        live.close()
        return page.drawn

    drawn = asyncio.run(story())
    assert drawn.index(Drawn(0, 0, True)) < drawn.index(Drawn(1, 0, True)) < drawn.index(Drawn(1, 1, False))
    assert set(drawn) <= {Drawn(0, 0, False), Drawn(0, 0, True), Drawn(1, 0, True), Drawn(1, 1, False)}


def test_another_step_is_drawn_a_little_ahead_and_the_clock_gains_nothing(page: Surroundings) -> None:
    """The position stays the time that has passed, to the millisecond, however many steps were drawn ahead."""
    async def story() -> tuple[list[int], int, int]:
        live = page.opened()
        began, early = live.clock.monotonic_ms(), []
        live.changed = lambda: early.append(live.clock.monotonic_ms() - began - live.now.state.at_ms)
        for at in (1, 2):
            await go(live, live.now.state.steps[at].start_ms - live.clock.monotonic_ms() + began - 1_000, 1_000)
            await go(live, 1_500)
        stood, gone = stands_at(live.now.state, live.clock), live.clock.monotonic_ms() - began
        live.close()
        return early, stood, gone

    early, stood, gone = asyncio.run(story())
    assert early.count(-LEAD_MS) >= 2 and min(early) == -LEAD_MS
    assert stood == gone


def test_the_disk_is_not_waited_for_just_before_another_step(
    page: Surroundings, monkeypatch: pytest.MonkeyPatch,
) -> None:
    """It is soon after it."""
    left: list[int] = []
    kept = act.keep_beat
    monkeypatch.setattr(act, "keep_beat", lambda store, clock, playing: (
        left.append(playing.state.left_ms), kept(store, clock, playing))[1])

    async def story() -> int:
        live = await to_the_next_step(page)
        left.clear()
        await go(live, 1_000)
        live.close()
        return live.now.state.step.length_ms

    length_ms = asyncio.run(story())
    assert left and not [one for one in left if one <= HUSH_MS]
    assert max(left) > length_ms - 500
