"""The building blocks of what is written as JSON or TOML: bounded numbers and text, names, instants, spots.

Input is always JSON text read strictly: a number is no text and `true` is no number. Unknown keys are left alone in
files from elsewhere and refused in what a coach wrote by hand.
"""
from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from typing import Annotated, Any, NoReturn

from pydantic import AfterValidator, BaseModel, ConfigDict, ValidationInfo, model_validator
from pydantic_core import PydanticCustomError

from app.domain.errors import AppError
from app.domain.model.body import BODY_REGIONS, Spot, parse_spot
from app.domain.model.level import Level
from app.domain.model.names import can_be_seen

#: Validation context in which an unknown key is an error.
BY_HAND = "by hand"


class Form(BaseModel):
    """One table of keys. What it does not know is kept aside and, in what was written by hand, refused."""

    model_config = ConfigDict(extra="allow", frozen=True)

    @model_validator(mode="after")
    def _known_keys(self, info: ValidationInfo) -> Form:
        if info.context == BY_HAND and self.model_extra:
            known = tuple(type(self).model_fields)
            raise PydanticCustomError("unknown_key", "unknown", {"name": min(self.model_extra), "known": known})
        return self

    def stated(self) -> dict[str, Any]:
        """Its known keys with their values, each already a value of the domain."""
        return dict(self.__dict__)  # what it does not know is kept elsewhere


def becomes(kind: Callable[..., Any]) -> AfterValidator:
    """Turns a form into a value of the domain that has fields of the same names."""
    return AfterValidator(lambda form: kind(**form.stated()))


def whole(least: int, most: int) -> Any:
    """A whole number within bounds, both included."""
    def check(value: int) -> int:
        return value if least <= value <= most else refuse(f"a whole number from {least} to {most}")
    return AfterValidator(check)


def number(least: float, most: float) -> Any:
    """A number within bounds, both included."""
    def check(value: float) -> float:
        return value if least <= value <= most else refuse(f"a number from {least:g} to {most:g}")
    return AfterValidator(check)


def text(most: int, least: int = 0) -> Any:
    """Text of so many characters, without control characters other than line breaks and tabs."""
    def check(value: str) -> str:
        if not least <= len(value) <= most:
            return refuse(f"text of {least} to {most} characters")
        if any((ord(c) < 32 and c not in "\n\t") or c == "\x7f" for c in value):
            return refuse("text without control characters")
        return value
    return AfterValidator(check)


def _to_see(name: str) -> str:
    """A name by which somebody is told from others: seen, and read in the order in which it is written."""
    return name if can_be_seen(name) else refuse("a name that can be seen, without control characters")


def matching(pattern: str, expected: str) -> Any:
    """Text that a pattern describes as a whole."""
    compiled = re.compile(pattern)
    return AfterValidator(lambda value: value if compiled.fullmatch(value) else refuse(expected))


def refuse(expected: str) -> NoReturn:
    """Says what was expected instead.

    Raises:
        PydanticCustomError: always.
    """
    raise PydanticCustomError("expected", "{expected}", {"expected": expected})


Slug = Annotated[str, matching("[a-z0-9-]{1,64}", "a short name of a–z, 0–9 and hyphens")]
Word = Annotated[str, matching("[a-z0-9_-]{1,64}", "a short word of a–z, 0–9, hyphens and underscores")]
Id = Annotated[str, matching(r"[A-Za-z0-9._:-]{1,64}", "an id of letters, digits, dots, colons and hyphens")]
Hash = Annotated[str, matching("([0-9a-f]{64})?", "a SHA-256 as 64 hex digits")]
Name = Annotated[str, text(120, 1)]
NameToSee = Annotated[str, text(120, 1), AfterValidator(_to_see)]
Line = Annotated[str, text(200)]
Text = Annotated[str, text(4000)]
ZeroToTen = Annotated[int, whole(0, 10)]
HIGHEST = int(Level.EMERGENCY)
DoseLevel = Annotated[int, whole(0, HIGHEST)]
Demand = Annotated[int, whole(0, 3)]


def _utc(value: datetime) -> datetime:
    if value.tzinfo is None or value.utcoffset() != UTC.utcoffset(None):
        return refuse("an instant in UTC, ending in Z")
    return value.astimezone(UTC)


Instant = Annotated[datetime, AfterValidator(_utc)]


def _spots(named: Mapping[str, Any]) -> dict[Spot, Any]:
    try:
        spots = {parse_spot(words): value for words, value in named.items()}
    except AppError:
        return refuse("regions of the body, each with left, right or neither")
    return spots if len(spots) == len(named) else refuse("each region once")


def _body_spots(named: Mapping[str, Any]) -> dict[Spot, Any]:
    spots = _spots(named)
    return spots if all(s.region in BODY_REGIONS for s in spots) else refuse("regions that can hurt")


SPOTS = AfterValidator(_spots)
BODY_SPOTS = AfterValidator(_body_spots)
PainBySpot = Annotated[dict[str, ZeroToTen], BODY_SPOTS]
SpareBySpot = Annotated[dict[str, Demand], SPOTS]
