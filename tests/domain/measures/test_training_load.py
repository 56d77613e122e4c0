"""Training load against sums done by hand, and what must hold for any diary."""
from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction
from math import isclose, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.measures.training_load import calendar_weeks, daily_loads, days_with_averages

MONDAY = date(2026, 3, 2)
rows = st.tuples(
    st.dates(date(2026, 1, 1), date(2026, 4, 30)),
    st.decimals(0, 240, places=2).map(Fraction), st.integers(0, 10).map(Fraction))
diaries = st.lists(rows, min_size=1, max_size=20)


def whole(day: int, minutes: int, rpe: int) -> tuple[date, Fraction, Fraction]:
    """A session so many days after a Monday."""
    return MONDAY + timedelta(days=day), Fraction(minutes), Fraction(rpe)


def test_a_week_worked_out_by_hand() -> None:
    """Monday 30 × 5 + 10 × 3 = 180, Wednesday 40 × 6 = 240, Saturday 60 × 4 = 240.

    Sum 660; mean 660 / 7 = 94.2857. Squares 180² + 240² + 240² = 147 600; minus 660² / 7 = 62 228.571 leaves
    85 371.429; / 6 = 14 228.571; root 119.2836. Monotony 94.2857 / 119.2836 = 0.790434; strain 660 × 0.790434 =
    521.686.
    """
    loads = daily_loads([whole(0, 30, 5), whole(2, 40, 6), whole(5, 60, 4), whole(0, 10, 3)])
    week, = calendar_weeks(loads)
    assert (week.start, week.load) == (MONDAY, 660)
    assert round(week.monotony or 0, 3) == 0.790 and round(week.strain or 0, 3) == 521.686


def test_the_days_before_the_first_and_after_the_last_count_as_rest() -> None:
    """One session of 20 × 5 = 100 on a Thursday: mean 100 / 7, squares 10 000 − 10 000 / 7 = 8 571.4286, / 6 =
    1 428.5714, root 37.79645; monotony 14.285714 / 37.79645 = 0.377964 = 1 / √7; strain 37.796.
    """
    week, = calendar_weeks(daily_loads([whole(3, 20, 5)]))
    assert week.start == MONDAY
    assert round(week.monotony or 0, 3) == 0.378 and round(week.strain or 0, 3) == 37.796
    assert isclose(week.monotony or 0, 1 / sqrt(7))


@pytest.mark.parametrize("minutes", [0, 30])
def test_seven_days_alike_have_no_monotony(minutes: int) -> None:
    """No spread, no value: never infinity."""
    week, = calendar_weeks(daily_loads(whole(day, minutes, 5) for day in range(7)))
    assert (week.load, week.monotony, week.strain) == (7 * minutes * 5, None, None)


def test_parts_that_sum_to_the_same_are_alike() -> None:
    """0.1 + 0.2 is 0.3 here: a day in two parts does not break the tie."""
    parts = [(MONDAY + timedelta(days=n), Fraction("0.3"), Fraction(5)) for n in range(1, 7)]
    parts += [(MONDAY, Fraction(part), Fraction(5)) for part in ("0.1", "0.2")]
    assert calendar_weeks(daily_loads(parts))[0].monotony is None


def test_weeks_without_a_session_stand_between() -> None:
    """A gap is two weeks of nothing, not two weeks left out."""
    weeks = calendar_weeks(daily_loads([whole(6, 30, 5), whole(21, 30, 5)]))
    assert [(w.start, w.load) for w in weeks] == [
        (MONDAY, 150), (MONDAY + timedelta(7), 0), (MONDAY + timedelta(14), 0), (MONDAY + timedelta(21), 150)]


def test_averages_worked_out_by_hand() -> None:
    """λ is 2/8 = 0.25 and 2/29. Loads 200, 0, 240, both started at 200.

    Acute 200; 0.75 × 200 = 150; 0.25 × 240 + 0.75 × 150 = 172.5. Chronic 200; 27/29 × 200 = 186.206897; 2/29 × 240 +
    27/29 × 186.206897 = 16.551724 + 173.365042 = 189.916766.
    """
    days = days_with_averages(daily_loads([whole(0, 40, 5), whole(2, 40, 6)]))
    assert [d.day for d in days] == [MONDAY + timedelta(n) for n in range(3)]
    assert [d.acute for d in days] == [200, 150, 172.5]
    assert [round(d.chronic, 3) for d in days] == [200, 186.207, 189.917]


