"""The track follows the session: started, paused, sought, laid anew after a change, and given up at the end."""
from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from app.actions.output_settings import Sense, switch_off
from app.actions.training import playing as act
from app.actions.training.playing import Playing
from app.actions.training.today import today
from app.device.abilities import Ability
from app.device.clock import ManualClock
from app.device.recording import RecordingDevice
from app.domain.model.plan import StepKind
from app.domain.player import player as events
from app.domain.player.player_state import Status
from app.domain.player.tap_gates import Wait
from app.domain.sound.audio_track import lay_track
from app.ui.client.player.cue_output import Caller
from tests.actions.at_home import Home, home

MORNING = datetime(2026, 3, 2, 8, tzinfo=UTC)


class Page:
    """A session on a page without a screen: the clock is turned by hand, tasks run when they are let."""

    def __init__(self, made: Home, device: RecordingDevice) -> None:
        self.home, self.store, self.clock, self.device = made, made.store, made.clock, device
        self._tasks: set[asyncio.Task[Any]] = set()
        self.caller = Caller(self)  # type: ignore[arg-type]
        self.playing: Playing = act.start_session(
            made.store, made.clock, today(made.store, made.clock, made.person.id))

    def said(self, words: str) -> str:
        """As it was written."""
        return words

    def run(self, task: Callable[..., Awaitable[Any]], *values: Any) -> None:
        """As the shell does."""
        made = asyncio.ensure_future(task(*values))
        self._tasks.add(made)
        made.add_done_callback(self._tasks.discard)

    async def press(self, event: events.PlayerEvent) -> None:
        """What the player does with a press."""
        before = self.playing.state.index
        self.playing = act.do(self.store, self.clock, self.playing, event)
        self.caller.stands_at(self.playing.state.at_ms, jumped=self.playing.state.index != before)
        self.caller.follow(self.playing)
        await self.settle()

    async def go(self, seconds: float) -> None:
        """Time passes, looked at five times a second."""
        for _ in range(round(seconds * 5)):
            await self.clock.advance(0.2)
            if self.playing.state.status is Status.RUNNING:
                self.playing = act.go_on(self.store, self.clock, self.playing)
                self.caller.call(self.playing)
                await self.settle()

    async def settle(self) -> None:
        """Lets what was asked for be done."""
        for _ in range(30):
            await asyncio.sleep(0)

    def asked(self) -> list[tuple[str, ...]]:
        """What was asked of the track, comparisons left out."""
        return [call for call in self.device.asked(Ability.TRACK) if call != ("hold",)]


@pytest.fixture
def page(tmp_path: Path, device: RecordingDevice) -> Iterator[Page]:
    made = home(tmp_path, ManualClock(MORNING))
    made.answer()
    yield Page(made, device)
    made.store.close()
    made.desk.close()


def told(page: Page, story: Callable[[Page], Awaitable[None]]) -> None:
    asyncio.run(story(page))  # type: ignore[arg-type]


def test_the_recording_device_is_given_the_track_at_the_start_and_plays_from_where_it_stands(page: Page) -> None:
    """One load, one play; the tones of the session are on it, and no single tone is played beside it."""
    async def story(page: Page) -> None:
        await page.press(events.Started())
        await page.go(40)

    told(page, story)
    assert page.asked()[0] == ("load", "0") and page.asked()[1][0] == "play"
    assert len(page.asked()) == 2
    assert page.device.track.tracks[0].sounds == lay_track(
        page.playing.state.steps, waiting=page.playing.state.waiting()).sounds
    assert page.device.asked(Ability.SOUND) == []
    assert page.device.asked(Ability.HAPTICS)


def test_it_pauses_with_the_session_and_goes_on_from_the_same_place(page: Page) -> None:
    """However long the pause."""
    async def story(page: Page) -> None:
        await page.press(events.Started())
        await page.go(6)
        await page.press(events.Paused())
        await page.go(300)
        await page.press(events.Started())

    told(page, story)
    assert page.asked()[2:] == [("pause",), ("play", "6000")]


