"""How sound is written: mono, 16 bit, 16 kHz, so that 16 samples are a millisecond and every cue falls on a sample."""
from __future__ import annotations

import struct

RATE = 16_000
PER_MS = RATE // 1000
BYTES = 2
"""Of one sample."""
HEADER_BYTES = 44


def wav_header(count: int) -> bytes:
    """The 44 bytes before `count` samples."""
    size = count * BYTES
    return struct.pack("<4sL4s4sLHHLLHH4sL", b"RIFF", size + HEADER_BYTES - 8, b"WAVE", b"fmt ", 16, 1, 1, RATE,
                       RATE * BYTES, BYTES, 8 * BYTES, b"data", size)


def wav_file(samples: bytes) -> bytes:
    """Samples as a whole file."""
    return wav_header(len(samples) // BYTES) + samples


def length_ms(samples: bytes) -> int:
    """How long they sound, the last millisecond counted whole."""
    return -(-len(samples) // (BYTES * PER_MS))
