"""A module of the program by the names that it has had, and the clock of every script."""
from __future__ import annotations

import json
from collections.abc import Callable
from importlib import import_module
from time import perf_counter
from typing import Any


def either(*names: str) -> Any:
    """The first of these modules that this checkout has.

    Raises:
        ModuleNotFoundError: none of them; or one of them imports what is not there.
    """
    for name in names:
        try:
            return import_module(name)
        except ModuleNotFoundError as lack:
            if not (lack.name and f"{name}.".startswith(f"{lack.name}.")):
                raise
    raise ModuleNotFoundError(f"none of {', '.join(names)} is in this checkout")


def spent_ms(act: Callable[[], object]) -> float:
    """How long it takes."""
    began = perf_counter()
    act()
    return (perf_counter() - began) * 1000


def by_turns(act: Callable[[], object], floor: Callable[[], object], times: int) -> dict[str, list[float]]:
    """Both, one after the other, so that what else the machine does falls on both."""
    found: dict[str, list[float]] = {"spent": [], "floor": []}
    for _ in range(times):
        found["floor"].append(spent_ms(floor))
        found["spent"].append(spent_ms(act))
    return found


def tell(spent: dict[str, list[float]], **facts: float) -> None:
    """Prints what was found."""
    print(json.dumps(spent | {"facts": facts}))
