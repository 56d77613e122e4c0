"""Where assets, migrations and a brand lie: inside the installed package, or beside it in a checkout or stage.

In a browser the package is inside a zip, and they lie beside that.
"""
from __future__ import annotations

from pathlib import Path

import app

PACKAGE = Path(app.__file__).resolve().parent


def resource_dir(name: str, package: Path = PACKAGE) -> Path:
    """The folder `name` ("assets", "migrations" or "brand") that belongs to this copy of the program.

    Raises:
        FileNotFoundError: the installation is incomplete.
    """
    beside = package.parent.parent if package.parent.is_file() else package.parent
    for place in (package / "_bundled" / name, beside / name):
        if place.is_dir():
            return place
    raise FileNotFoundError(f"{name} is neither inside nor beside {package}")


def optional_dir(name: str, package: Path = PACKAGE) -> Path | None:
    """The same, or None: a browser has no folder of assets, since the page fetches them itself."""
    try:
        return resource_dir(name, package)
    except FileNotFoundError:
        return None


def brand_file(package: Path = PACKAGE) -> Path | None:
    """The brand file that belongs to this copy of the program; None where it was given none."""
    try:
        path = resource_dir("brand", package) / "brand.toml"
    except FileNotFoundError:
        return None
    return path if path.is_file() else None
