"""Domain values as JSON and back, driven by their type hints.

Enums become their values, spots their words ("left knee"), dates ISO text, instants UTC with a `Z`, tuples
and frozensets lists (sets sorted), mappings objects. A None whose default is None is left out, and so is a
late field that says no more than its default. Where a field may hold one of several dataclasses, `is` names
which. Unknown keys are ignored; the same value gives the same text, byte for byte.
"""
from __future__ import annotations

import json
import re
import types
from collections.abc import Callable, Mapping
from dataclasses import Field, fields, is_dataclass
from datetime import UTC, date, datetime
from enum import Enum
from functools import cache
from hashlib import sha256
from typing import Any, NamedTuple, TypeVar, Union, cast, get_args, get_origin, get_type_hints

from app.domain.model.body import Spot, parse_spot
from app.domain.model.omit_defaults import ALWAYS, usual_of

T = TypeVar("T")
Turn = Callable[[Any], Any]
TAG = "is"
_WRITER = json.JSONEncoder(sort_keys=True, separators=(",", ":"), allow_nan=False)


class BothWays(NamedTuple):
    """Both directions for one type; None where the value is JSON already."""

    there: Turn | None
    back: Turn | None


def encode(value: Any, as_type: Any = None) -> Any:
    """`value` as what `json` can write. `as_type` is the declared type, where that is a union or a generic."""
    declared: Any = as_type or type(value)
    there = pair_for(declared).there
    return there(value) if there else value


def decode(as_type: type[T], data: Any) -> T:
    """The value of that type that `encode` was given."""
    return cast(T, decode_any(as_type, data))


def decode_any(as_type: Any, data: Any) -> Any:
    """As `decode`, for unions and generics, which are not types to a checker."""
    back = pair_for(as_type).back
    return back(data) if back else data


def to_text(value: Any, as_type: Any = None) -> str:
    """`value` as canonical JSON: keys sorted, no spaces, ASCII alone."""
    return canonical(encode(value, as_type))


def from_text(as_type: type[T], text: str) -> T:
    """The value of that type from its text."""
    return decode(as_type, json.loads(text))


def canonical(data: Any) -> str:
    """JSON data in its one spelling here."""
    return _WRITER.encode(data)


def digest(text: str) -> str:
    """SHA-256 of a text, hex."""
    return sha256(text.encode("ascii")).hexdigest()


def utc_text(instant: datetime) -> str:
    """An instant as 27 characters that sort as time does.

    Raises:
        ValueError: it has no zone, so it is not an instant.
    """
    if instant.tzinfo is None:
        raise ValueError("an instant needs a zone")
    return instant.astimezone(UTC).replace(tzinfo=None).isoformat(timespec="microseconds") + "Z"


def parse_utc(text: str) -> datetime:
    """The instant that `utc_text` wrote."""
    return datetime.fromisoformat(text.removesuffix("Z")).replace(tzinfo=UTC)


@cache
def pair_for(hint: Any) -> BothWays:
    """How values declared as `hint` go there and back."""
    origin, args = get_origin(hint), get_args(hint)
    if origin in (Union, types.UnionType):
        return _union(args)
    if origin is tuple:
        return _tuple(args)
    if origin is frozenset:
        return _frozenset(args[0])
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return _mapping(args[0], args[1])
    return _plain(hint)


def _plain(hint: Any) -> BothWays:
    if hint is Spot:
        return BothWays(str, parse_spot)
    if hint is datetime:
        return BothWays(utc_text, parse_utc)
    if hint is date:
        return BothWays(date.isoformat, date.fromisoformat)
    if hint in (int, str, bool, float, type(None), object, Any):
        return BothWays(None, None)
    if isinstance(hint, type) and issubclass(hint, Enum):
        return BothWays(lambda v: v.value, {v.value: v for v in hint}.__getitem__)
    if isinstance(hint, type) and is_dataclass(hint):
        return _dataclass(hint)
    raise TypeError(f"no JSON form for {hint!r}")


