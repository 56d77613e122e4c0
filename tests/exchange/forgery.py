"""Properly signed files with anything inside: what a hostile or mistaken coach or client could hand out."""
from __future__ import annotations

import io
import json
import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from app.domain.model.source import Source
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import CoachKeys
from app.exchange.crypto.sealing import open_sealed
from app.exchange.crypto.signing import SIGNED_BYTES, signed
from app.exchange.forms.content import CONTENT, source_to_json
from app.exchange.packs import manifest
from app.exchange.packs.manifest import MANIFEST, Manifest
from tests.exchange.fixed import COACH, SOURCE, run

LINES_BYTES = len(Kind.PACK.first_line) + SIGNED_BYTES


def sealed_up(archive: bytes, coach: CoachKeys = COACH, first: bytes = Kind.PACK.first_line) -> bytes:
    """The pack's three lines with a true signature over whatever follows."""
    return first + run(signed(first, archive, coach.signing))


def zipped(files: Mapping[str, bytes]) -> bytes:
    """A ZIP as it stands behind the lines, whatever its names."""
    out = io.BytesIO()
    out.write(bytes(LINES_BYTES))
    with zipfile.ZipFile(out, "a", zipfile.ZIP_DEFLATED) as made:
        for name, content in files.items():
            made.writestr(zipfile.ZipInfo(name), content, zipfile.ZIP_DEFLATED)
    return out.getvalue()[LINES_BYTES:]


def forged(source: Source = SOURCE, signer: CoachKeys = COACH, files: Mapping[str, bytes] | None = None,
           content: bytes | None = None, unlisted: Mapping[str, bytes] | None = None, **manifest_says: Any) -> bytes:
    """A signed pack whose manifest is honest about its files unless `manifest_says` otherwise."""
    inside = {CONTENT: source_to_json(source) if content is None else content, **(files or {})}
    about = Manifest(source.coach, manifest.public_keys(signer), 1, source.language, manifest.listed(inside))
    about = replace(about, **manifest_says)
    return sealed_up(zipped({**inside, **(unlisted or {}), MANIFEST: about.to_json()}), signer)


def inside(data: bytes) -> dict[str, Any]:
    """The JSON of a return."""
    opened = run(open_sealed(data, "file", Kind.RETURN, (COACH.sealing,)))
    said: dict[str, Any] = json.loads(zlib.decompress(opened.plain)[SIGNED_BYTES:])
    return said
