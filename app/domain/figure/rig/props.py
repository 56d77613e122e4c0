"""Things around the figure, drawn from the same hulls. What each key means stands in `FIGURES.md`."""
from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator

from app.domain.figure.rig.body_model import PALM, FigureView
from app.domain.figure.rig.figure_data import Figure, Prop
from app.domain.figure.rig.hull import Circles, bar, grown
from app.domain.figure.rig.shapes import FAR_LEG, OUTLINE, WORLD, Shape

KINDS = frozenset({
    "mat", "wall", "chair", "worktop", "step", "rail", "bed", "doorway", "door", "band", "towel", "dumbbell", "anchor",
    "cushion", "turn_arrow",
})
HELD = ("dumbbell", "band", "towel")
SEAT_HALF, FRONT_SEAT_HALF = 12.5, 11.5
"""Half a seat's depth, and half its width, %H."""
PILLOW_HALF = 7.0
MAT_TOP = 2.2
_THIN = OUTLINE * 0.8


def backdrop(figure: Figure) -> Iterator[Shape]:
    """What stands behind the figure."""
    for prop in figure.props:
        draw = _BEHIND.get(prop.kind)
        if draw is not None:
            yield from draw(prop, figure)
        if "pillow" in prop.values:
            yield from _edged([_pillow(prop)], "shoe")


def foreground(figure: Figure) -> Iterator[Shape]:
    """What lies before the figure."""
    for prop in figure.of_kind("turn_arrow"):
        yield from _turn_arrow(prop)


def cushions(figure: Figure) -> Iterator[Shape]:
    """Cushions that ride on a bone, over the trunk and under the near arm."""
    for prop in figure.of_kind("cushion"):
        (x, y), (rx, ry) = prop.pair("at"), prop.pair("size", (7.0, 4.0))
        r, a = min(rx, ry), math.radians(prop.number("turn") + (90 if ry > rx else 0))
        d = abs(rx - ry)
        hull = bar(x - d * math.cos(a), y - d * math.sin(a), x + d * math.cos(a), y + d * math.sin(a), r)
        yield from _edged([hull], "mat", prop.word("bone", WORLD))


def dumbbell(hand: str, far: bool) -> Iterator[Shape]:
    """A dumbbell in a fist, seen from the side."""
    y, pre = PALM[1] + 0.2, "far:" if far else ""
    heads: list[Circles] = [tuple((s * x, y + dy, 1.0) for x in (5.0, 6.6) for dy in (2.0, -2.0)) for s in (-1, 1)]
    parts: list[Circles] = [bar(-5.6, y, 5.6, y, 0.8), *heads]
    yield from (Shape(hand, f"{pre}outline", grown(c, OUTLINE)) for c in parts)
    yield from (Shape(hand, f"{pre}metal", c) for c in parts)


def _edged(parts: Iterable[Circles], role: str, bone: str = WORLD) -> Iterator[Shape]:
    parts = list(parts)
    yield from (Shape(bone, "outline", grown(c, _THIN)) for c in parts)
    yield from (Shape(bone, role, c) for c in parts)


def _pillow(prop: Prop) -> Circles:
    x, y, high = prop.number("pillow"), prop.number("top", MAT_TOP), prop.number("pillow_h", 2.2)
    return bar(x - PILLOW_HALF, y + high / 2, x + PILLOW_HALF, y + high / 2, high / 2 + 0.3)


def _mat(prop: Prop, figure: Figure) -> Iterator[Shape]:
    x0, x1 = prop.pair("x")
    yield Shape(WORLD, "mat", bar(x0, 0.3, x1, 0.3, 1.9))


def sense(prop: Prop) -> int:
    """+1 for a wall that stands to the right of the figure, -1 to the left."""
    return -1 if prop.word("side") == "left" else 1


def _wall(prop: Prop, figure: Figure) -> Iterator[Shape]:
    if prop.values.get("behind"):
        x, high = prop.number("x"), prop.number("h", 104.0)
        face = (*bar(x - 40, 4, x - 40, high - 4, 2), *bar(x + 40, 4, x + 40, high - 4, 2))
        yield Shape(WORLD, "wall", face, alpha=0.45)
        return
    x, high, s = prop.number("x"), prop.number("h", 108.0), sense(prop)
    yield Shape(WORLD, "wall", bar(x + s * 1.6, 0.5, x + s * 1.6, high, 1.6))
    yield Shape(WORLD, "wall", bar(x + s * 4.5, 0.5, x + s * 4.5, high, 1.6), alpha=0.55)