def _tuple(args: tuple[Any, ...]) -> BothWays:
    if len(args) == 2 and args[1] is Ellipsis:
        there, back = pair_for(args[0])
        return BothWays(
            (lambda v: [there(x) for x in v]) if there else list,
            (lambda d: tuple([back(x) for x in d])) if back else tuple,
        )
    each = [pair_for(a) for a in args]
    return BothWays(
        lambda v: [p.there(x) if p.there else x for p, x in zip(each, v, strict=True)],
        lambda d: tuple([p.back(x) if p.back else x for p, x in zip(each, d, strict=True)]),
    )


def _frozenset(of: Any) -> BothWays:
    there, back = pair_for(of)
    return BothWays(
        (lambda v: sorted(there(x) for x in v)) if there else sorted,
        (lambda d: frozenset([back(x) for x in d])) if back else frozenset,
    )


def _mapping(key: Any, value: Any) -> BothWays:
    name = BothWays(str, int) if key is int else pair_for(key)
    held = pair_for(value)
    key_there, key_back = name.there or _same, name.back or _same
    there, back = held.there or _same, held.back or _same
    return BothWays(
        lambda v: {key_there(k): there(x) for k, x in v.items()},
        lambda d: {key_back(k): back(x) for k, x in d.items()},
    )


def _same(value: Any) -> Any:
    return value


def _union(args: tuple[Any, ...]) -> BothWays:
    members = [a for a in args if a is not type(None)]
    classes = [a for a in members if isinstance(a, type) and is_dataclass(a) and a is not Spot]
    if len(members) == 1:
        pair = pair_for(members[0])
    elif len(classes) == len(members):
        pair = _tagged(classes)
    elif all(pair_for(m) == BothWays(None, None) for m in members):
        pair = BothWays(None, None)
    else:
        raise TypeError(f"no JSON form that tells {members!r} apart")
    return BothWays(_unless_none(pair.there), _unless_none(pair.back)) if len(members) < len(args) else pair


def _unless_none(turn: Turn | None) -> Turn | None:
    return (lambda v: None if v is None else turn(v)) if turn else None


def _tagged(classes: list[Any]) -> BothWays:
    by_tag = {tag_of(c): _dataclass(c) for c in classes}
    tags = {c: tag_of(c) for c in classes}

    def there(value: Any) -> Any:
        tag = tags[type(value)]
        turn = by_tag[tag].there
        return {TAG: tag, **(turn(value) if turn else {})}

    def back(data: Any) -> Any:
        turn = by_tag[data[TAG]].back
        return turn(data) if turn else None

    return BothWays(there, back)


def tag_of(cls: type) -> str:
    """`SessionDone` → `session_done`."""
    return re.sub(r"(?<=[a-z0-9])(?=[A-Z])", "_", cls.__name__).lower()


class _Kept(NamedTuple):
    """A field, both its directions, and when it is left out."""

    name: str
    there: Turn | None
    back: Turn | None
    none_is_default: bool
    silent: Any
    """What it says no more than leaving it out would; of a field that is always written, nothing is like it."""


def _dataclass(cls: Any) -> BothWays:
    """Every field by its hint. Resolved at first use, so that a type may hold itself."""
    plan: list[_Kept] = []

    def resolved() -> list[_Kept]:
        if not plan:
            hints = get_type_hints(cls)
            plan.extend(_Kept(f.name, *pair_for(hints[f.name]), f.default is None, usual_of(f))
                        for f in _stored(cls))
        return plan

    def there(value: Any) -> dict[str, Any]:
        out: dict[str, Any] = {}
        for name, turn, _, none_is_default, silent in plan or resolved():
            held = getattr(value, name)
            if (held is None and none_is_default) or (silent is not ALWAYS and held == silent):
                continue
            out[name] = turn(held) if turn else held
        return out

    def back(data: Mapping[str, Any]) -> Any:
        told = {}
        for name, _, turn, _, _ in plan or resolved():
            if name in data:
                held = data[name]
                told[name] = turn(held) if turn else held
        return cls(**told)

    return BothWays(there, back)


def _stored(cls: Any) -> list[Field[Any]]:
    found = [f for f in fields(cls) if f.init]
    if any(f.name == TAG for f in found):
        raise TypeError(f"{cls.__name__} has a field named {TAG}")
    return found
