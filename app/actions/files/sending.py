"""The diary on its way to the coach, sealed; and the copies that are the client's own to keep."""
from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum
from typing import Any

from app.actions.files.message_effects import highest_number
from app.device.clock import Clock
from app.domain.errors import UnknownName
from app.domain.model.person import Person
from app.domain.model.record import Record, SessionDone
from app.exchange.crypto import keys as key_pairs
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import ClientKeys, KeyPair
from app.exchange.crypto.text_form import to_text
from app.exchange.letters.file_names import copy_name, return_name
from app.exchange.letters.readable_copy import readable_files, readable_page
from app.exchange.letters.returns import ReturnContent, write_return
from app.storage import keys, packs, people, records, settings
from app.storage.codec import parse_utc, utc_text
from app.storage.database import Connection, Store
from app.words.reasons import reason_text

SIGNING, SEALING = "signing", "sealing"


@dataclass(frozen=True)
class Prepared:
    """A return, ready to leave: as a file and as lines for any messenger. `revisions` by record id."""

    name: str
    data: bytes = field(repr=False)
    text: str = field(repr=False)
    number: int
    revisions: dict[str, int] = field(repr=False)
    coach: str = ""
    """The key of whom it is for, hex."""
    waits: tuple[str, ...] = ()
    """Questions about health that wait for a go-ahead, as it tells them."""

    def as_sent(self) -> dict[str, Any]:
        """What is kept of it once it has left."""
        return {"number": self.number, "revisions": self.revisions, "coach": self.coach, "waits": list(self.waits)}


class HandedOn(StrEnum):
    """How a return left the app without being sent yet."""

    SAVED = "saved"
    COPIED = "copied"
    UNTOLD = "untold"
    """The device handed it to another program or saved it, and does not say which."""


@dataclass(frozen=True)
class LastSent:
    """The return that was sent last."""

    number: int
    utc: datetime


@dataclass(frozen=True)
class Waiting:
    """A return that was saved or copied, and counts as sent only once the person says so."""

    number: int
    utc: datetime
    left: HandedOn


def client_keys(store: Store, person_id: str) -> ClientKeys | None:
    """A person's keys, or None before they were made."""
    with store.read() as db:
        signing, sealing = keys.keys(db, person_id, SIGNING), keys.keys(db, person_id, SEALING)
    if signing is None or sealing is None:
        return None
    return ClientKeys(KeyPair(signing.private, signing.public), KeyPair(sealing.private, sealing.public))


async def ensure_client_keys(store: Store, clock: Clock, person_id: str) -> ClientKeys:
    """A person's keys, made on first use. What is here already is never replaced."""
    known = client_keys(store, person_id)
    if known is not None:
        return known
    signing, sealing = await key_pairs.new_signing_pair(), await key_pairs.new_sealing_pair()
    with store.begin() as db:
        kept = [keys.keep_keys(db, keys.StoredKeyPair(person_id, kind, pair.private, pair.public, clock.now()))
                for kind, pair in ((SIGNING, signing), (SEALING, sealing))]
    first, second = (KeyPair(pair.private, pair.public) for pair in kept)
    return ClientKeys(first, second)


async def make_return(store: Store, clock: Clock, person_id: str) -> Prepared:
    """Everything that they agreed to send, sealed to the coach, the coach's recovery key and themselves.

    Each has a number of its own, whether it is sent or not.

    Raises:
        UnknownName: nobody of that id, or no coach to send to.
        TooLarge: more than a return may hold.
    """
    own = await ensure_client_keys(store, clock, person_id)
    with store.begin() as db:
        person = people.person(db, person_id)
        coach = packs.pinned_coach(db, person.coach_key) if person and person.coach_key else None
        if person is None or coach is None:
            raise UnknownName(kind="coach to send to", name=person.name if person else person_id)
        everything = records.all_records(db, person_id)
        number = int(settings.setting(db, f"returns:{person_id}", 0)) + 1
        settings.save_setting(db, f"returns:{person_id}", number)
        heard = highest_number(db, person)
    content = ReturnContent(person, everything, _packs(everything), clock.now(), number, heard)
    readers = [bytes.fromhex(key) for key in (coach.sealing_key, *coach.recovery_keys[1:2])]
    data = await write_return(content, client=own, readers=list(dict.fromkeys([*readers, own.sealing.public])))
    revisions = {r.stamp.id: r.stamp.revision for r in everything}
    return Prepared(return_name(person_id, number), data, to_text(data, Kind.RETURN), number, revisions,
                    person.coach_key, tuple(sorted(person.waiting)))


