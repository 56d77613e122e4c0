"""Getting down and up: each change of position has its time and its line, and no stand-in adds one."""
from __future__ import annotations

from itertools import pairwise

import pytest

from app.domain.compile.posture import changes_between, depth, gets_lower
from app.domain.model.client import STARTER_PLACES, Client, Condition
from app.domain.model.exercise import Axis, Position
from app.domain.model.plan import ChangeStage, StepKind, Timeline
from app.words.positions import change_words
from tests.domain.compile.test_timeline import exercise
from tests.domain.shipped import SESSIONS, compiled, library
from tests.sampling import is_whole, spread

SOME = tuple(SESSIONS if is_whole() else spread(SESSIONS, 12))
FLAT, ON_BED = exercise("a", position=Position.SUPINE), exercise(
    "b", position=Position.ON_BED, demand={Axis.HEAD_BELOW_HEART: 1})
SLOW = ("falls", "high_blood_pressure", "postural_dizziness", "beta_blocker")


def lengths(client: Client, *, bed: bool) -> list[tuple[str, int]]:
    """From lying to a stand: stage and seconds."""
    return [(str(c.stage or "up"), c.seconds) for c in changes_between(ON_BED if bed else FLAT, None, client)]


@pytest.mark.parametrize("bed", [True, False])
def test_a2_from_lying_to_standing_goes_over_a_sit_and_a_stand(bed: bool) -> None:
    """Half a minute sitting, a quarter standing with a hand on something; on the floor and on a bed."""
    told = lengths(Client(), bed=bed)
    assert [stage for stage, _ in told] == ["sit", "up", "stand"]
    assert told[0][1] >= 30 and told[2][1] >= 15


@pytest.mark.parametrize("condition", SLOW)
@pytest.mark.parametrize("bed", [True, False])
def test_a2_it_takes_longer_where_pressure_or_balance_is_late(condition: str, bed: bool) -> None:
    """Twice as long."""
    usual, slow = (dict(lengths(c, bed=bed)) for c in (Client(), Client(conditions=frozenset({Condition(condition)}))))
    assert slow["sit"] >= 60 > usual["sit"] and slow["stand"] >= 30 > usual["stand"]


@pytest.mark.parametrize("session", SESSIONS)
def test_a2_nobody_ever_stands_right_after_lying(session: str) -> None:
    """In every session, for who falls: between lying and standing work lie a sit and a stand, each with a line."""
    got = compiled(session, Client(conditions=frozenset({Condition.FALLS})))
    efforts = [i for i, s in enumerate(got.steps) if s.is_effort]
    for one, other in pairwise(efforts):
        was, now = (library()[got.steps[i].exercise or ""] for i in (one, other))
        if depth(was) and now.position is Position.STANDING and was.asks(Axis.HEAD_BELOW_HEART):
            stages = {s.stage: s.length_ms for s in got.steps[one:other]}
            lying = was.position in (Position.SUPINE, Position.PRONE, Position.SIDE_LYING, Position.ON_BED)
            assert not lying or (stages[ChangeStage.SIT] >= 60_000 and stages[ChangeStage.STAND] >= 30_000)
    assert all(all(change_words(s)) for s in got.steps if s.kind is StepKind.CHANGE)


def ways_down(got: Timeline) -> int:
    """How often one gets down to the floor."""
    return sum(s.to_floor is True for s in got.steps)


def lies_down(got: Timeline) -> int:
    """How often one lies down on a bed."""
    return sum(s.stage is ChangeStage.LIE for s in got.steps)


def in_bed(got: Timeline) -> int:
    """How many bouts on a bed stand in for something on the floor."""
    return sum(s.is_effort and bool(s.written) and depth(library()[s.exercise or ""]) == 1 for s in got.steps)


@pytest.mark.parametrize("session", SOME)
def test_b5_no_stand_in_adds_a_way_down(session: str) -> None:
    """Any axis capped, at 0 and at 1."""
    written, lain = ways_down(compiled(session)), lies_down(compiled(session))
    for axis in Axis:
        for cap in (0, 1):
            got = compiled(session, Client(limits={axis: cap}))
            assert ways_down(got) <= written, (axis, cap)
            assert ways_down(got) + lies_down(got) <= written + lain + in_bed(got), (axis, cap)
            for swap in got.substitutions:
                assert depth(library()[swap.to]) <= depth(library()[swap.written])


@pytest.mark.parametrize("session", SESSIONS)
def test_b5_no_bed_exercise_in_a_place_without_a_bed(session: str) -> None:
    """The garage has none, and it is named."""
    garage = next(p for p in STARTER_PLACES if p.name == "Garage")
    got = compiled(session, place=garage)
    assert not [s for s in got.steps if s.is_effort and library()[s.exercise or ""].position is Position.ON_BED]


def test_b5_nothing_stands_in_lower_down_than_what_was_written() -> None:
    """Not the floor for a bed or a stand, and no bed to lie on for a stand; the other way round may be."""
    stand = exercise("s")
    assert [gets_lower(*pair) for pair in ((FLAT, stand), (FLAT, ON_BED), (ON_BED, stand))] == [True] * 3
    assert not any(gets_lower(*pair) for pair in ((stand, FLAT), (ON_BED, FLAT), (FLAT, FLAT), (stand, stand)))
