"""The time trained: what was skipped adds none, and a record of before it was counted is reckoned from its steps."""
from __future__ import annotations

from dataclasses import replace

from app.domain.measures.training_load import session_load
from app.domain.measures.weeks import weekly_minutes
from app.domain.model.plan import Dose, Part, Step, StepKind, StepSide, Timeline
from app.domain.model.record import DoneStep, How
from app.domain.model.trained_time import TimeKnown, time_known, trained_s
from tests.domain import past

SECONDS = ((StepKind.SETUP, 10), (StepKind.WORK, 40), (StepKind.REST, 50), (StepKind.WORK, 60))


def _plan() -> Timeline:
    steps, at = [], 0
    for kind, seconds in SECONDS:
        exercise = "a" if kind is StepKind.WORK else None
        steps.append(Step(kind, Part.MAIN, at, seconds * 1000, exercise, StepSide.BOTH, 1))
        at += seconds * 1000
    return Timeline("s", tuple(steps), Dose(0, 1, 100, 100, 100), strength=True)


PLAN = _plan()
BOTH = (DoneStep(1, "a", 40_000, How.FULL), DoneStep(3, "a", 60_000, How.FULL))


def test_a_session_done_whole_lasts_as_long_as_its_plan() -> None:
    """Rests and set-ups before the work count."""
    done = past.session(active_s=None, timeline=PLAN, done=BOTH, took_s=160)
    assert (trained_s(done), time_known(done)) == (160, TimeKnown.RECKONED)


def test_a_bout_that_was_skipped_adds_neither_its_work_nor_its_rest() -> None:
    """The old record stands at the end of its plan; half of it was trained."""
    done = past.session(active_s=None, timeline=PLAN, done=(BOTH[0], DoneStep(3, "a", 0, How.SKIPPED)), took_s=160)
    assert trained_s(done) == 50


def test_a_session_that_was_skipped_through_adds_no_minutes_and_no_load() -> None:
    """However far on its plan it stands."""
    skipped = tuple(replace(step, done_ms=0, how=How.SKIPPED) for step in BOTH)
    done = past.session(active_s=None, timeline=PLAN, done=skipped, took_s=1860, rpe=6)
    assert (trained_s(done), session_load(done)) == (0, 0)
    assert weekly_minutes([done], done.stamp.local)[-1][1] == 0


def test_it_is_never_longer_than_the_place_reached_on_the_plan() -> None:
    """A rest that was cut short is not made up for."""
    assert trained_s(past.session(active_s=None, timeline=PLAN, done=BOTH, took_s=130)) == 130


def test_where_no_step_is_known_it_is_marked_as_the_most_that_it_can_be() -> None:
    """Nothing is invented."""
    done = past.session(active_s=None, timeline=PLAN, done=(), took_s=160)
    assert (trained_s(done), time_known(done)) == (160, TimeKnown.AT_MOST)


def test_what_the_player_counted_holds() -> None:
    """Whatever its steps would give."""
    done = past.session(timeline=PLAN, done=BOTH, took_s=160, active_s=145)
    assert (trained_s(done), time_known(done)) == (145, TimeKnown.KEPT)