def _packs(everything: tuple[Record, ...]) -> tuple[str, ...]:
    return tuple(sorted({r.pack for r in everything if isinstance(r, SessionDone) and r.pack}))


def note_sent(store: Store, clock: Clock, person_id: str, prepared: Prepared) -> LastSent:
    """Keeps that another program took it. Whether it arrived, nobody knows here."""
    with store.begin() as db:
        return _keep_sent(db, clock, person_id, prepared.as_sent())


def note_waiting(store: Store, clock: Clock, person_id: str, prepared: Prepared, left: HandedOn) -> Waiting:
    """Keeps that it was saved or copied. It does not count as sent; a later one takes its place."""
    waiting = Waiting(prepared.number, clock.now(), left)
    with store.begin() as db:
        settings.save_setting(db, f"waiting:{person_id}", {
            **prepared.as_sent(), "utc": utc_text(waiting.utc), "left": left})
    return waiting


def waiting_return(store: Store, person_id: str) -> Waiting | None:
    """The return that was saved or copied and not yet said to be sent, or None."""
    with store.read() as db:
        kept = settings.setting(db, f"waiting:{person_id}")
    return Waiting(int(kept["number"]), parse_utc(kept["utc"]), HandedOn(kept["left"])) if kept else None


def confirm_sent(store: Store, clock: Clock, person_id: str) -> LastSent | None:
    """The person says that they sent what was waiting. None if nothing was."""
    with store.begin() as db:
        kept = settings.setting(db, f"waiting:{person_id}")
        return _keep_sent(db, clock, person_id, kept) if kept else None


def _keep_sent(db: Connection, clock: Clock, person_id: str, kept: Mapping[str, Any]) -> LastSent:
    sent = LastSent(int(kept["number"]), clock.now())
    told = {key: value for key, value in kept.items() if key != "left"}
    settings.save_setting(db, f"sent:{person_id}", {**told, "utc": utc_text(sent.utc)})
    settings.forget_setting(db, f"waiting:{person_id}")
    return sent


def last_sent(store: Store, person_id: str) -> LastSent | None:
    """The return that was sent last, or None."""
    with store.read() as db:
        kept = settings.setting(db, f"sent:{person_id}")
    return LastSent(int(kept["number"]), parse_utc(kept["utc"])) if kept else None


def unsent(store: Store, person_id: str) -> int:
    """How many entries are new, corrected or taken back since the last return was sent."""
    with store.read() as db:
        kept = settings.setting(db, f"sent:{person_id}") or {"revisions": {}}
        everything = records.all_records(db, person_id)
    sent = kept["revisions"]
    return sum(sent.get(r.stamp.id) != r.stamp.revision and (not r.stamp.deleted or r.stamp.id in sent)
               for r in everything)


# ------------------------------------------------------------------ the copies to keep

def readable_copy(store: Store, person: Person) -> tuple[str, bytes]:
    """One page to read or print: its file name and its bytes. All of it, whatever is sent."""
    with store.read() as db:
        everything = records.all_records(db, person.id)
    return copy_name(person.id, ".html"), readable_page(person, everything, reason_text).encode()


def tables_copy(store: Store, person: Person) -> tuple[str, bytes]:
    """The same as tables for any spreadsheet, in one ZIP."""
    with store.read() as db:
        everything = records.all_records(db, person.id)
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, table in readable_files(everything, reason_text).items():
            archive.writestr(name, "\ufeff" + table)
    return copy_name(person.id, "-tables.zip"), out.getvalue()
