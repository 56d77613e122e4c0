"""The files of a figure: the same bytes every time, every colour open, tempo and side changeable."""
from __future__ import annotations

import json
import re
import subprocess
import sys
import xml.etree.ElementTree as ET

import pytest

from app.domain.errors import BadFigure
from app.domain.figure.build import build_figure, fingerprint
from app.domain.figure.drawing.colours import GROUND, ROLES, recoloured_lottie, recoloured_svg
from app.domain.figure.drawing.lottie_reader import ExportedFigure
from app.domain.figure.drawing.picture import (
    FASTEST,
    SLOWEST,
    Picture,
    at_tempo,
    read_picture,
    turned_round,
    turned_round_svg,
)
from app.domain.figure.drawing.picture_frame import SIZE
from app.domain.figure.rig.hull import arcs, curve, outside
from tests.domain.figures import NAMES, example, exported, motion_of

COLOURS = dict.fromkeys((GROUND, *ROLES), "#804020")


def picture(name: str) -> Picture:
    """An example as it would come out of a pack."""
    made = build_figure(example(name), name)
    found = read_picture(name, made.moving, made.start, made.turn)
    assert found is not None
    return found


@pytest.mark.parametrize("name", NAMES)
def test_a_figure_gives_the_same_bytes_every_time(name: str) -> None:
    """Also where the words of its table stand in another order."""
    table = example(name)
    other = dict(reversed(table.items()))
    assert build_figure(table, name) == build_figure(other, name)
    assert fingerprint(table) == fingerprint(other)


def test_it_gives_the_same_bytes_in_another_process() -> None:
    """Whatever the seed of hashing there."""
    code = ("import hashlib; from tests.domain.figures import example, exported; "
            "print(hashlib.sha256(exported(example('lunge')).encode()).hexdigest())")
    told = {subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True,
                           env={"PYTHONHASHSEED": seed, "PYTHONPATH": "."}).stdout for seed in ("1", "2")}
    assert len(told) == 1


def test_any_change_of_a_table_changes_its_fingerprint() -> None:
    """So that nothing old is taken for it."""
    table = example("squat")
    table["poses"]["low"]["knee"] += 0.1
    assert fingerprint(table) != fingerprint(example("squat"))


@pytest.mark.parametrize("name", NAMES)
def test_every_colour_is_open_and_can_be_put_in(name: str) -> None:
    """No role is unknown, and none is left over."""
    whole = picture(name)
    for svg in (whole.start, whole.turn):
        assert "@" in svg
        assert "@" not in recoloured_svg(svg, COLOURS, 0.5)
        ET.fromstring(recoloured_svg(svg, COLOURS, 0.5))
    moving = recoloured_lottie(whole.lottie, COLOURS, 0.5)
    assert '"@' not in moving
    json.loads(moving)


@pytest.mark.parametrize("name", NAMES)
def test_an_animation_is_one_that_a_player_can_follow(name: str) -> None:
    """Numbers of layers are there once, parents exist, keyframes rise and lie within the round."""
    document = json.loads(exported(example(name)))
    numbers = [layer["ind"] for layer in document["layers"]]
    assert len(numbers) == len(set(numbers))
    for layer in document["layers"]:
        assert layer.get("parent") is None or layer["parent"] in numbers
        for keys in _keyframes(layer):
            times = [key["t"] for key in keys]
            assert times == sorted(times)
            assert times[0] >= 0
            assert times[-1] <= document["op"]


def _keyframes(value: object) -> list[list[dict[str, float]]]:
    if isinstance(value, list):
        return [found for one in value for found in _keyframes(one)]
    if isinstance(value, dict):
        own = [value["k"]] if value.get("a") == 1 else []
        return own + [found for one in value.values() for found in _keyframes(one)]
    return []


def test_a_bad_figure_is_not_built() -> None:
    """It is refused with what was found."""
    table = example("squat")
    table["poses"]["low"]["knee"] = -94
    with pytest.raises(BadFigure) as refused:
        build_figure(table, "figures/some.json, figure mine")
    assert refused.value.what["where"] == "figures/some.json, figure mine"
    assert refused.value.what["findings"]


@pytest.mark.parametrize(("rep_ms", "pace"), [(2400, 2.0), (4800, 1.0), (9600, 0.5), (60_000, SLOWEST),
                                              (500, FASTEST), (0, 1.0)])
def test_a_round_lasts_a_repetition_within_reason(rep_ms: int, pace: float) -> None:
    """Twice as fast at the most; as authored for a hold."""
    whole = picture("squat")
    assert whole.round_ms == 4800
    assert json.loads(at_tempo(whole, whole.lottie, rep_ms))["fr"] == pytest.approx(60 * pace)


def test_turned_round_everything_lies_on_the_other_side() -> None:
    """Of the picture's middle, in the animation and in the still; turned twice it is as it was."""
    whole = picture("band-row")
    one, other = (json.loads(text) for text in (whole.lottie, turned_round(whole.lottie)))
    (x, y), (u, v) = (ExportedFigure(json.dumps(d)).frames["world"]["ks"]["p"]["k"] for d in (one, other))
    assert (x + u, y) == (pytest.approx(SIZE), v)
    assert json.loads(turned_round(turned_round(whole.lottie))) == one
    across, x = _places(whole.turn)
    assert _places(turned_round_svg(whole.turn)) == pytest.approx([-across, SIZE - x])


def _places(svg: str) -> list[float]:
    found = re.search(r"matrix\((\S+) 0 0 \S+ (\S+) \S+\)", svg)
    assert found
    return [float(found[1]), float(found[2])]


def test_a_file_made_elsewhere_is_no_picture() -> None:
    """A pack may hold any file; only ours say what a player must know."""
    for moving in (b"{}", b"no json", b"\xff", b'{"figure":{}}', b'{"figure":3}', b"[]"):
        assert read_picture("x", moving, b"<svg/>", b"<svg/>") is None


def test_a_hull_holds_its_circles_and_no_more() -> None:
    """Every circle lies within, touching where it is outermost."""
    circles = ((0.0, 0.0, 5.0), (0.0, -10.0, 4.0), (2.0, -24.0, 3.0))
    for x, y, r in circles:
        assert outside(circles, (x, y)) <= -r + 0.05
    assert outside(circles, (9.0, 0.0)) == pytest.approx(4.0, abs=0.05)
    for node in curve(circles):
        assert abs(outside(circles, node.at, 720)) < 0.05
    assert len(arcs(((1.0, 2.0, 3.0), (1.0, 2.0, 1.0)))) == 1


def test_a_round_shows_its_cues() -> None:
    """Where each is said stands in the file."""
    document = json.loads(exported(example("squat")))
    assert [mark["cm"] for mark in document["markers"]] == ["lower", "hold", "rise"]
    assert motion_of(example("squat")).figure.period_s * document["fr"] == document["op"]
