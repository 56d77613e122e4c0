"""The stations of today's session: what each written item becomes, how often, for how long, on which sides."""
from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import TypeVar

from app.domain.compile.arrangement import Unit, arranged, lowest
from app.domain.compile.bouts import Bouts
from app.domain.compile.prescription import FULL, Amounts, amounts, longer_rest_s, no_quicker, owned_load_g, shared
from app.domain.compile.substitution import ChosenExercise, Library, StationPart, choose
from app.domain.dosing.dose import rounds_at
from app.domain.dosing.limits import Limits
from app.domain.model.client import Client, Place
from app.domain.model.diary import Diary
from app.domain.model.exercise import Exercise
from app.domain.model.kit import ALWAYS_AT_HAND
from app.domain.model.limbs import sides_of
from app.domain.model.plan import Dose, LeftOut, OneSided, Part, StepKind, StepSide, Substitution
from app.domain.model.rules import DEFAULT_RULES, RuleTable
from app.domain.model.session import Block, BlockKind, Item, Session

T = TypeVar("T", Substitution, LeftOut, OneSided)
#: A station by the number of its block and of its item.
Key = tuple[int, int]
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

    stations: Mapping[Key, ChosenExercise]
    """By block and item number."""
    substitutions: tuple[Substitution, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    one_sided: tuple[OneSided, ...] = ()

    def done(self, key: Key) -> bool:
        """Whether anything is done there today."""
        return bool(self.stations[key].parts)


@dataclass(frozen=True)
class Trim:
    """What is taken away for want of time. In which order: `app/domain/compile/shortening.py`."""

    rounds: int
    dropped: frozenset[Key] = frozenset()


def session_kit(session: Session, library: Library) -> frozenset[str]:
    """Kit of everything that was written, which is at hand where nothing else is said."""
    return frozenset(k for _, item in session.items() for k in library[item.exercise].equipment) | ALWAYS_AT_HAND


def main_rounds(session: Session) -> int:
    """Rounds of the main part as written, the most of any block; 1 where there is none."""
    return max((b.rounds for b in session.blocks if b.is_main), default=1)


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
    stations: dict[Key, ChosenExercise] = {}
    for block_no, block in enumerate(order.session.blocks):
        taken = {i.exercise for i in block.items}
        for item_no, item in enumerate(block.items):
            choice = _pick_item(order, block, item, dose, limits, frozenset(taken))
            stations[block_no, item_no] = choice
            taken |= {part.exercise.id for part in choice.parts}
    told = [(item.exercise, stations[key]) for key, item in _items(order.session)]
    return PickedStations(
        stations, _once(_swap(written, choice) for written, choice in told),
        _once(None if choice.parts else LeftOut(written, choice.because, choice.asked) for written, choice in told),
        _once(OneSided(written, choice.spared.value, choice.because, choice.asked)
              if choice.spared and len(choice.parts) == 1 else None for written, choice in told))


def _items(session: Session) -> Iterator[tuple[Key, Item]]:
    for block_no, block in enumerate(session.blocks):
        yield from (((block_no, item_no), item) for item_no, item in enumerate(block.items))


def _swap(written: str, choice: ChosenExercise) -> Substitution | None:
    """What stands in, on the side where something does."""
    swapped = next((part.exercise.id for part in choice.parts if part.exercise.id != written), None)
    if swapped is None:
        return None
    return Substitution(written, swapped, choice.because, choice.asked, choice.spared.value if choice.spared else "")


def _once(told: Iterable[T | None]) -> tuple[T, ...]:
    """Each written exercise is told of once: the first time counts."""
    first: dict[str, T] = {}
    for one in told:
        if one is not None:
            first.setdefault(one.written if isinstance(one, Substitution) else one.exercise, one)
    return tuple(first.values())


def as_written(order: Order) -> PickedStations:
    """Every item as the coach wrote it."""
    return PickedStations({key: ChosenExercise((StationPart(order.library[item.exercise], Bouts(sides_of(
        order.library[item.exercise]))),)) for key, item in _items(order.session)})


# ------------------------------------------------------------------ the turns of a block

@dataclass(frozen=True)
class _Slot:
    """A unit at its turn, with the rest that was written after it."""

    unit: Unit
    item: Item
    round: int
    rest_s: int
    rest_kind: StepKind


def _slots(block: Block, groups: Sequence[Sequence[Unit]], rounds: int) -> Iterator[_Slot]:
    """Units in the order they are done: round by round, or set by set; no rest after the last."""
    sets = block.kind is BlockKind.STRAIGHT_SETS
    turns = [(u, r) for g in groups for u in g for r in range(1, rounds + 1)] if sets else [
        (u, r) for g in groups for r in range(1, rounds + 1) for u in g]
    ends = {g[-1] for g in groups if g}
    for at, (unit, round_) in enumerate(turns):
        item = block.items[unit.key[1]]
        rest_s, kind = item.rest_s if item.rest_s is not None else block.rest_s, StepKind.REST
        if not unit.ends_station:
            rest_s = max(SIDE_CHANGE_S, rest_s)
        if at == len(turns) - 1:
            rest_s = 0
        elif not sets and unit in ends and block.round_rest_s:
            rest_s, kind = block.round_rest_s, StepKind.ROUND_REST
        yield _Slot(unit, item, round_, rest_s, kind)


def _station(order: Order, block: Block, slot: _Slot, dose: Dose, limits: Limits) -> Station:
    item, written, actual = slot.item, order.library[slot.item.exercise], slot.unit.part.exercise
    work, rest, weight = (dose.work, max(dose.rest, limits.rest), dose.load) if block.is_main else (FULL, FULL, FULL)
    got = shared(amounts(item, written, actual, work, limits.longest_hold_s(actual)), slot.unit.part.bouts.share)
    if actual.is_chair_stand:
        got = no_quicker(got, actual.rep_ms, limits.slowest_stand_ms)
    load = owned_load_g(item.load_g, weight, order.client.weights_g) if actual.loaded and item.load_g else 0
    between = item.rest_s if item.rest_s is not None else block.rest_s
    return Station(
        PARTS.get(block.kind, Part.MAIN), slot.round if block.is_main else None, written, actual,
        slot.unit.part.bouts.sides, replace(got, load_g=load or None),
        max(SIDE_CHANGE_S, longer_rest_s(between, rest)), longer_rest_s(slot.rest_s, rest), slot.rest_kind,
    )


def block_rounds(block: Block, order: Order, dose: Dose) -> int:
    """Rounds of this block, eased as the main block's are; halved in a lighter week."""
    if not block.is_main:
        return block.rounds
    eased = rounds_at(dose.level, block.rounds)
    return min(eased, (block.rounds + 1) // 2) if order.lighter_week else eased


def _units(order: Order, picked: PickedStations, trim: Trim) -> list[list[Unit]]:
    """What is done today of each block, in the order of writing."""
    found: list[list[Unit]] = [[] for _ in order.session.blocks]
    for key, item in _items(order.session):
        parts = () if key in trim.dropped else picked.stations[key].parts
        found[key[0]] += [Unit(key, order.library[item.exercise], part, part is parts[-1]) for part in parts]
    return found


def stations_today(order: Order, picked: PickedStations, dose: Dose, limits: Limits, trim: Trim) -> Iterator[Station]:
    """Every station of the day in its turn."""
    units = _units(order, picked, trim)
    for block_no, block in enumerate(order.session.blocks):
        rounds = block_rounds(block, order, dose)
        if block.is_main:
            rounds = min(rounds, trim.rounds)
        written = [order.library[item.exercise] for item in block.items]
        around = (lowest(units[:block_no], last=True), lowest(units[block_no + 1:], last=False))
        groups = arranged(block.kind, written, units[block_no], rounds, around)
        for slot in _slots(block, groups, rounds):
            yield _station(order, block, slot, dose, limits)
