"""The clock of a functional check: a count-in, the signal, stands counted as they come, and its end.

Times are whole ms of a monotonic clock passed in. On one leg and over the 4 m there is no count-in: the clock
starts with the press.
"""
from __future__ import annotations

from dataclasses import dataclass, replace

from app.domain.checks.functional_checks import CHAIR_STANDS, LONGEST_MS, ONE_LEGGED
from app.domain.model.record import FunctionalCheck
from app.domain.model.session_timing import COUNT_IN_MS, LAST_TEN_MS
from app.domain.sound.cues import Cue, CueKind


@dataclass(frozen=True)
class CheckClock:
    """One timing. `began_ms` is the moment of the signal; None before Start. `took_ms` is None until it is over."""

    check: FunctionalCheck
    began_ms: int | None = None
    took_ms: int | None = None
    stands: int = 0

    def at(self, now_ms: int) -> int:
        """ms since the signal; negative in the count-in; how long it took once it is over."""
        if self.took_ms is not None or self.began_ms is None:
            return self.took_ms or 0
        return now_ms - self.began_ms

    @property
    def is_running(self) -> bool:
        """Started and not over."""
        return self.began_ms is not None and self.took_ms is None


def count_in_ms(check: FunctionalCheck) -> int:
    """How long before the signal Start is pressed."""
    return 0 if check in ONE_LEGGED or check is FunctionalCheck.WALK_4M else COUNT_IN_MS


def started(clock: CheckClock, now_ms: int) -> CheckClock:
    """Start is pressed; the signal comes after the count-in."""
    return CheckClock(clock.check, now_ms + count_in_ms(clock.check))


def moved_on(clock: CheckClock, now_ms: int) -> CheckClock:
    """At this moment; over once its longest time has passed."""
    longest = LONGEST_MS[clock.check]
    return replace(clock, took_ms=longest) if clock.is_running and clock.at(now_ms) >= longest else clock


def stopped(clock: CheckClock, now_ms: int) -> CheckClock:
    """Stop is pressed. Before the signal it is as if Start had not been pressed."""
    now = moved_on(clock, now_ms)
    if not now.is_running:
        return now
    return CheckClock(clock.check) if now.at(now_ms) <= 0 else replace(now, took_ms=now.at(now_ms))


def with_one_more(clock: CheckClock, now_ms: int) -> CheckClock:
    """One more stand, if it came between the signal and the end."""
    now = moved_on(clock, now_ms)
    return replace(now, stands=now.stands + 1) if now.is_running and now.at(now_ms) > 0 else now


def check_cues(check: FunctionalCheck) -> tuple[Cue, ...]:
    """What is heard, by ms since the signal."""
    longest = LONGEST_MS[check]
    found = [(CueKind.COUNT, at) for at in range(-count_in_ms(check), 0, 1000)] + [(CueKind.WORK, 0)]
    if check in CHAIR_STANDS:
        found += [(CueKind.HALFWAY, longest // 2), (CueKind.LAST_TEN, longest - LAST_TEN_MS)]
    return tuple(Cue(kind, at, 0) for kind, at in [*found, (CueKind.FINISH, longest)])
