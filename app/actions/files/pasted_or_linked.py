"""What comes from a coach's hand by another way than a chosen file: pasted text, a link, a key to compare."""
from __future__ import annotations

from dataclasses import dataclass

from app.actions.files.programmes import EXPECTED, same_name
from app.device.abilities import Device
from app.device.linked_files import is_link
from app.domain.branding.brand import Brand, CoachKey
from app.domain.errors import AnotherKey, RetiredKey
from app.exchange.crypto.key_text import holds_key, key_from_text
from app.exchange.crypto.keys import matching_words
from app.exchange.crypto.text_form import MOST_PACK_BYTES, from_text
from app.exchange.packs.archive import MOST_BYTES
from app.storage import packs, settings
from app.storage.database import Store

#: Most characters that a field for pasting need hold: a pack as text, wrapped and quoted, is less.
MOST_CHARACTERS = 2 * MOST_PACK_BYTES


@dataclass(frozen=True)
class NamedFile:
    """A programme file that was pasted or fetched; not opened yet."""

    name: str
    data: bytes


@dataclass(frozen=True)
class OfferedKey:
    """A coach's key. It counts for nothing until somebody has compared the words."""

    coach: CoachKey
    words: tuple[str, ...]
    known: bool
    """It was agreed on before."""


async def pasted(store: Store, brand: Brand, device: Device, text: str, name: str) -> NamedFile | OfferedKey:
    """What somebody pasted: a programme in its text form, a key, or a link to either.

    Raises:
        NotOurFile, FileError, DeviceError: it is none of these, or not whole; or a link's file cannot be had.
    """
    if is_link(text):
        return await linked(device, device.linked.name_in(text.strip()))
    if holds_key(text):
        return offered_key(store, brand, text, name)
    return NamedFile(name, from_text(text, name))


async def linked(device: Device, name: str) -> NamedFile:
    """The file of that name beside the app, or of those given at the start.

    Raises:
        Elsewhere, NothingThere, TooLarge, NoNetwork, NoLinks: why it cannot be had.
    """
    return NamedFile(name.rpartition("/")[2] or name, await device.linked.fetch(name, MOST_BYTES))


def offered_key(store: Store, brand: Brand, text: str, name: str) -> OfferedKey:
    """The key in a text or a link. Nothing is kept of it yet.

    Raises:
        NotOurFile, NewerFormat, DamagedFile: there is none, or not a whole one.
        AnotherKey: the coach of that name is known here by another.
        RetiredKey: its coach has replaced it.
    """
    coach = key_from_text(text, name)
    with store.read() as db:
        if (replaced := packs.retired_coaches(db).get(coach.signing_key)) is not None:
            raise RetiredKey(name=name, who=replaced or coach.name)
        pinned = [CoachKey(one.name, one.signing_key) for one in packs.pinned_coaches(db)]
    here = [*pinned, *expected_coaches(store, brand)]
    known = next((one for one in here if one.signing_key == coach.signing_key), None)
    if known is None and any(same_name(one.name, coach.name) for one in here):
        raise AnotherKey(name=name, who=coach.name)
    return OfferedKey(known or coach, matching_words(bytes.fromhex(coach.signing_key)), known is not None)


def expect_coach(store: Store, coach: CoachKey) -> None:
    """From now on this coach's programmes need no comparing of words. Call it only after the words were compared."""
    with store.begin() as db:
        kept = settings.setting(db, EXPECTED, {})
        settings.save_setting(db, EXPECTED, {**kept, coach.signing_key: coach.name})


def expected_coaches(store: Store, brand: Brand) -> tuple[CoachKey, ...]:
    """Coaches whose key came with the app, or whose key was compared before any programme of theirs came."""
    with store.read() as db:
        kept = settings.setting(db, EXPECTED, {})
    return (*brand.coaches, *(CoachKey(name, key) for key, name in kept.items()))
