"""A sound track of 25 minutes with 300 cues against writing the same bytes of silence, and the memory that it takes.

In a process of its own, so that nothing else is measured: python -m tests.bench.cue_track prints the figures as JSON.
"""
from __future__ import annotations

import json
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter

from app.domain.model.plan import Part, Step, StepKind
from app.domain.sound.audio_track import SILENCE, CueTrack, lay_track, write_track
from app.domain.sound.cues import cues_of
from app.domain.sound.tones import tone_bytes
from app.domain.sound.wav import BYTES, HEADER_BYTES, RATE, wav_header

ROOT = Path(__file__).resolve().parents[2]
PAIRS, REST_MS, WORK_MS = 50, 10_000, 20_000
TIMES = 9
MIB = 1024 * 1024


def long_steps() -> tuple[Step, ...]:
    """25 minutes: 50 times a rest of 10 s and work of 20 s, six cues each."""
    steps: list[Step] = []
    for _ in range(PAIRS):
        for kind, length in ((StepKind.REST, REST_MS), (StepKind.WORK, WORK_MS)):
            steps.append(Step(kind, Part.MAIN, steps[-1].end_ms if steps else 0, length, "a"))
    return tuple(steps)


def write_silence(track: CueTrack, path: Path) -> None:
    """As many bytes, a second at a time."""
    with path.open("wb") as out:
        out.write(wav_header(track.length))
        for _ in range(track.length // RATE):
            out.write(SILENCE)
        out.write(SILENCE[:track.length % RATE * BYTES])


def write_cues(steps: tuple[Step, ...], path: Path) -> None:
    """Everything from the steps on; the tones are made anew each time."""
    tone_bytes.cache_clear()
    with path.open("wb") as out:
        write_track(lay_track(steps), out)


def memory(line: str) -> int:
    """Bytes, as Linux counts this process's memory: `VmRSS` now, `VmHWM` at its highest; 0 elsewhere."""
    status = Path("/proc/self/status")
    words = status.read_text("ascii").split(f"{line}:")[1].split() if status.exists() else ["0"]
    return int(words[0]) * 1024


def seconds(act: Callable[[], None]) -> float:
    """How long it takes."""
    began = perf_counter()
    act()
    return perf_counter() - began


def measure_here(times: int = TIMES) -> dict[str, float]:
    """The figures of this process, by turns, so that what else the machine does falls on both."""
    steps = long_steps()
    with tempfile.TemporaryDirectory() as folder:
        path, empty = Path(folder, "track.wav"), Path(folder, "silence.wav")
        before = memory("VmRSS")
        cues = [seconds(lambda: write_cues(steps, path))]
        extra = memory("VmHWM") - before
        track = lay_track(steps)
        silence = [seconds(lambda: write_silence(track, empty))]
        for _ in range(times - 1):
            silence.append(seconds(lambda: write_silence(track, empty)))
            cues.append(seconds(lambda: write_cues(steps, path)))
        size = path.stat().st_size
        assert size == empty.stat().st_size == HEADER_BYTES + track.length * BYTES
    return {"minutes": steps[-1].end_ms / 60_000, "cues": len(cues_of(steps)), "bytes": size,
            "silence ms": median(silence) * 1000, "track ms": median(cues) * 1000,
            "times the silence": median(cues) / median(silence), "extra MiB": extra / MIB}


def measure(times: int = TIMES) -> dict[str, float]:
    """The figures of a process of its own."""
    command = [sys.executable, "-m", "tests.bench.cue_track", str(times)]
    told = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout
    found: dict[str, float] = json.loads(told)
    return found


if __name__ == "__main__":
    print(json.dumps(measure_here(int(sys.argv[1]) if len(sys.argv) > 1 else TIMES)))
