"""A QR code says what it was made of, to a reader that is not ours, on the screen and as a picture to print."""
from __future__ import annotations

import io
import re

import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw

from app.domain.branding.brand import CoachKey
from app.exchange.crypto.key_text import key_line, key_link
from app.ui.coach.qr import QUIET, qr_png, qr_svg
from tests.sampling import examples

NELL = CoachKey("Nell Harker", bytes(range(32)).hex())
ADDRESS = "https://steps.example/saltmarsh/"
TEXTS = (key_line(NELL), key_link(NELL, ADDRESS), ADDRESS, f"{ADDRESS}#/get?file=six-weeks-3.evenload-pack",
         key_line(CoachKey("Søren Ångström-Łuczak", NELL.signing_key)))


def read(image: Image.Image) -> str:
    """What an independent reader makes of a picture; it has to be the only code in it."""
    grey = image.convert("L")
    found = zxingcpp.read_barcodes(memoryview(grey.tobytes()).cast("B", (grey.height, grey.width)))
    assert len(found) == 1
    return str(found[0].text)


def drawn(svg: bytes, scale: int = 6) -> Image.Image:
    """The dark squares of our SVG as a picture, its words left out."""
    width, height = map(float, re.findall(rb'viewBox="0 0 (\d+) ([\d.]+)"', svg)[0])
    image = Image.new("L", (int(width * scale), int(height * scale)), 255)
    pen = ImageDraw.Draw(image)
    for x, y in re.findall(rb"M(\d+) (\d+)h1v1h-1z", svg):
        left, top = int(x) * scale, int(y) * scale
        pen.rectangle((left, top, left + scale - 1, top + scale - 1), fill=0)
    return image


@pytest.mark.parametrize("text", TEXTS)
def test_the_code_on_the_screen_can_be_read(text: str) -> None:
    """Also beside a dark page, since the white around it is part of the picture."""
    image = Image.open(io.BytesIO(qr_png(text)))
    assert read(image) == text
    page = Image.new("L", (image.width + 200, image.height + 200), 24)
    page.paste(image, (100, 100))
    assert read(page) == text


@pytest.mark.parametrize("text", TEXTS)
def test_the_picture_to_print_can_be_read(text: str) -> None:
    """And the words stand under the code, not in it."""
    svg = qr_svg(text, ["Nell Harker", "acorn banjo cedar daisy <&>"])
    assert read(drawn(svg)) == text
    assert b"acorn banjo cedar daisy &lt;&amp;&gt;" in svg


@given(st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"]), min_size=1, max_size=60))
@settings(max_examples=examples(20, 300))
def test_any_name_survives(name: str) -> None:
    """In whatever script."""
    coach = CoachKey(" ".join(name.split()), NELL.signing_key)
    if coach.name.isprintable():
        assert read(Image.open(io.BytesIO(qr_png(key_line(coach), scale=4)))) == key_line(coach)


def test_there_is_white_all_around() -> None:
    """Four modules of it, as the standard asks."""
    image = Image.open(io.BytesIO(qr_png(TEXTS[0], scale=10))).convert("L")
    edge = QUIET * 10
    inner = image.crop((edge, edge, image.width - edge, image.height - edge))
    assert {value for _, value in inner.getcolors() or ()} == {0, 255}
    image.paste(255, (edge, edge, image.width - edge, image.height - edge))
    assert image.getcolors() == [(image.width * image.height, 255)]
