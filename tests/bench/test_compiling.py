"""The benchmark measures what it says it measures; how fast it is is printed and never asserted."""
from __future__ import annotations

from tests.bench.compiling import EXERCISES, STEPS, measure


def test_the_benchmark_compiles_a_long_session_over_a_large_library() -> None:
    """At least 45 steps, 500 exercises and three years of records, and figures above nothing."""
    found = measure(times=1)
    assert found["exercises"] == EXERCISES and found["steps"] >= STEPS and found["records"] > 1000
    assert found["ms"] > 0 and found["times a plain loop"] > 0
