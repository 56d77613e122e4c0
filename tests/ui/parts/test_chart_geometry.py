"""Lines, bars and words of a chart lie where their values say."""
from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from app.ui.parts import chart_geometry as geo

PLOT = geo.Plot(left=20, right=220, head=10, foot=110, top=10)


def test_values_lie_on_one_scale_from_nothing_to_the_top() -> None:
    """0 at the foot, the top at the head, what is beyond held within."""
    assert (PLOT.y(0), PLOT.y(5), PLOT.y(10), PLOT.y(99), PLOT.y(-1)) == (110, 60, 10, 10, 110)
    assert (PLOT.x(0, 3), PLOT.x(1, 3), PLOT.x(2, 3), PLOT.x(0, 1)) == (20, 120, 220, 220)


def test_a_missing_value_breaks_the_line() -> None:
    """What was not said is never bridged."""
    runs = geo.runs((1, 2, None, None, 4), PLOT)
    assert [len(run) for run in runs] == [2, 1]
    assert geo.runs((None, None), PLOT) == ()
    assert geo.last_known((3, None, 0, None)) == 0
    assert geo.last_known((None,)) is None


@given(st.lists(st.floats(0, 100), min_size=1, max_size=5))
def test_words_at_line_ends_never_cover_one_another(wanted: list[float]) -> None:
    """They keep their order, their room, and stay within the chart when there is room for all."""
    placed = geo.spread(wanted, 20, 0, 100)
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    heights = [placed[i] for i in order]
    assert all(b - a >= 20 - 1e-9 for a, b in itertools.pairwise(heights))
    assert heights[0] >= -1e-9 and heights[-1] <= 100 + 1e-9


@given(st.integers(1, 60))
def test_bars_stand_apart_within_the_chart(count: int) -> None:
    """In order, with room between."""
    edges = [x for bar in geo.bars(count, PLOT) for x in bar]
    assert edges == sorted(edges)
    assert edges[0] >= PLOT.left and edges[-1] <= PLOT.right
    assert all(b > a for a, b in itertools.pairwise(edges))
