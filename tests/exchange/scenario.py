"""One file to make, and what a reader must make of it."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from app.exchange.crypto.file_kinds import Kind


@dataclass(frozen=True)
class Scenario:
    """A file to make, and what a reader must make of it. `more`: further lines of its head."""

    name: str
    kind: Kind
    expect: str
    about: str
    make: Callable[[], bytes]
    more: Mapping[str, str] = field(default_factory=dict)


def flip(data: bytes, at: int) -> bytes:
    """One bit changed."""
    return data[:at] + bytes([data[at] ^ 1]) + data[at + 1:]
