"""Cues given: the sound track or, where there is none, single tones; a vibration; and a voice."""
from __future__ import annotations

from app.actions.training.playing import Playing
from app.domain.model.plan import Step, StepKind
from app.domain.player.player_state import Status
from app.domain.sound.cues import Cue, CueKind, cues_of, sounding
from app.ui.client.player.track_keeper import Conductor
from app.ui.shell.shell import Shell
from app.words.client import player as says

#: While somebody stands still, nothing is spoken to its end.
SILENT = (Status.PAUSED, Status.HURT, Status.ASKING)


class Caller:
    """Remembers up to where a session was called out. A cue that was passed is dropped."""

    def __init__(self, shell: Shell) -> None:
        self._shell, self._device = shell, shell.device
        self._conductor = Conductor(shell)
        self._heard_ms = -1
        self._steps: tuple[Step, ...] = ()
        self._waiting: frozenset[int] | None = None
        self._cues: tuple[Cue, ...] = ()
        self._step = -1
        self._is_silent = False

    def stands_at(self, at_ms: int, *, jumped: bool) -> None:
        """The position was moved by hand. After a jump the cue at the very start of the step is still to come."""
        self._heard_ms = at_ms - 1 if jumped or self._heard_ms < 0 else at_ms
        self._conductor.moved()

    def follow(self, playing: Playing) -> None:
        """The track goes, stops or changes with the session; a pause is silent."""
        if playing.state.status in SILENT and not self._is_silent:
            self._shell.run(self._device.speech.hush)
        self._is_silent = playing.state.status in SILENT
        self._conductor.follow(playing)

    def leave(self) -> None:
        """The page is left, or the session is over."""
        self._shell.run(self._device.speech.hush)
        self._conductor.leave()

    def call(self, playing: Playing) -> None:
        """Gives the cue that has come due since the last call, if one has."""
        state = playing.state
        waiting = state.waiting()
        if state.steps is not self._steps or waiting != self._waiting:
            self._steps, self._waiting = state.steps, waiting
            self._cues = cues_of(state.steps, waiting=waiting)
        cue = sounding(self._cues, self._heard_ms, state.at_ms)
        self._heard_ms = state.at_ms
        entered, self._step = state.index != self._step, state.index
        if cue is not None:
            self._give(cue, playing)
        if entered and state.step.kind is StepKind.CHANGE:
            self._tell_change(playing, first=cue is not None and cue.kind is CueKind.REST)
        self._conductor.follow(playing)

    def _give(self, cue: Cue, playing: Playing) -> None:
        if not self._conductor.sounds:
            self._shell.run(self._device.sounds.play, cue.kind.value)
        if cue.buzz is not None:
            self._shell.run(self._device.haptics.play, cue.buzz.value)
        coming = playing.library.get(playing.state.step.exercise or "")
        change = playing.state.step.kind is StepKind.CHANGE
        if cue.kind is CueKind.REST and coming is not None and not change and not self._conductor.speaks:
            line = coming.cues.set_up[0] if coming.cues.set_up else ""
            self._shell.run(self._device.speech.say, self._shell.said(says.spoken_next(coming.name, line)))

    def _tell_change(self, playing: Playing, *, first: bool) -> None:
        """How to get down or up, as that part of it begins; with the first, what comes then."""
        coming = playing.library.get(playing.state.step.exercise or "")
        if not self._conductor.speaks:
            name = coming.name if first and coming is not None else ""
            self._shell.run(self._device.speech.say, self._shell.said(says.spoken_change(playing.state.step, name)))
