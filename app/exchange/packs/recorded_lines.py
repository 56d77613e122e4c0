"""Recorded lines: WAV files as a coach's program or a speech engine writes them, brought to the track's own form."""
from __future__ import annotations

import io
import struct
import sys
import wave
from array import array
from itertools import accumulate, pairwise

from app.domain.errors import WrongValue
from app.domain.sound.tones import little_endian
from app.domain.sound.wav import BYTES, RATE

#: Shorter is a slip of the finger, longer is no line to be said in a rest.
SHORTEST_MS, LONGEST_MS = 100, 20_000
RATES = range(8_000, 48_001)
EXPECTED = "a WAV recording of 0.1 to 20 seconds: PCM, 16 bit, one or two channels, 8,000 to 48,000 Hz"


def read_recording(data: bytes, where: str) -> bytes:
    """The samples of a recorded line, brought to one channel and 16 kHz. `where` names it.

    Raises:
        WrongValue: it is no WAV file, or one that is not taken.
    """
    try:
        with wave.open(io.BytesIO(data)) as file:
            channels, width, rate, count = file.getparams()[:4]
            told = f"{width * 8} bit, {channels} channels, {rate} Hz, {count / rate if rate else 0:.1f} s"
            if width != BYTES or channels not in (1, 2) or rate not in RATES or not (
                    SHORTEST_MS <= count * 1000 // rate <= LONGEST_MS):
                raise WrongValue(where=where, value=told, expected=EXPECTED)
            frames = file.readframes(count)
    except (wave.Error, EOFError, OSError, RuntimeError, struct.error, ValueError) as error:  # some from a bad seek
        raise WrongValue(where=where, value=str(error) or "a file cut short", expected=EXPECTED) from error
    if len(frames) != count * channels * BYTES:
        raise WrongValue(where=where, value="a file cut short", expected=EXPECTED)
    return little_endian(_at_rate(_one_channel(_numbers(frames), channels), rate))


def _numbers(frames: bytes) -> array[int]:
    found = array("h", frames)
    if sys.byteorder == "big":
        found.byteswap()
    return found


def _one_channel(found: array[int], channels: int) -> array[int]:
    if channels == 1:
        return found
    return array("h", [(left + right) // 2 for left, right in zip(found[::2], found[1::2], strict=True)])


def _at_rate(found: array[int], rate: int) -> array[int]:
    """At 16 kHz: from above as means of what lies between two samples, from below on straight lines."""
    if rate == RATE:
        return found
    count = len(found) * RATE // rate
    if rate > RATE:
        sums = [0, *accumulate(found)]
        edges = [at * rate // RATE for at in range(count + 1)]
        return array("h", [(sums[b] - sums[a]) // (b - a) for a, b in pairwise(edges)])
    last = len(found) - 1
    out: array[int] = array("h")
    for at in range(count):
        whole, part = divmod(at * rate, RATE)
        one, other = found[whole], found[min(whole + 1, last)]
        out.append(one + (other - one) * part // RATE)
    return out
