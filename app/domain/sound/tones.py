"""The tones of a session, from beats to samples.

High hearing goes first, so every tone lies between 400 and 1,000 Hz, and no two share a rhythm: whoever cannot tell
pitches apart can still count beats and tell long from short. Attack and decay are soft, and yet the first sample of a
tone is never silence, so that its beginning can be found to the sample.
"""
from __future__ import annotations

import math
import sys
from array import array
from collections.abc import Iterable, Mapping
from functools import cache
from typing import NamedTuple

from app.domain.sound.cues import CueKind

PEAK = 0.6
FULL = 32_767
ATTACK_MS = 12
DECAY_MS = 60


class ToneBeat(NamedTuple):
    """One sounding stretch after a silence."""

    silence_ms: int
    length_ms: int
    hz: float


TONES: Mapping[CueKind, tuple[ToneBeat, ...]] = {
    CueKind.COUNT: (ToneBeat(0, 90, 660),),
    CueKind.WORK: (ToneBeat(0, 110, 660), ToneBeat(60, 420, 880)),
    CueKind.HALFWAY: (ToneBeat(0, 170, 700), ToneBeat(150, 170, 700)),
    CueKind.LAST_TEN: (ToneBeat(0, 90, 780), ToneBeat(60, 90, 780), ToneBeat(60, 90, 780)),
    CueKind.REST: (ToneBeat(0, 650, 470),),
    CueKind.CHANGE_SIDE: (ToneBeat(0, 300, 560), ToneBeat(60, 90, 760), ToneBeat(60, 300, 560), ToneBeat(60, 90, 760)),
    CueKind.FINISH: (ToneBeat(0, 170, 523), ToneBeat(60, 170, 659), ToneBeat(60, 600, 784)),
    CueKind.WAITING: (ToneBeat(0, 90, 520), ToneBeat(60, 90, 520), ToneBeat(350, 90, 520), ToneBeat(60, 90, 520)),
    CueKind.TICK: (ToneBeat(0, 30, 440),),
}
#: Of the height of other tones: it accompanies, it does not call.
SOFT: Mapping[CueKind, float] = {CueKind.TICK: 0.35}


def tone_ms(kind: CueKind) -> int:
    """How long a tone sounds, its silences counted in, ms."""
    return sum(beat.silence_ms + beat.length_ms for beat in TONES[kind])


@cache
def tone_bytes(kind: CueKind, rate: int) -> bytes:
    """A tone as signed 16-bit samples, the lower byte first, at `rate` Hz (a multiple of 1,000)."""
    return little_endian(samples(TONES[kind], rate, SOFT.get(kind, 1.0)))


def samples(beats: Iterable[ToneBeat], rate: int, height: float = 1.0) -> array[int]:
    """Beats as signed 16-bit samples, `height` of the usual 0.6 of what can be written."""
    out: array[int] = array("h")
    for beat in beats:
        out.frombytes(bytes(2 * rate * beat.silence_ms // 1000))
        length = rate * beat.length_ms // 1000
        turn = 2 * math.pi * beat.hz / rate
        loud = loudness(length, rate, FULL * PEAK * height)
        out.extend([round(loud[at] * math.sin(turn * (at + 1))) for at in range(length)])
    return out


def loudness(length: int, rate: int, top: float) -> list[float]:
    """The height of the wave over a beat of `length` samples: up within 12 ms to `top`, down within 60 ms to 0."""
    attack = rate * ATTACK_MS // 1000
    decay = min(rate * DECAY_MS // 1000, length - attack)
    up = [top * math.sin(math.pi / 2 * (at + 1) / attack) for at in range(attack)]
    down = [top * (1 + math.cos(math.pi * (at + 1) / decay)) / 2 for at in range(decay)]
    return [*up, *[top] * (length - attack - decay), *down]


def little_endian(tone: array[int]) -> bytes:
    """16-bit samples as they stand in a WAV file, whatever machine made them."""
    if sys.byteorder == "big":
        tone = array("h", tone)
        tone.byteswap()
    return tone.tobytes()
