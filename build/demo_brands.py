#!/usr/bin/env python3
"""Makes what lies beside the two demo brands: .venv/bin/python build/demo_brands.py [FOLDER], by default build/brands.

Icons and pictures are drawn here, and the packs are signed by keys that anybody can derive: they are for show, and no
app for real people may name them. Coaches and places are invented.
"""
from __future__ import annotations

import asyncio
import hashlib
import sys
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from PIL import Image, ImageDraw

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from app.actions.desk.publishing import figures_of  # noqa: E402
from app.domain.model.rules import DEFAULT_RULES  # noqa: E402
from app.domain.model.source import Source  # noqa: E402
from app.exchange.crypto.keys import CoachKeys, recovery_pairs, sealing_pair, signing_pair  # noqa: E402
from app.exchange.forms.source import read_media, read_source  # noqa: E402
from app.exchange.packs.manifest import key_text  # noqa: E402
from app.exchange.packs.pack import build_pack  # noqa: E402

BRANDS = ROOT / "build" / "brands"
SHIPPED = ROOT / "assets" / "programmes" / "brackwater"
SIDE = 1024
WIDE, HIGH = 1200, 480
CLEAR = (0, 0, 0, 0)
Draw = ImageDraw.ImageDraw


@dataclass(frozen=True)
class Demo:
    """One demo brand: whose work the pack is, and how its icon and picture are drawn."""

    id: str
    coach: str
    title: str
    about: str
    programmes: tuple[str, ...]
    icon: Callable[[Draw], None]
    picture: Callable[[Draw], None]
    ground: str


def sea_icon(pen: Draw) -> None:
    """A jetty that runs out over water."""
    for y in (260, 430, 600, 770):
        pen.rectangle((60, y, 964, y + 84), fill="#0A4658")
    pen.polygon([(430, 110), (594, 110), (800, 930), (224, 930)], fill="#B4552F")
    for y, half in ((300, 125), (500, 174), (730, 230)):
        pen.rectangle((512 - half, y, 512 + half, y + 34), fill="#75260F")