def is_wide(prop: Prop) -> bool:
    """Whether a door or doorway is seen face-on: between two places, and not at one."""
    return isinstance(prop.values.get("x"), tuple)


def _doorway(prop: Prop, figure: Figure) -> Iterator[Shape]:
    high = prop.number("h", 104.0)
    if not is_wide(prop):
        x, s = prop.number("x"), sense(prop)
        yield from _edged([bar(x + s * 2, 1.5, x + s * 2, high, 2.0)], "wall")
        return
    a, b = prop.pair("x")
    yield from _edged([bar(a - 1.5, 1.5, a - 1.5, high, 1.5), bar(b + 1.5, 1.5, b + 1.5, high, 1.5),
                       bar(a - 1.5, high + 1.5, b + 1.5, high + 1.5, 1.5)], "wall")


def _door(prop: Prop, figure: Figure) -> Iterator[Shape]:
    high = prop.number("h", 104.0)
    if not is_wide(prop):
        x, s = prop.number("x"), sense(prop)
        yield from _wall(prop, figure)
        yield from _edged([bar(x - s * 1.0, 49, x - s * 3.5, 49, 0.7)], "metal")
        return
    a, b = prop.pair("x")
    leaf = (*bar(a + 1, 1, b - 1, 1, 1), *bar(a + 1, high, b - 1, high, 1))
    yield Shape(WORLD, "far:outline", grown(leaf, _THIN))
    yield Shape(WORLD, "wall", leaf)
    yield from _edged([bar(a + 4, 49, a + 8, 49, 0.7)], "metal")


def _anchor(prop: Prop, figure: Figure) -> Iterator[Shape]:
    x, y = prop.pair("at")
    yield from _edged([((x, y, 1.7),)], "band")


def _worktop(prop: Prop, figure: Figure) -> Iterator[Shape]:
    (x0, x1), top = prop.pair("x"), prop.number("top")
    front = (*bar(x0 + 3, 6, x0 + 3, top - 4, 1.5), *bar(x1 - 3, 6, x1 - 3, top - 4, 1.5))
    yield Shape(WORLD, "wall", front, alpha=0.8)
    yield Shape(WORLD, "wall", bar(x0 + 5, 2.6, x1 - 3, 2.6, 1.2), alpha=0.5)
    yield from _edged([bar(x0 + 1.5, top - 1.5, x1 - 1.5, top - 1.5, 1.5)], "chair")


def _step(prop: Prop, figure: Figure) -> Iterator[Shape]:
    (x0, x1), high = prop.pair("x"), prop.number("h")
    block = (*bar(x0 + 1.2, 1.2, x1 - 1.2, 1.2, 1.2), *bar(x0 + 1.2, high - 1.2, x1 - 1.2, high - 1.2, 1.2))
    yield from _edged([block], "chair")


def _rail(prop: Prop, figure: Figure) -> Iterator[Shape]:
    (x0, x1), top, rise = prop.pair("x"), prop.number("top"), prop.number("rise")
    for part in (bar(x0 + 1, 0.5, x0 + 1, top - 1, 1.0), bar(x1 - 1, 0.5, x1 - 1, top + rise - 1, 1.0),
                 bar(x0 - 1, top - 1, x1 + 1, top + rise - 1, 1.2)):
        yield from _edged([part], "metal")


def _bed(prop: Prop, figure: Figure) -> Iterator[Shape]:
    (x0, x1), top = prop.pair("x"), prop.number("top")
    yield from (Shape(WORLD, "chair2", bar(x, 1.2, x, top - 12, 1.6)) for x in (x0 + 3, x1 - 3))
    yield from _edged([bar(x0 + 1, top - 11, x1 - 1, top - 11, 2)], "chair")
    mattress = (*bar(x0 + 3, top - 3, x1 - 3, top - 3, 3), *bar(x0 + 3, top - 6, x1 - 3, top - 6, 3))
    yield from _edged([mattress], "mat")


def chair_faces_viewer(prop: Prop, figure: Figure) -> bool:
    """Whether a chair is drawn from the front."""
    return prop.word("seen", figure.view.value) == FigureView.FRONT.value


