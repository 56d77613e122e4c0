"""The coach's own app, made at the desk: brand, shell, folder and ZIP lie beside the records."""
from __future__ import annotations

import shutil
import tempfile
import zipfile
from collections.abc import Sequence
from importlib.util import find_spec
from pathlib import Path
from typing import NamedTuple

from app.actions.desk.web_app_build import Made, make_app, read_shell
from app.data_folder import APPS, BRANDS, SHELL
from app.device.abilities import PickedFile
from app.domain.branding.brand import Brand
from app.domain.errors import AppError, WrongValue
from app.exchange.brands.brand_file import read_brand, read_brand_files, write_brand_files
from app.storage.database import Store

#: Draws the icons. A phone and a browser lack it, and so make no apps.
DRAWS = "flet_platform_assets"


class OwnBrand(NamedTuple):
    """A brand file that was taken in; `brand` None where it cannot be read any more."""

    path: Path
    brand: Brand | None

    @property
    def name(self) -> str:
        """What people call it."""
        return self.brand.name if self.brand else self.path.parent.name


def can_make(store: Store) -> bool:
    """Whether this machine can make an app at all."""
    return store.path is not None and find_spec(DRAWS) is not None


def brand_files(store: Store) -> tuple[Path, ...]:
    """The brand files that the coach took in, by id."""
    return tuple(sorted(_beside(store, BRANDS).glob("*/brand.toml")))


def own_brands(store: Store) -> tuple[OwnBrand, ...]:
    """The same with what each says."""
    return () if store.path is None else tuple(map(_own_brand, brand_files(store)))


def shell_file(store: Store) -> Path | None:
    """The shell that was taken in, or None."""
    path = _beside(store, SHELL)
    return path if path.is_file() else None


def take_files(store: Store, files: Sequence[PickedFile]) -> Brand | None:
    """Keeps a shell (ZIP), or one brand file with all that it names; gives the brand, None for a shell.

    Raises:
        AppError: it is neither, or wrong; nothing was kept.
    """
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for one in files:
            (folder / Path(one.name).name).write_bytes(one.data)
        zips, tables = sorted(folder.glob("*.zip")), sorted(folder.glob("*.toml"))
        if len(zips) == 1 and not tables:
            read_shell(zips[0])
            shutil.move(zips[0], _beside(store, SHELL))
            return None
        if len(tables) != 1 or zips:
            expected = "one brand file with its pictures and packs, or one shell"
            raise WrongValue(where="what was chosen", value=len(files), expected=expected)
        whole = read_brand_files(tables[0])
    write_brand_files(whole, _beside(store, BRANDS) / whole.brand.id)
    return whole.brand


def make_own(store: Store, brand_file: Path, shell: Path) -> Made:
    """Writes the app into `apps/ID` beside the records, and the same as `apps/ID.zip`.

    Raises:
        AppError: brand or shell is wrong, or there is no room.
    """
    whole = read_brand_files(brand_file)
    made = make_app(whole, shell, _beside(store, APPS) / whole.brand.id)
    with zipfile.ZipFile(made.folder.with_suffix(".zip"), "w", zipfile.ZIP_STORED) as archive:
        for path in sorted(made.folder.rglob("*")):
            if path.is_file():
                archive.write(path, path.relative_to(made.folder))
    return made


def _own_brand(path: Path) -> OwnBrand:
    try:
        return OwnBrand(path, read_brand(path))
    except AppError:  # told once an app is made of it
        return OwnBrand(path, None)


def _beside(store: Store, name: str) -> Path:
    assert store.path is not None, "asked of a store that is no file; see `can_make`"
    return store.path.parent / name
