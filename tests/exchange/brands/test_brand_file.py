"""A brand file is one coach's app: read whole or refused in a sentence, and readable on every screen it dresses."""
from __future__ import annotations

import tomllib
from dataclasses import replace
from pathlib import Path

import pytest
import tomli_w
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.branding.brand import EVENLOAD, EVENLOAD_DARK, EVENLOAD_LIGHT, Brand, Role
from app.domain.branding.palette import PAIRS, InkPair, Palette, contrast, failing
from app.domain.errors import AppError, PoorContrast, TooLarge, UnknownName, UnreadableSource, WrongValue
from app.exchange.brands import brand_file as brands
from app.exchange.brands.brand_file import BRAND_FILE, png_size, read_brand, read_brand_files, write_brand_files
from app.exchange.packs.pack import read_pack
from app.words import errors
from tests.exchange.fixed import run
from tests.sampling import examples

FOLDER = Path(__file__).resolve().parents[3] / "build" / "brands"
DEMOS = ("saltmarsh", "linden-court")
HEAD = {"id": "a-b", "name": "A B", "short_name": "AB"}
colours = st.integers(0, 0xFFFFFF).map(lambda value: f"#{value:06X}")


def written(folder: Path, **tables: object) -> Path:
    """A brand file of these tables, with a head unless it is given."""
    path = folder / "x.toml"
    path.write_text(tomli_w.dumps({"brand": HEAD, **tables}), "utf-8")
    return path


# ------------------------------------------------------------------ the shipped ones

def test_the_own_look_is_the_default() -> None:
    """The file in build/ and the value that an installation falls back to are the same."""
    assert read_brand(FOLDER / "evenload.toml") == EVENLOAD


@pytest.mark.parametrize("name", DEMOS)
def test_a_demo_brand_is_whole(name: str) -> None:
    """Its icon, picture and packs lie beside it, and the packs are signed by the coach it names."""
    whole = read_brand_files(FOLDER / f"{name}.toml")
    assert set(whole.files) == {BRAND_FILE, f"{name}-icon.png", f"{name}-picture.png", f"{name}.evenload-pack"}
    assert png_size(whole.files[whole.brand.icon]) == (1024, 1024)
    pack = run(read_pack(whole.files[whole.brand.packs[0]], "x"))
    assert (pack.coach, pack.signing_key.hex()) == (whole.brand.coaches[0].name, whole.brand.coaches[0].signing_key)


def test_the_brands_look_different() -> None:
    """No two share a ground, a work colour or a rest colour, in light or dark."""
    shown = [read_brand(FOLDER / f"{name}.toml") for name in ("evenload", *DEMOS)]
    for ink in ("paper", "work", "rest", "panel"):
        for theme in ("light", "dark"):
            assert len({getattr(getattr(one, theme), ink) for one in shown}) == len(shown), (theme, ink)


def test_a_brand_is_copied_with_everything_it_names(tmp_path: Path) -> None:
    """As a stage and a web app do it."""
    whole = read_brand_files(FOLDER / "saltmarsh.toml")
    copied = write_brand_files(whole, tmp_path / "brand")
    assert copied.name == BRAND_FILE
    assert read_brand_files(copied) == whole


# ------------------------------------------------------------------ what may be left out

def test_three_keys_are_enough(tmp_path: Path) -> None:
    """What is not said is as in the program's own look."""
    expected = replace(EVENLOAD, id="a-b", name="A B", short_name="AB")
    assert read_brand(written(tmp_path)) == expected


def test_one_colour_alone_may_be_changed(tmp_path: Path) -> None:
    """The rest stays."""
    brand = read_brand(written(tmp_path, light={"work": "#0a4658"}))
    assert brand.light == replace(EVENLOAD_LIGHT, work="#0A4658")
    assert brand.dark == EVENLOAD_DARK


# ------------------------------------------------------------------ contrast

