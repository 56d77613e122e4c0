"""The benchmark of the sound track measures what it says; how fast it is is printed and never asserted."""
from __future__ import annotations

import sys

from tests.bench.cue_track import MIB, measure


def test_the_benchmark_writes_25_minutes_with_300_cues_and_no_large_array() -> None:
    """As many bytes as the silence, and on Linux under 20 MiB more than the process had."""
    found = measure(times=1)
    assert (found["minutes"], found["cues"]) == (25, 300)
    assert found["bytes"] > 48_000_000 and found["track ms"] > 0 and found["silence ms"] > 0
    if sys.platform == "linux":
        assert 0 < found["extra MiB"] < 20 < found["bytes"] / MIB