def test_a_skip_and_a_step_back_seek_without_a_new_track(page: Page) -> None:
    """The plan is the same."""
    async def story(page: Page) -> None:
        await page.press(events.Started())
        await page.go(12)
        await page.press(events.Skipped())
        at = page.playing.state.at_ms
        assert page.asked()[-1] == ("play", str(at))
        await page.go(1)
        await page.press(events.WentBack())
        assert page.asked()[-1] == ("play", str(page.playing.state.at_ms))

    told(page, story)
    assert [call[0] for call in page.asked()] == ["load", "play", "play", "play"]


def test_a_longer_rest_lays_the_rest_anew_from_where_it_stands(page: Page) -> None:
    """The new track is loaded since this sample; what was before stays as it was."""
    async def story(page: Page) -> None:
        await page.press(events.Started())
        rest = next(s for s in page.playing.state.steps if s.kind is StepKind.REST)
        await page.go(rest.start_ms / 1000 + 1)
        await page.press(events.LongerRest())

    told(page, story)
    at = page.playing.state.at_ms
    first, second = page.device.track.tracks
    assert page.asked()[-2:] == [("load", str(second.sample(at))), ("play", str(at))]
    assert second.length - first.length == 15_000 * 16
    assert [s for s in first.sounds if s.at < first.sample(at)] == [s for s in second.sounds if s.at < first.sample(at)]


def test_at_a_wait_the_track_stops_and_goes_on_behind_its_room(page: Page) -> None:
    """The next tone is never heard before the tap."""
    async def story(page: Page) -> None:
        steps = page.playing.state.steps
        alone = replace(page.playing.state, waits=frozenset({Wait.ALL_RIGHT}))
        waits = min(alone.waiting())
        page.playing = replace(page.playing, state=replace(alone, at_ms=steps[waits].start_ms))
        await page.press(events.Started())
        await page.go(steps[waits].length_ms / 1000 + 5)
        assert page.playing.state.status is Status.WAITING
        assert page.asked()[-1] == ("pause",)
        await page.press(events.Started())
        assert page.asked()[-1] == ("play", str(steps[waits].end_ms))

    told(page, story)
    track = page.device.track.tracks[-1]
    wait = track.waits[0]
    assert track.track_ms(wait) - track.track_ms(wait - 1) == 3_001


def test_where_there_is_no_track_single_tones_are_played(page: Page) -> None:
    """Asked for once, then left alone until somebody presses something."""
    page.device.record.lacks.add(Ability.TRACK)

    async def story(page: Page) -> None:
        await page.press(events.Started())
        await page.go(60)

    told(page, story)
    tones = [name for name, in page.device.asked(Ability.SOUND)]
    assert tones[:4] == ["count", "count", "count", "work"]
    assert list(page.device.missing.abilities) == [Ability.TRACK]


def test_with_sound_and_voice_off_there_is_no_track_and_no_tone(page: Page) -> None:
    """What is switched off is not even loaded; vibration goes on."""
    for sense in (Sense.SOUND, Sense.SPEECH):
        switch_off(page.store, page.device, sense)
    quiet = Page.__new__(Page)
    quiet.__dict__ |= page.__dict__
    quiet.caller = Caller(quiet)  # type: ignore[arg-type]

    async def story(page: Page) -> None:
        await page.press(events.Started())
        await page.go(60)

    told(quiet, story)
    assert page.asked() == [] == page.device.asked(Ability.SOUND)
    assert page.device.asked(Ability.HAPTICS)


def test_when_the_page_is_left_the_track_is_given_up(page: Page) -> None:
    """At once, and nothing is asked for afterwards."""
    async def story(page: Page) -> None:
        await page.press(events.Started())
        await page.go(3)
        page.caller.leave()
        await page.settle()

    told(page, story)
    assert page.asked()[-1] == ("drop",)
