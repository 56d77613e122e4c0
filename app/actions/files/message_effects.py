"""What a coach's message changes for a person: each thing by itself, decided by the last message that speaks of it.

So messages may be opened in any order. A thing is the areas to spare, the limits, what is held, or the change of one
exercise. Of one signing key the higher number decides, of one number the later time; a key that the person follows
now goes before those that they followed earlier.
"""
from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from app.domain.dosing.merge_coach_limits import Sent, with_coach_limits
from app.domain.model.body import parse_spot
from app.domain.model.exercise import Axis
from app.domain.model.person import Person
from app.exchange.letters.replies import ReplyContent
from app.exchange.letters.returns import MOST_TOLD
from app.storage import packs, people, replies, settings
from app.storage.codec import parse_utc, utc_text
from app.storage.database import Connection
from app.storage.replies import Direction, Reply

K = TypeVar("K")
SPARE, LIMITS, HELD, SWAP = "spare", "limits", "held", "swap:"
LAST, BY = "last", "by"
#: By thing: under `last` the signing key of the message that decides, under `by` for each key the number and the time
#: of its last message about it. The empty key stands for messages that were kept before it was noted who signed them.
Deciding = dict[str, dict[str, Any]]


@dataclass(frozen=True)
class Effects:
    """The person as they are from now on, and the things that a later message has decided already."""

    person: Person
    passed_over: tuple[str, ...]


def put_into_effect(db: Connection, person: Person, content: ReplyContent, earlier: Iterable[Reply]) -> Effects:
    """Keeps for the person what the message says of every thing that no later one speaks of."""
    signer, place = content.coach_signing_public.hex(), [content.number, utc_text(content.made_utc)]
    deciding = decided(db, person.id, earlier)
    named = things(content)
    counts = {thing for thing in named if _is_later(_by(deciding, thing), signer, place)}
    kept = settings.setting(db, _limits_of(person.id)) or {SPARE: {}, LIMITS: {}}
    changed, sent = _changed(person, kept, content, counts)
    if counts:
        people.save_person(db, changed)
        settings.save_setting(db, _limits_of(person.id), sent)
        settings.save_setting(db, _orders_of(person.id), {
            **deciding,
            **{thing: {LAST: signer, BY: {**_by(deciding, thing), signer: place}} for thing in counts},
        })
    return Effects(changed, tuple(thing for thing in named if thing not in counts))


def things(content: ReplyContent) -> tuple[str, ...]:
    """What a message speaks of."""
    whole = ((SPARE, content.spare), (LIMITS, content.limits), (HELD, content.held))
    return (*(thing for thing, said in whole if said is not None), *(SWAP + written for written, _ in content.swaps))


def decided(db: Connection, person_id: str, earlier: Iterable[Reply]) -> Deciding:
    """Which message decides about each thing now."""
    kept: Deciding | None = settings.setting(db, _orders_of(person_id))
    return kept if kept is not None else _before_signers(earlier)


def still_decides(deciding: Deciding, thing: str, reply: Reply) -> bool:
    """Whether what this message says of a thing is what holds; so it is, too, where nothing is known of it."""
    here = [reply.number, _made(reply)]
    return thing not in deciding or (
        deciding[thing][LAST] == reply.signer and _by(deciding, thing)[reply.signer] == here)


def highest_number(db: Connection, person: Person) -> int:
    """The highest number among the messages of the coach they follow, under present and earlier keys; 0 without one."""
    mine = {"", person.coach_key, *packs.replaced_by(db, person.coach_key)}
    found = (r.number for r in replies.replies(db, person.id, Direction.RECEIVED) if r.signer in mine)
    return max((number for number in found if number <= MOST_TOLD), default=0)


def _by(deciding: Deciding, thing: str) -> dict[str, list[Any]]:
    found: dict[str, list[Any]] = deciding.get(thing, {}).get(BY, {})
    return found


def _made(reply: Reply) -> str:
    """When a kept message was made, in the width that sorts as time does."""
    return utc_text(parse_utc(str(reply.content["made_utc"])))


def _before_signers(earlier: Iterable[Reply]) -> Deciding:
    """What was put into effect by messages kept without their signer: then the highest number that had come counted."""
    found: Deciding = {}
    highest = 0
    for reply in sorted((r for r in earlier if not r.signer), key=lambda r: r.utc):
        if reply.number > highest:
            highest = reply.number
            named = [thing for thing in (SPARE, LIMITS, HELD) if reply.content.get(thing) is not None]
            for thing in (*named, *(SWAP + str(written) for written, _ in reply.content.get("swaps") or ())):
                found[thing] = {LAST: "", BY: {"": [reply.number, _made(reply)]}}
    return found


def _is_later(told: Mapping[str, list[Any]], signer: str, place: list[Any]) -> bool:
    """Whether a message goes before the one that decides now."""
    if signer in told:
        return place > told[signer]
    return "" not in told or place[1] > told[""][1]


def _limits_of(person_id: str) -> str:
    return f"coach_limits:{person_id}"


def _orders_of(person_id: str) -> str:
    """Erased with the person, as every setting that ends so."""
    return f"coach_orders:{person_id}"


def _changed(person: Person, kept: dict[str, Any], content: ReplyContent, counts: set[str]
             ) -> tuple[Person, dict[str, Any]]:
    """The person with the coach's limits and changes, and what to remember of their own."""
    body = person.body
    if content.spare is not None and SPARE in counts:
        spare, sent = with_coach_limits(body.spare, _sent(kept[SPARE], parse_spot), content.spare)
        body, kept = replace(body, spare=spare), kept | {SPARE: _plain_sent(sent)}
    if content.limits is not None and LIMITS in counts:
        limits, told = with_coach_limits(body.limits, _sent(kept[LIMITS], Axis), content.limits)
        said = tuple(one for one in content.limits_told or () if one.axis in content.limits)
        body, kept = replace(body, limits=limits, told_limits=said), kept | {LIMITS: _plain_sent(told)}
    if content.held is not None and HELD in counts:
        body = replace(body, held=content.held)
    swaps = {written: instead for written, instead in content.swaps if SWAP + written in counts}
    return replace(person, body=replace(body, chosen={**body.chosen, **swaps})), kept


def _sent(table: Mapping[str, Any], key_of: Callable[[str], K]) -> dict[K, Sent]:
    return {key_of(key): (coach, own) for key, (coach, own) in table.items()}


def _plain_sent(sent: Mapping[K, Sent]) -> dict[str, list[int | None]]:
    return {str(key): [coach, own] for key, (coach, own) in sent.items()}
