"""How often a station is done, on which sides, and for what share of the time, so that no limb works more than written.

A stand-in takes the bouts of what it stands in for. One with both arms in place of one with each arm is done once: done
twice it would double the work of each.
"""
from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from app.domain.dosing.limits import Limits
from app.domain.model.client import Client
from app.domain.model.exercise import Exercise, Sides
from app.domain.model.limbs import LEFT, OTHERS, RIGHT, BodyLimb, loads_of, rests, sides_of, worked
from app.domain.model.plan import StepSide

WHOLE = Fraction(1)


@dataclass(frozen=True)
class Bouts:
    """The bouts of one station in order, each lasting `share` of what was written."""

    sides: tuple[StepSide, ...]
    share: Fraction = WHOLE

    @property
    def effort(self) -> Fraction:
        """Their time together, in bouts as written."""
        return len(self.sides) * self.share

    def at_most(self, effort: Fraction) -> Bouts:
        """The same, shortened where they would take more than so many bouts."""
        return self if self.effort <= effort else Bouts(self.sides, effort / len(self.sides))


def open_sides(exercise: Exercise, client: Client, limits: Limits) -> tuple[StepSide, ...]:
    """Its bouts that today's body and room allow, with no limb used that is to rest."""
    if exercise.sides is Sides.EACH:
        return tuple(side for side in unrested(exercise, client) if not limits.against(exercise, side))
    return () if limits.against(exercise) else unrested(exercise, client)


def unrested(exercise: Exercise, client: Client) -> tuple[StepSide, ...]:
    """Its bouts in which no limb is used that is to rest."""
    return tuple(side for side in sides_of(exercise) if not rests(exercise, side, client))


def _work(exercise: Exercise, sides: Iterable[StepSide]) -> Counter[BodyLimb]:
    counted: Counter[BodyLimb] = Counter()
    for side in sides:
        counted.update(worked(exercise, side))
    return counted


def _works_both(written: Exercise) -> bool:
    """Whether each of its two bouts works both sides of the body, or no limb."""
    return bool(loads_of(written) & OTHERS.keys()) or not loads_of(written)


def fitted(written: Exercise, actual: Exercise, sides: tuple[StepSide, ...], client: Client) -> Bouts | None:
    """The bouts of a stand-in that may be done on these `sides`; None where it works a limb that was to have none.

    One-sided work in place of work on both sides changes sides within the bout, where both sides may.
    """
    turns = max(1, len(unrested(written, client)))
    if actual.sides is Sides.EACH and written.sides is not Sides.EACH and len(sides) == len((LEFT, RIGHT)):
        sides = (StepSide.ALTERNATING,)
    if actual.sides is not Sides.EACH and written.sides is Sides.EACH and turns > 1 and _works_both(written):
        sides = sides * turns
    due, done = _work(written, sides_of(written)), _work(actual, sides)
    if any(not due[limb] for limb in done):
        return None
    least = min((Fraction(due[limb], done[limb]) for limb in done), default=WHOLE)
    return Bouts(sides, min(WHOLE, least)).at_most(Fraction(turns))


def fitted_side(written: Exercise, actual: Exercise, side: StepSide) -> Bouts | None:
    """The one bout of a stand-in in place of that side's bout; None where a limb would work more in it."""
    due, done = worked(written, side), worked(actual, side)
    return Bouts((side,)) if actual.sides is Sides.EACH and all(due[limb] >= done[limb] for limb in done) else None


def keeps_work(written: Exercise, actual: Exercise) -> bool:
    """Whether a stand-in can take the very bouts that were written, none longer or more often, with no limb doing more.

    For a change on the way, when one side may have been done already.
    """
    if actual.sides is not Sides.EACH and written.sides is Sides.EACH and not _works_both(written):
        return False
    bouts = fitted(written, actual, sides_of(actual), Client())
    return bouts is not None and bouts.share == WHOLE
