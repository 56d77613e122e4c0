"""A coach's message on the client's device: opened, kept, and what it says put into effect."""
from __future__ import annotations

import uuid
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum
from typing import Any

from app.actions.files.message_effects import (
    HELD,
    LIMITS,
    SPARE,
    Deciding,
    decided,
    put_into_effect,
    still_decides,
    things,
)
from app.actions.files.sending import ensure_client_keys
from app.actions.new_stamp import new_stamp
from app.device.clock import Clock
from app.domain.errors import NotFollowed, RetiredKey, UntrustedSigner, WrongRecipient
from app.domain.model.person import Person
from app.domain.model.record import Clearance
from app.exchange.crypto.text_form import unwrapped
from app.exchange.forms.to_json import plain
from app.exchange.letters.replies import ReplyContent, Yes, read_reply
from app.storage import packs, people, records, replies
from app.storage.codec import canonical, parse_utc
from app.storage.database import Connection, Store
from app.storage.packs import StoredCoach
from app.storage.replies import Direction, Reply

#: In what is kept of a message: the coach's name as it was pinned when the message came.
FROM = "from"


class Came(StrEnum):
    """What a message is beside those that are here."""

    NEW = "new"
    KNOWN = "known"
    """The very same was here. Nothing is changed."""
    SAME_NUMBER = "same_number"
    """Another one of the same coach bears its number and says something else. Both are kept; the later one counts."""


@dataclass(frozen=True)
class Message:
    """A message as it stands in the list. `limits` are spots and demands in words, with the highest demand 0–3."""

    number: int
    coach: str
    """The name of the coach as this device knows it, whatever the message says."""
    made: datetime
    text: str
    limits: tuple[tuple[str, int], ...] = ()
    lifts_limits: bool = False
    """It takes all of the coach's earlier limits back."""
    swaps: tuple[tuple[str, str], ...] = ()
    held: tuple[str, ...] = ()
    """Exercises that stay as they are."""
    yes: str = ""
    """Who said yes, with their kind."""
    limits_are_past: bool = False
    """A later message decides about limits."""
    held_is_past: bool = False
    """A later message decides what stays as it is."""


@dataclass(frozen=True)
class Received:
    """What became of a file: its message, what it is beside those that were here, and what of it does not count."""

    message: Message
    came: Came
    passed_over: tuple[str, ...] = ()
    """Things about which a later message, opened before, decides: `limits`, `held`, `swaps`."""
    has_effect: bool = True
    """Something else that it says counts from now on."""

    @property
    def known(self) -> bool:
        """Whether it was here before."""
        return self.came is Came.KNOWN


async def receive(store: Store, clock: Clock, person_id: str, data: bytes, name: str) -> Received:
    """Opens a message, keeps it, and puts a recorded yes, limits and changes into effect, all in one.

    One that was here before changes nothing. What it says of a thing that a later message speaks of is not taken over.

    Raises:
        FileError: not a message, damaged, for somebody else, or not from the coach whose programme they follow.
    """
    own = await ensure_client_keys(store, clock, person_id)
    with store.read() as db:
        known = [*(coach.signing_key for coach in packs.pinned_coaches(db)), *packs.retired_coaches(db)]
    content = await read_reply(unwrapped(data, name), name, private_keys=[own.sealing],
                               coach_keys=[bytes.fromhex(key) for key in known])
    if content.person != person_id:
        raise WrongRecipient(name=name)
    with store.begin() as db:
        person = people.person(db, person_id)
        if person is None:
            raise WrongRecipient(name=name)
        coach = _believed(db, person, content, name)
        return _taken_in(db, clock, person, content, coach)


def messages(store: Store, person_id: str) -> tuple[Message, ...]:
    """Every message, the newest first."""
    with store.read() as db:
        kept = replies.replies(db, person_id, Direction.RECEIVED)
        deciding = decided(db, person_id, kept)
    in_order = sorted(kept, key=lambda r: (parse_utc(r.content["made_utc"]), r.number), reverse=True)
    return tuple(_message(reply, deciding) for reply in in_order)


