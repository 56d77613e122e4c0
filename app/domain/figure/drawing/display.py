"""Everything that is drawn of a figure, back to front."""
from __future__ import annotations

from collections.abc import Iterator, Sequence

from app.domain.figure.rig.body_model import FigureView, Stance, skeleton
from app.domain.figure.rig.figure_data import Figure
from app.domain.figure.rig.hull import bar, grown
from app.domain.figure.rig.links import links
from app.domain.figure.rig.muscles import lit
from app.domain.figure.rig.props import backdrop, cushions, dumbbell, fists, foreground
from app.domain.figure.rig.shapes import (
    FACE,
    FLOOR,
    MASK,
    NECK,
    OTHER_EYE,
    OUTLINE,
    SMILE,
    SMILE_WIDTH,
    WORLD,
    Shape,
    looks,
)

GLOW = ((4.2, 0.1), (2.8, 0.17), (1.4, 0.25))
"""Nested hulls under a limb, wider by and as strong as: a soft edge everywhere."""
PATCH = ((0.8, 0.24), (0.0, 0.36), (-0.8, 0.52))
"""The same over the limb."""
_ARM = ("fingers", "hand", "forearm", "upper_arm")
_LEG = ("toe", "foot", "shank", "thigh")
_MARK_HALF, _MARKS = 1.5, 7


class Display:
    """The display list of a figure; `shapes` are in the order in which they are painted."""

    def __init__(self, figure: Figure) -> None:
        self.figure, self.side = figure, figure.view is FigureView.SIDE
        self._fists = fists(figure)
        self._bells = {h for prop in figure.of_kind("dumbbell") for h in prop.words("hands")}
        self._turning = any(key.pose.channels["turn"] for key in figure.keys)
        body = skeleton(figure.view, figure.stance, figure.lengths)
        self._looks = looks(body, self._fists, figure.stance is Stance.SEATED, self._turning)
        self._lit = lit(figure)
        self.shapes = tuple(self._all())

    def _all(self) -> Iterator[Shape]:
        yield from _floor_marks(self.figure)
        yield from backdrop(self.figure)
        yield from links(self.figure, "back")
        yield from self._from_side() if self.side else self._from_front()
        yield from links(self.figure, "front")
        yield from foreground(self.figure)

    def _from_side(self) -> Iterator[Shape]:
        under = self.figure.near_arm_under_leg
        yield from self._limb("l", _ARM, far=True)
        yield from self._limb("l", _LEG, far=True)
        yield from self._trunk([] if under else [f"r.{b}" for b in _LEG])
        yield from self._head()
        yield from cushions(self.figure)
        yield from links(self.figure, "mid")
        yield from self._limb("r", _ARM)
        if under:
            yield from self._limb("r", _LEG)

    def _from_front(self) -> Iterator[Shape]:
        figure = self.figure
        first = "rl" if figure.seen_from_behind else figure.arms_behind_head
        if figure.seen_from_behind:
            yield from self._arms("rl")
        if figure.stance is Stance.SEATED:
            yield from self._trunk([])
            for s in "rl":
                yield from self._limb(s, _LEG)
        else:
            yield from self._trunk([f"{s}.{b}" for s in "rl" for b in _LEG])
        if not figure.seen_from_behind:
            yield from self._arms(first)
        yield from self._head()
        yield from cushions(figure)
        yield from links(figure, "mid")
        yield from self._arms([s for s in "rl" if s not in first])

    def _arms(self, sides: Sequence[str]) -> Iterator[Shape]:
        for s in sides:
            yield from self._limb(s, _ARM)

    def _limb(self, s: str, parts: Sequence[str], far: bool = False) -> Iterator[Shape]:
        bones = [f"{s}.{part}" for part in parts]
        yield from self._lights(bones, "glow", GLOW)
        yield from self._outlines(bones, far)
        if "hand" in parts and s in self._bells:
            yield from dumbbell(f"{s}.hand", far)
        yield from self._fills(bones, far)
        yield from self._lights(bones, "patch", PATCH)

    def _trunk(self, legs: Sequence[str]) -> Iterator[Shape]:
        """Trunk and near legs are outlined as one, so that hip and waist have no seam."""
        bones = ["thorax", "pelvis", *legs]
        yield from self._lights([*bones, NECK], "glow", GLOW)
        yield from self._outlines([NECK, *bones], far=False)
        yield from self._fills([NECK, *bones], far=False)
        yield from self._lights([*bones, NECK], "patch", PATCH)

    def _head(self) -> Iterator[Shape]:
        view, parts = self.figure.view, self._looks["head"]
        yield from (Shape("head", "outline", grown(c, OUTLINE)) for _, c in parts)
        yield from (Shape("head", role, c) for role, c in parts)
        if not self.figure.seen_from_behind:
            features = (MASK, *([OTHER_EYE] if self._turning else []), FACE)
            yield from (Shape(bone, role, c) for bone in features for role, c in self._looks.get(bone, ()))
            yield Shape(FACE, "face", line=SMILE[view], width=SMILE_WIDTH)

    def _outlines(self, bones: Sequence[str], far: bool) -> Iterator[Shape]:
        role = "far:outline" if far else "outline"
        yield from (Shape(b, role, grown(c, OUTLINE)) for b in bones for _, c in self._looks[b])

    def _fills(self, bones: Sequence[str], far: bool) -> Iterator[Shape]:
        yield from (Shape(b, f"far:{r}" if far else r, c) for b in bones for r, c in self._looks[b])

    def _lights(self, bones: Sequence[str], role: str, rings: Sequence[tuple[float, float]]) -> Iterator[Shape]:
        for bone, circles, half in self._lit:
            if bone in bones:
                for wider, alpha in rings:
                    yield Shape(bone, role, grown(circles, wider), alpha=alpha, lights=True, half=half)


def _floor_marks(figure: Figure) -> Iterator[Shape]:
    """Marks that go back under a walking figure."""
    for number in range(-_MARKS, _MARKS + 1):
        x = number * figure.stride
        if figure.stride and abs(x) < 58:
            yield Shape(FLOOR, "far:chair2", bar(x - _MARK_HALF, -1.2, x + _MARK_HALF, -1.2, 0.55))


def floor(left: float, right: float) -> Shape:
    """The floor as wide as the picture."""
    return Shape(WORLD, "floor", bar(left + 4.5, -0.2, right - 4.5, -0.2, 2.0))
