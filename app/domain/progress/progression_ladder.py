"""What lies ahead of a station: repetitions or seconds first, then the next weight owned, then the harder option.

With a heavier weight the amount starts lower, with a harder option as it was written, and climbs again. How far it
climbs before a weight follows Epley's estimate, 1RM = load × (1 + repetitions ÷ 30), as a guard and not as a target:
with three left now, at least five with three left must be possible at the next weight. Source: EPLEY_1985, from
memory and so [P], as all the rest here is. One step of a small dumbbell is 25–100 %, so most need many repetitions.
"""
from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from app.domain.compile.prescription import FULL, LONGEST_HOLD_S, STEP_S, owned_load_g
from app.domain.compile.substitution import Library
from app.domain.model.exercise import Exercise, Mode
from app.domain.model.plan import MoveKind
from app.domain.model.session import Item

MORE_S, MORE_REPS = STEP_S, 1
AMOUNTS = (MoveKind.SECONDS, MoveKind.REPS)
LEAST_RUNGS = 2
"""So many rungs of amount come before anything heavier or harder, however near it is."""
TOP_REPS, TOP_WORK_S = 12, 45
"""How far repetitions and seconds climb where nothing heavier is near."""
MOST_REPS, MOST_WORK_S = 18, 60
"""How far they climb where the next weight needs it."""
IN_RESERVE, LEAST_AT_NEXT, BELOW_EPLEY = 3, 5, 2
"""Repetitions left when a set ends; the fewest with which a weight begins; and how far below the estimate it begins."""
LEAST_NEXT_S = 20
TEMPO_MS = 4000
"""A slower repetition than this counts as one of this tempo where seconds are read as repetitions."""
EPLEY = 30


@dataclass(frozen=True)
class Rung:
    """Where a station can stand: the exercise, the weight in grams, and seconds or repetitions of one bout."""

    exercise: str
    load_g: int
    amount: int
    by: MoveKind | None = None
    """What the rung that leads here adds; None for what was written."""
    rank: int = 0
    """How many harder options above the written one."""


#: Which harder option of an exercise is taken; None: none.
Pick = Callable[[Exercise], Exercise | None]


def amount_of(item: Item) -> int:
    """Seconds or repetitions of one bout as written."""
    return item.reps or item.hold_s or item.work_s


def is_held(item: Item, exercise: Exercise) -> bool:
    """Whether the station is a hold, also where it was written in seconds of work."""
    return item.hold_s > 0 or exercise.mode is Mode.HOLD


def fits_in(harder: Exercise, written: Exercise) -> bool:
    """Whether a harder option can take the very bouts that were written: the same movement, sides and mode."""
    return (harder.pattern, harder.sides, harder.mode) == (written.pattern, written.sides, written.mode)


def harder_options(exercise: Exercise, library: Library) -> tuple[Exercise, ...]:
    """The next ones of the coach's ladder that fit, in the coach's order."""
    found = (library[o.to] for o in exercise.harder if o.to in library and o.to != exercise.id)
    return tuple(e for e in found if fits_in(e, exercise))


def first_harder(library: Library) -> Pick:
    """The coach's first, whatever today allows."""
    return lambda exercise: next(iter(harder_options(exercise, library)), None)


def next_weight_g(now_g: int, weights_g: Sequence[int] | None) -> int:
    """The next heavier weight owned; 0 where there is none. Weights not told are none known."""
    return min((w for w in weights_g or () if w > now_g), default=0) if now_g else 0


