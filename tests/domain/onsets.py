"""Finds tones in a WAV file by listening alone: it shares neither code nor tables with what makes the track.

A burst is what lies between two silences; a tone is a rhythm of bursts. Times in samples, lengths in ms.
"""
from __future__ import annotations

import io
import re
import wave
from array import array
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

SILENT_BYTES = 2 * 64
"""4 ms at 16 kHz without a sample that differs from 0 part two bursts."""
LOUD = 5_000
"""A tone reaches this; the lines of these tests do not."""
SLACK_MS = 12
#: What each tone is to the ear: lengths of sound and silence by turns.
RHYTHMS = {
    "change_side": (300, 60, 90, 60, 300, 60, 90), "waiting": (90, 60, 90, 350, 90, 60, 90),
    "finish": (170, 60, 170, 60, 600), "last_ten": (90, 60, 90, 60, 90), "work": (110, 60, 420),
    "halfway": (170, 150, 170), "rest": (650,), "count": (90,), "tick": (30,),
}
_SOUND = re.compile(rb"[^\0]")


class Burst(NamedTuple):
    """From its first sample that is not 0 to the one after its last."""

    start: int
    end: int
    hz: float
    peak: int


class Heard(NamedTuple):
    """A tone and its first sample."""

    name: str
    at: int


def read(file: bytes) -> tuple[int, bytes]:
    """Rate and samples of a file that must be mono and of 16 bit."""
    with wave.open(io.BytesIO(file)) as wav:
        assert (wav.getnchannels(), wav.getsampwidth(), wav.getcomptype()) == (1, 2, "NONE")
        assert wav.getframerate() % 1000 == 0
        frames = wav.readframes(wav.getnframes())
        assert len(frames) == 2 * wav.getnframes() == len(file) - 44
        return wav.getframerate(), frames


def bursts(frames: bytes, rate: int) -> Iterator[Burst]:
    """Every stretch of sound, in order."""
    at = 0
    while found := _SOUND.search(frames, at):
        start = found.start() // 2
        end = frames.find(bytes(SILENT_BYTES), 2 * start)
        at = len(frames) if end < 0 else end
        wave_ = array("h", frames[2 * start:at + at % 2])
        turns = sum(a < 0 <= b for a, b in pairwise(wave_))
        yield Burst(start, -(-at // 2), turns * rate / max(1, len(wave_)), max(map(abs, wave_)))


def tones(file: bytes) -> list[Heard]:
    """Every tone in order. Fails at a loud sound that is none of them."""
    rate, frames = read(file)
    loud = [burst for burst in bursts(frames, rate) if burst.peak >= LOUD]
    heard: list[Heard] = []
    at = 0
    while at < len(loud):
        name = next((n for n, rhythm in RHYTHMS.items() if _fits(loud[at:], rhythm, rate)), None)
        assert name, (loud[at:at + 4], "is no tone")
        heard.append(Heard(name, loud[at].start))
        at += (len(RHYTHMS[name]) + 1) // 2
    return heard


def quiet(file: bytes) -> list[Burst]:
    """Every sound that is no tone: the lines of these tests."""
    rate, frames = read(file)
    return [burst for burst in bursts(frames, rate) if burst.peak < LOUD]


def _fits(loud: list[Burst], rhythm: tuple[int, ...], rate: int) -> bool:
    edges = [edge for burst in loud[:(len(rhythm) + 1) // 2] for edge in (burst.start, burst.end)]
    spans = [(b - a) * 1000 / rate for a, b in pairwise(edges)]
    return len(spans) == len(rhythm) and all(abs(a - b) <= SLACK_MS for a, b in zip(spans, rhythm, strict=True))
