"""A TOML file that a person wrote."""
from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from app.domain.errors import UnreadableSource

_MOST_BYTES = 4_000_000


def read_toml(path: Path, where: str) -> dict[str, Any]:
    """Its tables.

    Raises:
        UnreadableSource: missing, too large or no TOML; `where` names it.
    """
    try:
        with path.open("rb") as file:
            data = file.read(_MOST_BYTES + 1)
        if len(data) > _MOST_BYTES:
            raise UnreadableSource(where=where, why="larger than 4 MB")
        return tomllib.loads(data.decode("utf-8-sig"))
    except OSError as error:
        raise UnreadableSource(where=where, why=error.strerror or "cannot be read") from error
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, RecursionError, ValueError) as error:
        raise UnreadableSource(where=where, why=str(error)) from error
