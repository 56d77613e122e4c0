"""A part of the rules as it is laid out to be read."""
from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Section:
    """One part of the rules: a few sentences, then rows under their heads. The first cell names the row."""

    id: str
    title: str
    words: tuple[str, ...]
    heads: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
