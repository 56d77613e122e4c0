"""A TOML file that a person wrote."""
from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

from app.domain.errors import UnreadableSource

_MOST_BYTES = 1_000_000
#: Tables within tables. Sources and brands use four; the time and depth that reading takes grow with it.
MOST_DEEP = 16
_PART = r"(?:\"[^\"\n]*\"|'[^'\n]*'|[A-Za-z0-9_-]+)"
_TOO_DOTTED = re.compile(rf"(?<![A-Za-z0-9_-])(?:{_PART}[ \t]*\.[ \t]*){{{MOST_DEEP}}}")


def read_toml(path: Path, where: str) -> dict[str, Any]:
    """Its tables.

    Raises:
        UnreadableSource: missing, too large, nested too deep or no TOML; `where` names it.
    """
    try:
        with path.open("rb") as file:
            data = file.read(_MOST_BYTES + 1)
        if len(data) > _MOST_BYTES:
            raise UnreadableSource(where=where, why="larger than 1 MB")
        words = data.decode("utf-8-sig")
        if _TOO_DOTTED.search(words):  # before it is read, which takes the square of their number
            raise UnreadableSource(where=where, why=f"more than {MOST_DEEP} names joined by dots")
        tables = tomllib.loads(words)
    except OSError as error:
        raise UnreadableSource(where=where, why=error.strerror or "cannot be read") from error
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, RecursionError, ValueError) as error:
        raise UnreadableSource(where=where, why=str(error)) from error
    if _is_too_deep(tables):
        raise UnreadableSource(where=where, why=f"more than {MOST_DEEP} tables or lists within one another")
    return tables


def _is_too_deep(tables: dict[str, Any]) -> bool:
    level: list[Any] = [tables]
    for _ in range(MOST_DEEP):
        held = [one for each in level for one in (each.values() if isinstance(each, dict) else each)]
        level = [one for one in held if isinstance(one, dict | list)]
    return bool(level)
