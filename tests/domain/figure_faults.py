"""Faults to plant into figures, one at a time, and the check that is to see each: in the poses, and in the export."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

from app.domain.figure.checking.figure_finding import FigureCheck

Table = dict[str, Any]


class FigureFault(NamedTuple):
    """One mistake that somebody could make while writing a figure."""

    name: str
    figure: str
    plant: Callable[[Table], object]
    seen_by: FigureCheck


class ExportFault(NamedTuple):
    """One mistake that an export could make."""

    name: str
    figure: str
    plant: Callable[[Table], object]
    seen_by: FigureCheck


def _pose(name: str, **changes: Any) -> Callable[[Table], object]:
    return lambda d: d["poses"][name].update({k.replace("__", "."): v for k, v in changes.items()})


def _every_pose(**changes: Any) -> Callable[[Table], object]:
    return lambda d: [pose.update(changes) for pose in d["poses"].values()]


def _key(number: int, **changes: Any) -> Callable[[Table], object]:
    return lambda d: d["keys"][number].update(changes)


def _prop(**changes: Any) -> Callable[[Table], object]:
    return lambda d: d["props"][0].update(changes)


def _frozen(d: Table) -> None:
    for key in d["keys"]:
        key["pose"] = d["keys"][0]["pose"]


def _no_lean(d: Table) -> None:
    d["poses"]["nose_over_toes"].update(lean=2, hip=82.5)


def _squeezed(d: Table) -> None:
    for number, key in enumerate(d["keys"]):
        key["t"] = number * 0.2


def _leaping(d: Table) -> None:
    d["anchor"] = {"part": "root"}
    for name, pose in d["poses"].items():
        pose["root"] = [0, 53] if name == "stand" else [0, 30]
    d["keys"][2]["t"] = 0.5


def _hands_in_face(d: Table) -> None:
    d["poses"]["low"].update(elbow=141, shoulder=118)


FAULTS: tuple[FigureFault, ...] = (
    FigureFault("a knee bends the wrong way", "squat", _pose("low", knee=-94), FigureCheck.LIMIT),
    FigureFault("the hip is too open: it would fall backwards", "squat", _pose("low", lean=8), FigureCheck.BALANCE),
    FigureFault("the end differs from the beginning", "squat", _key(-1, pose="low"), FigureCheck.LOOP),
    FigureFault("one leg is forgotten", "squat", _pose("low", l__knee=60), FigureCheck.SYMMETRY),
    FigureFault("held at the pelvis, the feet slide", "squat",
                lambda d: d.update(anchor={"part": "pelvis", "at": [0, 53]}), FigureCheck.DRIFT),
    FigureFault("a descent squeezed to a flash", "squat", _key(2, t=0.6), FigureCheck.SPEED),
    FigureFault("the floor lies 3 %H under the feet", "squat", lambda d: d["anchor"].update(at=[0, 3]),
                FigureCheck.GAP),
    FigureFault("the feet are sunk into the floor", "squat", lambda d: d["anchor"].update(at=[0, -2]),
                FigureCheck.FLOOR),
    FigureFault("the hands go through the head", "squat", _hands_in_face, FigureCheck.FACE),
    FigureFault("nothing moves", "squat", _frozen, FigureCheck.STILL),
    FigureFault("a round is over in a second", "squat", _squeezed, FigureCheck.ROUND),
    FigureFault("nothing lights up", "squat", lambda d: d.update(emphasis=[]), FigureCheck.LIT),
    FigureFault("the whole body drops", "squat", _leaping, FigureCheck.LEAP),
    FigureFault("the hands are held beyond reach", "push-up", _every_pose(hand=[70, 1.9, 84]), FigureCheck.REACH),
    FigureFault("the hands are held under the mat", "push-up", _every_pose(hand=[46, -2, 84]), FigureCheck.FLOOR),
    FigureFault("the toes go through the mat", "push-up", _every_pose(ankle=-20), FigureCheck.FLOOR),
    FigureFault("an elbow bends the wrong way", "wall-push", lambda d: d.update(bend={"r.hand": -1, "l.hand": -1}),
                FigureCheck.LIMIT),
    FigureFault("the wall stands too far away", "wall-push", _prop(x=56), FigureCheck.GAP),
    FigureFault("the seat is lower than the sitter", "rise", _prop(seat=21), FigureCheck.GAP),
    FigureFault("it rises without leaning", "rise", _no_lean, FigureCheck.BALANCE),
    FigureFault("the head sinks into the mat", "bridge", _pose("up", neck=0), FigureCheck.FLOOR),
    FigureFault("it rises to the toes without going over them", "calf-raise",
                lambda d: d["poses"]["ready"].update(d["poses"]["flat"]), FigureCheck.BALANCE),
    FigureFault("a hand floats beside the chair", "calf-raise", _every_pose(hand=[20, 58, 62]), FigureCheck.GAP),
    FigureFault("a step lands elsewhere", "lunge", _pose("low", l__foot=[-40, 0, -54]), FigureCheck.DRIFT),
    FigureFault("a foot is dragged through the floor", "lunge", _pose("step", l__foot=[-22, -2, -30]),
                FigureCheck.FLOOR),
    FigureFault("the beginning is not the same for both sides", "side-bend", _pose("tall", l__shoulder=40),
                FigureCheck.SWAP),
    FigureFault("a bend goes too far", "side-bend", _pose("bent", spine=48), FigureCheck.LIMIT),
    FigureFault("a dumbbell is in one hand alone", "row", _prop(hands=["r"]), FigureCheck.HANDS),
    FigureFault("a dumbbell is in no hand", "row", _prop(hands=[]), FigureCheck.HANDS),
    FigureFault("a band hangs slack", "band-row", lambda d: d["props"][1].update(rest=60), FigureCheck.STRETCH),
    FigureFault("an arrow makes the figure tiny", "squat",
                lambda d: d["arrows"][0].update(shift=[-200, 0]), FigureCheck.THICKNESS),
)


def _layer(document: Table, name: str) -> Table:
    return next(layer for layer in document["layers"] if layer.get("nm") == name)


def _shifted(name: str, down: float) -> Callable[[Table], object]:
    def plant(document: Table) -> None:
        place = _layer(document, name)["ks"]["p"]
        place["k"] = [place["k"][0], place["k"][1] + down]
    return plant


def _thinned(document: Table) -> None:
    down = _layer(document, "root")["ks"]["p"]["y"]
    down["k"] = [down["k"][0], down["k"][3], down["k"][-1]]


def _unturned(document: Table) -> None:
    _layer(document, "r.shank")["ks"].pop("r")


def _late(document: Table) -> None:
    for key in _layer(document, "pelvis")["ks"]["r"]["k"]:
        key["t"] += 12


def _unparented(document: Table) -> None:
    _layer(document, "r.foot")["parent"] = _layer(document, "root")["ind"]


EXPORT_FAULTS: tuple[ExportFault, ...] = (
    ExportFault("a shin hangs 1 %H too low", "squat", _shifted("r.foot", 1.0), FigureCheck.LENGTH),
    ExportFault("keyframes of the root are lost", "squat", _thinned, FigureCheck.DRIFT),
    ExportFault("a knee no longer turns", "squat", _unturned, FigureCheck.DRIFT),
    ExportFault("the pelvis turns a moment late", "squat", _late, FigureCheck.DRIFT),
    ExportFault("a foot hangs on the wrong frame", "rise", _unparented, FigureCheck.LENGTH),
)
