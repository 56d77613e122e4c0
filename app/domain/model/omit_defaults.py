"""Fields that came after the first version: written only where they say something, so old values keep their bytes."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, Field
from types import MappingProxyType
from typing import Any

#: `field(default=…, metadata=LATE)`
LATE: Mapping[str, bool] = MappingProxyType({"late": True})

ALWAYS = object()
"""What a field that was always there is where it was left out: like nothing that it may hold."""


def is_silent(field: Field[Any], value: object) -> bool:
    """Whether it came later and says no more than leaving it out would."""
    usual = usual_of(field)
    return usual is not ALWAYS and bool(value == usual)


def usual_of(field: Field[Any]) -> Any:
    """What a field that came later is where it was left out; `ALWAYS` of one that was always there."""
    if not field.metadata.get("late"):
        return ALWAYS
    return field.default_factory() if field.default_factory is not MISSING else field.default
