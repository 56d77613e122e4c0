"""Figures are read as they were written, take over from one another, and are refused by name where they cannot be."""
from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from app.domain.errors import ContentError, UnknownName, UnreadableSource, WrongValue
from app.domain.figure.checking.figure_checks import failed
from app.domain.figure.rig import figure_form
from app.domain.figure.rig.figure_form import read_figure, read_figures
from app.domain.figure.rig.motion import FigureMotion
from tests.domain.figures import example


def read(*tables: Any) -> dict[str, Any]:
    """The figures of one file."""
    return read_figures({"some.json": json.dumps(tables).encode()})


def test_a_variant_takes_over_what_it_does_not_say() -> None:
    """Tables are merged, lists replaced, null removes; the id stays its own."""
    base = example("row")
    variant = {"id": "lower", "of": base["id"], "poses": {"long": {"lean": 40}, "rowed": {"neck": None}},
               "emphasis": ["lats"]}
    figures = read(base, variant)
    poses = {key.name: key.pose.channels for key in figures["lower"].keys}
    assert (poses["long"]["lean"], poses["long"]["r.knee"]) == (40, 22)
    assert poses["rowed"]["neck"] == 0
    assert [area.muscle for area in figures["lower"].emphasis] == ["lats"]
    assert figures["lower"].props == figures[base["id"]].props
    assert figures[base["id"]].keys[0].pose.channels["lean"] == 50


def test_a_pose_may_stand_on_another() -> None:
    """And a key may change single joints of it."""
    table = example("squat")
    table["poses"]["half"] = {"of": "low", "knee": 50}
    table["keys"][2].update(pose="half", set={"elbow": 30})
    pose = read_figure(table, "here").keys[2].pose.channels
    assert (pose["r.knee"], pose["l.elbow"], pose["lean"]) == (50, 30, 32)


def test_a_name_with_a_side_wins_over_one_without() -> None:
    """In whichever order they stand."""
    table = example("squat")
    table["poses"]["low"] = {"r.knee": 10, "knee": 90, "l.hip": 5, "hip": 70}
    pose = read_figure(table, "here").keys[2].pose.channels
    assert (pose["r.knee"], pose["l.knee"], pose["r.hip"], pose["l.hip"]) == (10, 90, 70, 5)


def _changed(**changes: Any) -> Callable[[dict[str, Any]], object]:
    return lambda d: d.update(changes)


WRONG: tuple[tuple[str, Callable[[dict[str, Any]], object]], ...] = (
    ("a key that there is not", _changed(colour="red")),
    ("a view that there is not", _changed(view="above")),
    ("no anchor", lambda d: d.pop("anchor")),
    ("an anchor that is no point", _changed(anchor={"part": "r.ear", "at": [0, 0]})),
    ("a joint that there is not", lambda d: d["poses"]["low"].update(ear=3)),
    ("a word for an angle", lambda d: d["poses"]["low"].update(knee="bent")),
    ("a pose that there is not", lambda d: d["keys"][1].update(pose="lower")),
    ("times that do not rise", lambda d: d["keys"][2].update(t=0.1)),
    ("a beginning that is not 0", lambda d: d["keys"][0].update(t=0.2)),
    ("one key alone", lambda d: d.update(keys=d["keys"][:1])),
    ("a round without end", lambda d: d["keys"][-1].update(t=61)),
    ("a pin of one number", lambda d: d["poses"]["low"].update(hand=[3])),
    ("a pin on a bone that there is not", lambda d: d["poses"]["low"].update(hand=[0, 0, 0, "r.ear"])),
    ("a muscle that there is not", _changed(emphasis=["tail"])),
    ("a thing that there is not", _changed(props=[{"type": "rope"}])),
    ("a thing within a thing", _changed(props=[{"type": "mat", "x": {"from": 1}}])),
    ("a touch of no point", _changed(contacts=[{"points": ["r.ear"], "t": [0, 1]}])),
    ("a pose that stands on itself", lambda d: d["poses"]["low"].update(of="low")),
)


@pytest.mark.parametrize("plant", [plant for _, plant in WRONG], ids=[name for name, _ in WRONG])
def test_what_cannot_be_is_refused_with_its_place(plant: Callable[[dict[str, Any]], object]) -> None:
    """The file and the figure are named, whatever is wrong."""
    table = example("squat")
    plant(table)
    with pytest.raises(ContentError) as refused:
        read(table)
    assert str(refused.value.what["where"]).startswith("some.json, figure example-squat")


def test_figures_that_lead_in_a_circle_or_nowhere_are_refused() -> None:
    """And so are two of one id, and one without."""
    with pytest.raises(WrongValue):
        read({"id": "a", "of": "b"}, {"id": "b", "of": "a"})
    with pytest.raises(UnknownName):
        read({"id": "a", "of": "nobody"})
    with pytest.raises(WrongValue):
        read(example("squat"), example("squat"))
    with pytest.raises(WrongValue):
        read({"title": "nameless"})


@pytest.mark.parametrize("data", [b"{", b"3", b"\xff\xfe", b"[" * 100_000])
def test_a_file_that_is_no_list_of_figures_is_refused(data: bytes) -> None:
    """With its name."""
    with pytest.raises((UnreadableSource, WrongValue)) as refused:
        read_figures({"some.json": data})
    assert "some.json" in str(refused.value.what["where"])


def test_the_example_of_the_description_is_one() -> None:
    """It can be read as it stands, and passes every check."""
    words = (Path(figure_form.__file__).parents[1] / "FIGURES.md").read_text("utf-8")
    written = words.split("```json\n")[1].split("```")[0]
    assert failed(FigureMotion(read_figure(json.loads(written), "FIGURES.md"))) == ()


def test_a_limb_held_in_one_pose_is_held_in_all() -> None:
    """Otherwise nobody would know where it goes."""
    table = example("push-up")
    table["poses"]["low"].pop("hand")
    with pytest.raises(WrongValue):
        FigureMotion(read_figure(table, "here"))
