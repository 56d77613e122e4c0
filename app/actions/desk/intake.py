"""Returns into the coach's store: each file on its own, verified whole, then one transaction."""
from __future__ import annotations

from collections.abc import AsyncIterator, Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from app.actions.desk.recovering import opening_keys
from app.device.clock import Clock
from app.domain.errors import AppError, ContentError, FileError, UntrustedSigner
from app.domain.model.misdated import no_later
from app.domain.model.names import reads_like
from app.domain.model.person import Person
from app.exchange.crypto.text_form import unwrapped
from app.exchange.letters.returns import ReturnContent, read_return
from app.storage import people, records, settings
from app.storage.database import Connection, Store
from app.storage.people import PinnedKeys, Trains
from app.storage.records import Merged


def told_number(person_id: str) -> str:
    """Setting: the highest number of a message that a person told of. Erased with the person, since it ends so."""
    return f"replies_told:{person_id}"


@dataclass(frozen=True)
class Taken:
    """What became of one file: whose it is and what it brought, or why it was refused."""

    name: str
    person: Person | None = None
    new: int = 0
    newer: int = 0
    """Records that were here and are corrected now."""
    same: int = 0
    older: int = 0
    error: AppError | None = None
    unread: int = 0
    """Records of a kind that a later version writes."""
    misdated: int = 0
    """Records whose dates cannot be: kept aside."""
    clock_is_wrong: bool = False
    """The return says that it was made on a day to come."""
    resembles: tuple[str, ...] = ()
    """Of somebody who is new here: names of others that read the same."""

    @property
    def is_new_phone(self) -> bool:
        """Whether it was refused because its key is not the person's pinned one."""
        return isinstance(self.error, UntrustedSigner)


async def take_in(store: Store, clock: Clock, files: Iterable[tuple[str, bytes]]) -> tuple[Taken, ...]:
    """Takes in every file that is whole and ours; the others are listed with their error. Twice is harmless."""
    return tuple([taken async for taken in taking(store, clock, files)])


async def taking(store: Store, clock: Clock, files: Iterable[tuple[str, bytes]]) -> AsyncIterator[Taken]:
    """The same one by one, for showing how far it is."""
    for name, data in files:
        try:
            content = await _opened(store, name, data)
            with store.begin() as db:
                taken = _kept_in(db, clock, name, content)
            yield taken
        except (FileError, ContentError) as error:
            yield Taken(name, error=error)


async def accept_new_phone(store: Store, clock: Clock, name: str, data: bytes) -> Taken:
    """Takes in a return signed by another key than the pinned one, and pins that key from now on.

    Only after the coach has asked the person, by voice, whether they have a new phone.
    """
    try:
        content = await _opened(store, name, data)
    except (FileError, ContentError) as error:
        return Taken(name, error=error)
    with store.begin() as db:
        people.replace_keys(db, content.person.id, *_keys_of(content))
        return _kept_in(db, clock, name, content)


async def _opened(store: Store, name: str, data: bytes) -> ReturnContent:
    return await read_return(unwrapped(data, name), name, private_keys=list(opening_keys(store)))


def _keys_of(content: ReturnContent) -> tuple[str, str]:
    return content.client_signing_public.hex(), content.client_sealing_public.hex()


def _kept_in(db: Connection, clock: Clock, name: str, content: ReturnContent) -> Taken:
    """Everything of a return, within a transaction.

    Raises:
        UntrustedSigner: another key is pinned for that person.
    """
    person, now = content.person, clock.now()
    is_here, alike = people.trains_here(db, person.id), tuple[str, ...]()
    if people.person(db, person.id) is None:
        alike = tuple(one for one in people.names(db) if reads_like(one, person.name))
        people.add_person(db, person, Trains.ELSEWHERE, now)
    pinned = people.pin_keys(db, person.id, *_keys_of(content))
    if (pinned.signing, pinned.sealing) != _keys_of(content):
        raise UntrustedSigner(name=name, who=person.name)
    if _is_latest(content, pinned, now) and not is_here:
        people.save_person(db, person)
    incoming = content.records
    if is_here:
        # what they did not agree to send is missing in a return; their own records here are whole
        here = {r.stamp.id: r.stamp.revision for r in records.all_records(db, person.id)}
        incoming = tuple(r for r in incoming if r.stamp.revision > here.get(r.stamp.id, 0))
    merged = records.merge_records(db, incoming, now)
    people.note_return(db, person.id, content.number, no_later(content.made_utc, now), now)
    if content.reply_number > settings.setting(db, told_number(person.id), 0):
        settings.save_setting(db, told_number(person.id), content.reply_number)
    return replace(_told(name, content, merged, len(content.records) - len(incoming)), resembles=alike,
                   clock_is_wrong=no_later(content.made_utc, now) != content.made_utc)


def _is_latest(content: ReturnContent, pinned: PinnedKeys, now: datetime) -> bool:
    """Whether it tells of the person as they are now: by its number, or by its time where that can be.

    A phone that was set back to an earlier copy of itself counts from there once more.
    """
    if pinned.last_return is None or content.number > (pinned.last_number or 0):
        return True
    can_be = no_later(content.made_utc, now) == content.made_utc
    return can_be and content.made_utc >= no_later(pinned.last_return, now)


def _told(name: str, content: ReturnContent, merged: Merged, passed_over: int) -> Taken:
    return Taken(name, content.person, len(merged.new), len(merged.newer), len(merged.same) + passed_over,
                 len(merged.older), unread=content.unread, misdated=len(merged.misdated))
