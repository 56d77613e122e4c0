"""How much of a long suite runs: a sample under `test`, all of it under `test --all`."""
from __future__ import annotations

import os
from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")

SWITCH = "EVENLOAD_WHOLE"


def is_whole() -> bool:
    """Whether long suites run whole."""
    return os.environ.get(SWITCH) == "1"


def examples(sampled: int, whole: int) -> int:
    """How many examples: `@settings(max_examples=examples(200, 10_000))`."""
    return whole if is_whole() else sampled


def spread(items: Sequence[T], keep: int) -> list[T]:
    """At most `keep` items, evenly spread, the first and the last among them."""
    if keep >= len(items):
        return list(items)
    if keep == 1:
        return [items[0]]
    return [items[round(place * (len(items) - 1) / (keep - 1))] for place in range(keep)]
