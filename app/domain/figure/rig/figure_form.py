"""Figures read from the JSON that they are written in. The keys are described in `FIGURES.md`, one folder up.

A file holds one figure or a list of them. `"of": "other-id"` takes over the other one's keys: tables are merged, lists
replaced, `null` removes. A pose may stand on another in the same way.
"""
from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

from app.domain.errors import UnknownName, UnreadableSource, WrongValue
from app.domain.figure.rig import body_model as body
from app.domain.figure.rig.body_model import FigureView, Stance
from app.domain.figure.rig.figure_data import (
    Anchor,
    Area,
    Arrow,
    Ease,
    ExpectedOfFigure,
    Figure,
    FigureContact,
    Ground,
    Key,
    Prop,
    Repeat,
    Value,
)
from app.domain.figure.rig.muscles import MUSCLES
from app.domain.figure.rig.pose import FREE, read_pose
from app.domain.figure.rig.props import KINDS

Table = Mapping[str, Any]
_KEYS = frozenset({
    "id", "title", "of", "view", "seated", "facing", "alternate", "mirror", "anchor", "poses", "keys", "emphasis",
    "arrows", "props", "contacts", "checks", "bend", "pointed_toes", "arm_behind_head", "across", "near_arm", "hidden",
    "lengths", "travel",
    "easier_of", "easier", "note",
})
_DEEPEST, _LONGEST_S, _MOST_KEYS = 12, 60.0, 60


def read_figures(files: Mapping[str, bytes]) -> dict[str, Figure]:
    """Every figure in these files by its id, in the order of the files' names.

    Raises:
        UnreadableSource: a file that is no JSON.
        WrongValue, UnknownName: what it says cannot be; `where` names the file and the figure.
    """
    tables, places = figure_tables(files)
    return {known: read_figure(merged(tables, known, places), places[known]) for known in tables}


def figure_tables(files: Mapping[str, bytes]) -> tuple[dict[str, Table], dict[str, str]]:
    """The tables by id, as written, and where each stands.

    Raises:
        UnreadableSource, WrongValue: a file that is no JSON, no table, without an id, or an id that is there twice.
    """
    tables: dict[str, Table] = {}
    places: dict[str, str] = {}
    for file in sorted(files):
        for number, table in enumerate(_listed(files[file], file), 1):
            known = table.get("id") if isinstance(table, dict) else None
            if not isinstance(known, str) or not known or known in tables:
                raise WrongValue(where=f"{file}, figure {number}", value=known, expected="an id of its own")
            tables[known], places[known] = table, f"{file}, figure {known}"
    return tables, places


def _listed(data: bytes, file: str) -> list[Any]:
    try:
        found = json.loads(data)
    except (ValueError, RecursionError) as error:
        raise UnreadableSource(where=file, why=str(error)) from error
    found = found.get("figures", found.get("moves", [found])) if isinstance(found, dict) else found
    if not isinstance(found, list):
        raise UnreadableSource(where=file, why="no list of figures")
    return found


def merged(tables: Mapping[str, Table], known: str, places: Mapping[str, str]) -> dict[str, Any]:
    """The table of that id with everything that it takes over."""
    chain = [known]
    while (of := tables[chain[-1]].get("of")) is not None:
        if of not in tables:
            raise UnknownName(kind="figure", name=str(of), known=tuple(tables), where=places[chain[-1]])
        if of in chain or len(chain) > _DEEPEST:
            raise WrongValue(where=places[known], value=of, expected="a figure that does not lead back here")
        chain.append(of)
    table: dict[str, Any] = {}
    for one in reversed(chain):
        table = _over(table, {k: v for k, v in tables[one].items() if k not in ("of", "id")})
    return {**table, "id": known}


def _over(under: Table, over: Table) -> dict[str, Any]:
    out = dict(under)
    for key, value in over.items():
        if value is None:
            out.pop(key, None)
        elif isinstance(value, dict) and isinstance(out.get(key), dict):
            out[key] = _over(out[key], value)
        else:
            out[key] = value
    return out


def read_figure(table: Table, where: str) -> Figure:
    """One figure from its whole table.

    Raises:
        WrongValue, UnknownName: a key or a value that cannot be.
    """
    try:
        return _figure(table, where)
    except (KeyError, TypeError, IndexError, AttributeError) as error:
        raise WrongValue(where=where, value=str(error), expected="a figure as FIGURES.md describes it") from error
    except ValueError as error:
        raise WrongValue(where=where, value=str(error), expected="a number or one of the names") from error


def _figure(d: Table, where: str) -> Figure:
    stray = min(d.keys() - _KEYS, default=None)
    if stray is not None:
        raise UnknownName(kind="key", name=stray, known=tuple(sorted(_KEYS)), where=where)
    keys = tuple(_keys(d, where))
    repeat = Repeat.ALTERNATE if d.get("alternate") else Repeat.SAME
    round_s = keys[-1].at_s
    return Figure(
        d["id"], str(d.get("title", d["id"])), FigureView(d["view"]), _anchor(d["anchor"], where), keys,
        Stance.SEATED if d.get("seated") else Stance.UPRIGHT, _lengths(d.get("lengths", {}), where), repeat,
        tuple(_area(a, where) for a in d.get("emphasis", ())),
        tuple(_arrow(a) for a in d.get("arrows", ())),
        tuple(_prop(p, where) for p in d.get("props", ())),
        tuple(_contact(c, round_s, where) for c in d.get("contacts", ())),
        _asked(d.get("checks", {})), {k: int(v) for k, v in d.get("bend", {}).items()},
        bool(d.get("pointed_toes")), tuple(d.get("arm_behind_head", ())), tuple(d.get("across", ())),
        d.get("facing") == "away", d.get("near_arm") == "under_leg", d.get("mirror", True) is not False,
        str(d.get("hidden", "")), float(d.get("travel", 0.0)),
    )


