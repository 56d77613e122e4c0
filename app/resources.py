"""Where assets and migrations lie: inside the installed package, or beside it in a checkout or a staged copy."""
from __future__ import annotations

from pathlib import Path

import app

PACKAGE = Path(app.__file__).resolve().parent


def resource_dir(name: str, package: Path = PACKAGE) -> Path:
    """The folder `name` ("assets" or "migrations") that belongs to this copy of the program.

    Raises:
        FileNotFoundError: the installation is incomplete.
    """
    for place in (package / "_bundled" / name, package.parent / name):
        if place.is_dir():
            return place
    raise FileNotFoundError(f"{name} is neither inside nor beside {package}")
