"""What the body looks like: hulls of circles in the frames of its bones, and how one visible thing is described."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.domain.figure.rig.body_model import HEAD_CENTRE, HEAD_RADIUS, LENGTHS, FigureView, Point, Skeleton
from app.domain.figure.rig.hull import Circles, inside

OUTLINE = 0.62
"""How far an outline stands out beyond its fill, %H."""
FAR_LEG, FAR_ARM = (1.7, 1.0), (3.6, 1.9)
"""How far the limbs on the far side are moved on the picture, as if seen a little from the front and above."""
WORLD, FLOOR, NECK, FACE, MASK, OTHER_EYE = "world", "floor", "neck", "face", "mask", "other_eye"
"""Frames that are no bones: the room, a floor that goes back, between trunk and head, and what turns on the head."""


@dataclass(frozen=True, slots=True)
class Shape:
    """One visible thing in the frame of a bone: a hull, or a line through points or through landmarks and places."""

    bone: str
    role: str
    """Names its colour; `far:` before it mixes it into the background."""
    circles: Circles = ()
    line: tuple[Point, ...] = ()
    width: float = 0.0
    alpha: float = 1.0
    lights: bool = False
    """Whether it is only as strong as the effort."""
    half: int | None = None
    """The half of an alternating round in which it is there; None for the whole."""
    ends: tuple[str | Point, ...] = ()
    """Landmarks and places that the line runs through."""

    @property
    def is_far(self) -> bool:
        """Whether it belongs to the far side."""
        return self.role.startswith("far:")


Looks = Mapping[str, tuple[tuple[str, Circles], ...]]
_MASK_RIM = 1.0
_FIST = ((0, -0.4, 1.75), (0, -3.4, 2.55))


def looks(skeleton: Skeleton, fists: frozenset[str], seated: bool, turning: bool) -> Looks:
    """By bone, its hulls with the roles of their colours. `fists` are sides whose hand is closed."""
    found = dict(_SIDE_TRUNK if skeleton.view is FigureView.SIDE else _front_trunk(turning))
    for s in "rl":
        for bone, role, circles in _limbs(skeleton.view, seated, s in fists):
            name = f"{s}.{bone}"
            shrink = skeleton.shrink(name) if bone in LENGTHS and not (seated and bone == "thigh") else 1.0
            found[name] = ((role, tuple((x, y * shrink, r) for x, y, r in circles)),) if circles else ()
    return found


_SIDE_TRUNK: dict[str, tuple[tuple[str, Circles], ...]] = {
    "pelvis": (("top", ((0.0, 2.5, 5.5), (0.1, 10.5, 5.5))), ("pants", ((-0.5, 0.0, 5.9), (0.0, 4.2, 5.3)))),
    "thorax": (("top", ((0.1, 0, 5.5), (0.7, 9.5, 6.3), (0.0, 15.2, 5.0))),),
    NECK: (("skin", ((0.0, -2.0, 2.6), (0.8, 4.5, 2.5))),),
    "head": (
        ("skin", ((0.8 + HEAD_RADIUS - 0.1, HEAD_CENTRE - 1.0, 1.35),)),
        ("hair", ((0.8, HEAD_CENTRE, HEAD_RADIUS),)),
    ),
    MASK: (("skin", inside(0.8, HEAD_CENTRE, HEAD_RADIUS, (2.0, -14), (2.5, -68))),
           ("skin", ((-0.5, HEAD_CENTRE - 1.2, 1.45),))),
    OTHER_EYE: (("face", ((4.6, HEAD_CENTRE + 0.5, 0.95),)),),
    FACE: (("face", ((4.6, HEAD_CENTRE + 0.5, 0.95),)),),
}
SMILE = {
    FigureView.SIDE: ((3.6, HEAD_CENTRE - 3.3), (4.8, HEAD_CENTRE - 3.8), (6.0, HEAD_CENTRE - 3.3)),
    FigureView.FRONT: ((-2.2, HEAD_CENTRE - 3.0), (0.0, HEAD_CENTRE - 4.1), (2.2, HEAD_CENTRE - 3.0)),
}
SMILE_WIDTH = 0.75


def _front_trunk(turning: bool) -> dict[str, tuple[tuple[str, Circles], ...]]:
    mask = inside(0, HEAD_CENTRE, HEAD_RADIUS - (_MASK_RIM if turning else 0.0), (2.3, -35), (2.3, -145))
    return {
        "pelvis": (
            ("top", ((-4.2, 3.5, 4.7), (4.2, 3.5, 4.7), (-3.6, 10.5, 4.7), (3.6, 10.5, 4.7))),
            ("pants", ((-4.6, 0.2, 5.0), (4.6, 0.2, 5.0), (-4.2, 3.4, 4.8), (4.2, 3.4, 4.8))),
        ),
        "thorax": (("top", ((-3.6, 0, 4.7), (3.6, 0, 4.7), (-5.6, 9, 4.3), (5.6, 9, 4.3), (-8.0, 15.8, 3.7),
                            (8.0, 15.8, 3.7), (0, 18.4, 3.0))),),
        NECK: (("skin", ((0, -3.0, 2.7), (0, 4.5, 2.6))),),
        "head": (
            ("skin", ((-HEAD_RADIUS, HEAD_CENTRE - 0.8, 1.3),)), ("skin", ((HEAD_RADIUS, HEAD_CENTRE - 0.8, 1.3),)),
            ("hair", ((0, HEAD_CENTRE, HEAD_RADIUS),)),
        ),
        MASK: (("skin", mask),),
        FACE: tuple(("face", ((x, HEAD_CENTRE - 0.2, 0.95),)) for x in (-2.5, 2.5)),
    }


def _limbs(view: FigureView, seated: bool, fist: bool) -> tuple[tuple[str, str, Circles], ...]:
    """Bone, role and hull of one side's limbs."""
    side = view is FigureView.SIDE
    foot: Circles = ((-2.5, -2.0, 1.9), (-0.3, -0.9, 2.4), (4.2, -1.9, 1.7), (6.6, -2.7, 1.2)) if side else (
        (-0.9, -2.2, 1.7), (0.9, -2.2, 1.7), (0, -0.3, 2.4))
    toe: Circles = ((0, 0, 1.2), (3.1, -0.1, 1.1)) if side else ((-1.1, -0.1, 1.1), (1.1, -0.1, 1.1))
    shank: Circles = ((0, 0, 3.55), (-0.7, -7.5, 3.45), (0, -22.6, 2.35)) if side else (
        (0, 0, 3.5), (0, -7.5, 3.4), (0, -22.6, 2.4))
    thigh: Circles = ((0, 0, 4.9), (0, -8, 4.2)) if seated else ((0, 0, 5.0), (0.2, -8, 4.7), (0, -24.5, 3.55))
    hand: Circles = _FIST if fist else ((0, -0.4, 1.75), (0.2, -3.4, 2.05), (0.2, -4.3, 1.8))
    fingers: Circles = () if fist else ((0, 0, 1.7), (0.1, -1.9, 1.5))
    return (
        ("thigh", "pants", thigh), ("shank", "pants", shank), ("foot", "shoe", foot), ("toe", "shoe", toe),
        ("upper_arm", "top", ((0, -0.4, 3.6), (0, -8, 3.1), (0, -18.6, 2.6))),
        ("forearm", "skin", ((0, 0, 2.55), (0.2, -5, 2.45), (0, -14.6, 1.75))),
        ("hand", "skin", hand), ("fingers", "skin", fingers),
    )


def far_shift(view: FigureView, bone: str) -> Point:
    """How far a bone is moved on the picture."""
    if view is FigureView.FRONT or not bone.startswith("l."):
        return 0.0, 0.0
    return FAR_LEG if bone[2:] in ("thigh", "shank", "foot", "toe") else FAR_ARM
