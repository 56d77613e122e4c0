"""A figure shown with another body: hulls that its export always writes alike are changed for others, colours renamed.

It is done in the text of the export, so that every pack can show every body, and no joint is moved: what was checked of
a figure when it was drawn holds for all of them. A hull that a file does not hold is left as it is.
"""
from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from app.domain.figure.drawing.lottie_layers import fill, group, hull_path
from app.domain.figure.drawing.picture import Picture
from app.domain.figure.drawing.still import hull_svg
from app.domain.figure.rig.body_model import HEAD_CENTRE, HEAD_RADIUS, FigureView, skeleton
from app.domain.figure.rig.hull import Circles, grown, inside
from app.domain.figure.rig.shapes import MASK, OUTLINE, Looks, looks

Hull = tuple[str, Circles]
"""The role of a colour, and the hull that is filled with it."""
Change = tuple[Hull, Sequence[Hull]]
"""A hull, and what is painted in its place."""


@dataclass(frozen=True)
class Dress:
    """What stands where another hull stood, in the order of painting, and which colours are other ones."""

    hulls: Sequence[Change]
    colours: Mapping[str, str]


@lru_cache(maxsize=256)
def dressed(picture: Picture, body: str) -> Picture:
    """The picture with the body of that name, or as it was drawn; the same object for the same arguments."""
    dress = DRESSES.get(body)
    if dress is None:
        return picture
    start, turn = (_renamed(_changed(svg, dress, _svg), dress) for svg in (picture.start, picture.turn))
    return replace(picture, lottie=_renamed(_changed(picture.lottie, dress, _lottie), dress), start=start, turn=turn)


def _changed(text: str, dress: Dress, written: Callable[[Sequence[Hull]], str]) -> str:
    for old, new in dress.hulls:
        text = text.replace(written([old]), written(new))
    return text


def _renamed(text: str, dress: Dress) -> str:
    for role, other in dress.colours.items():
        text = text.replace(f'"@{role}"', f'"@{other}"').replace(f'"@far:{role}"', f'"@far:{other}"')
    return text


def _svg(hulls: Sequence[Hull]) -> str:
    return "".join(hull_svg(circles, role, 1.0) for role, circles in hulls)


def _lottie(hulls: Sequence[Hull]) -> str:
    """What is painted last stands first."""
    groups = [json.dumps(group(hull_path(circles), fill(role, 1.0)), separators=(",", ":")) for role, circles in hulls]
    return ",".join(reversed(groups))


# ------------------------------------------------------------------ the bodies, all measures %H

_SIDE = looks(skeleton(FigureView.SIDE), frozenset(), seated=False, turning=False)
_FRONTS = tuple(looks(skeleton(FigureView.FRONT), frozenset(), seated=False, turning=turning)
                for turning in (False, True))
_FORWARD = 0.8
"""Of the middle of the head as it is seen from the side."""
_SIDE_HAIR: Hull = ("hair", ((_FORWARD, HEAD_CENTRE, HEAD_RADIUS),))
_FRONT_HAIR: Hull = ("hair", ((0, HEAD_CENTRE, HEAD_RADIUS),))


def _within(forward: float, *touching: tuple[float, float]) -> Hull:
    """Hair within the round of the head: how far from its middle and in which direction, degrees."""
    return "hair", inside(forward, HEAD_CENTRE, HEAD_RADIUS, *touching)


def _bald(hair: Hull, ring: Hull) -> Change:
    return hair, [("skin", hair[1]), ring]


def _bearded(found: Looks, *beard: Hull) -> Change:
    face = found[MASK][0]
    return face, [face, *beard]


_SIDE_BEARD = [_within(_FORWARD, (5.8, -62), (5.2, -100), (5.6, -125))]
_FRONT_BEARD = [_within(0, (6.0, -65), (6.0, -115)), _within(0, (5.9, -25), (5.9, -62)),
                _within(0, (5.9, -155), (5.9, -118))]


def _man() -> Iterator[Change]:
    yield _bald(_SIDE_HAIR, _within(_FORWARD, (5.1, 176), (4.9, 214)))
    yield _bald(_FRONT_HAIR, _within(0, (5.4, -10), (5.4, -170), (4.4, -90)))
    yield _bearded(_SIDE, *_SIDE_BEARD)
    for found in _FRONTS:
        yield _bearded(found, *_FRONT_BEARD)


def _wider(old: Hull, circles: Circles) -> Iterator[Change]:
    """A hull of the trunk and its outline."""
    yield old, [(old[0], circles)]
    yield ("outline", grown(old[1], OUTLINE)), [("outline", grown(circles, OUTLINE))]


def _long_haired(hair: Hull, *behind: Circles) -> Change:
    """Hair that hangs behind the head; the head's own outline lies over it."""
    edge: Hull = ("outline", grown(hair[1], OUTLINE))
    return edge, [*(("outline", grown(lock, OUTLINE)) for lock in behind), *(("hair", lock) for lock in behind), edge]


def _broad() -> Iterator[Change]:
    """Broader in front and at the sides: what leans against a back or lies on a mat stays where it is."""
    yield from _wider(_SIDE["thorax"][0], ((1.7, 0, 7.1), (1.7, 9.5, 7.3), (0.0, 15.2, 5.0)))
    yield from _wider(_SIDE["pelvis"][0], ((1.5, 2.5, 7.0), (1.9, 10.5, 7.3)))
    yield from _wider(_SIDE["pelvis"][1], ((-0.5, 0.0, 5.9), (1.3, 4.2, 6.7)))
    yield _long_haired(_SIDE_HAIR, ((-2.6, HEAD_CENTRE - 0.6, 4.6), (-2.2, HEAD_CENTRE - 5.2, 2.9)))
    front = _FRONTS[0]
    yield from _wider(front["thorax"][0], ((-6.0, 0, 5.6), (6.0, 0, 5.6), (-7.2, 9, 5.0), (7.2, 9, 5.0),
                                           (-8.2, 15.8, 3.7), (8.2, 15.8, 3.7), (0, 18.4, 3.0)))
    yield from _wider(front["pelvis"][0], ((-6.2, 3.5, 5.5), (6.2, 3.5, 5.5), (-6.0, 10.5, 5.6), (6.0, 10.5, 5.6)))
    yield from _wider(front["pelvis"][1], ((-5.8, 0.8, 5.5), (5.8, 0.8, 5.5), (-6.1, 3.4, 5.5), (6.1, 3.4, 5.5)))
    yield _long_haired(_FRONT_HAIR, *(
        ((4.6 * x, HEAD_CENTRE - 0.8, 3.8), (5.6 * x, HEAD_CENTRE - 5.2, 2.5)) for x in (-1, 1)))
    for role, ear in front["head"][:2]:
        yield (role, ear), [("hair", ear)]


DRESSES: Mapping[str, Dress] = {
    "beard": Dress(tuple(_man()), {"skin": "deepskin", "hair": "whitehair", "face": "paleface"}),
    "broad": Dress(tuple(_broad()), {"skin": "lightskin", "hair": "darkhair"}),
}
