"""The strip in rows is true to scale, holds every step once, and draws no block too narrow to be told apart."""
from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from app.domain.model.plan import Part, Step, StepKind, Timeline
from app.domain.model.record import DoneStep, How
from app.ui.parts import strip_geometry as geo
from app.ui.parts import strip_lines as rows
from app.ui.parts.strip_geometry import Print
from tests.ui import samples

WIDTHS = st.floats(140, 900)
K = StepKind


@st.composite
def sessions(draw: st.DrawFn) -> Timeline:
    """A warm-up, one to four rounds and a cool-down, of stretches from two seconds to two minutes."""
    steps: list[Step] = []
    rounds = draw(st.integers(1, 4))
    for part, number in [(Part.WARM_UP, None), *((Part.MAIN, r + 1) for r in range(rounds)), (Part.COOL_DOWN, None)]:
        for _ in range(draw(st.integers(1, 20))):
            kind = draw(st.sampled_from([K.WORK, K.HOLD, K.REST, K.SETUP]))
            step = samples.step(kind, draw(st.integers(2, 120)), draw(st.sampled_from("abc")), part=part)
            steps.append(replace(step, round=number))
    return samples.timeline(steps)


@given(sessions())
def test_lines_hold_every_step_in_order(plan: Timeline) -> None:
    """Warm-up, each round, cool-down; they touch and never overlap."""
    lines = rows.lines_in(plan.steps)
    assert [s for line in lines for s in line.steps] == list(plan.steps)
    assert all(a.end_ms == b.start_ms for a, b in pairwise(lines))
    rounds = {s.round for s in plan.steps if s.part is Part.MAIN}
    assert [line.round for line in lines if line.part is Part.MAIN] == (sorted(rounds) if len(rounds) > 1 else [None])  # type: ignore[type-var]


@given(sessions(), WIDTHS)
def test_blocks_lie_in_order_and_end_where_their_line_ends(plan: Timeline, width: float) -> None:
    """Never over one another, never outside; the longest line is as wide as the room."""
    lines = rows.lines_in(plan.steps)
    scale = rows.line_scale(lines, width)
    assert abs(max(scale.x_of(line.length_ms) for line in lines) - width) < 1e-6
    for line in lines:
        edges = [x for b in rows.planned_in(line, scale) for x in (b.x0, b.x1)]
        assert edges == sorted(edges) and all(-1e-6 <= x <= scale.x_of(line.length_ms) + 1e-6 for x in edges)


@given(sessions(), WIDTHS)
def test_what_is_near_and_alike_is_one_block(plan: Timeline, width: float) -> None:
    """No two stretches of one exercise closer than five px; nothing narrow beside a neighbour that near."""
    lines = rows.lines_in(plan.steps)
    scale = rows.line_scale(lines, width)
    for line in lines:
        work = [b for b in rows.planned_in(line, scale) if b.print is Print.WORK]
        for a, b in pairwise(work):
            near = b.x0 - a.x1 < rows.NEAR
            assert not (near and (a.exercise == b.exercise or min(a.width, b.width) < rows.LEAST_BLOCK))


@given(sessions(), WIDTHS, st.data())
def test_ink_ends_at_now(plan: Timeline, width: float, data: st.DataObject) -> None:
    """What lies before is done, what lies after is not."""
    now_ms = data.draw(st.integers(0, plan.total_ms))
    line = rows.line_at(rows.lines_in(plan.steps), now_ms)
    scale = geo.Scale(line.length_ms, width)
    x = scale.x_of(now_ms - line.start_ms)
    for block in rows.planned_in(line, scale, now_ms):
        assert block.x1 <= x + 1.01 if block.done else block.x0 >= x - 1.01


def test_a_strip_is_cramped_where_a_block_would_be_too_narrow() -> None:
    """And in rows only then."""
    plan = samples.circuit()
    assert not rows.is_cramped(plan.steps, geo.scale_of(plan, 372))
    assert rows.is_cramped(plan.steps, geo.scale_of(plan, 200))
    assert rows.is_cramped(samples.many_short().steps, geo.scale_of(samples.many_short(), 372))


def test_what_was_done_stands_under_its_plan() -> None:
    """In full, in part, left out, and where it was stopped, in the line to which it belongs."""
    steps = [replace(samples.step(K.WORK, 60, name), round=number) for number, name in ((1, "a"), (1, "b"), (2, "c"))]
    plan = samples.timeline(steps)
    done = [DoneStep(0, "a", 60_000, How.FULL), DoneStep(1, "b", 30_000, How.PART),
            DoneStep(2, "c", 15_000, How.STOPPED)]
    first, second = rows.lines_in(plan.steps)
    scale = rows.line_scale((first, second), 200)
    told = [(b.print, round(b.x0), round(b.x1)) for b in rows.done_in(first, plan.steps, done, scale)]
    assert told == [(Print.WORK, 1, 99), (Print.WORK, 101, 150), (Print.DOTTED, 150, 199)]
    assert rows.stop_in(first, plan.steps, done, scale) is None
    assert rows.stop_in(second, plan.steps, done, scale) == 25
