"""Every shipped figure can be shown with every body, and no joint is moved by it."""
from __future__ import annotations

import json
from typing import Any

import pytest

from app.domain.figure.build import still_pair
from app.domain.figure.drawing.dressed import DRESSES, dressed
from app.domain.figure.drawing.picture import Picture, read_picture
from app.domain.figure.rig.hull import outside
from app.domain.model.figure_body import FigureBody
from tests.domain.figures import exported, motion_of, shipped_tables

BEYOND_HEAD = 2.0
"""How far hair may reach beyond the round of the head, %H, or a margin that was checked would not hold."""


def drawn(name: str) -> Picture:
    """A shipped figure as it comes out of a pack."""
    table = shipped_tables()[name]
    start, turn = still_pair(motion_of(table))
    found = read_picture(name, exported(table).encode(), start.encode(), turn.encode())
    assert found
    return found


def parted(lottie: str) -> tuple[list[Any], list[Any]]:
    """The frames that the bones are, and everything that hangs on them."""
    layers = json.loads(lottie)["layers"]
    return [one for one in layers if one["ty"] == 3], [one for one in layers if one["ty"] != 3]


def hulls(text: str) -> int:
    """How many there are in a still or an animation."""
    return text.count(' fill="@') + text.count('"ty":"fl"')


@pytest.mark.whole(keep=12)
@pytest.mark.parametrize("name", sorted(shipped_tables()))
def test_a_body_changes_what_is_drawn_and_no_joint(name: str) -> None:
    """In the animation and in both stills; hair, face and the broad trunk among it."""
    plain = drawn(name)
    frames, shapes = parted(plain.lottie)
    assert dressed(plain, FigureBody.SILVER) is plain
    for body, dress in DRESSES.items():
        one = dressed(plain, body)
        assert dressed(plain, body) is one
        own_frames, own_shapes = parted(one.lottie)
        assert own_frames == frames and len(own_shapes) == len(shapes)
        for before, after in ((plain.lottie, one.lottie), (plain.start, one.start), (plain.turn, one.turn)):
            assert '"@skin"' in before and not any(f'"@{role}"' in after for role in dress.colours)
            assert all(role in after for role in dress.colours.values() if role != "paleface")
            assert hulls(after) > hulls(before)
    assert len({dressed(plain, body).start for body in FigureBody}) == len(FigureBody)


def test_each_body_that_can_be_chosen_is_drawn() -> None:
    assert {"silver", *DRESSES} == set(FigureBody)


def test_hair_stays_within_the_margin_of_the_picture() -> None:
    for dress in DRESSES.values():
        for (role, old), new in dress.hulls:
            if role in ("hair", "skin"):
                for _, circles in new:
                    assert all(outside(old, (x, y)) + r <= BEYOND_HEAD for x, y, r in circles)
