"""Whose app it is: name, inks, contact and packs, read once at the start and handed to every screen."""
from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from app.domain.branding.palette import Palette


class Role(StrEnum):
    """Who holds the device."""

    CLIENT = "client"
    HELPER = "helper"
    COACH = "coach"


@dataclass(frozen=True)
class BrandContact:
    """Whom to ask about the app. Empty where nothing was entered."""

    name: str = ""
    mail: str = ""
    phone: str = ""


@dataclass(frozen=True)
class EmergencyNumber:
    """For an ambulance, as the coach entered it; the person confirms the country and the number."""

    country: str
    number: str


@dataclass(frozen=True)
class CoachKey:
    """A coach whose packs are expected: they need no comparing of words, since the key came with the app."""

    name: str
    signing_key: str
    """64 hex digits."""


@dataclass(frozen=True)
class Link:
    """A page of the coach's. `address` begins with https:, mailto: or tel:."""

    words: str
    address: str
    app: bool = False
    """It is where this very app lies on the web; one link at most, by https."""


@dataclass(frozen=True)
class BrandPicture:
    """Shown at the welcome. `words` say what it shows; `data` is empty until the file was read."""

    file: str
    words: str
    data: bytes = field(default=b"", repr=False)


@dataclass(frozen=True)
class Release:
    """What app stores and installers ask for."""

    organisation: str
    """Reversed domain, such as `org.example`."""
    bundle_id: str
    version: str
    build: int
    company: str
    copyright: str = ""


@dataclass(frozen=True)
class Brand:
    """A coach's own app. Files are plain names beside the brand file."""

    id: str
    """Slug that names store, cache, locks and artefacts, so that two brands on one machine or host never meet."""
    name: str
    short_name: str
    """Fits under an icon: 12 characters at most."""
    light: Palette
    dark: Palette
    description: str = ""
    icon: str = ""
    """A square PNG of 1024 pixels or more; empty: the program's own."""
    picture: BrandPicture | None = None
    contact: BrandContact = BrandContact()
    emergency: tuple[EmergencyNumber, ...] = ()
    coaches: tuple[CoachKey, ...] = ()
    packs: tuple[str, ...] = ()
    """Taken in at the first start."""
    roles: tuple[Role, ...] = tuple(Role)
    links: tuple[Link, ...] = ()
    release: Release | None = None


EVENLOAD_LIGHT = Palette(
    "light", paper="#F4EDDD", sheet="#FBF7EC", ink="#1F1A14", soft="#4D4437", line="#B5A88F",
    work="#47288A", panel="#47288A", on_work="#FFFBF2", rest="#5C3D00", tint="#F0DFB4",
    focus="#B07D2B", focus_solid="#7555C6",
)
EVENLOAD_DARK = Palette(
    "dark", paper="#18140F", sheet="#241E17", ink="#F5EBD8", soft="#CFC2AB", line="#5F5546",
    work="#C6B2FF", panel="#583AAE", on_work="#FFFBF2", rest="#F0BE58", tint="#38290C",
    focus="#7555C6", focus_solid="#B07D2B",
)
EVENLOAD = Brand(
    "evenload", "Evenload", "Evenload", EVENLOAD_LIGHT, EVENLOAD_DARK,
    description="Home strength sessions that answer to the body that does them",
)
"""The brand of an installation that was given none; `build/brands/evenload.toml` says the same."""
