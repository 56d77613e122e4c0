"""What one station amounts to today: seconds, repetitions, holds and load after the dose, in whole numbers.

Work rounds down and rest up to 5 s; work never under min(15 s, as written), a hold never under min(10 s, as
written), repetitions never under min(5, as written); rest never grows past 90 s unless it already was.
Source: the project's rule table, `app/domain/dosing/README.md`. [P]
"""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from app.domain.model.exercise import Exercise, Mode
from app.domain.model.plan import StepKind
from app.domain.model.session import Item

STEP_S = 5
LEAST_WORK_S, LEAST_HOLD_S, LEAST_REPS = 15, 10, 5
MOST_REST_S = 90
LONGEST_HOLD_S = 30
"""For an exercise that is held in place of one that was counted: holds of 20–30 s at most. Source: NARLOCH_1995."""
FULL = 100


@dataclass(frozen=True)
class Amounts:
    """One bout of one station: `kind` work or hold, its length, and what is counted.

    A hold longer than `most_hold_s` is done in parts with a short pause between them.
    """

    kind: StepKind
    length_ms: int
    reps: int | None = None
    load_g: int | None = None
    most_hold_s: int | None = None

    def parts_ms(self) -> tuple[int, ...]:
        """The bout in one piece, or a long hold in nearly equal parts that sum to it."""
        if self.kind is not StepKind.HOLD or self.most_hold_s is None:
            return (self.length_ms,)
        count = -(-self.length_ms // (self.most_hold_s * 1000))
        seconds, rest_ms = divmod(self.length_ms, 1000)
        each, more = divmod(seconds, max(1, count))
        parts = [(each + (at < more)) * 1000 for at in range(max(1, count))]
        return (*parts[:-1], parts[-1] + rest_ms)


def _down(seconds: int, percent: int, least: int) -> int:
    if percent == FULL:
        return seconds
    return max(min(least, seconds), seconds * percent // FULL // STEP_S * STEP_S)


def eased_work_s(seconds: int, percent: int) -> int:
    """Seconds of work at `percent`."""
    return _down(seconds, percent, LEAST_WORK_S)


def eased_hold_s(seconds: int, percent: int) -> int:
    """Seconds of a hold at `percent`."""
    return _down(seconds, percent, LEAST_HOLD_S)


def eased_reps(reps: int, percent: int) -> int:
    """Repetitions at `percent`, rounded down."""
    return reps if percent == FULL else max(min(LEAST_REPS, reps), reps * percent // FULL)


def longer_rest_s(seconds: int, percent: int) -> int:
    """Seconds of rest at `percent`; never shorter than written."""
    if percent == FULL:
        return seconds
    longer = -(-seconds * percent // (FULL * STEP_S)) * STEP_S
    return max(seconds, min(longer, max(MOST_REST_S, seconds)))


def owned_load_g(load_g: int, percent: int, weights_g: Sequence[int] | None) -> int:
    """The heaviest weight owned that is at most `percent` of `load_g`; 0 where none is light enough."""
    most = load_g * percent // FULL
    if weights_g is None:
        return most if percent == FULL else most // 500 * 500
    return max((w for w in weights_g if w <= most), default=0)


def written_ms(item: Item, written: Exercise, percent: int) -> int:
    """Length of one bout as written, at `percent`, ms. By repetitions: at their tempo."""
    if item.reps:
        return eased_reps(item.reps, percent) * written.rep_ms
    return (eased_hold_s(item.hold_s, percent) if item.hold_s else eased_work_s(item.work_s, percent)) * 1000


def amounts(item: Item, written: Exercise, actual: Exercise, percent: int, hold_cap_s: int | None) -> Amounts:
    """One bout of a station at `percent` of the work.

    Whatever stands in, the bout's time stays that of what was written, so that no change for a sore joint adds work.
    """
    bout_ms = written_ms(item, written, percent)
    if actual.mode is Mode.HOLD:
        caps = [c for c in (hold_cap_s, LONGEST_HOLD_S if actual.id != written.id else None) if c is not None]
        return Amounts(StepKind.HOLD, bout_ms, most_hold_s=min(caps, default=None))
    reps = None
    if item.reps:
        reps = max(1, min(eased_reps(item.reps, percent), bout_ms // actual.rep_ms))
    return Amounts(StepKind.WORK, bout_ms, reps)


def shared(bout: Amounts, share: Fraction) -> Amounts:
    """That share of a bout, in whole seconds and repetitions rounded down, one at least."""
    if share >= 1:
        return bout
    seconds = max(1, int(bout.length_ms * share) // 1000)
    return replace(bout, length_ms=seconds * 1000, reps=max(1, int(bout.reps * share)) if bout.reps else bout.reps)


def no_quicker(bout: Amounts, own_ms: int, rep_ms: int) -> Amounts:
    """The same bout with no more repetitions than fit in at `rep_ms` each, one at least; 0 ms: as it is.

    One that goes by time is counted too, where its own tempo (`own_ms`) is quicker.
    """
    if bout.kind is not StepKind.WORK or own_ms >= rep_ms or not (bout.reps or own_ms):
        return bout
    most = bout.length_ms // rep_ms
    return replace(bout, reps=max(1, min(bout.reps or most, most)))
