"""What a session must come to, worked out a second time and in another way: the oracle for compiled steps.

For somebody whom nothing limits, so that every station is as written. Seconds are turned to ms at the very end.
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.domain.model.exercise import Exercise
from app.domain.model.session import Block, Item, Session

WORK = {0: 100, 1: 100, 2: 90, 3: 80, 4: 70}
REST = {0: 100, 1: 100, 2: 110, 3: 125, 4: 150}
LOAD = {0: 100, 1: 100, 2: 100, 3: 90, 4: 80}
MAIN = ("circuit", "straight_sets", "holds")
FLOOR = ("kneeling", "quadruped", "supine", "prone", "side_lying")

Row = tuple[str, str, str | None, str | None, int | None, int, int | None, int | None]
"""kind, part, exercise, side, round, ms, repetitions, grams."""


@dataclass(frozen=True)
class Turn:
    """One exercise of one round, with the rest after it as written."""

    block: Block
    item: Item
    round: int
    rest_s: int
    is_round_rest: bool


def down5(seconds: int, percent: int, least: int) -> int:
    """Rounded down to 5 s, never under the least or what was written."""
    if percent == 100:
        return seconds
    eased = seconds * percent // 100
    return max(eased - eased % 5, min(least, seconds))


def up5(seconds: int, percent: int) -> int:
    """Rounded up to 5 s, never past 90 s unless it was already."""
    if percent == 100:
        return seconds
    longer = seconds * percent
    longer = (longer + 499) // 500 * 5
    return max(seconds, min(longer, 90)) if seconds <= 90 else seconds


def rounds(written: int, level: int) -> int:
    """R, R − 1, half of R rounded up."""
    return {3: max(1, written - 1), 4: -(-written // 2)}.get(level, written)


def turns(block: Block, count: int) -> list[Turn]:
    """Round by round, or set by set; no rest after the last."""
    sets = block.kind == "straight_sets"
    order = [(i, r) for i in block.items for r in range(1, count + 1)] if sets else [
        (i, r) for r in range(1, count + 1) for i in block.items]
    found = []
    for number, (item, round_) in enumerate(order):
        rest_s = block.rest_s if item.rest_s is None else item.rest_s
        ends_round = not sets and (number + 1) % len(block.items) == 0 and block.round_rest_s > 0
        if number == len(order) - 1:
            rest_s, ends_round = 0, False
        elif ends_round:
            rest_s = block.round_rest_s
        found.append(Turn(block, item, round_, rest_s, ends_round))
    return found


def bout_s(item: Item, exercise: Exercise, percent: int) -> tuple[int, int | None]:
    """(ms, repetitions) of one bout."""
    if item.reps:
        count = item.reps if percent == 100 else max(item.reps * percent // 100, min(5, item.reps))
        return count * exercise.rep_ms, count
    if item.hold_s:
        return down5(item.hold_s, percent, 10) * 1000, None
    return down5(item.work_s, percent, 15) * 1000, None


def rows(session: Session, library: Mapping[str, Exercise], level: int, weights: tuple[int, ...] | None
         ) -> Iterator[Row]:
    """Every step of the session at that level."""
    before: Exercise | None = None
    rest_ms, rest_kind, rest_part, rest_round = 0, "rest", None, None
    for block in session.blocks:
        main = block.kind in MAIN
        part = "main" if main else block.kind.value
        work, rest, load = (WORK[level], REST[level], LOAD[level]) if main else (100, 100, 100)
        for turn in turns(block, rounds(block.rounds, level) if main else block.rounds):
            exercise = library[turn.item.exercise]
            round_ = turn.round if main else None
            changes = change(before, exercise)
            change_s = sum(changes)
            set_up_s = 0 if before is exercise else exercise.set_up_s
            left_ms = rest_ms - (change_s + set_up_s) * 1000
            if left_ms > 0:
                yield (rest_kind, rest_part or part, exercise.id, None, rest_round, left_ms, None, None)
            for seconds in changes:
                yield ("change", part, exercise.id, None, round_, seconds * 1000, None, None)
            sides = ("left", "right") if exercise.sides == "each" else (exercise.sides.value,)
            if set_up_s:
                yield ("setup", part, exercise.id, sides[0], round_, set_up_s * 1000, None, None)
            ms, reps = bout_s(turn.item, exercise, work)
            kind = "hold" if exercise.mode == "hold" else "work"
            grams = heaviest(turn.item.load_g * load // 100, weights, load)
            between_s = max(5, up5(block.rest_s if turn.item.rest_s is None else turn.item.rest_s, rest))
            for number, side in enumerate(sides):
                if number:
                    yield ("rest", part, exercise.id, side, round_, between_s * 1000, None, None)
                yield (kind, part, exercise.id, side, round_, ms, reps,
                       grams if exercise.loaded and turn.item.load_g else None)
            before, rest_part, rest_round = exercise, part, round_
            rest_ms = up5(turn.rest_s, rest) * 1000
            rest_kind = "round_rest" if turn.is_round_rest else "rest"
    if place(before) not in ("feet", "seat", "edge"):
        for seconds in change(before, None):
            yield ("change", rest_part or "", None, None, None, seconds * 1000, None, None)


def place(exercise: Exercise | None) -> str:
    """`feet`, `seat`, `edge` of a bed, `bed`, `knees`, `hands` or `back`: where the body is."""
    if exercise is None:
        return "feet"
    flat = any(asked for axis, asked in exercise.demand.items() if axis in ("floor_transfer", "head_below_heart"))
    named = {"standing": "feet", "seated": "seat", "kneeling": "knees", "quadruped": "hands",
             "on_bed": "bed" if flat else "edge"}
    return named.get(exercise.position.value, "back")


#: Seconds of each step from one place to another, `F` for the floor's own: 20, or 30 with weights.
CHANGES = {
    ("seat", "feet"): "5", ("feet", "bed"): "10", ("edge", "feet"): "5", ("edge", "bed"): "10", ("bed", "edge"): "40",
    ("seat", "edge"): "20", ("edge", "seat"): "20", ("seat", "bed"): "20 10", ("bed", "seat"): "40 20 15",
    ("bed", "feet"): "40 5 15", ("back", "feet"): "40 F 15", ("back", "seat"): "40 F", ("back", "bed"): "40 F 10",
    ("back", "edge"): "40 F",
    ("back", "knees"): "10", ("back", "hands"): "10", ("hands", "knees"): "5", ("knees", "hands"): "",
    ("knees", "back"): "", ("hands", "back"): "",
    **{(down, up): "F" for down in ("knees", "hands") for up in ("feet", "seat", "edge")},
    **{(up, down): "F" for down in ("knees", "hands", "back") for up in ("feet", "seat", "edge")},
    **{("bed", down): "40 5 15 F" for down in ("knees", "hands", "back")},
    **{(down, "bed"): "F 10" for down in ("knees", "hands")},
}


def change(before: Exercise | None, after: Exercise | None) -> list[int]:
    """Seconds of each step of a change of position, in order."""
    weight = any(e is not None and e.loaded for e in (before, after))
    told = CHANGES.get((place(before), place(after)), "").split()
    return [(30 if weight else 20) if one == "F" else int(one) for one in told]


def heaviest(most_g: int, weights: tuple[int, ...] | None, percent: int) -> int:
    """The heaviest owned that is not heavier; without a list, down to half a kilogram."""
    if weights is None:
        return most_g if percent == 100 else most_g - most_g % 500
    return max((w for w in weights if w <= most_g), default=0)
