"""Where a working muscle lights up: hulls on the bones, in side view and in front view (left side)."""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.figure.rig.body_model import FigureView, Stance
from app.domain.figure.rig.figure_data import Area, Figure, Repeat
from app.domain.figure.rig.hull import Circles

#: The library's names for what is drawn at the same place.
_SAME = {
    "quadriceps": "quads", "abdominals": "abs", "spinal_extensors": "lower_back", "trapezius": "traps",
    "pectorals": "chest", "deltoids": "shoulders", "tibialis_anterior": "shins", "foot_intrinsics": "feet",
    "rhomboids": "upper_back", "rotator_cuff": "shoulders", "hip_rotators": "hip_abductors",
    "hand_intrinsics": "hands",
}
_Places = Mapping[str, tuple[tuple[str, Circles], ...]]
_SIDE: _Places = {
    "quads": (("thigh", ((1.5, -5, 2.7), (1.3, -17, 2.0))),),
    "hamstrings": (("thigh", ((-1.7, -6, 2.5), (-1.4, -17, 1.8))),),
    "glutes": (("pelvis", ((-2.9, -0.6, 2.9), (-3.0, 1.6, 2.5))),),
    "calves": (("shank", ((-1.7, -5.0, 1.8), (-1.2, -12, 1.4))),),
    "abs": (("pelvis", ((3.1, 4, 1.8), (3.2, 10, 1.9))),),
    "lower_back": (("pelvis", ((-3.3, 5, 1.7), (-3.3, 11, 1.8))),),
    "upper_back": (("thorax", ((-3.0, 5, 2.2), (-2.9, 12.5, 2.4))),),
    "lats": (("thorax", ((-2.6, 2, 2.3), (-2.4, 10, 2.5))),),
    "chest": (("thorax", ((3.8, 8.5, 2.3), (3.3, 13.5, 2.1))),),
    "shoulders": (("upper_arm", ((0.1, -0.3, 2.6), (0.2, -5, 2.0))),),
    "triceps": (("upper_arm", ((-1.0, -5, 1.7), (-0.9, -14, 1.4))),),
    "biceps": (("upper_arm", ((1.0, -6, 1.7), (0.9, -14, 1.4))),),
    "hip_flexors": (("pelvis", ((3.0, -0.5, 2.0), (2.8, 2.5, 1.8))),),
    "hip_abductors": (("pelvis", ((-0.6, -0.5, 2.6), (-0.6, 2.2, 2.3))),),
    "adductors": (("thigh", ((0.3, -4, 2.0), (0.3, -13, 1.6))),),
    "shins": (("shank", ((1.2, -5.0, 1.3), (1.0, -15, 1.1))),),
    "neck": (("neck", ((0.4, 0.0, 1.4), (0.7, 3.0, 1.4))),),
    "traps": (("thorax", ((-2.4, 13.0, 2.2), (-1.2, 17.0, 1.8))),),
    "forearms": (("forearm", ((0.2, -3, 1.6), (0.2, -9, 1.3))),),
    "hands": (("hand", ((0.1, -1.5, 1.3), (0.2, -4.0, 1.3))),),
    "feet": (("foot", ((1.0, -1.8, 1.4), (5.0, -2.4, 1.0))),),
    "obliques": (("pelvis", ((0.2, 5, 2.2), (0.3, 10, 2.0))), ("thorax", ((0.4, 1.0, 2.0), (0.6, 4.0, 1.9)))),
}
_THIGH = (("thigh", ((0.2, -6, 3.0), (0.1, -18, 2.2))),)
_ARM = (("upper_arm", ((0.2, -6, 1.7), (0.2, -14, 1.4))),)
_FRONT: _Places = {
    "quads": _THIGH, "hamstrings": _THIGH, "biceps": _ARM, "triceps": _ARM,
    "shoulders": _SIDE["shoulders"], "forearms": _SIDE["forearms"], "hands": _SIDE["hands"],
    "adductors": (("thigh", ((-2.4, -5, 1.9), (-1.6, -14, 1.6))),),
    "hip_abductors": (("pelvis", ((7.0, 1.5, 2.0), (7.2, -1.0, 2.0))),),
    "glutes": (("pelvis", ((4.6, -0.5, 3.0), (4.6, 1.5, 2.8))),),
    "calves": (("shank", ((0.6, -5, 1.9), (0.4, -12, 1.5))),),
    "shins": (("shank", ((0.6, -4, 1.3), (0.3, -15, 1.1))),),
    "neck": (("neck", ((1.5, -1.0, 1.0), (1.4, 3.0, 1.0))),),
    "traps": (("thorax", ((3.2, 17.6, 1.7), (7.6, 15.8, 1.9))),),
    "chest": (("thorax", ((2.8, 11.5, 2.4), (5.6, 12.6, 2.2))),),
    "abs": (("pelvis", ((1.6, 4, 1.7), (1.6, 10, 1.7))),),
    "hip_flexors": (("pelvis", ((3.6, -1.0, 2.0), (3.6, 1.5, 1.8))),),
    "upper_back": (("thorax", ((4.0, 8, 2.2), (5.0, 12.5, 2.4))),),
    "lats": (("thorax", ((5.2, 2, 2.2), (6.0, 9, 2.4))),),
    "lower_back": (("pelvis", ((1.8, 5, 1.7), (1.8, 11, 1.8))),),
    "feet": (("foot", ((0, -1.5, 1.6), (0, -2.4, 1.2))),),
    "obliques": (("pelvis", ((5.6, 6.5, 2.0), (5.4, 10, 1.9))), ("thorax", ((5.5, 1.5, 2.0), (6.6, 10, 1.9)))),
}
_SEATED: _Places = {
    **_FRONT, "hip_abductors": (("thigh", ((2.6, -1, 1.8), (2.4, -5, 1.6))),),
    "glutes": (("thigh", ((2.2, 1.0, 2.2), (2.6, -2, 2.0))),),
    "hip_flexors": (("thigh", ((-1.4, 2.6, 1.7), (1.4, 2.6, 1.7))),),
    "quads": (("thigh", ((0.2, -1, 2.8), (0.1, -6, 2.4))),),
    "hamstrings": (("thigh", ((0.2, -1, 2.8), (0.1, -6, 2.4))),),
    "adductors": (("thigh", ((-2.4, -1, 1.6), (-2.2, -5, 1.5))),),
}
"""Thighs that point at the viewer hide what lies at the hip, and are short."""
MUSCLES = frozenset((*_SIDE, *_SAME))
"""Every name that a figure may give."""
_AXIAL = ("pelvis", "thorax", "head", "neck")

