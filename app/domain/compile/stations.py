"""The stations of today's session: what each written item becomes, how often, for how long, on which sides."""
from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from app.domain.compile.prescription import FULL, Amounts, amounts, longer_rest_s, owned_load_g
from app.domain.compile.substitution import ChosenExercise, Library, choose
from app.domain.dosing.dose import rounds_at
from app.domain.dosing.limits import Limits
from app.domain.model.client import Client, Place
from app.domain.model.diary import Diary
from app.domain.model.exercise import Exercise, Sides
from app.domain.model.kit import ALWAYS_AT_HAND
from app.domain.model.plan import Dose, LeftOut, Part, StepKind, StepSide, Substitution
from app.domain.model.rules import DEFAULT_RULES, RuleTable
from app.domain.model.session import Block, BlockKind, Item, Session

SIDE_CHANGE_S = 5
FIRST_SET_UP_S = 10
"""At least this for an exercise that somebody never did: to read its cues and to look at the figure. [P]"""
PARTS = {BlockKind.WARM_UP: Part.WARM_UP, BlockKind.COOL_DOWN: Part.COOL_DOWN}


@dataclass(frozen=True)
class Order:
    """Everything a session is compiled for."""

    session: Session
    library: Library
    client: Client
    place: Place
    today: date
    diary: Diary | None = None
    table: RuleTable = DEFAULT_RULES
    whole_library: bool = False
    lighter_week: bool = False
    done_before: frozenset[str] | None = None
    """Exercises that they have done; any other takes longer to set up the first time. None: not told."""

    def set_up_s(self, exercise: Exercise, seen: Collection[str]) -> int:
        """Seconds to set an exercise up; the first time ever, unless `seen` earlier in the session, twice as many."""
        if self.done_before is None or exercise.id in self.done_before or exercise.id in seen:
            return exercise.set_up_s
        return max(FIRST_SET_UP_S, 2 * exercise.set_up_s)


@dataclass(frozen=True)
class Station:
    """One exercise of one round, with its bouts and the rest that follows."""

    part: Part
    round: int | None
    written: Exercise
    actual: Exercise
    bouts: tuple[StepSide, ...]
    amounts: Amounts
    between_s: int
    """Rest between its bouts."""
    rest_s: int
    rest_kind: StepKind = StepKind.REST


@dataclass(frozen=True)
class PickedStations:
    """What each written item becomes today; the same choice in every round."""

    stations: Mapping[tuple[int, int], Exercise | None]
    """By block and item number."""
    substitutions: tuple[Substitution, ...]
    left_out: tuple[LeftOut, ...]


@dataclass(frozen=True)
class Trim:
    """What is taken away for want of time: rounds first, then accessory stations, the last first."""

    rounds: int
    dropped: frozenset[tuple[int, int]] = frozenset()


def session_kit(session: Session, library: Library) -> frozenset[str]:
    """Kit of everything that was written, which is at hand where nothing else is said."""
    return frozenset(k for _, item in session.items() for k in library[item.exercise].equipment) | ALWAYS_AT_HAND


def main_rounds(session: Session) -> int:
    """Rounds of the main block as written; 1 where there is none."""
    return next((b.rounds for b in session.blocks if b.is_main), 1)


def _no_weight(item: Item, block: Block, dose: Dose, client: Client) -> bool:
    percent = dose.load if block.is_main else FULL
    if percent == 0:
        return True
    return item.load_g > 0 and owned_load_g(item.load_g, percent, client.weights_g) == 0


def _pick_item(order: Order, block: Block, item: Item, dose: Dose, limits: Limits, taken: frozenset[str]
               ) -> ChosenExercise:
    written = order.library[item.exercise]
    kept = replace(limits, without_weights=_no_weight(item, block, dose, order.client),
                   is_weightless_day=block.is_main and dose.load == 0)
    return choose(written, order.library, order.client, kept, taken, whole_library=order.whole_library)


def pick(order: Order, dose: Dose, limits: Limits) -> PickedStations:
    """Chooses for every item once, so that each round is the same."""
    stations: dict[tuple[int, int], Exercise | None] = {}
    swaps: dict[str, Substitution] = {}
    out: dict[str, LeftOut] = {}
    for block_no, block in enumerate(order.session.blocks):
        taken = {i.exercise for i in block.items}
        for item_no, item in enumerate(block.items):
            choice = _pick_item(order, block, item, dose, limits, frozenset(taken))
            actual = stations[block_no, item_no] = choice.exercise
            if actual is None:
                out.setdefault(item.exercise, LeftOut(item.exercise, choice.because, choice.asked))
            elif actual.id != item.exercise:
                taken.add(actual.id)
                swaps.setdefault(item.exercise, Substitution(item.exercise, actual.id, choice.because, choice.asked))
    return PickedStations(stations, tuple(swaps.values()), tuple(out.values()))


