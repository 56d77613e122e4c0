"""An exercise that today's body, kit and room allow, as near as can be to the one that was written.

First the ladder of easier options, then the coach's approved swaps, then, where the coach allows it, the whole
library, and last a held or seated option for the same muscles. Nothing asks more on any axis than today allows, no
limb works more than was written, and nobody gets down lower than for what was written.
"""
from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from app.domain.compile.bouts import Bouts, fitted, fitted_side, open_sides, unrested
from app.domain.compile.posture import gets_lower, goes_over
from app.domain.dosing.limits import HANDS_FREE, Limits
from app.domain.model.client import Client
from app.domain.model.exercise import FIRST_AXES, Exercise, Mode, Position, Sides, asks_more
from app.domain.model.limbs import ACROSS, rests_leg, sides_of
from app.domain.model.plan import StepSide

Library = Mapping[str, Exercise]
#: What `against` says where a limb or a side is to rest.
SIDE = "side"


@dataclass(frozen=True)
class StationPart:
    """What is done of a station: an exercise in its bouts."""

    exercise: Exercise
    bouts: Bouts


@dataclass(frozen=True)
class ChosenExercise:
    """What to do for a station, and what spoke against the exercise written. No parts: it is left out.

    Two parts where a limb is spared: as written on the one side, and a stand-in on the other.
    """

    parts: tuple[StationPart, ...]
    because: tuple[str, ...] = ()
    asked: tuple[str, ...] = ()
    """What of `because` the written exercise asks, in detail."""
    spared: StepSide | None = None
    """The side on which it is not done as written, where only one is."""

    @property
    def exercise(self) -> Exercise | None:
        """The first of it."""
        return self.parts[0].exercise if self.parts else None


@dataclass(frozen=True)
class Candidate:
    """A stand-in with its tier and its distance on the ladder."""

    exercise: Exercise
    tier: int
    distance: int


@dataclass(frozen=True)
class Able:
    """A candidate that may be done, with the bouts that it takes."""

    candidate: Candidate
    bouts: Bouts
    one_sided: bool = False
    """Only one of its sides may be done."""

    def loss(self, written: Exercise, taken: frozenset[str], *, still_rises: bool = False) -> tuple[object, ...]:
        """The smaller, the nearer to what was written.

        Both sides, with `still_rises` that it is a chair stand, the tier, the time kept, no repeat in the round, the
        distance on the ladder, muscles and pattern kept, position kept, and the id.
        """
        other = self.candidate.exercise
        lost = len(set(written.muscles) - {*other.muscles, *other.muscles_too})
        return (
            self.one_sided,
            still_rises and not other.is_chair_stand,
            self.candidate.tier,
            -self.bouts.effort,
            other.id in taken,
            self.candidate.distance,
            lost + int(other.pattern is not written.pattern),
            other.position is not written.position,
            sum(map(other.asks, FIRST_AXES)),
            other.id,
        )


def ladder_down(written: Exercise, library: Library) -> Iterator[tuple[Exercise, int]]:
    """Easier options, nearest first, each once, with its distance in rungs."""
    seen, rung, distance = {written.id}, [written], 0
    while rung:
        distance += 1
        below: list[Exercise] = []
        for exercise in rung:
            for option in exercise.easier:
                if option.to in library and option.to not in seen:
                    seen.add(option.to)
                    below.append(library[option.to])
        yield from ((exercise, distance) for exercise in below)
        rung = below


def against_side(exercise: Exercise, client: Client) -> tuple[str, ...]:
    """`side` where every way to do it uses a limb that is to rest."""
    return () if unrested(exercise, client) else (SIDE,)


def is_known(exercise: Exercise, client: Client) -> bool:
    """Whether it may be put in: for someone alone only if it was shown before or explains itself."""
    return not client.alone or exercise.self_explanatory or exercise.id in client.shown


def fits_mode(exercise: Exercise, written: Exercise) -> bool:
    """A hold for each side cannot share the time of one bout, so it stands in for one-sided work only."""
    return exercise.mode is not Mode.HOLD or exercise.sides is not Sides.EACH or written.sides is Sides.EACH


def may_stand_in(exercise: Exercise, written: Exercise, client: Client, limits: Limits) -> bool:
    """Admissible today on all its sides; and for someone alone, shown before or explaining itself."""
    return is_known(exercise, client) and fits_mode(exercise, written) and not limits.against(exercise) \
        and not against_side(exercise, client) and not _moves_away(exercise, written, client, limits)


def _moves_away(exercise: Exercise, written: Exercise, client: Client, limits: Limits) -> bool:
    to_bed = written.position is not Position.ON_BED and exercise.position is Position.ON_BED
    return gets_lower(exercise, written) or goes_over(exercise, written, limits.kit) or (to_bed and rests_leg(client))


