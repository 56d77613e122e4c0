"""`manifest.json` of a pack: who made it, with which keys, and what is in it."""
from __future__ import annotations

import base64
import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import AfterValidator, Field

from app.exchange.crypto import signing
from app.exchange.crypto.cipher import KEY_BYTES, SIGNATURE_BYTES
from app.exchange.crypto.keys import CoachKeys, KeyPair
from app.exchange.forms.field_types import Form, Hash, NameToSee, becomes, matching, refuse, text, whole
from app.exchange.forms.to_json import to_json
from app.exchange.forms.validation_errors import read_form

MANIFEST = "manifest.json"
#: Highest epoch of a statement about keys: a second of the year 2286.
MOST_EPOCH = 9_999_999_999
_CHANGE, _DATED_CHANGE = b"evenload-key-change 1\n", b"evenload-key-change 2\n"


def _raw(length: int) -> AfterValidator:
    """Bytes of that length written in the one way that base64 writes them."""
    def check(value: str) -> bytes:
        try:
            raw = base64.b64decode(value, validate=True)
        except ValueError:
            refuse("base64")
        return raw if len(raw) == length and base64.b64encode(raw).decode() == value else refuse(f"{length} bytes")
    return AfterValidator(check)


Key = Annotated[str, _raw(KEY_BYTES)]


@dataclass(frozen=True)
class PublicKeys:
    """The four public keys of a coach."""

    signing: bytes
    sealing: bytes
    recovery_signing: bytes
    recovery_sealing: bytes


@dataclass(frozen=True)
class KeyChange:
    """A statement by an earlier key, or by the recovery key, that the keys of this pack are the coach's now."""

    by: bytes
    """The public signing key that made the statement."""
    signature: bytes
    epoch: int = 0
    """When the keys were made, in seconds since 1970: a later statement beats an earlier one. 0: not stated, as in the
    first statements, which have another text to sign."""


@dataclass(frozen=True)
class PackEntry:
    """One file inside."""

    name: str
    size: int
    sha256: str


class KeysForm(Form):
    signing: Key
    sealing: Key
    recovery_signing: Key
    recovery_sealing: Key


class KeyChangeForm(Form):
    by: Key
    signature: Annotated[str, _raw(SIGNATURE_BYTES)]
    epoch: Annotated[int, whole(1, MOST_EPOCH)] | None = None


def _change(form: KeyChangeForm) -> KeyChange:
    stated = form.stated()
    return KeyChange(**{**stated, "epoch": stated["epoch"] or 0})


class EntryForm(Form):
    name: Annotated[str, text(200, 1)]
    size: Annotated[int, whole(0, 200_000_000)]
    sha256: Hash


class ManifestForm(Form):
    coach: NameToSee
    keys: Annotated[KeysForm, becomes(PublicKeys)]
    rule_table: Annotated[int, whole(1, 1000)]
    language: Annotated[str, matching("[A-Za-z0-9-]{2,40}", "a language")]
    entries: Annotated[tuple[Annotated[EntryForm, becomes(PackEntry)], ...], Field(max_length=5000)]
    key_change: Annotated[KeyChangeForm, AfterValidator(_change)] | None = None


@dataclass(frozen=True)
class Manifest:
    """What a pack says of itself. `entries` are all files but the manifest, in the order of their names."""

    coach: str
    keys: PublicKeys
    rule_table: int
    language: str
    entries: tuple[PackEntry, ...]
    key_change: KeyChange | None = None

    def to_json(self) -> bytes:
        """Its bytes in the pack."""
        table: dict[str, Any] = {
            "coach": self.coach, "rule_table": self.rule_table, "language": self.language,
            "keys": {name: key_text(value) for name, value in vars(self.keys).items()},
            "entries": [vars(entry) for entry in self.entries],
        }
        if self.key_change:
            change = self.key_change
            table["key_change"] = {"by": key_text(change.by), "signature": key_text(change.signature)}
            table["key_change"] |= {"epoch": change.epoch} if change.epoch else {}
        return to_json(table)


def manifest_from_json(data: bytes) -> Manifest:
    """The manifest.

    Raises:
        WrongValue: a key is missing or its value is not one.
    """
    return Manifest(**read_form(ManifestForm, data, MANIFEST).stated())


def listed(files: Mapping[str, bytes]) -> tuple[PackEntry, ...]:
    """What a manifest says of these files."""
    return tuple(PackEntry(name, len(files[name]), hashlib.sha256(files[name]).hexdigest()) for name in sorted(files))


def public_keys(coach: CoachKeys) -> PublicKeys:
    """What a coach gives away."""
    return PublicKeys(coach.signing.public, coach.sealing.public, coach.recovery_signing, coach.recovery_sealing)


async def signed_key_change(new: PublicKeys, by: KeyPair, epoch: int = 0) -> KeyChange:
    """The statement that `new` are the coach's keys now, by the old signing key or by the recovery signing key.

    `epoch` is when they were made, in seconds since 1970; without one it is the first form of a statement.
    """
    return KeyChange(by.public, await signing.sign(_change_text(new, epoch), by), epoch)


async def holds(change: KeyChange, keys: PublicKeys) -> bool:
    """Whether the statement is about these keys, of that epoch and by the key that it names."""
    return await signing.verify(_change_text(keys, change.epoch), change.signature, change.by)


def _change_text(keys: PublicKeys, epoch: int) -> bytes:
    head = _DATED_CHANGE + f"epoch {epoch}\n".encode() if epoch else _CHANGE
    return head + b"".join(f"{name} {key_text(value)}\n".encode() for name, value in sorted(vars(keys).items()))


def key_text(raw: bytes) -> str:
    """A key or a signature as base64."""
    return base64.b64encode(raw).decode()
