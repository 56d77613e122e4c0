"""A week of the plan in a few words, drawn and spoken."""
from __future__ import annotations

from app.words.client import plan


def test_a_week_says_how_far_it_is_and_no_more() -> None:
    """Done, under way, lighter; one that is to come says nothing."""
    said = [plan.week_done(*counts, lighter=lighter, here=here) for *counts, lighter, here in (
        (3, 3, True, False), (2, 3, False, True), (0, 3, True, False), (0, 3, False, False), (0, 3, True, True))]
    assert said == ["done", "2 of 3", "lighter", "", "0 of 3"]


def test_a_week_is_spoken_with_its_count_and_whether_one_is_in_it() -> None:
    """The drawing itself says nothing to a screen reader."""
    assert plan.week_spoken(4, 0, 3, lighter=True, here=True) == "Week 4: 0 of 3 done, lighter, now"
    assert plan.week_spoken(2, 3, 3, lighter=False, here=False) == "Week 2: 3 of 3 done"
    assert plan.where_one_is(6, 6, 17, 18) == "Week 6 of 6. 17 of 18 sessions done."
