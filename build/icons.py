#!/usr/bin/env python3
"""Draws the program's icons: python3 build/icons.py [ASSETS], by default assets.

A stretch of the time strip on card: a full block for work, a hatched half block for rest, a full block, on a thick
rule. Drawn on a grid of 16 by 16 units; the same bytes every time.
"""
from __future__ import annotations

import struct
import sys
import zlib
from pathlib import Path

ASSETS = Path(__file__).resolve().parent.parent / "assets"
PAPER, INK, WORK, REST = (0xF4, 0xED, 0xDD), (0x1F, 0x1A, 0x14), (0x47, 0x28, 0x8A), (0x5C, 0x3D, 0x00)
UNITS = 16
#: Name and side in pixels, and how much of the picture a launcher may cut away around the drawing.
ICONS = {
    "favicon.png": (48, 0.0),
    "icons/icon-192.png": (192, 0.0),
    "icons/icon-512.png": (512, 0.0),
    "icons/icon-maskable-192.png": (192, 0.1),
    "icons/icon-maskable-512.png": (512, 0.1),
    "icons/apple-touch-icon-192.png": (192, 0.05),
    "icons/loading-animation.png": (200, 0.0),
}
Colour = tuple[int, int, int]


def colour(x: float, y: float) -> Colour:
    """The colour at a point of the drawing, in units from its upper left corner."""
    if 12 <= y < 13 and 1.5 <= x < 14.5:
        return INK
    if 4 <= y < 12 and (2 <= x < 6.5 or 9.5 <= x < 14):
        return WORK
    if 8 <= y < 12 and 6.75 <= x < 9.25 and (x + y) % 1.25 < 0.6:
        return REST
    return PAPER


def rows(side: int, margin: float) -> bytes:
    """The picture as PNG wants it: each row led by a zero. Every pixel is the mean of four points, for smooth edges."""
    step = UNITS / (side * (1 - 2 * margin))
    places = [[(pixel + part - side * margin) * step for part in (0.25, 0.75)] for pixel in range(side)]
    out = bytearray()
    for ys in places:
        out.append(0)
        for xs in places:
            points = [colour(x, y) for y in ys for x in xs]
            out += bytes(sum(channel) // 4 for channel in zip(*points, strict=True))
    return bytes(out)


def png(side: int, margin: float) -> bytes:
    """A PNG file, 8 bits a channel, without transparency."""
    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    header = struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0)
    parts = chunk(b"IHDR", header), chunk(b"IDAT", zlib.compress(rows(side, margin), 9)), chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


def write(assets: Path) -> None:
    """Writes every icon below `assets`."""
    for name, (side, margin) in ICONS.items():
        place = assets / name
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(png(side, margin))


if __name__ == "__main__":
    write(Path(sys.argv[1]) if len(sys.argv) > 1 else ASSETS)
