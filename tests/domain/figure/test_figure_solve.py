"""Poses become bodies: limbs reach where they are held, nothing overshoots, a mirror turned twice changes nothing."""
from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from app.domain.figure.rig.body_model import FOREARM, SHANK, THIGH, UPPER_ARM, FigureView, Stance, distance, skeleton
from app.domain.figure.rig.figure_data import Ease, Key, Pose
from app.domain.figure.rig.pose import track
from app.domain.figure.rig.solve import mirrored, reach, wrapped
from tests.domain.figures import NAMES, example, motion_of

places = st.floats(-40, 40)


@given(places, places, st.sampled_from(((UPPER_ARM, FOREARM), (THIGH, SHANK))), st.sampled_from((1, -1)))
def test_a_limb_ends_where_it_is_held(x: float, y: float, lengths: tuple[float, float], bend: int) -> None:
    """Within its reach exactly, beyond it short by just what is missing, and bent to the side that was asked for."""
    upper, lower = lengths
    away = math.hypot(x, y)
    assume(away > abs(upper - lower) + 0.1)
    turn, more, miss = reach((0, 0), (x, y), upper, lower, bend)
    a, b = math.radians(turn), math.radians(turn + more)
    end = (upper * math.sin(a) + lower * math.sin(b), -upper * math.cos(a) - lower * math.cos(b))
    assert distance(end, (x, y)) == pytest.approx(miss, abs=1e-3)
    assert miss == pytest.approx(max(0.0, away - (upper + lower)), abs=1e-3)
    assert more * bend >= 0


@given(st.lists(st.tuples(st.floats(0.2, 3), st.floats(-100, 100), st.sampled_from(Ease)), min_size=2, max_size=8))
def test_a_way_passes_its_keys_and_never_overshoots(keys: list[tuple[float, float, Ease]]) -> None:
    """Between two keys it stays between their values."""
    at, rows = 0.0, []
    for step, value, ease in keys:
        rows.append((Key(at, "", Pose({}, {}), ease=ease), value))
        at += step
    found = track([key for key, _ in rows], [value for _, value in rows])
    for (one, a), (other, b) in itertools.pairwise(rows):
        assert found(one.at_s) == pytest.approx(a)
        for i in range(1, 12):
            value = found(one.at_s + (other.at_s - one.at_s) * i / 12)
            assert min(a, b) - 1e-6 <= value <= max(a, b) + 1e-6


@given(st.floats(-2000, 2000))
def test_a_direction_is_the_same_within_one_turn(degrees: float) -> None:
    """Above -180 and up to 180."""
    assert -180 < wrapped(degrees) <= 180
    assert math.cos(math.radians(degrees - wrapped(degrees))) == pytest.approx(1)


@pytest.mark.parametrize("name", NAMES)
def test_a_mirror_turned_twice_changes_nothing(name: str) -> None:
    """For both views."""
    motion = motion_of(example(name))
    state = motion.at(motion.figure.round_s / 3)
    twice = mirrored(mirrored(state))
    assert twice.places == state.places
    assert twice.turns == state.turns
    assert twice.angles == state.angles


@pytest.mark.parametrize("view", FigureView)
def test_a_body_weighs_one_and_hangs_together(view: FigureView) -> None:
    """Shares of the mass add up; parents come before what hangs in them."""
    body = skeleton(view, Stance.UPRIGHT)
    assert sum(share for _, share, _ in body.masses) == pytest.approx(1, abs=0.01)
    known: set[str] = {""}
    for bone in body.bones:
        assert bone.parent in known
        known.add(bone.name)


def test_a_hand_held_on_a_thigh_goes_with_it() -> None:
    """Its palm stays at the same place of the bone, whatever the body does."""
    table = example("rise")
    for pose in table["poses"].values():
        pose["hand"] = [2.0, -14.0, 60, "r.thigh"]
    motion = motion_of(table)
    for i in range(20):
        state = motion.at(motion.figure.round_s * i / 20)
        if state.miss == 0:
            assert distance(state.point("r.palm"), state.local("r.thigh", (2.0, -14.0))) < 1e-6


def test_a_hand_goes_from_one_hold_to_another_without_a_leap() -> None:
    """From the thigh to the room and back."""
    table = example("rise")
    for name, pose in table["poses"].items():
        pose["hand"] = [30, 60, 80] if name == "stand" else [2.0, -14.0, 60, "r.thigh"]
    motion = motion_of(table)
    step = motion.figure.round_s / 600
    points = [motion.at(i * step).point("r.palm") for i in range(601)]
    assert max(distance(a, b) for a, b in itertools.pairwise(points)) < 1.5
