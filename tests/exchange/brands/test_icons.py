"""Icons in every size from one picture, and the manifest that names them."""
from __future__ import annotations

import io
import json
from functools import cache
from pathlib import Path

import pytest
from PIL import Image

from app.domain.errors import WrongValue
from app.exchange.brands.brand_file import BrandFiles, read_brand_files
from app.exchange.brands.icons import MANIFEST, SIZES, site_files, web_icons

FOLDER = Path(__file__).resolve().parents[3] / "build" / "brands"


@cache
def whole(name: str) -> BrandFiles:
    return read_brand_files(FOLDER / f"{name}.toml")


@cache
def drawn(name: str) -> dict[str, bytes]:
    return site_files(whole(name))


def test_every_size_is_there_and_is_that_size() -> None:
    """As its name says."""
    for name, (side, _, _) in SIZES.items():
        assert Image.open(io.BytesIO(drawn("saltmarsh")[name])).size == (side, side), name


@pytest.mark.parametrize("name", [name for name, (_, opaque, _) in SIZES.items() if opaque])
def test_what_a_launcher_cuts_is_opaque_and_has_a_margin(name: str) -> None:
    """Its corners are the brand's paper."""
    image = Image.open(io.BytesIO(drawn("saltmarsh")[name])).convert("RGBA")
    paper = (*bytes.fromhex(whole("saltmarsh").brand.light.paper[1:]), 255)
    last = image.width - 1
    assert {image.getpixel(at) for at in ((0, 0), (last, 0), (0, last), (last, last))} == {paper}


def test_two_brands_have_different_icons() -> None:
    """Or else one picture served for both."""
    assert all(drawn("saltmarsh")[name] != drawn("linden-court")[name] for name in SIZES)


def test_the_manifest_names_the_brand_and_its_icons() -> None:
    """And has no `id`, which would be the same for every brand on one host."""
    manifest = json.loads(drawn("linden-court")[MANIFEST])
    assert (manifest["name"], manifest["short_name"]) == ("Linden Court Mornings", "Linden Court")
    assert "id" not in manifest
    assert manifest["start_url"] == manifest["scope"] == "./"
    assert {icon["src"] for icon in manifest["icons"]} <= set(drawn("linden-court"))
    assert any("purpose" not in icon and icon["sizes"] == "192x192" for icon in manifest["icons"])


def test_a_brand_without_an_icon_keeps_the_program_s_own() -> None:
    """Only the manifest is laid over."""
    assert set(drawn("evenload")) == {MANIFEST}


def test_a_damaged_picture_is_refused() -> None:
    """In our own words."""
    with pytest.raises(WrongValue):
        web_icons(whole("saltmarsh").brand, whole("saltmarsh").files["saltmarsh-icon.png"][:400])