def _keys(d: Table, where: str) -> Iterable[Key]:
    rows = d["keys"]
    if not 2 <= len(rows) <= _MOST_KEYS:
        raise WrongValue(where=where, value=len(rows), expected=f"2 to {_MOST_KEYS} keys")
    before = -1.0
    for number, k in enumerate(rows):
        at = float(k["t"])
        if not before < at <= _LONGEST_S or (number == 0 and at != 0):
            raise WrongValue(where=f"{where}, key {number + 1}", value=at, expected="seconds from 0 on, rising")
        before = at
        pose = _pose_table(d["poses"], k["pose"], where)
        yield Key(at, str(k["pose"]), read_pose(_over(pose, k.get("set", {})), where), float(k.get("effort", 0.25)),
                  Ease(k.get("ease", "stop")), str(k.get("cue", "")),
                  _anchor(k["anchor"], where) if "anchor" in k else None)


def _pose_table(poses: Table, name: str, where: str) -> dict[str, Any]:
    if name not in poses:
        raise UnknownName(kind="pose", name=str(name), known=tuple(poses), where=where)
    table = dict(poses[name])
    of = table.pop("of", None)
    if of == name:
        raise WrongValue(where=where, value=of, expected="another pose")
    return _over(_pose_table(poses, of, where), table) if of is not None else table


def _anchor(a: Table, where: str) -> Anchor:
    part = str(a["part"])
    known = {*body.skeleton(FigureView.FRONT, Stance.UPRIGHT).landmarks, *FREE}
    if part not in known:
        raise UnknownName(kind="anchor", name=part, known=tuple(sorted(known)), where=where)
    x, y = a.get("at", (0.0, 0.0)) if part == "root" else a["at"]
    return Anchor(part, (float(x), float(y)), float(a.get("pitch", 0.0)))


def _lengths(table: Table, where: str) -> tuple[tuple[str, float], ...]:
    found = {}
    for name in sorted(table, key=lambda n: n[:2] in ("r.", "l.")):
        bare = name[2:] if name[:2] in ("r.", "l.") else name
        if bare not in body.LENGTHS:
            raise UnknownName(kind="length", name=name, known=tuple(body.LENGTHS), where=where)
        found.update({f"{s}.{bare}": float(table[name]) for s in body.SIDES if bare == name or name[0] == s})
    return tuple(sorted(found.items()))


def _area(a: Any, where: str) -> Area:
    name = a if isinstance(a, str) else str(a["muscle"])
    if name not in MUSCLES:
        raise UnknownName(kind="muscle", name=name, known=tuple(sorted(MUSCLES)), where=where)
    sides = "both" if isinstance(a, str) else a.get("sides", "both")
    return Area(name, "" if sides == "both" else body.SIDES[body.SIDES.index(sides)])


def _arrow(a: Table) -> Arrow:
    start, end = map(float, a["t"])
    if "line" in a:
        return Arrow(start, end, line=tuple((float(x), float(y)) for x, y in a["line"]))
    x, y = a.get("shift", (0, 0))
    lo, hi = a.get("trim", (0.06, 0.94))
    return Arrow(start, end, str(a["track"]), (float(x), float(y)), str(a.get("axis", "")), (float(lo), float(hi)),
                 float(a.get("min_len", 15.0)))


def _prop(p: Table, where: str) -> Prop:
    kind = str(p["type"])
    if kind not in KINDS:
        raise UnknownName(kind="prop", name=kind, known=tuple(sorted(KINDS)), where=where)
    return Prop(kind, {k: _frozen(v) for k, v in p.items() if k != "type"})


def _frozen(value: Any) -> Value:
    if isinstance(value, list):
        return tuple(_frozen(v) for v in value)
    if isinstance(value, (int, float, str)):
        return value
    raise TypeError(f"a prop cannot hold {value!r}")


def _contact(c: Table, round_s: float, where: str) -> FigureContact:
    start, end = map(float, c.get("t", (0.0, round_s)))
    known = body.skeleton(FigureView.FRONT, Stance.UPRIGHT).landmarks
    points = tuple(map(str, c["points"]))
    stray = next((p for p in points if p not in known), None)
    if stray is not None:
        raise UnknownName(kind="point", name=stray, known=tuple(known), where=where)
    return FigureContact(points, start, end, str(c.get("on", "")))


def _asked(c: Table) -> ExpectedOfFigure:
    ground = Ground.NONE
    if c.get("balance"):
        ground = Ground.HAND if c.get("hand_support") else Ground.MOVING if c.get("moving_base") else Ground.STANDING
    window = c.get("balance_t")
    return ExpectedOfFigure(ground, (float(window[0]), float(window[1])) if window else None, bool(c.get("symmetric")))

