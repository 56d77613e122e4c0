"""A figure out of a pack: its animation and its two stills, and how it is turned round and set to a tempo."""
from __future__ import annotations

import json
import re
from dataclasses import dataclass
from typing import Any

from app.domain.figure.drawing.keyframes import FRAMES_S, short
from app.domain.figure.drawing.lottie import ABOUT
from app.domain.figure.drawing.picture_frame import SIZE

FOLDER = "figures"
PHOTOS, PHOTO_KINDS = "media/", (".jpg", ".jpeg", ".png", ".webp")
SLOWEST, FASTEST = 0.4, 2.0
"""How far a figure may be slowed or hurried to keep to a tempo; beyond that it is no longer the same movement."""
_RATE = f'"fr":{FRAMES_S}'
_SVG_PLACE = re.compile(r"matrix\(([-0-9.]+) 0 0 ([-0-9.]+) ([-0-9.]+) ([-0-9.]+)\)")


@dataclass(frozen=True, eq=False)
class Picture:
    """One figure, its colours still open. Equal only to itself, so that what is made of it can be kept by it."""

    id: str
    lottie: str
    start: str
    """SVG of the beginning."""
    turn: str
    """SVG of where it differs most from the beginning."""
    round_ms: int
    """One repetition as authored."""
    alternates: bool
    """Whether one round shows both sides by itself."""
    mirrors: bool
    works: tuple[str, ...]
    """The muscles that light up."""
    hidden: str
    """What the view cannot show."""


def is_photo(figure: str) -> bool:
    """Whether an exercise's `figure` names a picture of the coach's own instead of a figure."""
    return figure.startswith(PHOTOS) and figure.lower().endswith(PHOTO_KINDS)


def paths(figure: str) -> tuple[str, str, str]:
    """Where animation, start and turn of a figure stand in a pack."""
    return f"{FOLDER}/{figure}.json", f"{FOLDER}/{figure}.start.svg", f"{FOLDER}/{figure}.turn.svg"


def read_picture(figure: str, lottie: bytes, start: bytes, turn: bytes) -> Picture | None:
    """The picture, or None for an animation that says nothing of itself, as one made elsewhere."""
    try:
        text = lottie.decode()
        about: dict[str, Any] = json.loads(text)[ABOUT]
        return Picture(
            figure, text, start.decode(), turn.decode(), int(about["round_ms"]), bool(about["alternates"]),
            bool(about["mirrors"]), tuple(map(str, about["works"])), str(about["hidden"]),
        )
    except (ValueError, KeyError, TypeError):
        return None


def at_tempo(picture: Picture, lottie: str, rep_ms: int) -> str:
    """The animation so that one round lasts one repetition; as authored for holds, which have none."""
    if rep_ms <= 0 or picture.round_ms <= 0:
        return lottie
    pace = min(FASTEST, max(SLOWEST, picture.round_ms / rep_ms))
    return lottie.replace(_RATE, f'"fr":{short(FRAMES_S * pace)}', 1)


def turned_round(lottie: str) -> str:
    """The animation with left and right changed, as if seen from the other side."""
    document = json.loads(lottie)
    world = next(layer for layer in document["layers"] if layer.get("nm") == "world")["ks"]
    x, y = world["p"]["k"]
    across, up = world["s"]["k"]
    world["p"]["k"], world["s"]["k"] = [short(SIZE - x), y], [-across, up]
    return json.dumps(document, separators=(",", ":"))


def turned_round_svg(svg: str) -> str:
    """The same for a still."""
    def other(found: re.Match[str]) -> str:
        across, up, x, y = map(float, found.groups())
        return f"matrix({-across:g} 0 0 {up:g} {short(SIZE - x)} {y:g})"
    return _SVG_PLACE.sub(other, svg, count=1)
