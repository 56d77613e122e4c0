"""Energy as a rounded range, on one basis at a time."""
from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.measures.energy import (
    OTHER_WORK,
    STRENGTH,
    STRETCHING,
    WARM_UP,
    Basis,
    Energy,
    Met,
    energy,
    session_energy,
)
from app.domain.model.plan import Part, Step, StepKind
from tests.domain import past

MINUTE = 60_000


def test_half_an_hour_of_strength_work_worked_out_by_hand() -> None:
    """3.5 × 3.5 × 70 × 30 / 200 = 128.625 kcal; less and more 30 %: 90.04 and 167.2, outwards to 90 and 170."""
    assert energy([(STRENGTH, 30 * MINUTE)], 70) == Energy(90, 170)


def test_on_the_basis_of_later_life_the_same_value_is_less() -> None:
    """3.5 × 2.7 × 70 × 30 / 200 = 99.225; 69.5 and 129.0, outwards to 60 and 130."""
    assert energy([(Met(35, Basis.SIXTY_PLUS, "x"), 30 * MINUTE)], 70) == Energy(60, 130)


def test_two_bases_are_never_added() -> None:
    """Not even where one of them lasts no time."""
    with pytest.raises(ValueError, match="two bases"):
        energy([(STRENGTH, MINUTE), (Met(30, Basis.SIXTY_PLUS, "x"), 0)], 70)


def test_the_minutes_of_a_session_are_shared_among_its_parts() -> None:
    """Planned 5, 10 and 5 minutes; it took 24: 6 × 2.8 + 12 × 3.5 + 6 × 2.3 = 72.6 MET minutes; × 3.5 × 80 / 200 =
    101.64 kcal; 71.1 and 132.1, outwards to 70 and 140. Without strength work 12 × 3.8 for 12 × 3.5: 106.68; 74.7 and
    138.7.
    """
    steps = tuple(Step(StepKind.WORK, part, at * MINUTE, length * MINUTE, "a")
                  for part, at, length in ((Part.WARM_UP, 0, 5), (Part.MAIN, 5, 10), (Part.COOL_DOWN, 15, 5)))
    plan = replace(past.plan(), steps=steps)
    assert session_energy(past.session(timeline=plan, took_s=24 * 60), 80) == Energy(70, 140)
    loose = replace(plan, strength=False)
    assert session_energy(past.session(timeline=loose, took_s=24 * 60), 80) == Energy(70, 140)
    assert session_energy(past.session(timeline=replace(plan, steps=()), took_s=60), 80) == Energy(0, 0)


@given(st.lists(st.tuples(st.sampled_from((WARM_UP, STRENGTH, OTHER_WORK, STRETCHING)), st.integers(0, 90 * MINUTE)),
                max_size=4), st.integers(30, 250))
def test_the_range_holds_the_estimate_and_is_rounded(parts: list[tuple[Met, int]], weight: int) -> None:
    """From 30 % below to 30 % above, to tens, and never a single number pretending to be exact."""
    got = energy(parts, weight)
    kcal = sum(met.tenths / 10 * 3.5 * weight * ms / MINUTE / 200 for met, ms in parts)
    assert got.least % 10 == got.most % 10 == 0
    assert got.least <= kcal * 0.7 + 1e-6 and got.most >= kcal * 1.3 - 1e-6
    assert got.most - got.least <= kcal * 0.6 + 20 + 1e-6