Lit = tuple[str, Circles, int | None]
"""Bone, hull, and the half of an alternating round in which it works; None for the whole."""


def lit(figure: Figure) -> tuple[Lit, ...]:
    """What lights up, every hull in the frame of its bone."""
    places = _SIDE if figure.view is FigureView.SIDE else _SEATED if figure.stance is Stance.SEATED else _FRONT
    found: list[Lit] = []
    for area in figure.emphasis:
        for bone, circles in places[_SAME.get(area.muscle, area.muscle)]:
            for side, half in _sides(figure, area, bone):
                flip = -1 if figure.view is FigureView.FRONT and side == "r" else 1
                name = bone if bone in _AXIAL else f"{side}.{bone}"
                found.append((name, tuple((flip * x, y, r) for x, y, r in circles), half))
    return tuple(dict.fromkeys(found))


def _sides(figure: Figure, area: Area, bone: str) -> tuple[tuple[str, int | None], ...]:
    front, turns = figure.view is FigureView.FRONT, figure.repeat is Repeat.ALTERNATE
    if not area.side:
        return (("r", None), ("l", None)) if front else (("r", None),)
    if not turns or (bone in _AXIAL and not front):
        return ((area.side, None),)
    return (area.side, 0), ("l" if area.side == "r" else "r", 1)
