"""What the rest of the program may ask of the machine, whatever the machine is.

Everything here is async and answers whether it was done; nothing raises for want of a machine, so that no lack ever
stops a session. What was asked for and not there stands in `Device.missing`, for one quiet note.
"""
from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from typing import NamedTuple, Protocol

from app.device.linked_files import GivenFiles, Linked
from app.device.store_place import StorePlace
from app.domain.sound.audio_track import CueTrack


class Ability(StrEnum):
    """What a machine may be able to do."""

    SOUND = "sound"
    TRACK = "track"
    """A session's sound as one track; without it there are single tones."""
    HAPTICS = "haptics"
    SPEECH = "speech"
    AWAKE = "awake"
    NOTICES = "notices"
    PICK = "pick"
    SAVE = "save"
    SHARE = "share"
    COPY = "copy"
    READ_ALOUD = "read_aloud"
    """A browser's page can be told to say everything to a screen reader; elsewhere the system does that."""


@dataclass
class Missing:
    """The abilities that were asked for and not there, each once, in the order of being missed."""

    abilities: dict[Ability, None] = field(default_factory=dict)

    def note(self, ability: Ability) -> None:
        """Remembers it."""
        if ability not in self.abilities:
            self.abilities[ability] = None

    def forget(self, ability: Ability) -> None:
        """It works after all."""
        self.abilities.pop(ability, None)

    def __contains__(self, ability: Ability) -> bool:
        return ability in self.abilities

    def __bool__(self) -> bool:
        return bool(self.abilities)


class Handed(StrEnum):
    """What became of a file that was to be shared."""

    SHARED = "shared"
    """Another program took it; the machine says so."""
    SAVED = "saved"
    """Nothing here takes it, so it was saved as a file. It is not on its way."""
    UNTOLD = "untold"
    """Another program took it or it was saved; the machine does not say which."""
    DISMISSED = "dismissed"
    FAILED = "failed"


class PickedFile(NamedTuple):
    """A file that the person chose: its name without a folder, and its bytes."""

    name: str
    data: bytes


class Sounds(Protocol):
    """Short tones."""

    on: bool

    async def load(self) -> None:
        """Makes the tones ready, so that none comes late. Call it before a page that plays some; it never raises."""

    async def play(self, name: str) -> bool:
        """Starts the tone `name` at once or not at all: a late cue is worse than none. False when switched off."""


class SoundTrack(Protocol):
    """A session's sound as one track that goes on while no page is drawn. `where` gives the position when asked, ms."""

    async def load(self, track: CueTrack, since: int = 0) -> bool:
        """Makes it the one to be played. Up to sample `since` the one before sounds, where there is one."""

    async def play(self, where: Callable[[], int]) -> bool:
        """Sounds from where the session stands."""

    async def hold_to(self, where: Callable[[], int]) -> bool:
        """Moves it to where the session stands, if it has drifted so far that it could be noticed."""

    async def off_by(self, where: Callable[[], int]) -> int | None:
        """How far it is ahead of the session, ms; None where it cannot be known."""

    async def pause(self) -> bool:
        """Silent until `play`."""

    async def drop(self) -> None:
        """The session is over."""


class Haptics(Protocol):
    """Vibration."""

    on: bool

    async def play(self, name: str) -> bool:
        """Plays the pattern `name`, at most half a second long. False when switched off."""


class Speech(Protocol):
    """A spoken line."""

    on: bool
    language: str
    """Which voice is asked for, where there are several."""

    async def say(self, text: str) -> bool:
        """Speaks. False when switched off, without a voice, or where an earlier line is still spoken."""

    async def hush(self) -> None:
        """Breaks off, where the machine can."""


class Awake(Protocol):
    """The screen staying on."""

    async def keep(self) -> bool:
        """Keeps the screen on until `release`."""

    async def release(self) -> bool:
        """Lets the screen go dark again."""


class Notices(Protocol):
    """A notice of the operating system."""

    async def show(self, title: str, text: str) -> bool:
        """Shows a notice."""


class PageTree(Protocol):
    """What a page tells a screen reader. A browser's page tells nothing until somebody asks for it."""

    async def tell_all(self, wanted: bool) -> bool:
        """From now on, also at later starts."""


class Files(Protocol):
    """Files in and out, through the person's hands. A picker may stay open for an hour: hold no lock across it."""

    async def pick_files(self) -> Sequence[PickedFile]:
        """What the person chose; empty when they chose nothing or nothing can be chosen here."""

    async def save_bytes(self, name: str, data: bytes) -> bool:
        """Lets the person keep a file; in a browser, a download."""

    async def share(self, name: str, data: bytes) -> Handed:
        """Hands a file to another program of the device; where none takes it, saves it instead."""

    async def copy_text(self, text: str) -> bool:
        """Puts text where it can be pasted from."""


@dataclass(frozen=True)
class Device:
    """One person's machine for the length of one visit. Keep it as long as the page: Flet drops what nobody holds."""

    sounds: Sounds
    haptics: Haptics
    speech: Speech
    awake: Awake
    notices: Notices
    files: Files
    missing: Missing
    track: SoundTrack
    tree: PageTree
    place: StorePlace = field(default_factory=StorePlace)
    linked: Linked = field(default_factory=GivenFiles)
