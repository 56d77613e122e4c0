"""A sound track of 25 minutes with 300 cues against writing the same bytes of silence, and the memory that it takes.

Argument: how often.
"""
from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from typing import Any

from .either import by_turns, either, tell
from .long_track import audio_track, cues, long_steps

tones = either("app.domain.sound.tones", "app.domain.tones")
wav = either("app.domain.sound.wav", "app.domain.wav")

MINUTES = 25
MIB = 1024 * 1024


def write_silence(track: Any, path: Path) -> None:
    """As many bytes, a second at a time."""
    with path.open("wb") as out:
        out.write(wav.wav_header(track.length))
        for _ in range(track.length // wav.RATE):
            out.write(audio_track.SILENCE)
        out.write(audio_track.SILENCE[:track.length % wav.RATE * wav.BYTES])


def write_cues(steps: tuple[Any, ...], path: Path) -> None:
    """Everything from the steps on; the tones are made anew each time."""
    tones.tone_bytes.cache_clear()
    with path.open("wb") as out:
        audio_track.write_track(audio_track.lay_track(steps), out)


def memory(line: str) -> int:
    """Bytes, as Linux counts this process's memory: `VmRSS` now, `VmHWM` at its highest; 0 elsewhere."""
    status = Path("/proc/self/status")
    words = status.read_text("ascii").split(f"{line}:")[1].split() if status.exists() else ["0"]
    return int(words[0]) * 1024


def main(times: int) -> None:
    """Measures and prints."""
    steps = long_steps(MINUTES)
    with tempfile.TemporaryDirectory() as folder:
        path, empty = Path(folder, "track.wav"), Path(folder, "silence.wav")
        before = memory("VmRSS")
        write_cues(steps, path)
        extra = memory("VmHWM") - before
        track = audio_track.lay_track(steps)
        found = by_turns(lambda: write_cues(steps, path), lambda: write_silence(track, empty), times)
        size = path.stat().st_size
        assert size == empty.stat().st_size == wav.HEADER_BYTES + track.length * wav.BYTES
    tell(found, minutes=steps[-1].end_ms / 60_000, cues=len(cues.cues_of(steps)), bytes=size, extra_mib=extra / MIB)


if __name__ == "__main__":
    main(int(sys.argv[1]))
