"""A figure as a Lottie animation: frames for the bones, and hulls that hang on them.

Colours are left open as `"@role"`, so that one file serves every theme; `colours` puts them in.
"""
from __future__ import annotations

import json
from collections.abc import Iterator
from itertools import groupby
from typing import Any

from app.domain.figure.drawing.arrow import FADE_S, WIDTH, arrow_head, arrow_line, turned_over
from app.domain.figure.drawing.display import Display, floor
from app.domain.figure.drawing.keyframes import FRAMES_S, Channel, Piece, Sampled, keyframes, short, static
from app.domain.figure.drawing.lottie_layers import (
    NULL,
    SHAPE,
    Json,
    fill,
    group,
    held,
    hull_path,
    layer,
    line_path,
    line_value,
    linear,
    stroke,
    transform,
)
from app.domain.figure.drawing.picture_frame import SIZE, face_shift, fit
from app.domain.figure.drawing.still import moments
from app.domain.figure.rig.figure_data import Arrow, Figure, Repeat
from app.domain.figure.rig.links import way
from app.domain.figure.rig.motion import FigureMotion
from app.domain.figure.rig.shapes import FACE, FLOOR, MASK, NECK, OTHER_EYE, WORLD, Shape, far_shift
from app.domain.figure.rig.solve import attachment

VERSION = 2
"""Of the export; raised when the same source gives another file."""
ABOUT = "figure"
"""The key under which a file says what a player must know of it."""
_PLACE_H, _TURN_DEG, _STRENGTH = 0.04, 0.12, 1.5
_LINK_HZ, _FLOOR_HZ = 15, 30


def lottie(motion: FigureMotion) -> str:
    """The file. The same figure gives the same text."""
    return json.dumps(_Export(motion).document(), separators=(",", ":"), ensure_ascii=True)


