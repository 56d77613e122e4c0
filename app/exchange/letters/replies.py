"""A reply: a coach's message, limits and changes for one client, sealed to the client. Format: `RETURN.md`."""
from __future__ import annotations

import hashlib
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Annotated

from pydantic import Field

from app.domain.errors import UntrustedSigner
from app.domain.model.body import Spot
from app.domain.model.client import AxisLimit
from app.domain.model.exercise import Axis
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import KeyPair
from app.exchange.forms.field_types import (
    Demand,
    Form,
    Id,
    Instant,
    Line,
    Name,
    Slug,
    SpareBySpot,
    Text,
    becomes,
    matching,
    whole,
)
from app.exchange.forms.person_form import AxisLimitForm
from app.exchange.forms.to_json import cleaned, plain
from app.exchange.letters.letter import read_content, read_letter, write_letter

_CLEARED_BY = "[a-z][a-z ,'-]{0,59}"


@dataclass(frozen=True)
class Yes:
    """A yes after a stop, as recorded by the coach."""

    answers: str
    """Id of the check-in or session that stopped them."""
    who: str
    """Name of who said it."""
    kind: str
    """`coach`, or the clinician's profession."""


@dataclass(frozen=True)
class ReplyContent:
    """What a coach answers. `spare` and `limits`: None leaves them as they are, a mapping replaces the coach's."""

    person: str
    """Id of the person it is for."""
    number: int
    """Counts the coach's replies to this person, from 1; a later one beats an earlier one."""
    made_utc: datetime
    message: str = ""
    spare: Mapping[Spot, int] | None = None
    """Highest demand allowed on a region's axes, 0–3."""
    limits: Mapping[Axis, int] | None = None
    """Highest demand allowed on single axes, 0–3."""
    swaps: tuple[tuple[str, str], ...] = ()
    """Exercises that stand in from now on: (from, to)."""
    clearance: Yes | None = None
    coach: str = ""
    """The coach's name."""
    coach_signing_public: bytes = b""
    limits_told: tuple[AxisLimit, ...] | None = None
    """Of some of `limits`: who said so, and until when; counts together with `limits` and never without them."""
    held: frozenset[str] | None = None
    """Exercises, as written, that stay as they are and move no step on; None leaves the coach's earlier ones."""
    digest: str = field(default="", compare=False)
    """SHA-256 of the signed JSON, hex: two letters with one number are told apart by it. Empty before it is written."""


class YesForm(Form):
    """A recorded yes."""

    answers: Id
    who: Name
    kind: Annotated[str, matching(_CLEARED_BY, "coach, or a profession in plain words")]


ToldLimit = Annotated[AxisLimitForm, becomes(AxisLimit)]


class ReplyForm(Form):
    """The JSON of a reply."""

    person: Id
    number: Annotated[int, whole(1, 10_000_000)]
    made_utc: Instant
    message: Text = ""
    spare: SpareBySpot | None = None
    limits: dict[Axis, Demand] | None = None
    limits_told: Annotated[tuple[ToldLimit, ...], Field(max_length=200)] | None = None
    swaps: Annotated[tuple[tuple[Slug, Slug], ...], Field(max_length=500)] = ()
    held: Annotated[frozenset[Slug], Field(max_length=5000)] | None = None
    clearance: Annotated[YesForm, becomes(Yes)] | None = None
    coach: Line = ""


async def write_reply(content: ReplyContent, *, coach: KeyPair, readers: Sequence[bytes]) -> bytes:
    """A reply signed with the coach's signing key and sealed to the client, and whoever else is to read it.

    Raises:
        WrongValue, TooLarge: what a reader would refuse.
    """
    table = cleaned(plain(content))
    for key in ("coach_signing_public", "digest"):
        del table[key]
    return await write_letter(table, Kind.REPLY, ReplyForm, coach, readers)


async def read_reply(data: bytes, name: str, *, private_keys: Sequence[KeyPair],
                     coach_keys: Collection[bytes]) -> ReplyContent:
    """The reply, once seal, signer, signature and every value hold.

    Raises:
        NotOurFile, NewerFormat, TooLarge, DamagedFile: refused as a whole.
        WrongRecipient: none of the private keys is a reader's.
        UntrustedSigner: signed by none of `coach_keys`, the signing keys of the coaches on this device.
    """
    letter = await read_letter(data, name, Kind.REPLY, private_keys)
    content = ReplyContent(coach_signing_public=letter.signer, digest=hashlib.sha256(letter.json).hexdigest(),
                           **read_content(ReplyForm, letter, name, {}).stated())
    if letter.signer not in coach_keys:
        raise UntrustedSigner(name=name, who=content.coach)
    return content
