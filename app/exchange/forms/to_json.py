"""Values of the domain as what JSON holds, and JSON whose bytes depend on the value alone."""
from __future__ import annotations

import dataclasses
import json
from collections.abc import Mapping
from datetime import UTC, date, datetime
from enum import Enum
from typing import Any

from app.domain.model.body import Spot
from app.domain.model.omit_defaults import is_silent

#: Characters in the longest text of a record.
MOST_TEXT = 4000


def to_json(value: object) -> bytes:
    """JSON with sorted keys and no spaces, so that equal values give equal bytes."""
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False).encode()


def plain(value: object) -> Any:
    """A value of the domain as what JSON holds: dates as text, sets as sorted lists, nothing for None in a table."""
    if isinstance(value, Spot):
        return str(value)
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, datetime):
        return value.astimezone(UTC).replace(tzinfo=None).isoformat() + "Z"
    if isinstance(value, date):
        return value.isoformat()
    if dataclasses.is_dataclass(value):
        named = ((f, getattr(value, f.name)) for f in dataclasses.fields(value))
        return {f.name: plain(one) for f, one in named if one is not None and not is_silent(f, one)}
    if isinstance(value, Mapping):
        return {plain(key): plain(one) for key, one in value.items()}
    if isinstance(value, frozenset | set):
        return sorted(plain(one) for one in value)
    if isinstance(value, tuple | list):
        return [plain(one) for one in value]
    return value


def cleaned(value: Any) -> Any:
    """The same with every text as the formats allow it: no control characters or half characters, 4,000 at most.

    For what a person typed or pasted: a stray character must not keep their diary from going out.
    """
    if isinstance(value, str):
        kept = "".join(c for c in value if c in "\n\t" or not (c < " " or c == "\x7f" or "\ud800" <= c <= "\udfff"))
        return kept if len(kept) <= MOST_TEXT else kept[:MOST_TEXT - 1] + "…"
    if isinstance(value, dict):
        return {key: cleaned(one) for key, one in value.items()}
    return [cleaned(one) for one in value] if isinstance(value, list) else value