def _chair(prop: Prop, figure: Figure) -> Iterator[Shape]:
    draw = _front_chair if chair_faces_viewer(prop, figure) else _side_chair
    yield from draw(prop, figure)
    x, seat, thick = prop.number("x"), prop.number("seat"), prop.number("cushion")
    if thick:
        w = (FRONT_SEAT_HALF if chair_faces_viewer(prop, figure) else SEAT_HALF) - 2
        yield from _edged([bar(x - w, seat + thick / 2, x + w, seat + thick / 2, thick / 2)], "mat")


def _side_chair(prop: Prop, figure: Figure) -> Iterator[Shape]:
    x, seat, back = prop.number("x"), prop.number("seat"), prop.number("back")
    f, thick = (-1 if prop.number("facing", 1) < 0 else 1), 1.5
    xb, xf = x - f * SEAT_HALF, x + f * SEAT_HALF
    fx, fy = FAR_LEG[0] * 1.5, FAR_LEG[1] * 1.5
    for leg in (xb + fx, xf + fx - f):
        yield Shape(WORLD, "far:chair2", bar(leg, thick + fy, leg, seat - thick, 1.2))
    rod = bar(xb, seat, xb - f * prop.number("rake", 2.5), back - 1.4, 1.5)
    yield from _edged([bar(xb, 1.3, xb, seat, 1.35), bar(xf - f, 1.3, xf - f, seat - thick, 1.35),
                       *([rod] if back else []), bar(xb, seat - thick, xf, seat - thick, thick)], "chair")


def _front_chair(prop: Prop, figure: Figure) -> Iterator[Shape]:
    x, seat, back, w = prop.number("x"), prop.number("seat"), prop.number("back"), FRONT_SEAT_HALF
    far = [bar(s + x, 2.6, s + x, seat - 1.5, 1.1) for s in (1 - w, w - 1)]
    posts = [bar(s + x, seat, s + x, back - 1.4, 1.4) for s in (1.5 - w, w - 1.5)]
    rails = [bar(x - w + 1.5, y, x + w - 1.5, y, 1.6) for y in (back - 3, back - 1.6)]
    slab = (*bar(x - w + 1, seat - 1.5, x + w - 1, seat - 1.5, 1.5), *bar(x - w, seat - 4.5, x + w, seat - 4.5, 1.5))
    near = [*(bar(s + x, 1.3, s + x, seat - 1.5, 1.35) for s in (-w, w)), slab]
    yield from _edged(far, "far:chair2")
    yield from _edged([*posts, *rails] if back else [], "chair")
    yield from _edged(near, "chair")


def _turn_arrow(prop: Prop) -> Iterator[Shape]:
    """A flat arrow on the floor round the feet, open behind them."""
    w, x, y = prop.number("w", 20.0), prop.number("x"), prop.number("y")
    round_it = [math.radians(200 + 300 * i / 26) for i in range(27)]
    way = [(x + w * math.cos(a), y + w * 0.22 * math.sin(a)) for a in round_it]
    runs: list[list[tuple[float, float]]] = [[]]
    for p in way[:-1]:
        if p[1] > y + 0.5 and abs(p[0] - x) < 9:
            runs.append([])
        else:
            runs[-1].append(p)
    yield from (Shape(WORLD, "arrow", line=tuple(run), width=1.8) for run in runs if len(run) > 1)
    (x0, y0), (x1, y1) = way[-3], way[-1]
    a = math.atan2(y1 - y0, x1 - x0)
    head = tuple((x1 + 3.4 * math.cos(a + q), y1 + 3.4 * math.sin(a + q), 0.5) for q in (0.0, 2.2, -2.2))
    yield Shape(WORLD, "arrow", head)


_BEHIND: dict[str, Callable[[Prop, Figure], Iterator[Shape]]] = {
    "mat": _mat, "wall": _wall, "doorway": _doorway, "door": _door, "anchor": _anchor, "worktop": _worktop,
    "step": _step, "rail": _rail, "bed": _bed, "chair": _chair,
}


def fists(figure: Figure) -> frozenset[str]:
    """Sides whose hand is closed round something."""
    found = {h for prop in figure.of_kind(*HELD) for h in prop.words("hands")}
    ends = [e for prop in figure.of_kind("band", "towel") for e in (*prop.ends("path"), *prop.ends("ends"))]
    return frozenset({*found, *(e[0] for e in ends if isinstance(e, str) and e.endswith(".palm"))})


