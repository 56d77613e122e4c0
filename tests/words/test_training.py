"""What a client reads of a session: its amounts, its line in the diary, the names of muscles."""
from __future__ import annotations

from dataclasses import replace

from app.domain.compile.exercise_list import Listed
from app.domain.model.body import Region, Spot
from app.domain.model.plan import StepSide
from app.domain.model.record import Hurt
from app.words import parts
from app.words.client import diary, session_list
from tests.actions.afar import session


def test_the_diary_tells_what_hurt_on_the_way_and_that_it_ended_early() -> None:
    """The highest of what was said in it and after it."""
    knee, hip = Spot(Region.KNEE, "right"), Spot(Region.HIP, "right")
    done = session("p", "r", took_s=22, active_s=22, rpe=3, pain={knee: 2, hip: 0}, done=(),
                   hurts=(Hurt(hip, 6), Hurt(knee, 1)))
    assert diary.session_line(done) == (
        "22 seconds; ended early; effort 3 out of 10; hurt: right hip 6 and right knee 2."
    )
    assert "hurt" not in diary.session_line(session("p", "r"))


def test_an_amount_is_never_a_weight_or_a_side_alone() -> None:
    """Where repetitions are not counted, the time comes first."""
    step = next(s for s in session("p", "r").plan.steps if s.is_effort)
    timed = replace(step, reps=None, load_g=2_000, side=StepSide.ALTERNATING)
    said = session_list.listed_line(Listed(timed, 2), pounds=False)
    assert said == f"2 rounds of {timed.length_ms // 1000} seconds, changing sides, 2 kg"
    assert session_list.listed_line(Listed(replace(timed, reps=8), 1), pounds=False) == "8 times, changing sides, 2 kg"


def test_muscles_are_called_by_their_own_names() -> None:
    """Also where a screen reader says them."""
    assert parts.spot(Spot(Region.CALF, "left"), parts.MUSCLES) == "Left calf"
    assert parts.spot(Spot(Region.ANKLE, "left")) == "Left ankle"
