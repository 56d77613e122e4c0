"""Returns into the coach's store: each file on its own, verified whole; a few that are whole share a transaction."""
from __future__ import annotations

from collections.abc import AsyncIterator, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from app.actions.desk.recovering import opening_keys
from app.device.clock import Clock
from app.domain.errors import AppError, ContentError, FileError, UntrustedSigner
from app.domain.model.misdated import no_later
from app.domain.model.names import can_be_seen, skeleton
from app.domain.model.person import Person
from app.exchange.crypto.keys import KeyPair
from app.exchange.crypto.text_form import unwrapped
from app.exchange.letters.returns import ReturnContent, read_return
from app.storage import people, records, settings
from app.storage.database import Connection, Store
from app.storage.people import PinnedKeys, Trains
from app.storage.records import Merged

#: Files that share a transaction, and the bytes from which on no further one is taken along: all are in memory at once.
MOST_TOGETHER, MUCH = 16, 256 * 1024


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

    @property
    def is_unreadable(self) -> bool:
        """Whether their name is blank, or would be read otherwise than it is written."""
        return self.person is not None and not can_be_seen(self.person.name)


#: What a file says, or why it is refused.
Opened = ReturnContent | FileError | ContentError


async def take_in(store: Store, clock: Clock, files: Iterable[tuple[str, bytes]]) -> tuple[Taken, ...]:
    """Takes in every file that is whole and ours; the others are listed with their error. Twice is harmless."""
    return tuple([taken async for taken in taking(store, clock, files)])


async def taking(store: Store, clock: Clock, files: Iterable[tuple[str, bytes]]) -> AsyncIterator[Taken]:
    """The same one by one, for showing how far it is. What was told of is kept."""
    for some in _together(files):
        opening = opening_keys(store)
        for taken in _kept(store, clock, [(name, await _tried(opening, name, data)) for name, data in some]):
            yield taken


async def accept_new_phone(store: Store, clock: Clock, name: str, data: bytes) -> Taken:
    """Takes in a return signed by another key than the pinned one, and pins that key from now on.

    Only after the coach has asked the person, by voice, whether they have a new phone.
    """
    opened = await _tried(opening_keys(store), name, data)
    if isinstance(opened, AppError):
        return Taken(name, error=opened)
    with store.begin() as db:
        people.replace_keys(db, opened.person.id, *_keys_of(opened))
        return _Keeping(db, clock).keep(name, opened)


def _together(files: Iterable[tuple[str, bytes]]) -> Iterator[list[tuple[str, bytes]]]:
    """The files in stretches of a few."""
    some, size = list[tuple[str, bytes]](), 0
    for name, data in files:
        some.append((name, data))
        size += len(data)
        if len(some) == MOST_TOGETHER or size >= MUCH:
            yield some
            some, size = [], 0
    if some:
        yield some


async def _tried(opening: Sequence[KeyPair], name: str, data: bytes) -> Opened:
    try:
        return await read_return(unwrapped(data, name), name, private_keys=opening)
    except (FileError, ContentError) as error:
        return error


def _kept(store: Store, clock: Clock, some: Sequence[tuple[str, Opened]]) -> Iterator[Taken]:
    """What was opened, in one transaction; where that cannot be, each in its own, so that no file holds up another."""
    waiting = [some]
    while waiting:
        now = waiting.pop(0)
        try:
            with store.begin() as db:
                keeping = _Keeping(db, clock)
                told = [keeping.keep(name, opened) for name, opened in now]
        except Exception as error:
            if len(now) > 1:
                waiting = [[one] for one in now]
                continue
            if not isinstance(error, FileError | ContentError):
                raise
            told = [Taken(now[0][0], error=error)]
        yield from told


def _keys_of(content: ReturnContent) -> tuple[str, str]:
    return content.client_signing_public.hex(), content.client_sealing_public.hex()


class _Keeping:
    """Returns on their way into the store, within one transaction."""

    def __init__(self, db: Connection, clock: Clock) -> None:
        self.db, self.clock = db, clock
        self._names: dict[str, list[str]] | None = None

    def keep(self, name: str, opened: Opened) -> Taken:
        """Everything of a return, or why there is none.

        Raises:
            UntrustedSigner: another key is pinned for that person.
        """
        if isinstance(opened, AppError):
            return Taken(name, error=opened)
        content, db, now = opened, self.db, self.clock.now()
        person, keys = content.person, _keys_of(content)
        known, alike = people.sender(db, person.id), tuple[str, ...]()
        pinned = known.pinned if known else None
        if known is None:
            alike = self._alike(person.name)
            people.add_person(db, person, Trains.ELSEWHERE, now, keys)
        elif pinned is None:
            people.pin_keys(db, person.id, *keys)
        elif (pinned.signing, pinned.sealing) != keys:
            raise UntrustedSigner(name=name, who=person.name)
        if known and not known.is_here and _is_latest(content, pinned, now):
            people.save_person(db, person)
            self._names = None
        incoming = content.records
        if known and known.is_here:
            # what they did not agree to send is missing in a return; their own records here are whole
            here = {r.stamp.id: r.stamp.revision for r in records.all_records(db, person.id)}
            incoming = tuple(r for r in incoming if r.stamp.revision > here.get(r.stamp.id, 0))
        merged = records.merge_records(db, incoming, now, first=known is None)
        made = no_later(content.made_utc, now)
        people.note_return(db, person.id, content.number, made, now)
        if content.reply_number and content.reply_number > settings.setting(db, told_number(person.id), 0):
            settings.save_setting(db, told_number(person.id), content.reply_number)
        return replace(_told(name, content, merged, len(content.records) - len(incoming)), resembles=alike,
                       clock_is_wrong=made != content.made_utc)

    def _alike(self, name: str) -> tuple[str, ...]:
        """Names of others that read like that of somebody new, who is one of them from now on."""
        if self._names is None:
            self._names = {}
            for one in people.names(self.db):
                self._names.setdefault(skeleton(one), []).append(one)
        same = self._names.setdefault(skeleton(name), [])
        alike = tuple(sorted(same)) if skeleton(name) else ()
        same.append(name)
        return alike


def _is_latest(content: ReturnContent, pinned: PinnedKeys | None, now: datetime) -> bool:
    """Whether it tells of the person as they are now: by its number, or by its time where that can be.

    A phone that was set back to an earlier copy of itself counts from there once more.
    """
    if pinned is None or pinned.last_return is None or content.number > (pinned.last_number or 0):
        return True
    can_be = no_later(content.made_utc, now) == content.made_utc
    return can_be and content.made_utc >= no_later(pinned.last_return, now)


def _told(name: str, content: ReturnContent, merged: Merged, passed_over: int) -> Taken:
    return Taken(name, content.person, len(merged.new), len(merged.newer), len(merged.same) + passed_over,
                 len(merged.older), unread=content.unread, misdated=len(merged.misdated))
