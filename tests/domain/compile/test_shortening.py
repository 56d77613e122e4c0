"""What goes for want of time, and in which order; ten minutes are enough for a whole small session, for anybody."""
from __future__ import annotations

import pytest

from app.domain.errors import TooShort
from app.domain.model.client import Client, Condition, Place
from app.domain.model.exercise import Axis
from app.domain.model.plan import Part, StepSide
from app.domain.model.rules import RuleId
from app.domain.model.session import Block, BlockKind, Item
from tests.domain.compile.test_timeline import circuit, exercise, plan
from tests.domain.dosing.test_dose import AT_LEVEL, KNEE, but
from tests.domain.shipped import SESSIONS, WELL, compiled, effort_ms, efforts, order, sum_ms
from tests.sampling import is_whole, spread

TEN = Place(minutes=10)
SOME = tuple(SESSIONS if is_whole() else spread(SESSIONS, 8))


def body(condition: Condition, limb: str = "") -> Client:
    """Somebody with that condition, who lives as it makes one live."""
    side = "left" if condition is Condition.ONE_SIDE else ""
    return Client(conditions=frozenset({condition}), rises_unaided=condition is not Condition.CANNOT_RISE,
                  rest_side=side, rest_limb=limb if side else "", rest_side_because="plaster" if side else "")


BODIES = [Client(), *(body(c) for c in Condition if c is not Condition.ONE_SIDE),
          *(body(Condition.ONE_SIDE, limb) for limb in ("arm", "leg", ""))]


@pytest.mark.parametrize("session", SOME)
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


# ------------------------------------------------------------------ what goes first

def minutes(number: int) -> Place:
    """A room with so much time."""
    return Place(minutes=number)


def test_rounds_go_first_then_accessory_stations_the_last_first() -> None:
    """Three rounds of three: two rounds, one, then without the second accessory, then without both."""
    block = circuit(Item("a", work_s=60), Item("b", work_s=60, accessory=True), Item("c", work_s=60, accessory=True),
                    rounds=3, rest_s=60)
    known = tuple(map(exercise, "abc"))
    got = {m: plan(block, known=known, place=minutes(m)) for m in (17, 16, 11, 5, 3, 2, 1)}
    done = {m: (t.dose.rounds, [s.exercise for s in efforts(t)].count("b"), [o.exercise for o in t.left_out])
            for m, t in got.items()}
    assert done == {17: (3, 3, []), 16: (2, 2, []), 11: (2, 2, []), 5: (1, 1, []), 3: (1, 1, ["c"]),
                    2: (1, 0, ["b", "c"]), 1: (1, 0, ["b", "c"])}
    assert [o.because for o in got[3].left_out] == [("minutes",)]
    assert RuleId.MINUTES not in [r.rule for r in got[17].dose.reasons]
    assert [dict(r.data) for r in got[3].dose.reasons if r.rule is RuleId.MINUTES] == [{"minutes": 3, "rounds": 1}]


@pytest.mark.parametrize("session", SOME)
def test_too_few_minutes_name_the_least_that_it_needs(session: str) -> None:
    """The least fits; a minute less does not."""
    with pytest.raises(TooShort) as caught:
        compiled(session, place=minutes(1))
    least_s = caught.value.what["least_s"]
    assert isinstance(least_s, int) and caught.value.what["asked_s"] == 60
    whole = -(-least_s // 60)
    assert compiled(session, place=minutes(whole)).total_ms <= whole * 60_000
    with pytest.raises(TooShort):
        compiled(session, place=minutes(whole - 1))


@pytest.mark.parametrize("session", SOME)
def test_more_minutes_never_give_less_and_the_ends_are_cut_last(session: str) -> None:
    """From one minute to an hour; warm-up and cool-down are whole while stations of the main part can go."""
    before, full = -1, compiled(session)
    for number in range(1, 61):
        try:
            got = compiled(session, place=minutes(number))
        except TooShort:
            assert before == -1
            continue
        assert got.total_ms <= number * 60_000
        assert effort_ms(got) >= before
        ends = {out.exercise for out in got.left_out} & {
            i.exercise for b, i in order(session).session.items() if not b.is_main}
        for part in (Part.WARM_UP, Part.COOL_DOWN):
            assert effort_ms(got, part) == effort_ms(full, part) or (ends and effort_ms(got, part))
        assert not ends or len({s.exercise for s in efforts(got, Part.MAIN)}) <= 3
        before = effort_ms(got)
    assert before == effort_ms(full)


@pytest.mark.parametrize("session", SOME)
def test_a_shortened_session_keeps_both_sides(session: str) -> None:
    """Left as long as right at any length."""
    for number in range(10, 40):
        try:
            got = compiled(session, place=minutes(number))
        except TooShort:
            continue
        left, right = (sum_ms(s for s in efforts(got) if s.side is side) for side in (StepSide.LEFT, StepSide.RIGHT))
        assert left == right


def test_a_worse_day_never_wins_rounds_by_being_shorter() -> None:
    """Work that is eased makes room on the clock; that room stays empty."""
    block = circuit(Item("a", work_s=60), rounds=7, rest_s=0)
    well, sore = (plan(block, place=minutes(6), diary=d) for d in (WELL, but(pain={KNEE: 4})))
    assert (well.dose.rounds, sore.dose.level) == (6, 2)
    assert sore.dose.rounds == 6 and effort_ms(sore) == 300_000


def test_no_level_wins_rounds_over_a_better_one_that_fits_fewer() -> None:
    """Rounding can make level 2 longer than level 0 and level 3; level 3 then keeps to what level 2 could have."""
    warm = Block(BlockKind.WARM_UP, (Item("a", work_s=7),))
    block = circuit(Item("a", work_s=28), rounds=8, rest_s=1)
    done = [plan(warm, block, place=minutes(3), diary=d).dose for d in (WELL, AT_LEVEL[2], AT_LEVEL[3])]
    assert [(d.level, d.rounds) for d in done] == [(0, 6), (2, 5), (3, 5)]


def test_a_station_left_out_never_wins_rounds_for_the_others() -> None:
    """A sore knee makes the session shorter, not fuller."""
    squat = exercise("a", demand={Axis.DEEP_KNEE_FLEXION: 2})
    block = circuit(Item("a", work_s=60), Item("b", work_s=60), rounds=3, rest_s=0)
    well, sore = (plan(block, known=(squat, exercise("b")), place=minutes(4), diary=d)
                  for d in (WELL, but(pain={KNEE: 4})))
    assert (well.dose.rounds, [o.exercise for o in sore.left_out]) == (2, ["a"])
    assert sore.dose.rounds <= 2