def test_the_ratio_is_told_from_the_28th_day_on() -> None:
    """One session of 100 and another on the last of 29 days.

    On day 28: acute 100 × 0.75²⁷ = 0.042345, chronic 100 × (27/29)²⁷ = 14.526, ratio 0.003 to three decimals.
    """
    days = days_with_averages(daily_loads([whole(0, 20, 5), whole(28, 20, 5)]))
    assert len(days) == 29 and all(d.ratio is None for d in days[:27])
    assert isclose(days[27].ratio or 0, 0.75**27 / (27 / 29) ** 27)
    assert days[28].ratio is not None


def test_where_nothing_was_ever_done_there_is_no_ratio() -> None:
    """Nothing divided by nothing has no value."""
    assert all(d.ratio is None for d in days_with_averages(daily_loads(whole(n, 0, 5) for n in range(40))))
    assert calendar_weeks({}) == days_with_averages({}) == ()


@given(diaries, diaries)
def test_loads_over_disjoint_periods_add_up(
    one: list[tuple[date, Fraction, Fraction]], other: list[tuple[date, Fraction, Fraction]]
) -> None:
    """Whatever is done later changes no earlier day, and the sum of all weeks is the sum of all sessions."""
    later = [(day + timedelta(days=200), minutes, rpe) for day, minutes, rpe in other]
    both = daily_loads([*one, *later])
    assert both == daily_loads(one) | daily_loads(later)
    total = float(sum(minutes * rpe for _, minutes, rpe in [*one, *later]))
    assert isclose(sum(w.load for w in calendar_weeks(both)), total, abs_tol=1e-9)
    assert isclose(sum(d.load for d in days_with_averages(both)), total, abs_tol=1e-9)
    before = days_with_averages(daily_loads(one))
    assert days_with_averages(both)[:len(before)] == before


@given(diaries, st.randoms(use_true_random=False))
def test_the_order_of_rows_is_irrelevant(rows_: list[tuple[date, Fraction, Fraction]], order: object) -> None:
    """To the last digit."""
    mixed = list(rows_)
    order.shuffle(mixed)  # type: ignore[attr-defined]
    one, other = daily_loads(rows_), daily_loads(mixed)
    assert calendar_weeks(one) == calendar_weeks(other) and days_with_averages(one) == days_with_averages(other)


@given(diaries, st.integers(2, 9))
def test_twice_the_minutes_are_twice_the_load(rows_: list[tuple[date, Fraction, Fraction]], times: int) -> None:
    """Load, strain and averages grow alike; monotony and the ratio stay."""
    more = daily_loads((day, minutes * times, rpe) for day, minutes, rpe in rows_)
    for one, grown in zip(calendar_weeks(daily_loads(rows_)), calendar_weeks(more), strict=True):
        assert isclose(grown.load, one.load * times)
        assert (one.monotony is None) == (grown.monotony is None)
        assert isclose(grown.monotony or 0, one.monotony or 0)
        assert isclose(grown.strain or 0, (one.strain or 0) * times)
    for day, grown_day in zip(days_with_averages(daily_loads(rows_)), days_with_averages(more), strict=True):
        assert isclose(grown_day.acute, day.acute * times) and isclose(grown_day.chronic, day.chronic * times)
        assert isclose(grown_day.ratio or 0, day.ratio or 0)


@given(diaries)
def test_averages_stay_between_the_least_and_the_most(rows_: list[tuple[date, Fraction, Fraction]]) -> None:
    """An average is one."""
    days = days_with_averages(daily_loads(rows_))
    most = max(d.load for d in days) * (1 + 1e-12)
    assert all(0 <= d.acute <= most and 0 <= d.chronic <= most for d in days)
