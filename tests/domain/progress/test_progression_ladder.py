"""How far a station climbs before a weight or a harder option, and which of them comes."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from app.domain.model.body import parse_spot
from app.domain.model.client import Client, Condition, Place, UsualPain
from app.domain.model.exercise import Axis, Exercise, Mode, Option, Pattern, Sides
from app.domain.model.plan import MoveKind
from app.domain.model.record import Hurt
from app.domain.progress.progression_ladder import ladder, reps_needed
from tests.domain.days import BODY, BRACE, CURL, DAYS, KNEE, LIBRARY, RISE, Days, amounts, moved, session_of, steps
from tests.domain.past import check_in, sore, stamp

EIGHT = DAYS[:8]
HEAVY = replace(CURL, load_g=4000, reps=10, steps=12)


@pytest.mark.parametrize(("written", "held"), [(15, 25), (20, 30), (25, 30), (28, 28), (30, 30), (45, 45)])
def test_a_hold_grows_to_thirty_seconds_at_most(written: int, held: int) -> None:
    """In whole steps of 5 s."""
    days = moved(8, session=session_of(RISE, replace(BRACE, hold_s=written)))
    assert amounts(days.plan(DAYS[8]))["brace"][0] == held


def test_a_hold_does_not_grow_where_long_holds_are_not_allowed() -> None:
    """With high blood pressure."""
    plan = moved(4, client=replace(BODY, conditions=frozenset({Condition.HIGH_BLOOD_PRESSURE}))).plan(DAYS[4])
    assert sum(s.length_ms for s in plan.steps if s.exercise == "brace" and s.round == 1 and s.is_effort) == 15_000
    assert set(steps(plan)) == {"rise", "curl"}


# ------------------------------------------------------------------ the harder option

def harder(client: Client = BODY, low: Exercise | None = None, place: Place | None = None) -> dict[str, Any]:
    """What the rise is after eight clean sessions."""
    known = {**LIBRARY, "low": low or LIBRARY["low"]}
    plan = Days(client, session_of(RISE, BRACE), known, place or Place()).good(*EIGHT).plan(DAYS[8])
    return {i: a for i, a in amounts(plan).items() if i != "brace"}


def test_the_harder_option_comes_at_the_amount_that_was_written() -> None:
    """And is told with both names."""
    plan = moved(8).plan(DAYS[8])
    rise = next(m for m in plan.moves if m.exercise == "rise")
    assert (rise.what, rise.to, rise.step, rise.written, rise.amount) == (MoveKind.HARDER, "low", 4, 30, 30)
    assert plan.substitutions == () and all(s.written is None for s in plan.steps)


@pytest.mark.parametrize("client", [
    replace(BODY, alone=True), replace(BODY, limits={Axis.DEEP_KNEE_FLEXION: 1}), replace(BODY, same_as_always=True)],
    ids=["alone and never shown", "over today's limits", "same as always"])
def test_a_harder_option_that_may_not_be_gives_what_came_before(client: Client) -> None:
    """15 s more of what is known."""
    assert harder(client) == {"rise": (45, None, None)}


def test_somebody_alone_gets_the_harder_option_once_it_was_shown_or_explains_itself() -> None:
    """As with a stand-in."""
    assert "low" in harder(replace(BODY, alone=True, shown=frozenset({"low"})))
    assert "low" in harder(replace(BODY, alone=True), replace(LIBRARY["low"], self_explanatory=True))


@pytest.mark.parametrize("low", [
    replace(LIBRARY["low"], sides=Sides.EACH), replace(LIBRARY["low"], pattern=Pattern.HINGE),
    replace(LIBRARY["low"], mode=Mode.HOLD, hold_s=20, rep_ms=0)])
def test_a_harder_option_of_another_movement_other_sides_or_mode_is_no_rung(low: Exercise) -> None:
    """It would not be the same, or not take the same time."""
    days = Days(BODY, session_of(RISE), {**LIBRARY, "low": low}).good(*DAYS[:10])
    assert amounts(days.plan(DAYS[10])) == {"rise": (45, None, None)}
    assert days.at(DAYS[10])["rise"].step == 3


def test_a_harder_option_that_needs_what_is_not_at_hand_waits() -> None:
    """Where the kit is not told, what was written is at hand and nothing else."""
    assert "rise" in harder(low=replace(LIBRARY["low"], equipment=("step",)))
    assert "low" in harder(replace(BODY, kit=frozenset({"step"})), replace(LIBRARY["low"], equipment=("step",)))


def test_a_harder_option_that_loads_what_hurts_waits() -> None:
    """Also where the easier one does not."""
    low = replace(LIBRARY["low"], demand={**LIBRARY["low"].demand, Axis.ANKLE_LOAD: 1})
    client = replace(BODY, usual_pain={parse_spot("ankle"): UsualPain(4, "physiotherapist", stamp("", 99).local)})
    days = Days(client, session_of(RISE), {**LIBRARY, "low": low}).good(*EIGHT)
    assert "low" in amounts(days.plan(DAYS[8]))
    sore_ankle = check_in(DAYS[8], pain=sore(left_ankle=3))
    assert (days.plan(DAYS[8], sore_ankle).dose.level, "rise" in amounts(days.plan(DAYS[8], sore_ankle))) == (0, True)


def test_of_several_harder_options_the_coachs_first_comes_that_may_be() -> None:
    """In the order in which they are written."""
    rise = replace(LIBRARY["rise"], harder=(Option("deep"), Option("low")))
    deep = replace(LIBRARY["low"], id="deep", name="Deep", demand={Axis.DEEP_KNEE_FLEXION: 3})
    known = {**LIBRARY, "rise": rise, "deep": deep}
    for most, which in ((3, "deep"), (2, "low"), (1, "rise")):
        client = replace(BODY, limits={Axis.DEEP_KNEE_FLEXION: most})
        assert which in amounts(Days(client, session_of(RISE), known).good(*EIGHT).plan(DAYS[8]))


def test_a_harder_option_done_well_stays_and_one_that_hurt_goes() -> None:
    """Judged by what was really done."""
    days = moved(8)
    days.do(DAYS[8], hurts=(Hurt(KNEE, 2, exercise="low"),))
    assert days.at(DAYS[9])["rise"].step == 3
    assert days.at(DAYS[9])["curl"].step == 4


def test_options_of_an_exercise_are_no_rungs_of_their_own_ladder() -> None:
    """An exercise that names itself, or one that is not there."""
    odd = replace(LIBRARY["rise"], harder=(Option("rise"), Option("nowhere")))
    days = Days(BODY, session_of(RISE), {**LIBRARY, "rise": odd}).good(*DAYS[:10])
    assert days.at(DAYS[10])["rise"].step == 3


# ------------------------------------------------------------------ load

@pytest.mark.parametrize(("now_g", "next_g", "reps"), [
    (2000, 2200, 9), (4000, 5000, 15), (5000, 6000, 13), (6000, 8000, 18), (4000, 6000, 24), (2000, 4000, 43)])
def test_how_many_repetitions_a_next_weight_needs(now_g: int, next_g: int, reps: int) -> None:
    """Epley: with three left, so that five with three left are likely there. By hand: 38 × next ÷ now − 33."""
    assert reps_needed(now_g, next_g) == reps
    possible = now_g / 1000 * (1 + (reps + 3) / 30)
    assert 30 * (possible / (next_g / 1000) - 1) > 7.999
    assert 30 * (now_g / 1000 * (1 + (reps + 2) / 30) / (next_g / 1000) - 1) < 8


def test_repetitions_then_the_next_weight_with_fewer_and_on_from_there() -> None:
    """10 to 15 at 4 kg, then 5 at 5 kg, and up again."""
    found = ladder(HEAVY, LIBRARY["curl"], LIBRARY, (4000, 5000, 6000, 8000), 12)
    assert [(at.load_g, at.amount) for at in found] == [
        *((4000, n) for n in range(10, 16)), *((5000, n) for n in range(5, 12))]


@pytest.mark.parametrize("weights", [(4000, 6000), (4000,), (), None])
def test_a_weight_that_is_too_far_never_comes(weights: tuple[int, ...] | None) -> None:
    """Half as heavy again needs 24 repetitions; it ends at 12."""
    found = ladder(HEAVY, LIBRARY["curl"], LIBRARY, weights, 12)
    assert {at.load_g for at in found} == ({4000} if weights != () else {0})
    assert found[-1].amount == 12


def test_e1_in_twelve_weeks_of_clean_sessions_twice_a_week_a_heavier_weight_is_lifted() -> None:
    """With 4, 5, 6 and 8 kg at home."""
    days = Days(replace(BODY, weights_g=(4000, 5000, 6000, 8000)), session_of(replace(HEAVY, steps=8)))
    days.good(*(day for week in range(12) for day in (7 * week, 7 * week + 4)))
    assert amounts(days.plan(84))["curl"][2] == 5000
    load = next(m for m in days.plan(84).moves if m.exercise == "curl")
    assert (load.what, load.written, load.amount) == (MoveKind.LOAD, 4000, 5000)


def test_after_a_weight_comes_the_harder_option_where_the_next_is_too_far() -> None:
    """At the weight and the amount that were written."""
    known = {**LIBRARY, "curl": replace(LIBRARY["curl"], harder=(Option("slow"),)),
             "slow": replace(LIBRARY["curl"], id="slow", name="Slow curl")}
    found = ladder(replace(HEAVY, reps=12), known["curl"], known, (4000, 5000, 10000), 40)
    turn = [(at.exercise, at.load_g, at.amount) for at in found if at.by in (MoveKind.LOAD, MoveKind.HARDER)]
    assert turn == [("curl", 5000, 5), ("slow", 4000, 12), ("slow", 5000, 5)]
