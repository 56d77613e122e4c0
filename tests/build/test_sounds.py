"""The tones: made by the script, low enough for ageing ears, and told apart by rhythm."""
from __future__ import annotations

import wave
from itertools import combinations, pairwise
from pathlib import Path
from types import ModuleType

from app.domain.sound.cues import CueKind
from app.domain.sound.tones import TONES, samples
from app.resources import resource_dir


def test_the_files_are_what_the_script_makes(sounds: ModuleType, tmp_path: Path) -> None:
    """Byte for byte, none more and none fewer."""
    sounds.write(tmp_path)
    committed = {path.name: path.read_bytes() for path in (resource_dir("assets") / "sounds").iterdir()}
    assert committed == {path.name: path.read_bytes() for path in tmp_path.iterdir()}


def test_every_pitch_lies_where_ageing_ears_still_hear() -> None:
    """400 to 1,000 Hz."""
    assert all(400 <= beat.hz <= 1000 for beats in TONES.values() for beat in beats)


def rhythm(name: CueKind) -> list[tuple[int, int]]:
    """Silence and sound of a tone in steps of 60 ms, its pitches left out."""
    return [(round(beat.silence_ms / 60), round(beat.length_ms / 60)) for beat in TONES[name]]


def test_no_two_tones_share_a_rhythm() -> None:
    """Another number of beats, or a beat or silence that differs by 60 ms or more."""
    for one, other in combinations(TONES, 2):
        assert rhythm(one) != rhythm(other), (one, other)


def test_tones_are_short_soft_and_in_one_format(sounds: ModuleType) -> None:
    """24 kHz, 16 bit, mono; at most 1.2 s; they begin near silence and end in it, and never jump."""
    for path in (resource_dir("assets") / "sounds").iterdir():
        with wave.open(str(path)) as file:
            assert (file.getframerate(), file.getsampwidth(), file.getnchannels()) == (24_000, 2, 1)
            assert file.getnframes() <= 1.2 * 24_000
        tone = samples(TONES[CueKind(path.stem)], sounds.RATE)
        assert tone[-1] == 0 and 0 < abs(tone[0]) < 100
        assert 0.5 * 32767 < max(map(abs, tone)) <= 0.6 * 32767 + 1
        steepest = max(abs(b - a) for a, b in pairwise(tone))
        assert steepest < 32767 * 0.6 * 2 * 3.1416 * 1000 / 24_000