def as_written(order: Order) -> PickedStations:
    """Every item as the coach wrote it."""
    blocks = enumerate(order.session.blocks)
    return PickedStations({(b, i): order.library[item.exercise] for b, block in blocks for i,
                           item in enumerate(block.items)},
                  (), ())


def bouts_of(written: Exercise, actual: Exercise, client: Client) -> tuple[StepSide, ...]:
    """Left and right alike, unless a recorded reason forbids one.

    Two bouts where two sides were written; one bout, changing sides within it, where one was: so the time stays.
    """
    left_right = tuple(s for s in (StepSide.LEFT, StepSide.RIGHT) if s.value != client.rest_side)
    if actual.sides is Sides.EACH and (written.sides is Sides.EACH or client.rest_side):
        return left_right
    side = StepSide.BOTH if actual.sides is Sides.BOTH else StepSide.ALTERNATING
    return (side, side) if written.sides is Sides.EACH and not client.rest_side else (side,)


@dataclass(frozen=True)
class _Slot:
    """An item at its turn, with the rest that was written after it."""

    key: tuple[int, int]
    item: Item
    round: int
    rest_s: int
    rest_kind: StepKind


def _slots(block_no: int, block: Block, keys: Sequence[tuple[int, int]], rounds: int) -> Iterator[_Slot]:
    """Items in the order they are done: round by round, or set by set; no rest after the last."""
    sets = block.kind is BlockKind.STRAIGHT_SETS
    turns = [(k, r) for k in keys for r in range(1, rounds + 1)] if sets else [
        (k, r) for r in range(1, rounds + 1) for k in keys]
    for at, (key, round_) in enumerate(turns):
        item = block.items[key[1]]
        rest_s, kind = item.rest_s if item.rest_s is not None else block.rest_s, StepKind.REST
        if at == len(turns) - 1:
            rest_s = 0
        elif not sets and key == keys[-1] and block.round_rest_s:
            rest_s, kind = block.round_rest_s, StepKind.ROUND_REST
        yield _Slot(key, item, round_, rest_s, kind)


def _station(order: Order, block: Block, slot: _Slot, actual: Exercise, dose: Dose, limits: Limits) -> Station:
    item, written = slot.item, order.library[slot.item.exercise]
    work, rest, weight = (dose.work, max(dose.rest, limits.rest), dose.load) if block.is_main else (FULL, FULL, FULL)
    got = amounts(item, written, actual, work, limits.longest_hold_s(actual))
    load = owned_load_g(item.load_g, weight, order.client.weights_g) if actual.loaded and item.load_g else 0
    between = item.rest_s if item.rest_s is not None else block.rest_s
    return Station(
        PARTS.get(block.kind, Part.MAIN), slot.round if block.is_main else None, written, actual,
        bouts_of(written, actual, order.client), replace(got, load_g=load or None),
        max(SIDE_CHANGE_S, longer_rest_s(between, rest)), longer_rest_s(slot.rest_s, rest), slot.rest_kind,
    )


def block_rounds(block: Block, order: Order, dose: Dose) -> int:
    """Rounds of this block, eased as the main block's are; halved in a lighter week."""
    if not block.is_main:
        return block.rounds
    eased = rounds_at(dose.level, block.rounds)
    return min(eased, (block.rounds + 1) // 2) if order.lighter_week else eased


def stations_today(order: Order, picked: PickedStations, dose: Dose, limits: Limits, trim: Trim) -> Iterator[Station]:
    for block_no, block in enumerate(order.session.blocks):
        rounds = block_rounds(block, order, dose)
        if block.is_main:
            rounds = min(rounds, trim.rounds)
        keys = [(block_no, n) for n in range(len(block.items))]
        keys = [k for k in keys if picked.stations[k] is not None and k not in trim.dropped]
        for slot in _slots(block_no, block, keys, rounds):
            actual = picked.stations[slot.key]
            if actual is not None:
                yield _station(order, block, slot, actual, dose, limits)
