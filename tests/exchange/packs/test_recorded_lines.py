"""Recorded lines: what is taken, what becomes of another rate, and what is refused in a sentence."""
from __future__ import annotations

import io
import math
import struct
import wave
from array import array
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import WrongValue
from app.domain.sound.wav import RATE, length_ms, wav_file
from app.exchange.packs.recorded_lines import read_recording
from app.exchange.packs.voice_files import is_clip
from app.words.errors import error_text


def recording(ms: int, *, rate: int = RATE, channels: int = 1, width: int = 2, hz: float = 300) -> bytes:
    """A file as any program writes it: a quiet tone."""
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(width)
        file.setframerate(rate)
        frames = bytearray()
        for at in range(rate * ms // 1000):
            value = round(3_000 * math.sin(2 * math.pi * hz * at / rate + 0.5))
            one = struct.pack("<h", value) if width == 2 else bytes([128 + value // 256])
            frames += one * channels
        file.writeframes(bytes(frames))
    return out.getvalue()


def turns(samples: bytes) -> int:
    """How often the wave rises through nothing."""
    wave_ = array("h", samples)
    return sum(a < 0 <= b for a, b in pairwise(wave_))


@pytest.mark.parametrize("channels", [1, 2])
@pytest.mark.parametrize("rate", [8_000, 11_025, 16_000, 22_050, 44_100, 48_000])
def test_any_usual_rate_becomes_that_of_the_track(rate: int, channels: int) -> None:
    """As long as before and at the same pitch, as loud within a tenth."""
    samples = read_recording(recording(1_500, rate=rate, channels=channels), "voice/left.wav")
    assert abs(length_ms(samples) - 1_500) <= 1
    assert abs(turns(samples) - 450) <= 1
    assert 2_700 <= max(array("h", samples)) <= 3_000


def test_what_has_the_right_form_stays_as_it_is() -> None:
    """Sample for sample."""
    file = recording(800)
    assert wav_file(read_recording(file, "a")) == file


@pytest.mark.parametrize("file", [
    b"", b"RIFF", b"ID3\x03 a song", recording(500)[:60], recording(500, width=1), recording(50),
    recording(20_500, rate=8_000), recording(500, rate=96_000), recording(500, channels=3),
    recording(500).replace(b"\x01\x00\x01\x00", b"\x03\x00\x01\x00", 1), recording(500)[:-101],
])
def test_anything_else_is_refused_in_a_sentence(file: bytes) -> None:
    """With its place, and what is expected."""
    with pytest.raises(WrongValue) as refused:
        read_recording(file, "voice/sit/name.wav")
    said = error_text(refused.value)
    assert said.startswith("voice/sit/name.wav: ") and "16 bit" in said


@given(st.binary(max_size=200) | st.binary(max_size=60).map(lambda tail: recording(120)[:44] + tail))
def test_no_bytes_at_all_break_it(file: bytes) -> None:
    """Samples, or a refusal."""
    try:
        read_recording(file, "a")
    except WrongValue as refused:
        assert error_text(refused)


def test_a_clip_in_a_pack_has_one_form_only() -> None:
    """What is laid on a track as it is must be what it says it is."""
    samples = read_recording(recording(700, rate=44_100), "a")
    assert is_clip(wav_file(samples))
    assert not any(map(is_clip, (b"", recording(700, rate=8_000), wav_file(samples)[:-2], wav_file(samples) + b"\0\0",
                                 wav_file(b""), recording(700, channels=2))))


@pytest.mark.parametrize("at", range(44))
def test_a_recording_with_any_byte_of_its_head_changed_is_read_or_refused(at: int) -> None:
    """A length that leads behind the end, or before the beginning, is no error of Python's own."""
    whole = bytearray(recording(300))
    for value in (0, 1, 0x7F, 0x80, 0xFE, 0xFF):
        changed = bytes(whole[:at]) + bytes([value]) + bytes(whole[at + 1:])
        longer = changed + b"LIST\xff\xff\xff\xff", changed[:12] + b"LIST" + changed[12:]
        for data in (changed, changed[:at + 1], *longer):
            try:
                read_recording(data, "voice/left.wav")
            except WrongValue as refused:
                assert error_text(refused)
