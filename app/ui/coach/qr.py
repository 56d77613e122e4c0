"""QR codes (ISO/IEC 18004), drawn dark on white whatever the theme, with the quiet zone of four modules around."""
from __future__ import annotations

import io
from collections.abc import Sequence
from html import escape
from typing import Any

QUIET = 4
"""Modules of white on each side."""
_MOST = "m"
"""Error correction: up to 15 % of it may be smudged."""
_LINE, _LETTER = 2.6, 2.0
"""Of the words underneath, in modules: a line's height and a letter's."""


def qr_png(text: str, scale: int = 12) -> bytes:
    """The code as a PNG, `scale` dots to a module."""
    out = io.BytesIO()
    _made(text).save(out, kind="png", scale=scale, border=QUIET, dark="#000000", light="#FFFFFF")
    return out.getvalue()


def qr_svg(text: str, lines: Sequence[str] = ()) -> bytes:
    """The code as an SVG to print at any size, with lines of words underneath."""
    rows = [list(row) for row in _made(text).matrix]
    side = len(rows) + 2 * QUIET
    height = side + len(lines) * _LINE + (QUIET if lines else 0)
    dark = "".join(f"M{x + QUIET} {y + QUIET}h1v1h-1z" for y, row in enumerate(rows) for x, on in enumerate(row) if on)
    longest = max(map(len, lines), default=0)
    size = min(_LETTER, 1.7 * (side - QUIET) / longest) if longest else _LETTER
    said = "".join(
        f'<text x="{side / 2}" y="{side + (at + 0.5) * _LINE:.1f}" font-size="{size:.2f}" text-anchor="middle" '
        f'font-family="sans-serif" font-weight="bold">{escape(line)}</text>' for at, line in enumerate(lines))
    return (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {side} {height:.1f}" width="{side * 4}mm" '
            f'height="{height * 4:.1f}mm"><rect width="100%" height="100%" fill="#fff"/>'
            f'<path d="{dark}" shape-rendering="crispEdges"/>{said}</svg>').encode()


def _made(text: str) -> Any:
    import segno  # of use at a desk alone, so no start waits for it

    return segno.make_qr(text, error=_MOST, boost_error=False, encoding="utf-8")
