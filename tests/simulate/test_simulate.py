"""Simulated weeks: what must hold of everybody, and what is expected of each kind."""
from __future__ import annotations

from collections.abc import Iterator

import pytest

from app.storage.database import Store
from tests.sampling import is_whole
from tests.simulate.expectations import amiss
from tests.simulate.kinds import KINDS, WEEKS, Kind
from tests.simulate.life import coached, live

#: Five that between them move on, are held, hurt, miss, stop and are told of.
SAMPLED = ("perfect, with dumbbells", "nine every time", "a journey of three weeks", "falls", "pain 8 once")


@pytest.fixture(scope="module")
def handed_out() -> Iterator[tuple[Store, bytes]]:
    """A desk, and its programme."""
    with coached() as made:
        yield made


def test_there_are_at_least_forty_kinds_each_named_once() -> None:
    """And the sample is of them."""
    assert len({kind.name for kind in KINDS}) == len(KINDS) >= 40
    assert set(SAMPLED) <= {kind.name for kind in KINDS}


@pytest.mark.parametrize("kind", [k for k in KINDS if is_whole() or k.name in SAMPLED], ids=lambda k: k.name)
def test_weeks_with_a_kind_of_client_are_as_they_must_be(kind: Kind, handed_out: tuple[Store, bytes]) -> None:
    """Nobody gains with pain, nobody sits still for long untold, and whoever should be called is on the list."""
    desk, pack = handed_out
    assert amiss(live(kind, pack, desk, WEEKS if is_whole() else 12)) == []
