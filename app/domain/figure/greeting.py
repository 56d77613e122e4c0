"""A figure that stands by the welcome, before any programme is here: it marches on the spot."""
from __future__ import annotations

from functools import cache
from typing import Any

from app.domain.figure.drawing.picture import Picture
from app.domain.figure.drawing.still import Stills, moments
from app.domain.figure.rig.figure_form import read_figure
from app.domain.figure.rig.motion import FigureMotion

_STAND = {"lean": 2, "neck": -1, "hip": 2, "knee": 2, "ankle": 2, "r.shoulder": 2, "l.shoulder": 2, "elbow": 24}
_UP = {"lean": 2, "neck": -1, "l.hip": 3, "l.knee": 3, "r.hip": 50, "r.knee": 66, "r.ankle": 0,
       "r.shoulder": -18, "l.shoulder": 22, "elbow": 24}
GREETING: dict[str, Any] = {
    "id": "greeting", "title": "March on the spot", "view": "side", "anchor": {"part": "l.foot", "at": [0, 0]},
    "poses": {"stand": _STAND, "up": _UP}, "emphasis": [],
    "keys": [{"t": 0, "pose": "stand"}, {"t": 0.8, "pose": "up"}, {"t": 1.6, "pose": "stand"}],
}


@cache
def greeting() -> Picture:
    """Its still, for every body; it has no animation."""
    motion = FigureMotion(read_figure(GREETING, GREETING["id"]))
    still = Stills(motion).svg(moments(motion.figure)[1])
    return Picture(GREETING["id"], "", still, still, 0, alternates=False, mirrors=False, works=(), hidden="")
