"""A pack: a coach's work, signed. The format is specified in `PACK.md` beside this file."""
from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field

from app.domain.errors import ContentError, DamagedFile, UnsafeEntry
from app.domain.model.source import Source
from app.exchange.crypto.file_kinds import Kind, require_kind
from app.exchange.crypto.keys import CoachKeys
from app.exchange.crypto.signing import SIGNED_BYTES, read_signed, signed
from app.exchange.forms.content import CONTENT, source_from_json, source_to_json
from app.exchange.packs import archive, manifest
from app.exchange.packs.manifest import MANIFEST, KeyChange, Manifest, PublicKeys

#: Where files beside `content.json` may stand.
MEDIA_FOLDERS = ("figures/", "media/", "voice/")
_LINES_BYTES = len(Kind.PACK.first_line) + SIGNED_BYTES


@dataclass(frozen=True)
class Pack:
    """A pack whose every byte was verified. Whether its signer is the one that was agreed on: `trust`."""

    source: Source
    coach: str
    signing_key: bytes
    sealing_key: bytes
    recovery_signing_key: bytes
    recovery_sealing_key: bytes
    rules_version: int
    sha256: str
    """Of the whole file, hex."""
    key_change: KeyChange | None = None
    media: Mapping[str, bytes] = field(default_factory=dict, repr=False)
    """Files by path: `figures/…`, `media/…`, `voice/…`."""


async def build_pack(
    source: Source,
    *,
    coach: CoachKeys,
    media: Mapping[str, bytes] | None = None,
    rules_version: int = 1,
    key_change: KeyChange | None = None,
) -> bytes:
    """A signed pack, verified as a reader would. The same arguments give the same bytes.

    Raises:
        WrongValue, UnknownName: the source says something impossible.
        UnsafeEntry, TooLarge: a media path that is not allowed, or more than a pack may hold.
    """
    files = {CONTENT: source_to_json(source), **(media or {})}
    source_from_json(files[CONTENT])
    _check_media("", files)
    about = Manifest(source.coach, manifest.public_keys(coach), rules_version, source.language,
                     manifest.listed(files), key_change)
    zipped = archive.build_archive({**files, MANIFEST: about.to_json()}, _LINES_BYTES)
    return Kind.PACK.first_line + await signed(Kind.PACK.first_line, zipped, coach.signing)


async def read_pack(data: bytes, name: str) -> Pack:
    """The pack, once its size, lines, signature, archive, manifest and content hold.

    Raises:
        NotOurFile, NewerFormat: not a pack, or of a newer major version.
        TooLarge, UnsafeEntry, DamagedFile: refused as a whole.
    """
    archive.check_size(data, name)
    rest = require_kind(data, name, Kind.PACK)
    signer, _ = await read_signed(Kind.PACK.first_line, rest, name)
    files = archive.read_archive(data, _LINES_BYTES, name)
    if not {MANIFEST, CONTENT} <= files.keys():
        raise DamagedFile(name=name, why="no manifest or no content")
    try:
        about = manifest.manifest_from_json(files.pop(MANIFEST))
        await _check_manifest(about, files, signer, name)
        source = source_from_json(files.pop(CONTENT))
    except ContentError as error:
        raise DamagedFile(name=name, why="content", error=error) from error
    if (source.coach, source.language) != (about.coach, about.language):
        raise DamagedFile(name=name, why="manifest and content differ")
    return _pack(source, about, hashlib.sha256(data).hexdigest(), files)


def _pack(source: Source, about: Manifest, sha256: str, media: Mapping[str, bytes]) -> Pack:
    keys: PublicKeys = about.keys
    return Pack(source, about.coach, keys.signing, keys.sealing, keys.recovery_signing, keys.recovery_sealing,
                about.rule_table, sha256, about.key_change, media)


async def _check_manifest(about: Manifest, files: Mapping[str, bytes], signer: bytes, name: str) -> None:
    """Every file is listed as it is and nothing else is; the keys are those that signed."""
    if about.entries != manifest.listed(files):
        raise DamagedFile(name=name, why="entries and manifest differ")
    _check_media(name, files)
    if about.keys.signing != signer:
        raise DamagedFile(name=name, why="signing key and manifest differ")
    if about.key_change and not await manifest.holds(about.key_change, about.keys):
        raise DamagedFile(name=name, why="change of keys")


def _check_media(name: str, files: Mapping[str, bytes]) -> None:
    for path in files.keys() - {CONTENT}:
        if not path.startswith(MEDIA_FOLDERS):
            raise UnsafeEntry(name=name, entry=path)

