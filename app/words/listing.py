"""Words in a row."""
from __future__ import annotations

from collections.abc import Sequence


def listed(words: Sequence[str]) -> str:
    """`a, b and c`, each once."""
    once = list(dict.fromkeys(words))
    return once[0] if len(once) == 1 else f"{', '.join(once[:-1])} and {once[-1]}" if once else ""
