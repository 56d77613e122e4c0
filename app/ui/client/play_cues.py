"""Cues given: a tone, a vibration and, where a voice is on, what comes next."""
from __future__ import annotations

from app import text_player as says
from app.actions.playing import Playing
from app.domain.cues import Cue, CueKind, cues_of, sounding
from app.domain.plan import Step
from app.ui.shell import Shell


class Caller:
    """Remembers up to where a session was called out. A cue that was passed is dropped."""

    def __init__(self, shell: Shell) -> None:
        self._shell, self._device = shell, shell.device
        self._heard_ms = -1
        self._steps: tuple[Step, ...] = ()
        self._confirmed: frozenset[int] | None = None
        self._cues: tuple[Cue, ...] = ()

    def stands_at(self, at_ms: int, *, jumped: bool) -> None:
        """The position was moved by hand. After a jump the cue at the very start of the step is still to come."""
        self._heard_ms = at_ms - 1 if jumped or self._heard_ms < 0 else at_ms

    def call(self, playing: Playing) -> None:
        """Gives the cue that has come due since the last call, if one has."""
        state = playing.state
        if state.steps is not self._steps or state.confirmed is not self._confirmed:
            self._steps, self._confirmed = state.steps, state.confirmed
            self._cues = cues_of(state.steps, state.confirmed)
        cue = sounding(self._cues, self._heard_ms, state.at_ms)
        self._heard_ms = state.at_ms
        if cue is None:
            return
        self._shell.run(self._device.sounds.play, cue.kind.value)
        self._shell.run(self._device.haptics.play, cue.buzz.value)
        coming = playing.library.get(state.step.exercise or "")
        if cue.kind is CueKind.REST and coming is not None:
            line = coming.cues.set_up[0] if coming.cues.set_up else ""
            self._shell.run(self._device.speech.say, says.spoken_next(coming.name, line))
