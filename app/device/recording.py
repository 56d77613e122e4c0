"""A machine for tests: it does nothing and writes down what it was asked."""
from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from app.device.abilities import Ability, Device, Handed, Missing, PickedFile
from app.domain.sound.audio_track import CueTrack
from app.domain.sound.cues import Buzz, CueKind


class Call(NamedTuple):
    """One thing asked: the ability, and its words or names in order."""

    ability: Ability
    what: tuple[str, ...]


class CallLog:
    """Everything asked so far, and what this machine is to lack."""

    def __init__(self) -> None:
        self.calls: list[Call] = []
        self.lacks: set[Ability] = set()
        self.missing = Missing()

    def write(self, ability: Ability, *what: str) -> bool:
        """Writes one request down and says whether this machine can."""
        if ability in self.lacks:
            self.missing.note(ability)
            return False
        self.calls.append(Call(ability, what))
        return True


class RecordingSounds:
    def __init__(self, record: CallLog) -> None:
        self.on = True
        self._record = record

    async def load(self) -> None:
        """They are always ready."""

    async def play(self, name: str) -> bool:
        return self.on and self._record.write(Ability.SOUND, CueKind(name))


class RecordingTrack:
    """`tracks` are those that were loaded; it stands or sounds where it was told to, and never drifts."""

    def __init__(self, record: CallLog) -> None:
        self.tracks: list[CueTrack] = []
        self._record = record

    async def load(self, track: CueTrack, since: int = 0) -> bool:
        if not self._record.write(Ability.TRACK, "load", str(since)):
            return False
        self.tracks.append(track)
        return True

    async def play(self, where: Callable[[], int]) -> bool:
        return self._record.write(Ability.TRACK, "play", str(where()))

    async def hold_to(self, where: Callable[[], int]) -> bool:
        return self._record.write(Ability.TRACK, "hold")

    async def off_by(self, where: Callable[[], int]) -> int | None:
        return None if Ability.TRACK in self._record.lacks else 0

    async def pause(self) -> bool:
        return self._record.write(Ability.TRACK, "pause")

    async def drop(self) -> None:
        self._record.write(Ability.TRACK, "drop")


class RecordingHaptics:
    def __init__(self, record: CallLog) -> None:
        self.on = True
        self._record = record

    async def play(self, name: str) -> bool:
        return self.on and self._record.write(Ability.HAPTICS, Buzz(name))


class RecordingSpeech:
    def __init__(self, record: CallLog) -> None:
        self.on, self.language, self.hushed = True, "en-GB", 0
        self._record = record

    async def say(self, text: str) -> bool:
        return self.on and self._record.write(Ability.SPEECH, text)

    async def hush(self) -> None:
        self.hushed += 1


class RecordingAwake:
    def __init__(self, record: CallLog) -> None:
        self._record = record

    async def keep(self) -> bool:
        return self._record.write(Ability.AWAKE, "keep")

    async def release(self) -> bool:
        return self._record.write(Ability.AWAKE, "release")


class RecordingNotices:
    def __init__(self, record: CallLog) -> None:
        self._record = record

    async def show(self, title: str, text: str) -> bool:
        return self._record.write(Ability.NOTICES, title, text)


class RecordingTree:
    def __init__(self, record: CallLog) -> None:
        self._record = record

    async def tell_all(self, wanted: bool) -> bool:
        return self._record.write(Ability.READ_ALOUD, str(wanted))


class RecordingFiles:
    """`to_pick` is what the person will choose, one list per dialog; `saved` what they kept, by name."""

    def __init__(self, record: CallLog) -> None:
        self.to_pick: list[Sequence[PickedFile]] = []
        self.saved: dict[str, bytes] = {}
        self.shared: dict[str, bytes] = {}
        self.copied: list[str] = []
        self._record = record

    async def pick_files(self) -> Sequence[PickedFile]:
        if not self._record.write(Ability.PICK) or not self.to_pick:
            return []
        return self.to_pick.pop(0)

    async def save_bytes(self, name: str, data: bytes) -> bool:
        done = self._record.write(Ability.SAVE, name)
        if done:
            self.saved[name] = data
        return done

    async def share(self, name: str, data: bytes) -> Handed:
        if self._record.write(Ability.SHARE, name):
            self.shared[name] = data
            return Handed.SHARED
        return Handed.SAVED if await self.save_bytes(name, data) else Handed.FAILED

    async def copy_text(self, text: str) -> bool:
        done = self._record.write(Ability.COPY, text)
        if done:
            self.copied.append(text)
        return done


class RecordingDevice(Device):
    """A `Device` with `record` (calls, lacks) and `files` that hold what was kept."""

    record: CallLog
    files: RecordingFiles
    track: RecordingTrack

    def __init__(self) -> None:
        record = CallLog()
        super().__init__(RecordingSounds(record), RecordingHaptics(record), RecordingSpeech(record),
                         RecordingAwake(record), RecordingNotices(record), RecordingFiles(record), record.missing,
                         RecordingTrack(record), RecordingTree(record))
        object.__setattr__(self, "record", record)

    def asked(self, ability: Ability) -> list[tuple[str, ...]]:
        """What was asked of one ability, in order."""
        return [call.what for call in self.record.calls if call.ability is ability]


