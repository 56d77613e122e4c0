"""What a voice can say: recordings of the coach, brought into form when a pack is made, else said by an engine."""
from __future__ import annotations

import contextlib
import re
from collections.abc import Mapping
from typing import Protocol

from app.domain.errors import WrongValue
from app.domain.model.exercise import Exercise
from app.domain.model.source import Source
from app.domain.sound.voice_lines import VOICE, VoiceLine, change_lines, exercise_lines, side_lines
from app.domain.sound.wav import wav_file
from app.exchange.packs.recorded_lines import read_recording
from app.words.sound import line_words

A_RECORDING = re.compile(rf"{VOICE}/.*\.wav")
NAMES = ("voice/left.wav, voice/right.wav, voice/to-floor.wav …, or in voice/EXERCISE name.wav, set-up-1.wav, "
         "safety-1.wav …")


class Speaks(Protocol):
    """A speech engine that writes to files."""

    async def say(self, words: str, language: str) -> bytes | None:
        """A WAV file, or None."""


async def voice_of(source: Source, media: Mapping[str, bytes], engine: Speaks | None = None) -> dict[str, bytes]:
    """Every line that can be said, by its file: recordings brought into form, else made by the engine if there is one.

    Raises:
        WrongValue: a recording that is no such WAV file, or that belongs to no line.
    """
    lines = _lines(source)
    recorded = [path for path in media if A_RECORDING.fullmatch(path)]
    for path in recorded:
        if path not in lines:
            raise WrongValue(where=path, value="a recording that belongs to no line", expected=NAMES)
    found = {path: wav_file(read_recording(media[path], path)) for path in recorded}
    return found if engine is None else found | await _spoken(source, lines, set(found), engine)


async def _spoken(source: Source, lines: Mapping[str, tuple[VoiceLine, Exercise | None]], there: set[str],
                  engine: Speaks) -> dict[str, bytes]:
    """The lines that nobody recorded. An engine that fails once is not asked again."""
    made: dict[str, bytes] = {}
    for path, (line, exercise) in lines.items():
        words = line_words(line, exercise, source.language)
        if path in there or not words:
            continue
        spoken = await engine.say(words, source.language)
        if spoken is None:
            break
        with contextlib.suppress(WrongValue):  # too long to be said in a rest
            made[path] = wav_file(read_recording(spoken, path))
    return made


def _lines(source: Source) -> dict[str, tuple[VoiceLine, Exercise | None]]:
    about = {line.clip: (line, one) for one in source.exercises for line in exercise_lines(one)}
    common: dict[str, tuple[VoiceLine, Exercise | None]] = {
        line.clip: (line, None) for line in (*side_lines(), *change_lines())}
    return {**common, **about}