palettes = st.builds(Palette, st.just("light"), **{
    name: colours for name in Palette.__dataclass_fields__ if name != "name"})


@settings(max_examples=examples(60, 2000))
@given(palettes)
def test_every_pair_under_its_ratio_fails_and_no_other(palette: Palette) -> None:
    """For any colours at all."""
    found = {one.pair for one in failing(palette)}
    for pair in PAIRS:
        ratio = contrast(getattr(palette, pair.words), getattr(palette, pair.ground))
        assert (pair in found) == (ratio < pair.least)


@settings(max_examples=examples(60, 2000))
@given(colours, colours)
def test_contrast_is_the_same_both_ways(one: str, other: str) -> None:
    """Between 1 and 21, and 1 only for equal brightness."""
    assert contrast(one, other) == contrast(other, one)
    assert 1 <= contrast(one, other) <= 21
    assert contrast(one, one) == 1


def test_what_is_read_while_moving_keeps_the_higher_ratio() -> None:
    """Words on paper, on the work panel and on the rest panel."""
    moving = {(pair.words, pair.ground) for pair in PAIRS if pair.least >= 7}
    assert {("ink", "paper"), ("soft", "paper"), ("on_work", "panel"), ("rest", "tint"), ("work", "paper")} <= moving


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: f"{pair.words} on {pair.ground}")
def test_a_pair_that_cannot_be_read_is_refused_by_name(pair: InkPair, theme: str, tmp_path: Path) -> None:
    """One ink as pale as its ground: the sentence names theme, inks, ratio and what is needed."""
    palette = getattr(EVENLOAD, theme)
    with pytest.raises(PoorContrast) as refused:
        read_brand(written(tmp_path, **{theme: {pair.words: getattr(palette, pair.ground)}}))
    what, said = refused.value.what, errors.error_text(refused.value)
    assert what["theme"] == theme
    assert pair.words in {what["words"], what["ground"]}
    assert all(str(what[key]) in said for key in ("where", "theme", "words", "ground", "words_colour"))


# ------------------------------------------------------------------ what is refused

HEAD_FAULTS = [
    {"id": "Two Words"}, {"id": "9th"}, {"id": "a--b"}, {"name": ""}, {"short_name": "longer than twelve"},
    {"roles": []}, {"roles": ["client", "client"]}, {"roles": ["trainer"]}, {"icon": "../icon.png"},
    {"icon": "brand.toml"}, {"icon": ".hidden"}, {"packs": ["a/b.evenload-pack"]}, {"packs": ["C:x"]},
    {"colour": "red"},
]
TABLE_FAULTS: list[dict[str, object]] = [
    {"light": {"work": "violet"}}, {"light": {"wrok": "#000000"}}, {"dark": {"name": "#000000"}},
    {"contact": {"mail": "nobody"}}, {"contact": {"phone": "by post"}},
    {"emergency": [{"country": "Norway", "number": "one"}]},
    {"emergency": [{"country": "Norway", "number": "113"}, {"country": "norway", "number": "112"}]},
    {"coach": [{"name": "A", "key": "c2hvcnQ="}]}, {"coach": [{"name": "A", "key": "not base64"}]},
    {"link": [{"words": "Home", "address": "http://plain.example"}]},
    {"link": [{"words": "Home", "address": "javascript:alert(1)"}]},
    {"link": [{"words": "App", "address": "tel:123", "app": True}]},
    {"link": [{"words": "App", "address": "https://a.example/#/today", "app": True}]},
    {"link": [{"words": "App", "address": f"https://a.example/{n}/", "app": True} for n in (1, 2)]},
    {"release": {"organisation": "one", "bundle_id": "a.b", "company": "C"}},
    {"release": {"organisation": "a.b", "bundle_id": "a.b-c", "company": "C"}},
    {"release": {"organisation": "a.b", "bundle_id": "a.b", "company": "C", "build": 0}}, {"colours": {}},
]