class _Export:
    def __init__(self, motion: FigureMotion) -> None:
        self.motion, self.figure = motion, motion.figure
        self.shapes = Display(motion.figure).shapes
        self.fit = fit(motion, self.shapes)
        self.sampled = Sampled(motion)
        self.ends = short(self.figure.period_s * FRAMES_S)
        self.frames: dict[str, int] = {}
        self.bones = {bone.name: bone for bone in motion.skeleton.bones}

    def document(self) -> Json:
        """Everything. The first layer of a file is the front one."""
        frames = list(self._frames())
        drawn = [*self._bodies(), *self._arrows()]
        start, turn = moments(self.figure)
        figure = self.figure
        return {
            "v": "5.7.0", "fr": FRAMES_S, "ip": 0, "op": self.ends, "w": SIZE, "h": SIZE, "nm": figure.id, "ddd": 0,
            ABOUT: {
                "version": VERSION, "round_ms": round(figure.round_s * 1000),
                "alternates": figure.repeat is Repeat.ALTERNATE, "mirrors": figure.mirrors,
                "start_frame": short(start * FRAMES_S), "turn_frame": short(turn * FRAMES_S),
                "works": list(dict.fromkeys(area.muscle for area in figure.emphasis)), "hidden": figure.hidden,
            },
            "assets": [], "layers": [*reversed(drawn), *frames], "markers": list(_markers(figure)),
        }

    # -------------------------------------------------------------- frames

    def _frame(self, name: str, parent: str, moves: Json) -> Json:
        self.frames[name] = len(self.frames) + 1
        return layer(self.frames[name], NULL, self.ends, moves, self.frames.get(parent), name)

    def _frames(self) -> Iterator[Json]:
        place = self.fit
        yield self._frame(WORLD, "", transform(static([short(place.ox), short(place.oy)]),
                                               scale=static([short(place.scale * 100, 3)] * 2)))
        if self.figure.stride:
            yield self._frame(FLOOR, WORLD, transform(self._going_back()))
        yield self._frame("root", WORLD, transform(self._place(
            lambda s: s.places["pelvis"][0], lambda s: -s.places["pelvis"][1])))
        for name in self.bones:
            yield self._bone(name)
        yield self._frame(NECK, "head", transform(turn=self._turn(
            lambda s: (s.turns["head"] - s.turns["thorax"]) / 2)))
        for part in (FACE, MASK, OTHER_EYE):
            yield self._frame(part, "head", transform(self._place(
                lambda s, part=part: face_shift(self.figure, s, part)[0], lambda s: 0.0)))  # type: ignore[misc]

    def _bone(self, name: str) -> Json:
        bone = self.bones[name]
        if not bone.parent:
            return self._frame(name, "root", transform(turn=self._turn(lambda s: -s.turns[name])))
        aside = far_shift(self.figure.view, name)
        if aside != (0.0, 0.0) and name.endswith((".thigh", ".upper_arm")):
            place = self._place(lambda s: s.places[name][0] - s.places["pelvis"][0] + aside[0],
                                lambda s: s.places["pelvis"][1] - s.places[name][1] - aside[1])
            return self._frame(name, "root", transform(place, self._turn(lambda s: -s.turns[name])))
        skeleton, parent = self.motion.skeleton, bone.parent
        place = self._place(lambda s: attachment(skeleton, s.angles, name, bone.at)[0],
                            lambda s: -attachment(skeleton, s.angles, name, bone.at)[1])
        return self._frame(name, parent, transform(place, self._turn(lambda s: s.turns[parent] - s.turns[name])))

    def _turn(self, channel: Channel) -> Json:
        return keyframes(self.sampled.pieces(channel, _TURN_DEG), _TURN_DEG)

    def _place(self, x: Channel, y: Channel) -> Json:
        """Two numbers over time, or one place."""
        across, down = (keyframes(self.sampled.pieces(f, _PLACE_H), _PLACE_H) for f in (x, y))
        if not across["a"] and not down["a"]:
            return static([across["k"], down["k"]])
        return {"s": True, "x": across, "y": down}

    def _going_back(self) -> Json:
        """A floor that goes back and, mark for mark, begins anew."""
        step, count = self.figure.stride, round(self.figure.period_s * _FLOOR_HZ)
        gone = [self.motion.at(i * self.figure.period_s / count).angles["travel"] % step for i in range(count)]
        return {"a": 1, "k": [held(i * self.figure.period_s / count * FRAMES_S, [short(-x), 0])
                              for i, x in enumerate(gone)]}

    # -------------------------------------------------------------- bodies

    def _bodies(self) -> Iterator[Json]:
        everything = (floor(self.fit.left, self.fit.right), *self.shapes)
        for (bone, lights, half, link), run in groupby(everything, lambda s: (s.bone, s.lights, s.half, bool(s.ends))):
            paints = [self._link(shape) if link else _painted(shape) for shape in run]
            strength = self._strength(half) if lights else None
            yield self._layer(bone, transform(strength=strength), paints[::-1])

    def _layer(self, parent: str, moves: Json, shapes: list[Json]) -> Json:
        self.frames[f"shape {len(self.frames)}"] = number = len(self.frames) + 1
        return layer(number, SHAPE, self.ends, moves, self.frames[parent], shapes=shapes)

    def _link(self, shape: Shape) -> Json:
        period = self.figure.period_s
        count = max(2, round(period * _LINK_HZ))
        keys: list[Json] = []
        for i in range(count + 1):
            state = self.motion.at(min(period * i / count, period - 1e-9))
            key = linear(period * i / count * FRAMES_S, line_value(way(self.figure, shape, state)))
            if len(keys) > 1 and keys[-1]["s"] == key["s"] == keys[-2]["s"]:
                keys[-1] = key
            else:
                keys.append(key)
        path = {"ty": "sh", "ks": {"a": 1, "k": keys}}
        if all(key["s"] == keys[0]["s"] for key in keys):
            path = {"ty": "sh", "ks": static(keys[0]["s"][0])}
        return group(path, stroke(shape.role, shape.width, shape.alpha))

    def _strength(self, half: int | None) -> Json:
        """How strongly a muscle lights up; in one half alone where sides take turns."""
        if half is None or self.figure.repeat is not Repeat.ALTERNATE:
            return keyframes(self.sampled.pieces(lambda s: 100 * s.effort, _STRENGTH), _STRENGTH, 0)
        start, long = half * self.figure.round_s, self.figure.round_s
        pieces = [p for p in self.sampled.pieces(lambda s: 100 * s.effort, _STRENGTH)
                  if start - 1e-6 <= p.start < start + long - 1e-6]
        return _only_then(pieces, start * FRAMES_S, (start + long) * FRAMES_S)

    # -------------------------------------------------------------- arrows

    def _arrows(self) -> Iterator[Json]:
        halves = (0, 1) if self.figure.repeat is Repeat.ALTERNATE else (0,)
        for half in halves:
            for arrow in self.figure.arrows:
                line = arrow_line(self.motion, arrow)
                line = turned_over(self.figure.view, line) if half else line
                shapes = [group(hull_path(arrow_head(line)), fill("arrow", 1)),
                          group(line_path(line), stroke("arrow", WIDTH))]
                yield self._layer(WORLD, transform(strength=_flash(arrow, half * self.figure.round_s)), shapes)


def _painted(shape: Shape) -> Json:
    if shape.line:
        return group(line_path(shape.line), stroke(shape.role, shape.width, shape.alpha))
    return group(hull_path(shape.circles), fill(shape.role, shape.alpha))


def _only_then(pieces: list[Piece], start: float, end: float) -> Json:
    """Keyframes of one half, and nothing outside it. Frames."""
    shown = keyframes(pieces, _STRENGTH, 0)
    keys: list[Json] = list(shown["k"]) if shown["a"] else [linear(start, shown["k"])]
    last = keys.pop() if len(keys) > 1 else keys[-1]
    keys.append({"t": short(end - 0.5, 1), "s": last["s"], "h": 1})
    keys.append({"t": short(end), "s": [0], "h": 1})
    return {"a": 1, "k": [held(0, 0), *keys] if start else keys}


def _flash(arrow: Arrow, after: float) -> Json:
    start, end, fade = arrow.start_s + after, arrow.end_s + after, min(FADE_S, (arrow.end_s - arrow.start_s) / 2)
    keys = [(start, 0), (start + fade, 100), (end - fade, 100), (end, 0)]
    return {"a": 1, "k": [linear(t * FRAMES_S, value) for t, value in keys]}


def _markers(figure: Figure) -> Iterator[dict[str, Any]]:
    """Where the cue of a key is said."""
    halves = (0.0, figure.round_s) if figure.repeat is Repeat.ALTERNATE else (0.0,)
    for after in halves:
        for before, key in zip(figure.keys, figure.keys[1:], strict=False):
            if key.cue:
                yield {"cm": key.cue, "tm": short((before.at_s + after) * FRAMES_S),
                       "dr": short((key.at_s - before.at_s) * FRAMES_S)}

