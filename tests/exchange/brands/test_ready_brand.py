"""A brand that was checked when the app was made comes back the same without a check."""
from __future__ import annotations

import json
import tomllib
from pathlib import Path

import pytest
import tomli_w

from app.domain.errors import AppError, UnreadableSource
from app.exchange.brands.brand_file import read_brand, read_brand_files, write_brand_files
from app.exchange.brands.ready_brand import READY_FILE, read_brand_packs, read_ready_brand, ready_brand

FOLDER = Path(__file__).resolve().parents[3] / "build" / "brands"
BRANDS = ("evenload", "saltmarsh", "linden-court")


def ready(name: str, folder: Path) -> Path:
    """A demo brand as an app holds it, with its ready form."""
    whole = read_brand_files(FOLDER / f"{name}.toml")
    write_brand_files(whole, folder)
    (folder / READY_FILE).write_bytes(ready_brand(whole.brand))
    return folder / READY_FILE


@pytest.mark.parametrize("name", BRANDS)
def test_it_comes_back_as_it_was_checked(name: str, tmp_path: Path) -> None:
    """Every value of it, the picture's bytes too; and its packs are the files beside it."""
    brand = read_ready_brand(ready(name, tmp_path))
    assert brand == read_brand(FOLDER / f"{name}.toml")
    assert dict(read_brand_packs(tmp_path / READY_FILE, brand)) == {
        pack: (FOLDER / pack).read_bytes() for pack in brand.packs}


def test_what_another_version_wrote_is_passed_over_and_what_it_left_out_is_usual(tmp_path: Path) -> None:
    """An app and the program that put the brand in may be of different versions."""
    path = ready("saltmarsh", tmp_path)
    told = json.loads(path.read_bytes())
    told["motto"] = "later"
    told["light"]["shadow"] = "#000000"
    del told["links"], told["description"]
    path.write_text(json.dumps(told), "utf-8")
    brand = read_ready_brand(path)
    assert (brand.name, brand.links, brand.description) == (told["name"], (), "")


def test_a_picture_or_pack_that_is_gone_is_told(tmp_path: Path) -> None:
    """UnreadableSource, with its name."""
    path = ready("saltmarsh", tmp_path)
    brand = read_ready_brand(path)
    assert brand.picture and brand.packs
    for name in (brand.picture.file, *brand.packs):
        (tmp_path / name).unlink()
    for read in (lambda: read_ready_brand(path), lambda: list(read_brand_packs(path, brand))):
        with pytest.raises(UnreadableSource):
            read()


def test_no_file_of_a_brand_may_take_its_place(tmp_path: Path) -> None:
    """Refused as the brand file's own name is."""
    write_brand_files(read_brand_files(FOLDER / "saltmarsh.toml"), tmp_path)
    table = tomllib.loads((tmp_path / "brand.toml").read_text("utf-8"))
    (tmp_path / READY_FILE).write_bytes((tmp_path / table["brand"]["icon"]).read_bytes())
    table["brand"]["icon"] = READY_FILE
    (tmp_path / "brand.toml").write_text(tomli_w.dumps(table), "utf-8")
    with pytest.raises(AppError):
        read_brand(tmp_path / "brand.toml")