def _believed(db: Connection, person: Person, content: ReplyContent, name: str) -> StoredCoach:
    """The coach whose programme they follow, if the message is signed by that coach's key.

    Raises:
        RetiredKey, NotFollowed, UntrustedSigner: whose key it is instead.
    """
    key = content.coach_signing_public.hex()
    retired = packs.retired_coaches(db)
    if key in retired:
        raise RetiredKey(name=name, who=retired[key])
    coach = packs.pinned_coach(db, key)
    if coach is None:  # their keys changed meanwhile
        raise UntrustedSigner(name=name, who=content.coach)
    if person.coach_key != key:
        raise NotFollowed(name=name, who=coach.name)
    return coach


def _taken_in(db: Connection, clock: Clock, person: Person, content: ReplyContent, coach: StoredCoach) -> Received:
    reply = Reply(person.id, Direction.RECEIVED, content.number, _table(content) | {FROM: coach.name}, clock.now(),
                  coach.signing_key, content.digest)
    earlier = replies.replies(db, person.id, Direction.RECEIVED)
    if any((r.signer, r.number, r.digest) == (reply.signer, reply.number, reply.digest) for r in earlier):
        return Received(_message(reply, decided(db, person.id, earlier)), Came.KNOWN)
    clash = any((r.signer, r.number) == (reply.signer, reply.number) for r in earlier)
    # kept before signers were noted: what of it was lost then is put into effect now
    seen = any(not r.signer and r.number == reply.number and canonical(r.content) == canonical(_table(content))
               for r in earlier)
    effects = put_into_effect(db, person, content, earlier)
    if seen:
        is_whole = len(effects.passed_over) == len(things(content))
        return Received(_message(reply, decided(db, person.id, earlier)), Came.KNOWN if is_whole else Came.NEW)
    replies.keep_reply(db, reply)
    if content.clearance is not None:
        records.save_record(db, _yes(clock, content, content.clearance, clash))
    passed = tuple(dict.fromkeys(_KIND_OF.get(thing, "swaps") for thing in effects.passed_over))
    has_effect = len(effects.passed_over) < len(things(content)) or bool(content.message or content.clearance)
    return Received(_message(reply, decided(db, person.id, earlier)), Came.SAME_NUMBER if clash else Came.NEW, passed,
                    has_effect)


#: What a thing is called in `Received.passed_over`.
_KIND_OF = {SPARE: "limits", LIMITS: "limits", HELD: "held"}


def _table(content: ReplyContent) -> dict[str, Any]:
    table: dict[str, Any] = plain(content)
    for key in ("coach_signing_public", "digest"):
        table.pop(key, None)
    return table


def _message(reply: Reply, deciding: Deciding) -> Message:
    table: Mapping[str, Any] = reply.content
    caps = {**(table.get("spare") or {}), **(table.get("limits") or {})}
    named = [thing for thing in (SPARE, LIMITS) if table.get(thing) is not None]
    yes = table.get("clearance")
    return Message(
        reply.number, str(table.get(FROM) or table.get("coach", "")), parse_utc(table["made_utc"]),
        str(table.get("message", "")),
        tuple((str(what), int(cap)) for what, cap in sorted(caps.items())), bool(named) and not caps,
        tuple((str(a), str(b)) for a, b in table.get("swaps") or ()),
        tuple(sorted(map(str, table.get("held") or ()))), f"{yes['who']}, {yes['kind']}" if yes else "",
        any(not still_decides(deciding, thing, reply) for thing in named),
        table.get("held") is not None and not still_decides(deciding, HELD, reply),
    )


def _yes(clock: Clock, content: ReplyContent, yes: Yes, clash: bool) -> Clearance:
    """The recorded yes; the same message on a second device makes the same record."""
    said = f"{content.person}:{content.coach_signing_public.hex()}:{content.number}"
    made = uuid.uuid5(uuid.NAMESPACE_OID, f"{said}:{content.digest}" if clash else said)
    stamp = replace(new_stamp(clock, content.person), id=made.hex)
    return Clearance(stamp, yes.answers, yes.who, yes.kind)
