"""Recordings of the coach, a speech engine where there is one, and a session that never ends for want of a voice."""
from __future__ import annotations

import asyncio
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from app.actions.desk import publishing
from app.actions.desk.voice import voice_of
from app.actions.files.pack_media import clips_of
from app.device.clock import ManualClock
from app.domain.errors import WrongValue
from app.domain.sound.voice_lines import change_lines, exercise_lines
from app.domain.sound.wav import HEADER_BYTES
from app.exchange.packs.pack import read_pack
from app.exchange.packs.voice_files import is_clip
from app.storage.database import Store
from app.storage.packs import KeptPack, keep_pack
from app.words.errors import error_text
from tests.commands.test_cues import copy_of
from tests.domain.shipped import shipped
from tests.exchange.packs.test_recorded_lines import recording

ONE = shipped().exercises[0]
SOURCE = replace(shipped(), exercises=shipped().exercises[:2])
NAME = f"voice/{ONE.id}/name.wav"


class Voice:
    """An engine that says everything in the same tone, and remembers what; after `most` lines it fails."""

    def __init__(self, most: int = 10_000, ms: int = 900) -> None:
        self.said: list[tuple[str, str]] = []
        self._most, self._ms = most, ms

    async def say(self, words: str, language: str) -> bytes | None:
        if len(self.said) == self._most:
            return None
        self.said.append((words, language))
        return recording(self._ms, rate=22_050)


def made(engine: Voice | None, media: dict[str, bytes] | None = None, language: str = "en") -> dict[str, bytes]:
    return asyncio.run(voice_of(replace(SOURCE, language=language), media or {}, engine))


def test_without_recordings_and_without_an_engine_there_is_no_voice() -> None:
    """Tones and text alone."""
    assert made(None) == {}


def test_a_recording_beats_the_engine_and_is_brought_into_form() -> None:
    """The coach's own voice where it is there; every other line is made, in the source's language."""
    engine = Voice()
    found = made(engine, {NAME: recording(400, rate=44_100, channels=2)})
    wanted = {line.clip for one in SOURCE.exercises for line in exercise_lines(one)} | {
        "voice/left.wav", "voice/right.wav", *(line.clip for line in change_lines())}
    assert set(found) == wanted and all(map(is_clip, found.values()))
    assert abs(len(found[NAME]) - HEADER_BYTES - 400 * 32) < 64
    assert len(engine.said) == len(wanted) - 1
    assert not any(ONE.name in words for words, _ in engine.said if words.startswith("Next"))
    assert {language for _, language in engine.said} == {"en"}


def test_an_engine_that_fails_is_not_asked_again_and_what_it_said_stays() -> None:
    """A pack is built all the same."""
    engine = Voice(most=3)
    assert len(made(engine)) == 3


def test_a_line_that_an_engine_says_too_long_is_left_out() -> None:
    """Over 20 s it fits into no rest."""
    assert made(Voice(ms=20_500)) == {}


def test_in_a_language_without_words_of_ours_only_the_coachs_own_are_said() -> None:
    """No English "Next" before a German name, and no sides."""
    engine = Voice()
    found = made(engine, language="de")
    assert "voice/left.wav" not in found and (f"{ONE.name}.", "de") in engine.said


@pytest.mark.parametrize(("path", "told"), [
    ("voice/lefft.wav", "belongs to no line"), (f"voice/{ONE.id}/set-up-9.wav", "belongs to no line"),
    ("voice/left.wav", "16 bit"),
])
def test_a_recording_that_would_never_be_heard_is_refused_in_a_sentence(path: str, told: str) -> None:
    """A wrong name or a wrong kind of file."""
    with pytest.raises(WrongValue) as refused:
        made(None, {path: b"RIFF, or not"})
    assert error_text(refused.value).startswith(f"{path}: ") and told in error_text(refused.value)


def test_a_pack_carries_the_voice_to_the_session(store: Store, tmp_path: Path) -> None:
    """From the coach's folder through the pack into the client's store, sample for sample."""
    clock = ManualClock(datetime(2026, 3, 2, 8, tzinfo=UTC))
    folder = copy_of(tmp_path)
    (folder / "voice" / ONE.id).mkdir(parents=True)
    (folder / NAME).write_bytes(recording(600))
    built = asyncio.run(publishing.build(store, clock, folder))
    assert built.data
    pack = asyncio.run(read_pack(built.data, "a"))
    with store.begin() as db:
        keep_pack(db, KeptPack(pack.sha256, "k", pack.source, clock.now()), built.data)
    assert clips_of(store, pack.sha256, pack.source.exercises) == {NAME: recording(600)[HEADER_BYTES:]}
    assert clips_of(store, pack.sha256, []) == {} == clips_of(store, "no such pack", pack.source.exercises)
