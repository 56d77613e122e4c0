"""A brand file: one TOML with its icon, picture and packs beside it. What is in it: `BRAND.md` beside this file."""
from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from app.domain.branding.brand import EVENLOAD, Brand, BrandPicture
from app.domain.branding.palette import Palette, failing
from app.domain.errors import PoorContrast, UnreadableSource, WrongValue
from app.exchange.brands.brand_form import BrandFileForm
from app.exchange.brands.ready_brand import MOST_PICTURE, read_beside, read_brand_packs
from app.exchange.forms.field_types import BY_HAND
from app.exchange.forms.toml_file import read_toml
from app.exchange.forms.validation_errors import read_form

BRAND_FILE = "brand.toml"
LEAST_ICON, MOST_ICON = 1024, 4096
"""Side of an icon, px: at least the largest that any platform asks for; at most what is drawn within a second."""
_PNG = b"\x89PNG\r\n\x1a\n"
_PICTURES = (_PNG, b"\xff\xd8\xff", b"RIFF")
#: Largest bytes of what stands beside a brand file.
_MOST_ICON = 8_000_000


@dataclass(frozen=True)
class BrandFiles:
    """A brand with every file of it, by name: `brand.toml`, the icon, the picture, the packs."""

    brand: Brand
    files: Mapping[str, bytes] = field(repr=False)


def read_brand(path: Path) -> Brand:
    """The brand of that file, its picture read, its other files only looked for.

    Raises:
        UnreadableSource: the file or one that it names cannot be read.
        WrongValue, UnknownName: what it says cannot be.
        PoorContrast: two colours that meet on a screen are too close.
    """
    brand = _brand_of(read_form(BrandFileForm, json.dumps(read_toml(path, path.name), default=str), path.name, BY_HAND))
    for palette in (brand.light, brand.dark):
        _check_contrast(palette, path.name)
    for name in filter(None, (brand.icon, *brand.packs)):
        if not (path.parent / name).is_file():
            raise UnreadableSource(where=name, why=f"{path.name} names it, and it is not beside it")
    return replace(brand, picture=_shown(path, brand.picture)) if brand.picture else brand


def read_brand_files(path: Path) -> BrandFiles:
    """The brand with all its files, checked.

    Raises:
        UnreadableSource, WrongValue, UnknownName, PoorContrast, TooLarge: as `read_brand`; or a file is too large,
            or is not of the kind that its place asks for.
    """
    brand = read_brand(path)
    files = {BRAND_FILE: read_beside(path, path.name, _MOST_ICON)}
    if brand.picture:
        files[brand.picture.file] = brand.picture.data
    if brand.icon:
        files[brand.icon] = _icon(path, brand.icon)
    return BrandFiles(brand, files | dict(read_brand_packs(path, brand)))


def write_brand_files(whole: BrandFiles, folder: Path) -> Path:
    """Writes a brand into a folder; gives the path of its brand file."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, data in whole.files.items():
        (folder / name).write_bytes(data)
    return folder / BRAND_FILE


def png_size(data: bytes) -> tuple[int, int] | None:
    """Width and height of a PNG, px; None if it is none."""
    if not data.startswith(_PNG) or data[12:16] != b"IHDR":
        return None
    return int.from_bytes(data[16:20], "big"), int.from_bytes(data[20:24], "big")


def _brand_of(form: BrandFileForm) -> Brand:
    stated = form.brand.stated()
    inks = {name: replace(getattr(EVENLOAD, name), **getattr(form, name)) for name in ("light", "dark")}
    # each part has become a value of the domain while it was read
    parts: dict[str, Any] = {
        "picture": form.picture, "contact": form.contact, "emergency": form.emergency, "coaches": form.coach,
        "links": form.link, "release": form.release,
    }
    return Brand(**{**stated, "description": stated["description"] or EVENLOAD.description}, **inks, **parts)


def _check_contrast(palette: Palette, where: str) -> None:
    for one in failing(palette):
        raise PoorContrast(where=where, theme=palette.name, words=one.pair.words, ground=one.pair.ground,
                           words_colour=one.words, ground_colour=one.ground, ratio=one.ratio, least=one.pair.least)


def _shown(path: Path, picture: BrandPicture) -> BrandPicture:
    data = read_beside(path, picture.file, MOST_PICTURE)
    if not data.startswith(_PICTURES):
        raise WrongValue(where=picture.file, value=None, expected="a PNG, a JPEG or a WebP")
    return replace(picture, data=data)


def _icon(path: Path, name: str) -> bytes:
    data = read_beside(path, name, _MOST_ICON)
    width, height = png_size(data) or (0, 0)
    if width != height or not LEAST_ICON <= width <= MOST_ICON:
        found = f"{width} × {height}" if width else None
        raise WrongValue(where=name, value=found, expected=f"a square PNG of {LEAST_ICON} to {MOST_ICON} pixels")
    return data


def slug_of(name: str) -> str:
    """A slug from a name: `Studio Å` becomes `studio`; never empty."""
    return re.sub("[^a-z0-9]+", "-", name.casefold()).strip("-")[:40].strip("-") or "studio"
