"""Ten minutes are enough for a whole small session, for anybody who may train."""
from __future__ import annotations

import pytest

from app.domain.errors import TooShort
from app.domain.model.client import Client, Condition, Place
from app.domain.model.plan import Part
from tests.domain.shipped import SESSIONS, compiled, efforts
from tests.sampling import is_whole, spread

TEN = Place(minutes=10)
SOME = tuple(SESSIONS if is_whole() else spread(SESSIONS, 12))


def body(condition: Condition, limb: str = "") -> Client:
    """Somebody with that condition, who lives as it makes one live."""
    side = "left" if condition is Condition.ONE_SIDE else ""
    return Client(conditions=frozenset({condition}), rises_unaided=condition is not Condition.CANNOT_RISE,
                  rest_side=side, rest_limb=limb if side else "", rest_side_because="plaster" if side else "")


BODIES = [Client(), *(body(c) for c in Condition if c is not Condition.ONE_SIDE),
          *(body(Condition.ONE_SIDE, limb) for limb in ("arm", "leg", ""))]


@pytest.mark.parametrize("session", SESSIONS)
def test_b7_ten_minutes_always_give_a_session_with_a_warm_up(session: str) -> None:
    """Every session, every condition: it fits, it warms up, and of the main part there is what the whole one has."""
    for client in BODIES:
        got, full = compiled(session, client, TEN), compiled(session, client)
        assert 0 < got.total_ms <= 600_000
        for part in Part:
            assert bool(efforts(got, part)) == bool(efforts(full, part)), (client, part)


@pytest.mark.parametrize("session", SOME)
def test_less_than_ten_minutes_are_refused_where_rounds_and_extras_are_not_enough(session: str) -> None:
    """And ten are named, or less where less is enough."""
    try:
        got = compiled(session, place=Place(minutes=9))
        assert got.total_ms <= 540_000
    except TooShort as short:
        assert 540 < int(str(short.what["least_s"])) <= 600


@pytest.mark.parametrize("session", SOME)
def test_what_goes_for_want_of_time_says_so(session: str) -> None:
    """Each station that a whole session would have."""
    got, full = compiled(session, place=TEN), compiled(session)
    gone = {s.exercise for s in efforts(full)} - {s.exercise for s in efforts(got)}
    assert gone <= {out.exercise for out in got.left_out if out.because == ("minutes",)}
