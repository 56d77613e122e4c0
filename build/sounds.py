#!/usr/bin/env python3
"""Makes the tones of a session: python3 build/sounds.py [FOLDER], by default assets/sounds.

High hearing goes first, so every tone lies between 400 and 1,000 Hz, and no two share a rhythm: whoever cannot tell
pitches apart can still count beats and tell long from short. Attack and decay are soft. The same bytes every time.
"""
from __future__ import annotations

import math
import sys
import wave
from array import array
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

RATE = 24_000
PEAK = 0.6
ATTACK_MS = 12
DECAY_MS = 60
FOLDER = Path(__file__).resolve().parent.parent / "assets" / "sounds"


class Beat(NamedTuple):
    """One sounding stretch after a silence."""

    silence_ms: int
    length_ms: int
    hz: float


TONES: dict[str, tuple[Beat, ...]] = {
    "count": (Beat(0, 90, 660),),
    "work": (Beat(0, 110, 660), Beat(60, 420, 880)),
    "halfway": (Beat(0, 170, 700), Beat(150, 170, 700)),
    "last_ten": (Beat(0, 90, 780), Beat(60, 90, 780), Beat(60, 90, 780)),
    "rest": (Beat(0, 650, 470),),
    "change_side": (Beat(0, 300, 560), Beat(60, 90, 760), Beat(60, 300, 560), Beat(60, 90, 760)),
    "finish": (Beat(0, 170, 523), Beat(60, 170, 659), Beat(60, 600, 784)),
    "waiting": (Beat(0, 90, 520), Beat(60, 90, 520), Beat(350, 90, 520), Beat(60, 90, 520)),
}


def loudness(at: int, length: int) -> float:
    """0 to 1 over a beat of `length` samples: up along a cosine, level, down along a cosine."""
    attack = RATE * ATTACK_MS // 1000
    decay = min(RATE * DECAY_MS // 1000, length - attack)
    rising = min(1.0, at / attack)
    falling = min(1.0, (length - 1 - at) / decay)
    return (1 - math.cos(math.pi * rising)) * (1 - math.cos(math.pi * falling)) / 4


def samples(beats: Iterable[Beat]) -> array[int]:
    """The tone as signed 16-bit samples at 24 kHz."""
    out: array[int] = array("h")
    for beat in beats:
        out.extend([0] * (RATE * beat.silence_ms // 1000))
        length = RATE * beat.length_ms // 1000
        turn = 2 * math.pi * beat.hz / RATE
        out.extend(round(32767 * PEAK * loudness(at, length) * math.sin(turn * at)) for at in range(length))
    return out


def write(folder: Path) -> None:
    """Writes every tone into `folder` as NAME.wav."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, beats in TONES.items():
        tone = samples(beats)
        if sys.byteorder == "big":
            tone.byteswap()
        with wave.open(str(folder / f"{name}.wav"), "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(RATE)
            file.writeframes(tone.tobytes())


if __name__ == "__main__":
    write(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
