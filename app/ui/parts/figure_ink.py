"""The colours of moving figures, from the inks of the card."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from app.domain.branding.palette import Palette, luminance
from app.domain.figure.drawing import colours


@dataclass(frozen=True)
class FigureInk:
    """Every role's colour on one theme, and how far the far side is mixed into the ground."""

    colours: Mapping[str, str]
    far_share: float

    def on_svg(self, svg: str) -> str:
        """A still in these colours."""
        return colours.recoloured_svg(svg, self.colours, self.far_share)

    def on_lottie(self, text: str) -> str:
        """An animation in these colours."""
        return colours.recoloured_lottie(text, self.colours, self.far_share)


_PALE_GROUND = {
    "skin": "#C98A60", "hair": "#8F96A1", "pants": "#24628F", "shoe": "#FFFBF2", "face": "#1F1A14", "glow": "#FF8A1E",
    "patch": "#FFB04D", "floor": "#DCCFB4", "mat": "#A9C9BD", "chair": "#A67F52", "chair2": "#86653F",
    "metal": "#474D59", "wall": "#CFC2A5", "band": "#C2265E", "towel": "#FFFBF2",
    "deepskin": "#6E4229", "paleface": "#FFF6E6", "whitehair": "#EFEAE0", "lightskin": "#E9BD98", "darkhair": "#4B3A34",
}
_DARK_GROUND = {
    "skin": "#E3AD86", "hair": "#D3D8DF", "pants": "#4A97D6", "shoe": "#F3EEE4", "face": "#1B2230", "glow": "#FF9A33",
    "patch": "#FFEBB0", "floor": "#3A322A", "mat": "#35564E", "chair": "#A98660", "chair2": "#7F6446",
    "metal": "#AEB9C6", "wall": "#4A4238", "band": "#FF6B9D", "towel": "#F5EBD8", "outline": "#070A0E",
    "deepskin": "#8A5A3D", "paleface": "#FFF3E0", "whitehair": "#F4F0E8", "lightskin": "#F1CBAB", "darkhair": "#8D7466",
}


@lru_cache(maxsize=8)
def figure_ink(palette: Palette) -> FigureInk:
    """The colours of a palette: clothes and arrows in its own inks, the rest as pale or dark as its card."""
    own = {colours.GROUND: palette.paper, "outline": palette.ink, "top": palette.work, "arrow": palette.rest}
    if luminance(palette.paper) > 0.5:
        return FigureInk({**own, **_PALE_GROUND}, 0.46)
    return FigureInk({**own, **_DARK_GROUND}, 0.52)