@pytest.mark.parametrize("fault", HEAD_FAULTS, ids=str)
def test_a_wrong_head_is_refused(fault: dict[str, object], tmp_path: Path) -> None:
    """With its place, in a sentence."""
    refused_whole(written(tmp_path, brand={**HEAD, **fault}))


@pytest.mark.parametrize("fault", TABLE_FAULTS, ids=str)
def test_a_wrong_table_is_refused(fault: dict[str, object], tmp_path: Path) -> None:
    """With its place, in a sentence."""
    refused_whole(written(tmp_path, **fault))


def refused_whole(path: Path) -> None:
    """It is refused as what it is, and the sentence names the file."""
    with pytest.raises((WrongValue, UnknownName)) as refused:
        read_brand(path)
    assert path.name in errors.error_text(refused.value)


def test_no_toml_and_no_file_are_refused(tmp_path: Path) -> None:
    """Named either way."""
    (tmp_path / "bad.toml").write_text("[brand\n", "utf-8")
    for name in ("bad.toml", "absent.toml"):
        with pytest.raises(UnreadableSource):
            read_brand(tmp_path / name)


@pytest.mark.parametrize("named", ["icon", "packs", "picture"])
def test_a_named_file_must_lie_beside(named: str, tmp_path: Path) -> None:
    """Before anything is made of it."""
    tables = {"icon": {"brand": {**HEAD, "icon": "x.png"}}, "packs": {"brand": {**HEAD, "packs": ["x.evenload-pack"]}},
              "picture": {"picture": {"file": "x.png", "words": "A hall"}}}[named]
    with pytest.raises(UnreadableSource):
        read_brand(written(tmp_path, **tables))


@pytest.mark.parametrize("side", [(1023, 1023), (1024, 1100), None], ids=str)
def test_an_icon_too_small_or_not_square_is_refused(side: tuple[int, int] | None, tmp_path: Path) -> None:
    """Since every platform's sizes are drawn from it."""
    good = (FOLDER / "saltmarsh-icon.png").read_bytes()
    data = b"GIF89a" if side is None else good[:16] + b"".join(n.to_bytes(4, "big") for n in side) + good[24:]
    (tmp_path / "icon.png").write_bytes(data)
    with pytest.raises(WrongValue):
        read_brand_files(written(tmp_path, brand={**HEAD, "icon": "icon.png"}))


def test_a_picture_must_be_one_and_not_too_large(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is shown from memory."""
    path = written(tmp_path, picture={"file": "hall.png", "words": "A hall"})
    (tmp_path / "hall.png").write_bytes(b"<svg/>")
    with pytest.raises(WrongValue):
        read_brand(path)
    monkeypatch.setattr(brands, "MOST_PICTURE", 3)
    with pytest.raises(TooLarge):
        read_brand(path)


def test_errors_are_ours(tmp_path: Path) -> None:
    """Any table of a brand file left out or put out of order gives a brand or an AppError, never anything else."""
    table = tomllib.loads((FOLDER / "saltmarsh.toml").read_text("utf-8"))
    write_brand_files(read_brand_files(FOLDER / "saltmarsh.toml"), tmp_path)
    read, refused = 0, 0
    for section in table:
        others = {name: value for name, value in table.items() if name != section}
        for broken in (others, *({**table, section: wrong} for wrong in (7, "", [], [[]], [7], {}, {"x": 1}, True))):
            (tmp_path / "x.toml").write_text(tomli_w.dumps(broken), "utf-8")
            try:
                read_brand(tmp_path / "x.toml")
                read += 1
            except AppError:
                refused += 1
    assert read > 5
    assert refused > 50


def test_roles_are_as_written(tmp_path: Path) -> None:
    """In their order, which is the order of the buttons."""
    brand: Brand = read_brand(written(tmp_path, brand={**HEAD, "roles": ["helper", "client"]}))
    assert brand.roles == (Role.HELPER, Role.CLIENT)
