"""What a machine lacks never stops a session and is noted once."""
from __future__ import annotations

import asyncio
import sys
from collections.abc import Callable, Coroutine

import pytest

from app.device import desktop, haptics, sound
from app.device.abilities import Ability, Handed, Missing, PickedFile
from app.device.bounded_call import ask
from app.device.files import FletFiles
from app.device.haptics import FletHaptics
from app.device.notices import PlyerNotices
from app.device.page_tree import FletPageTree
from app.device.recording import RecordingDevice
from app.device.screen_awake import FletAwake
from app.device.sound import FletSounds
from app.device.speech import PlyerSpeech
from app.domain.sound.cues import Buzz, CueKind
from app.resources import resource_dir


async def done() -> None:
    """A machine that can."""


async def lacking() -> None:
    raise RuntimeError("the client has no such thing")


async def silent() -> None:
    """A machine that never answers."""
    await asyncio.sleep(3600)


@pytest.mark.parametrize(("act", "can"), [(done, True), (lacking, False), (silent, False)])
def test_asking_says_whether_it_was_done(act: Callable[[], Coroutine[None, None, None]], can: bool) -> None:
    """In time, whatever the machine does."""
    missing = Missing()
    assert asyncio.run(ask(Ability.SOUND, missing, act, 0.05)) is can
    assert (Ability.SOUND in missing) is not can


def test_a_lack_is_noted_once_and_forgotten_when_it_works_after_all() -> None:
    """For one quiet note and not one per cue."""
    missing = Missing()
    for act in (lacking, lacking, done, lacking):
        asyncio.run(ask(Ability.AWAKE, missing, act, 1))
        assert len(missing.abilities) == (0 if act is done else 1)


def test_leaving_a_screen_still_cancels() -> None:
    """A cancelled task is not a lack."""
    async def story() -> Missing:
        missing = Missing()
        task = asyncio.create_task(ask(Ability.SPEECH, missing, silent, 60))
        await asyncio.sleep(0)
        task.cancel()
        with pytest.raises(asyncio.CancelledError):
            await task
        return missing

    assert not asyncio.run(story())


async def every_answer(missing: Missing) -> list[object]:
    """Everything asked of rooms that no page stands behind."""
    speech = PlyerSpeech(missing, on=True)
    files = FletFiles(missing)
    return [
        await FletSounds(missing).play(CueKind.COUNT), await FletHaptics(missing).play(Buzz.WORK),
        await speech.say("Stand tall"), await FletAwake(missing).keep(), await FletAwake(missing).release(),
        await PlyerNotices(missing, "Evenload").show("Now", "Later"), await files.save_bytes("a", b"1"),
        await files.copy_text("a"), await files.share("a", b"1") is not Handed.FAILED, bool(await files.pick_files()),
        await FletPageTree(missing).tell_all(True),
    ]


def test_without_a_page_and_without_a_desktop_nothing_raises(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every ability answers no and is noted."""
    monkeypatch.setattr(desktop, "is_desktop", lambda: False)
    monkeypatch.setattr(sound, "READY_WITHIN_S", 0.01)
    missing = Missing()
    assert asyncio.run(every_answer(missing)) == [False] * 11
    assert set(missing.abilities) == set(Ability) - {Ability.TRACK}


def test_plyer_is_left_alone_off_the_desktop(monkeypatch: pytest.MonkeyPatch) -> None:
    """On a phone a mere look-up can end the process."""
    for platform in ("ios", "emscripten", "android"):
        monkeypatch.setattr(sys, "platform", platform)
        assert not desktop.is_desktop()
        with pytest.raises(NotImplementedError):
            desktop.feature_method("tts", "speak")
    assert "plyer.platforms.android" not in sys.modules


def test_what_is_switched_off_is_silent_and_not_missing() -> None:
    """The person's choice is no lack of the machine."""
    missing = Missing()

    async def story() -> list[bool]:
        return [await FletSounds(missing, on=False).play(CueKind.WORK),
                await FletHaptics(missing, on=False).play(Buzz.WORK), await PlyerSpeech(missing).say("One")]

    assert asyncio.run(story()) == [False] * 3
    assert not missing


def test_a_second_line_does_not_wait_behind_the_first(monkeypatch: pytest.MonkeyPatch) -> None:
    """It would be said too late; the first is said to its end."""
    said: list[str] = []

    async def slowly(feature: str, method: str, message: str) -> None:
        await asyncio.sleep(0.01)
        said.append(message)

    monkeypatch.setattr("app.device.speech.on_desktop", slowly)

    async def story() -> list[bool]:
        speech = PlyerSpeech(Missing(), on=True)
        together = list(await asyncio.gather(speech.say("one"), speech.say("two")))
        return [*together, await speech.say("three")]

    assert asyncio.run(story()) == [True, False, True]
    assert said == ["one", "three"]


def test_two_players_take_turns(monkeypatch: pytest.MonkeyPatch) -> None:
    """So that a tone can overlap itself."""
    played: list[sound.Player] = []

    async def play(player: sound.Player) -> None:
        played.append(player)

    monkeypatch.setattr(sound.Player, "play", play)

    async def story() -> None:
        sounds = FletSounds(Missing())
        for _ in range(4):
            assert await sounds.play(CueKind.COUNT)

    asyncio.run(story())
    assert len(set(map(id, played))) == 2
    assert played[0] is played[2] is not played[1]


def test_patterns_are_told_apart_by_their_beats(monkeypatch: pytest.MonkeyPatch) -> None:
    """By kind and number, and each is over within half a second."""
    beats: list[str] = []

    class Feedback:
        def __getattr__(self, kind: str) -> Callable[[], Coroutine[None, None, None]]:
            async def beat() -> None:
                beats.append(kind)
            return beat

    monkeypatch.setattr("app.device.haptics.ft.HapticFeedback", Feedback)
    felt = {}
    for pattern in Buzz:
        beats.clear()
        assert asyncio.run(FletHaptics(Missing()).play(pattern))
        felt[pattern] = tuple(beats)
        assert (len(beats) - 1) * haptics.PAUSE_S < 0.5
    assert len(set(felt.values())) == len({len(pattern) for pattern in felt.values()}) == len(Buzz)


def test_a_name_that_nobody_knows_is_no_crash() -> None:
    """A session goes on without the cue."""
    async def story() -> list[bool]:
        return [await FletSounds(Missing()).play("gong"), await FletHaptics(Missing()).play("gong")]

    assert asyncio.run(story()) == [False, False]


def test_every_tone_has_its_file() -> None:
    """And there is no file without a tone."""
    assert {path.stem for path in (resource_dir("assets") / "sounds").glob("*.wav")} == set(CueKind)


def test_the_recording_device_writes_down_and_lacks_on_demand(device: RecordingDevice) -> None:
    """It answers as a real one would."""
    async def story() -> None:
        device.files.to_pick.append([PickedFile("ines.evenload-return", b"1")])
        assert await device.sounds.play("work")
        assert await device.files.pick_files() == [("ines.evenload-return", b"1")]
        assert await device.files.pick_files() == []
        assert await device.files.share("a", b"2") is Handed.SHARED
        device.record.lacks |= {Ability.SHARE, Ability.AWAKE}
        assert await device.files.share("b", b"3") is Handed.SAVED
        assert not await device.awake.keep()
        device.sounds.on = False
        assert not await device.sounds.play("rest")

    asyncio.run(story())
    assert device.asked(Ability.SOUND) == [("work",)]
    assert device.files.shared == {"a": b"2"}
    assert device.files.saved == {"b": b"3"}
    assert set(device.missing.abilities) == {Ability.SHARE, Ability.AWAKE}
