"""The strip is true to scale: checked by arithmetic, for any session."""
from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.model.plan import StepKind, StepSide, Timeline
from app.domain.model.record import DoneStep, How
from app.ui.parts import strip_geometry as geo
from tests.ui import samples

WIDTHS = st.floats(280, 1000)


@st.composite
def timelines(draw: st.DrawFn) -> Timeline:
    """Sessions of 0 to 300 steps, from half a second to ten minutes each."""
    kinds = draw(st.lists(st.sampled_from(list(StepKind)), max_size=draw(st.sampled_from([3, 40, 300]))))
    down = False
    steps = []
    for kind in kinds:
        down = not down if kind is StepKind.CHANGE else down
        step = samples.step(kind, 1, side=draw(st.sampled_from([None, *StepSide])),
                            to_floor=down if kind is StepKind.CHANGE else None)
        steps.append(replace(step, length_ms=draw(st.integers(500, 600_000))))
    return samples.timeline(steps)


@given(timelines(), WIDTHS, st.data())
def test_blocks_lie_in_order_within_the_width(plan: Timeline, width: float, data: st.DataObject) -> None:
    """From left to right, never over one another, never outside."""
    now_ms = data.draw(st.integers(0, plan.total_ms + 1000))
    edges = [x for b in geo.planned_blocks(plan.steps, geo.scale_of(plan, width), now_ms) for x in (b.x0, b.x1)]
    assert edges == sorted(edges)
    assert all(0 <= x <= width for x in edges)


@given(timelines(), WIDTHS)
def test_work_and_rest_are_true_to_scale(plan: Timeline, width: float) -> None:
    """The drawn width of all rest is its share of time; work loses at most 2 px a block to the hair between."""
    scale = geo.scale_of(plan, width)
    blocks = geo.planned_blocks(plan.steps, scale)
    rest = [s for s in plan.steps if s.kind in geo.REST_KINDS]
    work = [s for s in plan.steps if s.is_effort]
    drawn = sum(b.x1 - b.x0 for b in blocks if b.print is geo.Print.REST)
    assert drawn == pytest.approx(sum(s.length_ms for s in rest) / scale.span_ms * width, abs=1e-6 * width)
    worked = sum(b.x1 - b.x0 for b in blocks if b.print is geo.Print.WORK)
    true = sum(s.length_ms for s in work) / scale.span_ms * width
    assert true * 0.74 - 1e-6 * width <= worked <= true + 1e-6 * width
    assert worked >= true - 2 * len(work) - 1e-6 * width


@given(timelines(), WIDTHS, st.data())
def test_what_lies_before_now_is_done_and_what_lies_after_is_not(
    plan: Timeline, width: float, data: st.DataObject
) -> None:
    """The marker parts the ink from the colour, and cutting a block neither adds nor takes away."""
    now_ms = data.draw(st.integers(0, plan.total_ms))
    scale = geo.scale_of(plan, width)
    blocks = geo.planned_blocks(plan.steps, scale, now_ms)
    now_x = scale.x_of(now_ms)
    assert all(b.x1 <= now_x + 1 for b in blocks if b.done)
    assert all(b.x0 >= now_x - 1 for b in blocks if not b.done)
    whole = sum(b.x1 - b.x0 for b in geo.planned_blocks(plan.steps, scale))
    assert sum(b.x1 - b.x0 for b in blocks) == pytest.approx(whole, abs=1e-6 * width)


def test_strips_that_share_a_span_share_a_scale() -> None:
    """The same minute lies at the same place on both, and a span that is too short is not used."""
    long, short = samples.circuit(), samples.two_steps()
    shared = geo.scale_of(short, 400, long.total_ms)
    assert shared.x_of(300_000) == geo.scale_of(long, 400).x_of(300_000)
    assert geo.scale_of(long, 400, 1000).span_ms == long.total_ms


