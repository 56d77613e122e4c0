"""A coach's message on the client's device: opened, kept, and what it says put into effect."""
from __future__ import annotations

import uuid
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any, TypeVar

from app.actions.files.sending import ensure_client_keys
from app.actions.new_stamp import new_stamp
from app.device.clock import Clock
from app.domain.dosing.merge_coach_limits import Sent, with_coach_limits
from app.domain.errors import UntrustedSigner, WrongRecipient
from app.domain.model.body import parse_spot
from app.domain.model.exercise import Axis
from app.domain.model.person import Person
from app.domain.model.record import Clearance
from app.exchange.crypto.text_form import unwrapped
from app.exchange.forms.to_json import plain
from app.exchange.letters.replies import ReplyContent, Yes, read_reply
from app.storage import packs, people, records, replies, settings
from app.storage.codec import parse_utc
from app.storage.database import Store
from app.storage.replies import Direction, Reply

K = TypeVar("K")


@dataclass(frozen=True)
class Message:
    """A message as it stands in the list. `limits` are spots and demands in words, with the highest demand 0–3."""

    number: int
    coach: str
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


@dataclass(frozen=True)
class Received:
    """What became of a file: its message, and whether it was here before."""

    message: Message
    known: bool


async def receive(store: Store, clock: Clock, person_id: str, data: bytes, name: str) -> Received:
    """Opens a message, keeps it, and puts a recorded yes, limits and changes into effect, all in one.

    One that was here before changes nothing. Limits of a message older than one already here are not taken over.

    Raises:
        FileError: not a message, damaged, for somebody else, or not from a coach whose programme is here.
    """
    own = await ensure_client_keys(store, clock, person_id)
    with store.read() as db:
        coaches = [bytes.fromhex(c.signing_key) for c in packs.pinned_coaches(db)]
    content = await read_reply(unwrapped(data, name), name, private_keys=[own.sealing], coach_keys=coaches)
    if content.person != person_id:
        raise WrongRecipient(name=name)
    with store.begin() as db:
        if packs.pinned_coach(db, content.coach_signing_public.hex()) is None:  # their keys changed meanwhile
            raise UntrustedSigner(name=name, who=content.coach)
        earlier = replies.replies(db, person_id, Direction.RECEIVED)
        if any(r.number == content.number for r in earlier):
            return Received(_message(content.number, plain(content)), known=True)
        replies.keep_reply(db, Reply(person_id, Direction.RECEIVED, content.number, _table(content), clock.now()))
        if content.clearance is not None:
            records.save_record(db, _yes(clock, content, content.clearance))
        person = people.person(db, person_id)
        if person is not None and all(r.number < content.number for r in earlier):
            kept = settings.setting(db, _limits_of(person_id)) or {"spare": {}, "limits": {}}
            limited, sent = _limited(person, kept, content)
            people.save_person(db, limited)
            settings.save_setting(db, _limits_of(person_id), sent)
    return Received(_message(content.number, plain(content)), known=False)


def messages(store: Store, person_id: str) -> tuple[Message, ...]:
    """Every message, the newest first."""
    with store.read() as db:
        kept = replies.replies(db, person_id, Direction.RECEIVED)
    return tuple(_message(r.number, r.content) for r in reversed(kept))


def _table(content: ReplyContent) -> dict[str, Any]:
    table: dict[str, Any] = plain(content)
    table.pop("coach_signing_public", None)
    return table


def _message(number: int, table: Mapping[str, Any]) -> Message:
    caps = {**(table.get("spare") or {}), **(table.get("limits") or {})}
    named = any(table.get(key) is not None for key in ("spare", "limits"))
    yes = table.get("clearance")
    return Message(
        number, str(table.get("coach", "")), parse_utc(table["made_utc"]), str(table.get("message", "")),
        tuple((str(what), int(cap)) for what, cap in sorted(caps.items())), named and not caps,
        tuple((str(a), str(b)) for a, b in table.get("swaps") or ()),
        tuple(sorted(map(str, table.get("held") or ()))), f"{yes['who']}, {yes['kind']}" if yes else "",
    )


def _yes(clock: Clock, content: ReplyContent, yes: Yes) -> Clearance:
    """The recorded yes; the same message on a second device makes the same record."""
    made = uuid.uuid5(uuid.NAMESPACE_OID, f"{content.person}:{content.coach_signing_public.hex()}:{content.number}")
    stamp = replace(new_stamp(clock, content.person), id=made.hex)
    return Clearance(stamp, yes.answers, yes.who, yes.kind)


def _limits_of(person_id: str) -> str:
    return f"coach_limits:{person_id}"


def _limited(person: Person, kept: dict[str, Any], content: ReplyContent) -> tuple[Person, dict[str, Any]]:
    """The person with the coach's limits and changes, and what to remember of their own."""
    body = person.body
    if content.spare is not None:
        spare, sent = with_coach_limits(body.spare, _sent(kept["spare"], parse_spot), content.spare)
        body, kept = replace(body, spare=spare), kept | {"spare": _plain_sent(sent)}
    if content.limits is not None:
        limits, told = with_coach_limits(body.limits, _sent(kept["limits"], Axis), content.limits)
        body, kept = replace(body, limits=limits), kept | {"limits": _plain_sent(told)}
    if content.held is not None:
        body = replace(body, held=content.held)
    return replace(person, body=replace(body, chosen={**body.chosen, **dict(content.swaps)})), kept


def _sent(table: Mapping[str, Any], key_of: Callable[[str], K]) -> dict[K, Sent]:
    return {key_of(key): (coach, own) for key, (coach, own) in table.items()}


def _plain_sent(sent: Mapping[K, Sent]) -> dict[str, list[int | None]]:
    return {str(key): [coach, own] for key, (coach, own) in sent.items()}