def candidates(written: Exercise, library: Library, *, whole_library: bool) -> Iterator[Candidate]:
    """Everything that could stand in, with its tier."""
    yield from (Candidate(e, 0, d) for e, d in ladder_down(written, library))
    yield from (Candidate(library[o.to], 1, 1) for o in written.swaps if o.to in library)
    for exercise in library.values():
        if exercise.id == written.id or not set(exercise.muscles) & set(written.muscles):
            continue
        is_alike = whole_library and exercise.pattern is written.pattern
        is_quiet = exercise.is_strength is written.is_strength and (
            exercise.mode is Mode.HOLD or exercise.position is Position.SEATED)
        if not (is_alike or is_quiet) or asks_more(exercise, written):
            continue
        if is_alike:
            yield Candidate(exercise, 2, 0)
        if is_quiet:
            yield Candidate(exercise, 3, 0)


def _able(written: Exercise, found: Iterable[Candidate], client: Client, limits: Limits) -> Iterator[Able]:
    """Those that may be done. Further off never takes more time than something nearer would have taken.

    So nobody gains work by one thing more being forbidden.
    """
    listed = [(c, unrested(c.exercise, client)) for c in found]
    usual = [(c, sides, fitted(written, c.exercise, sides, client)) for c, sides in listed]
    efforts = [(c.tier, bouts.effort) for c, _, bouts in usual if bouts is not None and bouts.sides]
    for candidate, free, as_usual in usual:
        sides = open_sides(candidate.exercise, client, limits)
        one_sided = sides != free
        bouts = None if not sides else fitted(written, candidate.exercise, sides, client) if one_sided else as_usual
        if bouts is None:
            continue
        most = min((effort for tier, effort in efforts if one_sided or tier < candidate.tier),
                   default=Fraction(len(sides_of(written))))
        yield Able(candidate, bouts.at_most(most), one_sided)


def _stand_ins(written: Exercise, library: Library, client: Client, limits: Limits, *, whole_library: bool
               ) -> Iterator[Candidate]:
    """All that may be put in for it by somebody like this, whatever today forbids."""
    for one in candidates(written, library, whole_library=whole_library):
        other = one.exercise
        if is_known(other, client) and fits_mode(other, written) and not _moves_away(other, written, client, limits):
            yield one


def _other_side(written: Exercise, side: StepSide, found: Iterable[Candidate], client: Client, limits: Limits
                ) -> Iterator[Able]:
    """Stand-ins for one side of one-sided work."""
    for candidate in found:
        bouts = fitted_side(written, candidate.exercise, side)
        if bouts is not None and side in open_sides(candidate.exercise, client, limits):
            yield Able(candidate, bouts)


def choose(
    written: Exercise,
    library: Library,
    client: Client,
    limits: Limits,
    taken: frozenset[str] = frozenset(),
    *,
    whole_library: bool = False,
) -> ChosenExercise:
    """What to do today in place of `written`, which itself comes first unless something speaks against it.

    Args:
        taken: exercises already in this round, which are only repeated when nothing else is left.
    """
    chosen = library.get(client.chosen.get(written.id, ""))
    against = (*limits.against(written), *against_side(written, client))
    asked = limits.detail(written)
    usual = None if chosen is None else _usual(written, chosen, client, limits)
    if chosen is not None and usual is not None and may_stand_in(chosen, written, client, limits):
        return ChosenExercise((StationPart(chosen, usual),), against or ("choice",), asked)
    able = open_sides(written, client, limits)
    if able == unrested(written, client) and able:
        return ChosenExercise(_no_more((StationPart(written, Bouts(able)),), usual))
    steady = limits.is_same_order or client.same_as_always
    found = [] if steady else list(_stand_ins(written, library, client, limits, whole_library=whole_library))
    if able:
        other = ACROSS[able[0]]
        spared = _nearest(_other_side(written, other, found, client, limits), written, taken)
        as_written = StationPart(written, Bouts(able))
        against, asked = limits.against(written, other), limits.detail(written, other)
        return ChosenExercise(_no_more((as_written, *spared), usual), against, asked, other)
    # who needs the hands to stand up goes on standing up, with them
    nearest = _nearest(_able(written, found, client, limits), written, taken, still_rises=HANDS_FREE in against)
    return ChosenExercise(_no_more(nearest, usual), against, asked)


def _usual(written: Exercise, chosen: Exercise, client: Client, limits: Limits) -> Bouts | None:
    """The bouts of a choice by hand on a day that allows it; None where it never takes the place of this one."""
    sides = unrested(chosen, client)
    if not sides or not fits_mode(chosen, written) or _moves_away(chosen, written, client, limits):
        return None
    return fitted(written, chosen, sides, client)


def _no_more(parts: tuple[StationPart, ...], usual: Bouts | None) -> tuple[StationPart, ...]:
    """The same in no more time than a choice by hand takes: a day that forbids the choice gives no more work."""
    whole = sum((part.bouts.effort for part in parts), Fraction())
    if usual is None or whole <= usual.effort:
        return parts
    return tuple(replace(part, bouts=part.bouts.at_most(part.bouts.effort * usual.effort / whole)) for part in parts)


def _nearest(able: Iterable[Able], written: Exercise, taken: frozenset[str], *, still_rises: bool = False
             ) -> tuple[StationPart, ...]:
    best = min(able, key=lambda one: one.loss(written, taken, still_rises=still_rises), default=None)
    return () if best is None else (StationPart(best.candidate.exercise, best.bouts),)
