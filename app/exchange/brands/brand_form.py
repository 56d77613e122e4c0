"""The tables of a brand file, as a coach writes them."""
from __future__ import annotations

from dataclasses import fields
from pathlib import PurePosixPath
from typing import Annotated, Any

from pydantic import AfterValidator, Field

from app.domain.branding.brand import BrandContact, BrandPicture, CoachKey, EmergencyNumber, Link, Release, Role
from app.domain.branding.palette import Palette
from app.exchange.forms.field_types import Form, Line, Name, becomes, matching, refuse, text, whole
from app.exchange.packs.manifest import Key

_INKS = tuple(f.name for f in fields(Palette) if f.name != "name")
#: Names that the program keeps for itself beside a brand's files.
_RESERVED = {"brand.toml", "brand.json"}


def _plain_file(value: str) -> str:
    path = PurePosixPath(value)
    if path.name != value or value.startswith(".") or "\\" in value or ":" in value or value.casefold() in _RESERVED:
        return refuse("the name of a file beside the brand file")
    return value


def _once(named: tuple[Any, ...]) -> tuple[Any, ...]:
    return named if len({str(one).casefold() for one in named}) == len(named) else refuse("each one once")


def _own_inks(table: dict[str, str]) -> dict[str, str]:
    if set(table) <= set(_INKS):
        return {name: colour.upper() for name, colour in table.items()}
    return refuse(f"colours among {', '.join(_INKS)}")


def _countries_once(numbers: tuple[EmergencyNumber, ...]) -> tuple[EmergencyNumber, ...]:
    _once(tuple(one.country for one in numbers))
    return numbers


def _one_app(links: tuple[Link, ...]) -> tuple[Link, ...]:
    apps = [link.address for link in links if link.app]
    if len(apps) > 1:
        return refuse("one link with app = true at most")
    if any(not address.startswith("https://") or "#" in address or "?" in address for address in apps):
        return refuse("an address of the app that begins with https: and holds no # or ?")
    return links


File = Annotated[str, text(80, 1), AfterValidator(_plain_file)]
Colour = Annotated[str, matching("#[0-9A-Fa-f]{6}", "a colour as #1F1A14")]
Inks = Annotated[dict[str, Colour], AfterValidator(_own_inks)]
BrandId = Annotated[str, matching("[a-z][a-z0-9]*(-[a-z0-9]+)*", "a short name of a–z, 0–9 and single hyphens, led by "
                                  "a letter"), text(40, 1)]
Address = Annotated[str, text(300), matching(r"(https://[^\s/]+\.?[^\s]*|mailto:\S+@\S+|tel:\+?[0-9-]+)",
                                             "an address beginning with https:, mailto: or tel:")]
Figures = Annotated[str, matching(r"\+?[0-9][0-9 -]{1,18}", "a telephone number in figures")]
Domain = Annotated[str, matching(r"[a-z][a-z0-9]*(\.[a-z][a-z0-9]*)+", "a reversed domain as org.example")]


class BrandHeadForm(Form):
    """[brand]: whose app it is."""

    id: BrandId
    name: Annotated[str, text(60, 1)]
    short_name: Annotated[str, text(12, 1)]
    description: Line = ""
    icon: File | None = None
    packs: Annotated[tuple[File, ...], Field(max_length=20), AfterValidator(_once)] = ()
    roles: Annotated[tuple[Role, ...], Field(min_length=1), AfterValidator(_once)] = tuple(Role)

    def stated(self) -> dict[str, Any]:
        """With no icon as the empty name."""
        return super().stated() | {"icon": self.icon or ""}


class ContactForm(Form):
    """[contact]: whom to ask."""

    name: Line = ""
    mail: Annotated[str, matching(r"(\S+@\S+)?", "a mail address"), text(200)] = ""
    phone: Figures | None = None

    def stated(self) -> dict[str, Any]:
        """With no telephone as the empty number."""
        return super().stated() | {"phone": self.phone or ""}


class EmergencyForm(Form):
    """[[emergency]]: one country."""

    country: Annotated[str, text(60, 1)]
    number: Figures


class CoachForm(Form):
    """[[coach]]: a coach and the signing key in base64."""

    name: Name
    key: Key

    def stated(self) -> dict[str, Any]:
        """As the domain names it."""
        return {"name": self.name, "signing_key": bytes(self.key).hex()}  # type: ignore[arg-type]


class LinkForm(Form):
    """[[link]]: a page of the coach's."""

    words: Annotated[str, text(60, 1)]
    address: Address
    app: bool = False


class PictureForm(Form):
    """[picture]: for the welcome."""

    file: File
    words: Annotated[str, text(200, 1)]


class ReleaseForm(Form):
    """[release]: for app stores and installers."""

    organisation: Domain
    bundle_id: Domain
    version: Annotated[str, matching(r"[0-9]{1,4}\.[0-9]{1,4}\.[0-9]{1,4}", "a version as 1.0.0")] = "1.0.0"
    build: Annotated[int, whole(1, 2_000_000_000)] = 1
    company: Name
    copyright: Line = ""


class BrandFileForm(Form):
    """`brand.toml`."""

    brand: BrandHeadForm
    light: Inks = Field(default_factory=dict)
    dark: Inks = Field(default_factory=dict)
    picture: Annotated[PictureForm, becomes(BrandPicture)] | None = None
    contact: Annotated[ContactForm, becomes(BrandContact)] = BrandContact()  # type: ignore[assignment]
    emergency: Annotated[tuple[Annotated[EmergencyForm, becomes(EmergencyNumber)], ...], Field(max_length=100),
                         AfterValidator(_countries_once)] = ()
    coach: Annotated[tuple[Annotated[CoachForm, becomes(CoachKey)], ...], Field(max_length=20)] = ()
    link: Annotated[tuple[Annotated[LinkForm, becomes(Link)], ...], Field(max_length=12), AfterValidator(_one_app)] = ()
    release: Annotated[ReleaseForm, becomes(Release)] | None = None
