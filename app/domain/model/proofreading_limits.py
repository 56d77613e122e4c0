"""From where on the proofreader objects: every limit is a default that a coach may set in `source.toml`.

What could hurt a client is not among them: a ladder that asks more, a side left out, a time that cannot be, a demand of
3 without an easier option. All limits are coaching conventions [P] unless their source says otherwise.
"""
from __future__ import annotations

from dataclasses import dataclass, field, fields
from typing import Any

from app.domain.model.references import NARLOCH_1995

CONVENTION = "coaching convention [P]"


def _limit(default: int, least: int, most: int, source: str = CONVENTION) -> Any:
    """A limit with the bounds a coach may set it within, both included."""
    return field(default=default, metadata={"least": least, "most": most, "source": source})


@dataclass(frozen=True)
class ProofreadingLimits:
    """Seconds where the name ends in `_s`; shares in percent."""

    warm_up_s: int = _limit(300, 0, 1800)
    """Shortest warm-up."""
    cool_down_s: int = _limit(300, 0, 1800)
    """Shortest cool-down."""
    hold_s: int = _limit(30, 10, 60, f"{NARLOCH_1995.short}: at most 20–30 s, breathing out")
    """Longest hold."""
    floor_changes: int = _limit(2, 0, 20)
    """Most changes between floor and feet in one round."""
    length_off: int = _limit(10, 0, 100)
    """How far the stated length may be off, percent of it."""
    uncounted_s: int = _limit(1, 0, 10)
    """Least time of a repetition beside the one stretch that its cues count out."""
    muscle_in_a_row: int = _limit(1, 1, 20)
    """Most stations running for one prime mover."""
    grip_in_a_row: int = _limit(1, 1, 20)
    """Most stations running with a grip demand of 2 or more."""
    wrist_in_a_row: int = _limit(1, 1, 20)
    """Most stations running with a wrist demand of 2 or more."""
    wrist_items: int = _limit(2, 0, 60)
    """Most stations of a session with a wrist demand of 2 or more."""
    overhead_items: int = _limit(1, 0, 60)
    """Most stations of a session with an overhead demand of 3."""
    impact: int = _limit(1, 0, 3)
    """Highest impact; from 2 on it is hopping and jumping."""
    push_pull_least: int = _limit(70, 0, 100)
    """Least pushing for 100 s of pulling in a week."""
    push_pull_most: int = _limit(120, 100, 999)
    """Most pushing for 100 s of pulling in a week."""
    knee_hip_least: int = _limit(60, 0, 100)
    """Least squatting and lunging for 100 s of hip bending in a week."""
    knee_hip_most: int = _limit(160, 100, 999)
    """Most squatting and lunging for 100 s of hip bending in a week."""
    early_weeks: int = _limit(2, 0, 104)
    """For how many weeks work stays within `early_work`."""
    early_work: int = _limit(100, 10, 999)
    """Most work for 100 s of rest in the first weeks."""
    steps_a_week: int = _limit(1, 1, 3)
    """Most steps that work against rest rises in a week; the steps end at 75, 100 and 200 percent."""
    weeks_to_rise: int = _limit(3, 1, 104)
    """Most full weeks running without more balance, or without more of a pull, than in any before."""
    weeks_to_lighter: int = _limit(6, 1, 104)
    """Most weeks running without a lighter one."""


#: As the project ships them.
DEFAULT_LIMITS = ProofreadingLimits()


def limit_bounds() -> dict[str, tuple[int, int, int]]:
    """Of every limit: least, most and default."""
    return {f.name: (f.metadata["least"], f.metadata["most"], getattr(DEFAULT_LIMITS, f.name))
            for f in fields(ProofreadingLimits)}


def limit_sources() -> dict[str, str]:
    """Where every default comes from."""
    return {f.name: f.metadata["source"] for f in fields(ProofreadingLimits)}