def reps_needed(now_g: int, next_g: int) -> int:
    """Repetitions with three left at `now_g` from which five with three left are likely at `next_g`, rounded up."""
    return -(-next_g * (EPLEY + LEAST_AT_NEXT + IN_RESERVE) // now_g) - EPLEY - IN_RESERVE


def reps_at_next(now_g: int, next_g: int, reps: int) -> int:
    """Repetitions to begin with at `next_g` after `reps` at `now_g`: the estimate with three left, less two."""
    possible = now_g * (EPLEY + reps + IN_RESERVE) // next_g - EPLEY
    return max(LEAST_AT_NEXT, possible - IN_RESERVE - BELOW_EPLEY)


@dataclass(frozen=True)
class _Unit:
    """How the amount of a station is counted."""

    step: int
    kind: MoveKind
    written: int
    top: int
    """Where nothing heavier is near."""
    most: int
    each: int
    """Of the amount to one repetition, thousandths."""

    def of_reps(self, reps: int) -> int:
        """The amount of so many repetitions, rounded up to a step."""
        return -(-reps * self.each // (1000 * self.step)) * self.step

    def reps(self, amount: int) -> int:
        """Repetitions in an amount, rounded down."""
        return amount * 1000 // self.each


def _unit(item: Item, exercise: Exercise) -> _Unit:
    written = amount_of(item)
    if item.reps:
        top = max(TOP_REPS, written + LEAST_RUNGS * MORE_REPS)
        return _Unit(MORE_REPS, MoveKind.REPS, written, top, max(MOST_REPS, top), 1000)
    if is_held(item, exercise):
        room = max(0, (LONGEST_HOLD_S - written) // MORE_S) * MORE_S
        return _Unit(MORE_S, MoveKind.SECONDS, written, written + room, written + room, 1000 * MORE_S)
    top = max(TOP_WORK_S, written + LEAST_RUNGS * MORE_S)
    each = min(exercise.rep_ms or TEMPO_MS, TEMPO_MS)
    return _Unit(MORE_S, MoveKind.SECONDS, written, top, max(MOST_WORK_S, top), each)


def _climbs_to(unit: _Unit, now_g: int, next_g: int) -> int | None:
    """The amount at which the next weight follows; None: never by this way."""
    if not next_g:
        return None
    needed = max(unit.written + LEAST_RUNGS * unit.step, unit.of_reps(reps_needed(now_g, next_g)))
    return needed if needed <= unit.most else None


def ladder(item: Item, written: Exercise, library: Library, weights_g: Sequence[int] | None, most: int,
           pick: Pick | None = None) -> tuple[Rung, ...]:
    """Every position of a station in order, what was written first; at most `most` beyond it.

    Args:
        weights_g: weights owned; None is "not told", so no heavier one is known.
        pick: which harder option is taken; the coach's first where nothing else is said.
    """
    choose, base_g = pick or first_harder(library), owned_load_g(item.load_g, FULL, weights_g)
    loaded = item.load_g if weights_g is None else base_g
    at, exercise = Rung(item.exercise, loaded, amount_of(item)), written
    found, seen = [at], {item.exercise}
    while len(found) <= most:
        step = _next(at, item, exercise, weights_g)
        if step is None:
            harder = choose(exercise)
            if harder is None or harder.id in seen:
                break
            exercise = harder
            seen.add(harder.id)
            step = Rung(harder.id, loaded if harder.loaded else 0, amount_of(item), MoveKind.HARDER, at.rank + 1)
        at = step
        found.append(at)
    return tuple(found)


def _next(at: Rung, item: Item, exercise: Exercise, weights_g: Sequence[int] | None) -> Rung | None:
    """The next position with the same exercise: more of it, or the next weight; None where both are at an end."""
    unit = _unit(item, exercise)
    next_g = next_weight_g(at.load_g, weights_g) if exercise.loaded else 0
    goal = _climbs_to(unit, at.load_g, next_g)
    if at.amount + unit.step <= (unit.top if goal is None else goal):
        return replace(at, amount=at.amount + unit.step, by=unit.kind)
    if goal is None:
        return None
    least = LEAST_AT_NEXT if item.reps else LEAST_NEXT_S
    begin = reps_at_next(at.load_g, next_g, unit.reps(at.amount)) * unit.each // (1000 * unit.step) * unit.step
    return replace(at, load_g=next_g, amount=min(unit.written, max(least, begin)), by=MoveKind.LOAD)


def item_at(item: Item, at: Rung) -> Item:
    """The station as it is written for a position."""
    changed = replace(item, exercise=at.exercise, load_g=at.load_g)
    if item.reps:
        return replace(changed, reps=at.amount)
    return replace(changed, hold_s=at.amount) if item.hold_s else replace(changed, work_s=at.amount)