def sea_picture(pen: Draw) -> None:
    """A jetty at low water, the far bank behind."""
    pen.rectangle((0, 0, WIDE, 190), fill="#D9E8EC")
    pen.polygon([(0, 190), (240, 120), (520, 168), (880, 104), (WIDE, 170), (WIDE, 190)], fill="#8FB3BC")
    pen.rectangle((0, 190, WIDE, HIGH), fill="#2F7385")
    for number, y in enumerate(range(215, HIGH, 38)):
        start = 60 + (number * 173) % 300
        for x in range(start, WIDE, 380):
            pen.rectangle((x, y, x + 150, y + 5), fill="#8FC4CF")
    pen.polygon([(430, HIGH), (660, 214), (716, 214), (900, HIGH)], fill="#B4552F")
    for step in range(1, 9):
        y = 214 + step * step * 4
        pen.rectangle((0, y, 0, y), fill="#75260F")
        half = (y - 214) * 0.85
        pen.line((660 - half, y, 716 + half * 0.8, y), fill="#75260F", width=2 + step)
    for x, top, bottom in ((640, 180, 260), (730, 180, 260), (520, 250, 420), (850, 250, 420)):
        pen.rectangle((x, top, x + 12 + (bottom - top) // 12, bottom), fill="#0A2A34")


def tree_icon(pen: Draw) -> None:
    """A broad lime tree beside a bench."""
    pen.rectangle((470, 520, 554, 900), fill="#7A3F36")
    pen.ellipse((170, 110, 854, 690), fill="#14452F")
    for x in (640, 860):
        pen.rectangle((x, 800, x + 40, 900), fill="#28397A")
    pen.rectangle((600, 740, 940, 800), fill="#28397A")


def tree_picture(pen: Draw) -> None:
    """A courtyard with a wall, three trees and a bench."""
    pen.rectangle((0, 0, WIDE, 330), fill="#F3D9CF")
    for row in range(8):
        for x in range(-80 if row % 2 else 0, WIDE, 160):
            pen.rectangle((x, 60 + row * 34, x + 152, 60 + row * 34 + 28), fill="#E6BFB1")
    pen.rectangle((0, 330, WIDE, HIGH), fill="#CFC6A8")
    for x, size in ((150, 250), (520, 300), (960, 270)):
        pen.rectangle((x + size // 2 - 14, 150, x + size // 2 + 14, 360), fill="#7A3F36")
        pen.ellipse((x, 10, x + size, 10 + size * 0.86), fill="#1E5A3F")
        pen.ellipse((x + size * 0.2, 30, x + size * 0.75, 30 + size * 0.45), fill="#2C7350")
    pen.rectangle((330, 370, 520, 388), fill="#28397A")
    pen.rectangle((330, 320, 520, 334), fill="#28397A")
    for x in (340, 498):
        pen.rectangle((x, 334, x + 12, 430), fill="#28397A")


DEMOS = (
    Demo("saltmarsh", "Ines Vandel", "Steady by the water", "Short sessions for people who live by the tide: a "
         "chair, a wall, dumbbells if there are any.", ("six-weeks", "travelling-light"), sea_icon, sea_picture,
         "#E9F1F3"),
    Demo("linden-court", "Tobias Orr", "Mornings at Linden Court", "Chair and standing work for the people of the "
         "court, led by whoever is with them.", ("first-steps-seated", "two-short-sessions"), tree_icon, tree_picture,
         "#FAEFEA"),
)


def source_for(demo: Demo) -> Source:
    """The demo coach's work: some of the shipped programmes with their sessions, and the whole library."""
    shipped = read_source(SHIPPED)
    programmes = tuple(p for p in shipped.programmes if p.id in demo.programmes)
    wanted = {session for p in programmes for week in p.weeks for session in week.sessions}
    sessions = tuple(s for s in shipped.sessions if s.id in wanted)
    return replace(shipped, id=demo.id, coach=demo.coach, title=demo.title, about=demo.about, contact="",
                   programmes=programmes, sessions=sessions)


async def demo_keys(demo: Demo) -> CoachKeys:
    """Keys that anybody can derive, the same every time."""
    seeds = [hashlib.sha256(f"demo brand {demo.id} {kind}".encode()).digest() for kind in ("sign", "seal", "recover")]
    recovery = await recovery_pairs(seeds[2])
    return CoachKeys(await signing_pair(seeds[0]), await sealing_pair(seeds[1]), recovery[0].public, recovery[1].public)


async def demo_pack(demo: Demo) -> bytes:
    """The signed pack, with the moving figures of its library."""
    source = source_for(demo)
    media = {**read_media(SHIPPED), **figures_of(source, SHIPPED)}
    return await build_pack(source, coach=await demo_keys(demo), media=media, rules_version=DEFAULT_RULES.version)


def drawn(side: tuple[int, int], ground: str | tuple[int, int, int, int], draw: Callable[[Draw], None]) -> Image.Image:
    """A picture drawn at three times its size and made smaller, for smooth edges."""
    image = Image.new("RGBA", (side[0] * 3, side[1] * 3), ground)
    draw(Scaled(ImageDraw.Draw(image)))  # type: ignore[arg-type]
    return image.resize(side, Image.Resampling.LANCZOS)


class Scaled:
    """A pen whose coordinates are a third of the picture's."""

    def __init__(self, pen: Draw) -> None:
        self._pen = pen

    def rectangle(self, box: tuple[float, ...], fill: str) -> None:
        self._pen.rectangle([v * 3 for v in box], fill=fill)

    def ellipse(self, box: tuple[float, ...], fill: str) -> None:
        self._pen.ellipse([v * 3 for v in box], fill=fill)

    def polygon(self, points: list[tuple[float, float]], fill: str) -> None:
        self._pen.polygon([(x * 3, y * 3) for x, y in points], fill=fill)

    def line(self, points: tuple[float, ...], fill: str, width: int) -> None:
        self._pen.line([v * 3 for v in points], fill=fill, width=width * 3)


def write(folder: Path) -> None:
    """Writes icon, picture and pack of each demo, and prints the key that its brand file names."""
    folder.mkdir(parents=True, exist_ok=True)
    for demo in DEMOS:
        drawn((SIDE, SIDE), CLEAR, demo.icon).save(folder / f"{demo.id}-icon.png", optimize=True)
        drawn((WIDE, HIGH), demo.ground, demo.picture).convert("RGB").save(folder / f"{demo.id}-picture.png",
                                                                          optimize=True)
        (folder / f"{demo.id}.evenload-pack").write_bytes(asyncio.run(demo_pack(demo)))
        print(demo.id, key_text(asyncio.run(demo_keys(demo)).signing.public))


if __name__ == "__main__":
    write(Path(sys.argv[1]) if len(sys.argv) > 1 else BRANDS)