def test_done_blocks_lie_at_the_place_of_their_plan() -> None:
    """Easier is low, a part is as wide as its time with the rest dotted, left out is dotted whole."""
    plan = samples.timeline([samples.step(StepKind.WORK, 60), samples.step(StepKind.WORK, 60)])
    scale = geo.scale_of(plan, 120)
    low, = geo.done_blocks(plan.steps, [DoneStep(1, "a", 60_000, How.EASIER)], scale)
    assert (low.print, round(low.x0), round(low.x1)) == (geo.Print.LOW, 61, 119)
    part, missing = geo.done_blocks(plan.steps, [DoneStep(0, "a", 30_000, How.PART)], scale)
    assert (part.x1, missing.print, missing.x0) == (30, geo.Print.DOTTED, 30)
    out, = geo.done_blocks(plan.steps, [DoneStep(0, "a", 0, How.SKIPPED)], scale)
    assert (out.print, round(out.x0), round(out.x1)) == (geo.Print.DOTTED, 1, 59)
    assert geo.done_blocks(plan.steps, [DoneStep(7, "gone", 1, How.FULL)], scale) == ()


def test_the_double_bar_stands_where_it_was_stopped() -> None:
    """After the time that was done of the stopped step, and nowhere when nothing was stopped."""
    plan = samples.timeline([samples.step(StepKind.WORK, 60), samples.step(StepKind.WORK, 60)])
    scale = geo.scale_of(plan, 120)
    assert geo.stop_x(plan.steps, [DoneStep(1, "a", 15_000, How.STOPPED)], scale) == 75
    assert geo.stop_x(plan.steps, [DoneStep(0, "a", 60_000, How.FULL)], scale) is None


def test_brackets_span_the_floor_from_the_way_down_to_the_way_up() -> None:
    """From middle to middle; one that never comes up runs to the end and has no notch there."""
    k = StepKind
    there = [samples.step(k.CHANGE, 20, to_floor=True), samples.step(k.WORK, 60)]
    back = [samples.step(k.CHANGE, 40, to_floor=False)]
    plan = samples.timeline([*there, *back])
    assert geo.brackets(plan.steps, geo.scale_of(plan, 120)) == (geo.Bracket(10, 100),)
    open_plan = samples.timeline(there)
    assert geo.brackets(open_plan.steps, geo.scale_of(open_plan, 80)) == (geo.Bracket(10, 80, closed=False),)
    up_only = samples.timeline([*back, samples.step(k.WORK, 40)])
    assert geo.brackets(up_only.steps, geo.scale_of(up_only, 80)) == (geo.Bracket(0, 20, opened=False),)


def test_an_l_is_never_shown_without_the_r_beside_it() -> None:
    """Letters that would touch are all dropped; with room both are there; the marker hides what it covers."""
    plan = samples.timeline([samples.step(StepKind.WORK, 30, side=s) for s in (StepSide.LEFT, StepSide.RIGHT)])
    wide, narrow = geo.scale_of(plan, 400), geo.scale_of(plan, 30)
    assert [m.side for m in geo.letters(plan.steps, wide, 12)] == [geo.Side.LEFT, geo.Side.RIGHT]
    assert geo.letters(plan.steps, narrow, 17) == ()
    assert [m.side for m in geo.letters(plan.steps, wide, 12, now_x=100)] == [geo.Side.RIGHT]


@given(st.integers(60_000, 4 * 3_600_000), WIDTHS, st.floats(30, 90))
def test_labels_have_their_room(span_ms: int, width: float, room: float) -> None:
    """Long ticks lie at least a label apart, start at 0 and end with the one that carries the unit."""
    marks = geo.ticks(geo.Scale(span_ms, width), room)
    long = [m for m in marks if m.long]
    assert long[0].minute == 0 and long[-1].last
    assert all(b.x - a.x >= room - 1e-6 for a, b in itertools.pairwise(long))
    assert [m.minute for m in marks] == sorted({m.minute for m in marks})


def test_a_minute_is_ticked_and_each_five_labelled() -> None:
    """The ordinary case: 22 minutes on a phone."""
    marks = geo.ticks(geo.Scale(22 * 60_000, 372), 38)
    assert [m.minute for m in marks] == list(range(23))
    assert [m.minute for m in marks if m.long] == [0, 5, 10, 15, 20]
