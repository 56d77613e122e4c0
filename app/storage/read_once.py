"""What was read out of a store once and cannot change there: kept with the store, bounded, and let go with it."""
from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from typing import Any, TypeVar

V = TypeVar("V")


class ReadOnce:
    """Values by what they were read from, at most so many of each kind; the one used longest ago goes first.

    Belongs to one store. Keys name what never changes, such as the hash of a pack. Nothing that was not found is
    remembered, since it may come.
    """

    def __init__(self) -> None:
        self._kept: dict[str, OrderedDict[Hashable, Any]] = {}

    def value(self, kind: str, key: Hashable, read: Callable[[], V], *, most: int) -> V:
        """The value of that key, read now if it is not known. `most`: how many of this kind are kept."""
        kept = self._kept.setdefault(kind, OrderedDict())
        if key in kept:
            kept.move_to_end(key)
            known: V = kept[key]
            return known
        found = read()
        if found is not None:
            kept[key] = found
            while len(kept) > most:
                kept.popitem(last=False)
        return found

    def forget(self) -> None:
        """After something was erased, or another store was put in this one's place."""
        self._kept.clear()
