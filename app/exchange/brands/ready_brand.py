"""A brand as an app begins with it: checked when the app was made, so read back here without a check.

The checks take longer to load in a browser than everything else before the first screen.
"""
from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import asdict, fields, replace
from pathlib import Path
from typing import Any, TypeVar

from app.domain.branding.brand import Brand, BrandContact, BrandPicture, CoachKey, EmergencyNumber, Link, Release, Role
from app.domain.branding.palette import Palette
from app.domain.errors import TooLarge, UnreadableSource

#: Stands beside `brand.toml` in an app that was made.
READY_FILE = "brand.json"
MOST_PICTURE, MOST_PACK = 2_000_000, 200_000_000
"""Bytes."""
_ONE: Mapping[str, type[Any]] = {"light": Palette, "dark": Palette, "picture": BrandPicture, "contact": BrandContact,
                                 "release": Release}
_MANY: Mapping[str, type[Any]] = {"emergency": EmergencyNumber, "coaches": CoachKey, "links": Link}
T = TypeVar("T")


def ready_brand(brand: Brand) -> bytes:
    """A checked brand as JSON, without the bytes of its picture."""
    told = asdict(replace(brand, picture=replace(brand.picture, data=b"") if brand.picture else None))
    if brand.picture:
        del told["picture"]["data"]
    return json.dumps(told, ensure_ascii=False).encode()


def read_ready_brand(path: Path) -> Brand:
    """The brand that `ready_brand` wrote, its picture read. What this version does not know is passed over.

    Raises:
        UnreadableSource, TooLarge: its picture cannot be read.
    """
    told: dict[str, Any] = json.loads(path.read_bytes())
    told |= {name: _of(kind, told[name]) for name, kind in _ONE.items() if told.get(name)}
    told |= {name: tuple(_of(kind, one) for one in told[name]) for name, kind in _MANY.items() if name in told}
    told |= {"packs": tuple(told["packs"]), "roles": tuple(map(Role, told["roles"]))}
    brand = _of(Brand, told)
    if brand.picture is None:
        return brand
    return replace(brand, picture=replace(brand.picture, data=read_beside(path, brand.picture.file, MOST_PICTURE)))


def read_brand_packs(path: Path | None, brand: Brand) -> Iterator[tuple[str, bytes]]:
    """Name and bytes of each pack of the brand, one at a time; not opened yet.

    `path`: a file that they lie beside; None: there are none.

    Raises:
        UnreadableSource, TooLarge: one that cannot be read.
    """
    if path is None:
        return
    for name in brand.packs:
        yield name, read_beside(path, name, MOST_PACK)


def read_beside(path: Path, name: str, most: int) -> bytes:
    """The file of that name beside another.

    Raises:
        UnreadableSource, TooLarge: as they say.
    """
    try:
        with (path.parent / name).open("rb") as file:
            data = file.read(most + 1)
    except OSError as error:
        raise UnreadableSource(where=name, why=error.strerror or "cannot be read") from error
    if len(data) > most:
        raise TooLarge(name=name, limit=f"{most // 1_000_000} MB", found="more")
    return data


def _of(kind: type[T], told: Mapping[str, Any]) -> T:
    return kind(**{one.name: told[one.name] for one in fields(kind) if one.name in told})  # type: ignore[arg-type]
