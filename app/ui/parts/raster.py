"""Pictures made of dots: a coach's photo, a QR code. Not for drawings, which are text."""
from __future__ import annotations

from base64 import b64encode
from typing import Any

import flet as ft


def raster(data: bytes, **more: Any) -> ft.Image:
    """The picture of a PNG, JPEG or WebP file's bytes; `more` goes to ft.Image. Silent: a name must stand around it.

    As base64. The client hands bare bytes to a browser as a view into the whole message that brought them, and every
    engine but Chromium's then takes the message for the picture and shows nothing.
    """
    return ft.Image(src=b64encode(data).decode("ascii"), exclude_from_semantics=True, **more)
