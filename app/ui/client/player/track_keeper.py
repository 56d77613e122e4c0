"""The sound track of the session that a page leads: laid, loaded, and kept where the session stands."""
from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Mapping

from app.actions.files.pack_media import clips_of
from app.actions.output_settings import Sense, senses
from app.actions.training.playing import Playing
from app.device.clock import Clock, loop_s
from app.domain.model.plan import Step
from app.domain.player.player_state import PlayerState, Status
from app.domain.sound.audio_track import EVERY, CueTrack, lay_track
from app.ui.shell.shell import Shell

LOOK_EACH_S = 10.0
"""How often the track is compared with the session, seconds of the machine."""
TAIL_S = 2.5
"""What the last tone takes, after which the track is not needed any more."""

Key = tuple[tuple[Step, ...], frozenset[int]]


def stands_at(state: PlayerState, clock: Clock) -> int:
    """The position now, ms, between two looks at the clock."""
    since = state.since.mono_ms if state.since else clock.monotonic_ms()
    gone = clock.monotonic_ms() - since if state.status is Status.RUNNING else 0
    return min(state.at_ms + gone, state.total_ms)


class Conductor:
    """One thing is asked of the machine at a time, and always what the session needs by then."""

    def __init__(self, shell: Shell) -> None:
        self._shell, self._device = shell, shell.device
        self.sounds = False
        """Whether the track is what is heard."""
        self._voice = senses(shell.store)[Sense.SPEECH]
        self._playing: Playing | None = None
        self._track: CueTrack | None = None
        self._rooms: frozenset[int] = frozenset()
        self._loaded: Key | None = None
        self._refused: Key | None = None
        self._moved = False
        self._busy = False
        self._looked_at = 0.0

    @property
    def speaks(self) -> bool:
        """Whether the track says lines."""
        return self.sounds and self._track is not None and any(sound.is_line for sound in self._track.sounds)

    def follow(self, playing: Playing) -> None:
        """Brings the track to where the session stands, as soon as may be."""
        self._playing = playing
        if not self._busy and self._next() is not None:
            self._busy = True
            self._shell.run(self._act)

    def moved(self) -> None:
        """The position was moved by hand."""
        self._moved = True
        self._refused = None

    def leave(self) -> None:
        """The page is left, or the session is over: the last tone may still be heard to its end."""
        over = self._playing is not None and self._playing.state.status is Status.FINISHED and self.sounds
        self._playing = None
        if self._loaded is not None:
            self._shell.run(self._drop, TAIL_S if over else 0.0)

    async def _drop(self, after_s: float) -> None:
        await asyncio.sleep(after_s)
        await self._device.track.drop()

    async def _act(self) -> None:
        try:
            while (task := self._next()) is not None:
                await task()
        finally:
            self._busy = False

    def _next(self) -> Callable[[], Awaitable[None]] | None:
        if self._playing is None:
            return None
        state = self._playing.state
        if state.status is not Status.RUNNING:
            return self._pause if self.sounds and state.status is not Status.FINISHED else None
        key = self._key(state)
        if key == self._refused or not self._wanted():
            return None
        if key != self._loaded:
            return self._load
        if not self.sounds or self._moved:
            return self._play
        return self._look if loop_s() - self._looked_at > LOOK_EACH_S else None

    def _wanted(self) -> bool:
        return self._device.sounds.on or self._voice

    def _key(self, state: PlayerState) -> Key:
        """The steps, and where there is room for a tap: behind as it was laid, ahead as it is awaited."""
        behind = {index for index in self._rooms if state.steps[index].end_ms <= state.at_ms}
        ahead = {index for index in state.waiting() if state.steps[index].end_ms > state.at_ms}
        return state.steps, frozenset(behind | ahead)

    def _where(self) -> int:
        playing = self._playing
        return stands_at(playing.state, self._shell.clock) if playing else 0

    async def _load(self) -> None:
        playing = self._playing
        assert playing
        state, first = playing.state, self._loaded is None
        key, from_ms = self._key(state), self._where()
        track = lay_track(
            key[0], kinds=EVERY if self._device.sounds.on else frozenset(), library=playing.library,
            clips=self._clips(playing), waiting=key[1], from_ms=0 if first else from_ms)
        if await self._device.track.load(track, 0 if first else track.sample(from_ms)):
            self._track, self._loaded, self._rooms, self._moved = track, key, key[1], True
        else:
            self._refused, self.sounds = key, False

    def _clips(self, playing: Playing) -> Mapping[str, bytes]:
        if not self._voice:
            return {}
        ids = dict.fromkeys(step.exercise for step in playing.state.steps if step.exercise)
        return clips_of(self._shell.store, playing.pack, [playing.library[one] for one in ids])

    async def _play(self) -> None:
        self._moved = False
        self.sounds = await self._device.track.play(self._where)
        self._looked_at = loop_s() - LOOK_EACH_S + 1
        if not self.sounds:
            self._refused = self._loaded

    async def _look(self) -> None:
        self._looked_at = loop_s()
        self.sounds = await self._device.track.hold_to(self._where)

    async def _pause(self) -> None:
        self.sounds = False
        await self._device.track.pause()
