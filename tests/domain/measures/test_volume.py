"""Figures of a session against sums done by hand: planned, and as it was done."""
from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.measures.volume import SessionStatistics, done_statistics, planned_statistics, reps_from_time
from app.domain.model.exercise import Exercise, Mode
from app.domain.model.plan import Dose, Part, Step, StepKind, StepSide, Timeline
from app.domain.model.record import DoneStep, How, SessionDone
from tests.domain import past
from tests.domain.compile.test_timeline import exercise
from tests.domain.shipped import SESSIONS, compiled, library

K = StepKind
LIBRARY: dict[str, Exercise] = {e.id: e for e in (
    exercise("squat", rep_ms=4000), exercise("press", rep_ms=3500, loaded=True),
    exercise("row", rep_ms=5000, loaded=True), exercise("lean", rep_ms=4500),
    exercise("plank", mode=Mode.HOLD, rep_ms=0, hold_s=20), exercise("march", rep_ms=1000))}


def laid(*steps: Step) -> Timeline:
    """Steps end to end."""
    at, out = 0, []
    for step in steps:
        out.append(replace(step, start_ms=at))
        at += step.length_ms
    return Timeline("s", tuple(out), Dose(1, 1, 100, 100, 100))


def step(kind: StepKind, seconds: int, name: str | None = None, part: Part = Part.MAIN, **more: object) -> Step:
    """One step."""
    return replace(Step(kind, part, 0, seconds * 1000, name, StepSide.BOTH, 1), **more)


PLAN = laid(
    step(K.SETUP, 10, "march", Part.WARM_UP), step(K.WORK, 60, "march", Part.WARM_UP),
    step(K.SETUP, 12, "squat"),
    step(K.WORK, 30, "squat"),                                  # 3: ⌊30 / 4⌋ = 7 of 4 s: 28 s
    step(K.REST, 20), step(K.SETUP, 10, "press"),
    step(K.WORK, 35, "press", load_g=4000),                     # 6: ⌊35 / 3.5⌋ = 10, 35 s, 40 kg
    step(K.REST, 30),
    step(K.WORK, 25, "row", reps=5, load_g=6000),               # 8: 5 counted, 25 s, 30 kg
    step(K.ROUND_REST, 45),
    step(K.HOLD, 20, "plank"),                                  # 10: 20 s
    step(K.REST, 5, "march", Part.COOL_DOWN), step(K.HOLD, 30, "plank", Part.COOL_DOWN),
)


def done(*steps: DoneStep) -> SessionDone:
    """That session, with these steps done."""
    return past.session(timeline=PLAN, done=steps)


WHOLE = tuple(DoneStep(i, PLAN.steps[i].exercise or "", PLAN.steps[i].length_ms, How.FULL)
              for i in (1, 3, 6, 8, 10, 12))


def test_a_planned_session_worked_out_by_hand() -> None:
    """Work 30 + 35 + 25 + 20 = 110 s; between it 20 + 10 + 30 + 45 = 105 s; 7 + 10 + 5 = 22 repetitions;
    28 + 35 + 25 + 20 = 108 s under tension; 10 × 4 + 5 × 6 = 70 kg; 110 / 105 = 104 %; 110 / 215 = 51 %.
    """
    got = planned_statistics(PLAN, LIBRARY)
    assert got == SessionStatistics(110_000, 105_000, 22, 108_000, 70_000, 0)
    assert (got.volume_kg, got.work_to_rest, got.density) == (70.0, 104, 51)


def test_a_session_that_was_done_in_full_has_the_figures_of_its_plan() -> None:
    """Warm-up and cool-down are in neither."""
    assert done_statistics(done(*WHOLE), LIBRARY) == planned_statistics(PLAN, LIBRARY)


def test_what_was_cut_short_counts_as_far_as_it_went() -> None:
    """The press for 20 of 35 s: ⌊20 / 3.5⌋ = 5, 17.5 s, 20 kg. The row for 14 of 25 s: 5 × 14 / 25 = 2.8, so 2: 10 s,
    12 kg. No plank: so 20 + 10 + 30 = 60 s between.
    """
    got = done_statistics(done(WHOLE[0], WHOLE[1], DoneStep(6, "press", 20_000, How.PART),
                            DoneStep(8, "row", 14_000, How.STOPPED)), LIBRARY)
    assert got == SessionStatistics(64_000, 60_000, 14, 55_500, 32_000, 0)


