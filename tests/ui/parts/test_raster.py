"""Pictures of dots reach every engine."""
from __future__ import annotations

from base64 import b64decode

import flet as ft

from app.ui.coach.qr import qr_png
from app.ui.parts.raster import raster
from tests.tree.nodes import every, shown_in_chromium_alone


def test_a_picture_is_sent_as_text_and_is_the_same_picture() -> None:
    """Bare bytes would be seen in Chromium alone."""
    png = qr_png("https://host.example/")
    picture = raster(png, width=10, height=10)
    assert isinstance(picture.src, str) and b64decode(picture.src) == png
    assert not shown_in_chromium_alone(every(picture))


def test_bare_bytes_anywhere_in_a_page_are_noticed() -> None:
    """Each story looks for them on each screen that it comes to."""
    bare = ft.Image(src=qr_png("x"))
    assert shown_in_chromium_alone(every(ft.Container(ft.Column([ft.Text("x"), bare])))) == [bare]
