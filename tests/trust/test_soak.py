"""Hours of use leave memory and journal as they were."""
from __future__ import annotations

from tests.sampling import examples
from tests.trust.soak import MOST_JOURNAL, SoakHour, amiss, soak


def test_hours_of_use_leave_no_trace_in_memory() -> None:
    """One here, eight with `--all`; `python -m tests.trust --soak N` takes as many as one likes."""
    hours = examples(1, 8)
    found = soak(hours)
    assert len(found) == hours and found[-1].sessions >= 4 * hours
    assert amiss(found) == ""


def test_growth_is_seen() -> None:
    """Of memory, and of the journal."""
    flat = SoakHour(100.0, 1_000, 1_000, 1)
    assert amiss([flat, flat, SoakHour(130.0, 1_000, 1_000, 9)]).startswith("memory grew from 100")
    assert amiss([flat, SoakHour(100.0, 1_000, MOST_JOURNAL + 1, 9)]).startswith("the journal grew")
    assert amiss([flat, flat, flat]) == ""