def test_what_was_changed_on_the_way_counts_as_what_it_became() -> None:
    """A lean of 4.5 s for the row: ⌊25 / 4.5⌋ = 5, without weight. A hold for the squat. A press for the row keeps the
    weight, and never makes more repetitions than were asked: ⌊25 / 3.5⌋ = 7, asked 5.
    """
    lean = done_statistics(done(DoneStep(8, "lean", 25_000, How.EASIER)), LIBRARY)
    assert lean == SessionStatistics(25_000, 0, 5, 22_500, 0, 0)
    held = done_statistics(done(DoneStep(3, "plank", 30_000, How.EASIER)), LIBRARY)
    assert held == SessionStatistics(30_000, 0, 0, 30_000, 0, 0)
    press = done_statistics(done(DoneStep(8, "press", 25_000, How.EASIER)), LIBRARY)
    assert (press.reps, press.volume_kg) == (5, 30.0)


def test_an_exercise_that_is_not_known_is_said_and_not_guessed() -> None:
    """Counted ones tell their own tempo; timed ones have no repetitions, so neither has their load."""
    got = planned_statistics(PLAN, {})
    assert (got.reps, got.unknown, got.volume_kg) == (5, 2, 30.0)
    assert got.tension_ms == 110_000
    other = done_statistics(done(DoneStep(8, "other", 25_000, How.EASIER)), {})
    assert other == SessionStatistics(25_000, 0, 0, 25_000, 0, 1)


def test_what_was_skipped_and_what_does_not_fit_the_plan_count_for_nothing() -> None:
    """No step of that number, no time spent."""
    got = done_statistics(done(DoneStep(3, "squat", 0, How.SKIPPED), DoneStep(99, "squat", 9_000, How.FULL)), LIBRARY)
    assert got == SessionStatistics() and got.work_to_rest is None and got.density is None


def test_a_slower_stand_in_is_timed_by_its_own_tempo() -> None:
    """Five presses were written; four rows of 5 s stand in their 22 s: 20 s under tension."""
    plan = laid(step(K.WORK, 22, "row", reps=4, written="press"))
    assert planned_statistics(plan, LIBRARY).tension_ms == 20_000
    assert planned_statistics(plan, {}).tension_ms == 22_000


@given(st.integers(0, 600_000), st.integers(0, 20_000))
def test_repetitions_from_time_are_the_whole_ones_that_fit(work_ms: int, rep_ms: int) -> None:
    """One more would not."""
    reps = reps_from_time(work_ms, rep_ms)
    assert reps * rep_ms <= work_ms and (rep_ms == 0 or (reps + 1) * rep_ms > work_ms)


@pytest.mark.parametrize("session", SESSIONS)
def test_the_figures_of_a_shipped_session_hang_together(session: str) -> None:
    """Nothing is unknown; tension never exceeds work; work and rest are the main part without its lead-in."""
    plan = compiled(session)
    got = planned_statistics(plan, library())
    main = [s for s in plan.steps if s.part is Part.MAIN]
    efforts = [s for s in main if s.is_effort]
    assert got.unknown == 0 and got.tension_ms <= got.work_ms == sum(s.length_ms for s in efforts)
    assert got.work_ms + got.rest_ms == efforts[-1].end_ms - efforts[0].start_ms
    assert (got.volume_g > 0) == any(s.load_g for s in main)
    everything = tuple(DoneStep(i, s.exercise or "", s.length_ms, How.FULL) for i, s in enumerate(plan.steps)
                       if s.is_effort)
    assert done_statistics(past.session(timeline=plan, done=everything), library()) == got


@given(st.lists(st.integers(0, 60_000), min_size=4, max_size=4))
def test_doing_less_never_counts_for_more(times: list[int]) -> None:
    """Whatever part of each bout was done."""
    steps = (3, 6, 8, 10)
    part = tuple(DoneStep(i, PLAN.steps[i].exercise or "", min(ms, PLAN.steps[i].length_ms), How.PART)
                 for i, ms in zip(steps, times, strict=True))
    got, whole = done_statistics(done(*part), LIBRARY), planned_statistics(PLAN, LIBRARY)
    for name in ("work_ms", "rest_ms", "reps", "tension_ms", "volume_g"):
        assert 0 <= getattr(got, name) <= getattr(whole, name)
