"""Colours put into an exported figure: every `"@role"` becomes the theme's colour, far ones mixed into the ground."""
from __future__ import annotations

import re
from collections.abc import Mapping

ROLES = ("outline", "skin", "hair", "top", "pants", "shoe", "face", "glow", "patch", "arrow", "floor", "mat", "chair",
         "chair2", "metal", "wall", "band", "towel",
         "deepskin", "paleface", "whitehair", "lightskin", "darkhair")
"""The last row is of other bodies: see `dressed`."""
GROUND = "ground"
"""The colour that the picture lies on, by which far limbs are made paler. It is not drawn."""
_NAMED = re.compile(r'"@([a-z0-9:]+)"')


def far(colour: str, ground: str, share: float) -> str:
    """`#RRGGBB` mixed into the ground."""
    one, other = channels(colour), channels(ground)
    return "#" + "".join(f"{round(a + (b - a) * share):02X}" for a, b in zip(one, other, strict=True))


def channels(colour: str) -> tuple[int, ...]:
    """Red, green and blue of `#RRGGBB`, 0–255."""
    return tuple(int(colour[i : i + 2], 16) for i in (1, 3, 5))


def colour_of(role: str, colours: Mapping[str, str], far_share: float) -> str:
    """The colour of a role as it stands in a file, `far:` before it for the far side."""
    bare = role.removeprefix("far:")
    return far(colours[bare], colours[GROUND], far_share) if bare != role else colours[bare]


def recoloured_svg(svg: str, colours: Mapping[str, str], far_share: float) -> str:
    """A still in the colours of a theme."""
    return _NAMED.sub(lambda found: f'"{colour_of(found[1], colours, far_share)}"', svg)


def recoloured_lottie(text: str, colours: Mapping[str, str], far_share: float) -> str:
    """An animation in the colours of a theme."""
    def values(found: re.Match[str]) -> str:
        r, g, b = (round(value / 255, 3) for value in channels(colour_of(found[1], colours, far_share)))
        return f"[{r:g},{g:g},{b:g},1]"
    return _NAMED.sub(values, text)
