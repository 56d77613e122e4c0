"""A session with its stations moved: each at its place on the ladder, as far as today's body, kit and room allow.

What one step adds: `progression_ladder.py`.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from app.domain.compile.substitution import Library, may_stand_in
from app.domain.dosing.limits import Limits
from app.domain.model.body import REGION_AXES, Region
from app.domain.model.client import Client
from app.domain.model.exercise import Exercise
from app.domain.model.plan import Move, MoveKind, StepReason
from app.domain.model.session import Item, Session
from app.domain.progress.progression_ladder import (
    AMOUNTS,
    Pick,
    Rung,
    amount_of,
    harder_options,
    is_held,
    item_at,
    ladder,
)


@dataclass(frozen=True)
class StepBounds:
    """What a harder option and a heavier weight must keep to."""

    library: Library
    client: Client
    limits: Limits
    hurting: frozenset[Region] = frozenset()


@dataclass(frozen=True)
class StationStep:
    """The step that a station takes today, and why."""

    step: int
    because: StepReason


def main_items(session: Session) -> dict[str, Item]:
    """The stations: items of the main part by exercise. One that is written there twice is no station and stays."""
    items = [item for block, item in session.items() if block.is_main]
    ids = [item.exercise for item in items]
    return {item.exercise: item for item in items if ids.count(item.exercise) == 1}


def loads(exercise: Exercise, region: Region) -> bool:
    """Whether it asks anything of a region."""
    return any(exercise.asks(axis) > 0 for axis in REGION_AXES[region])


def ceiling(item: Item, written: Exercise, library: Library, weights_g: Sequence[int] | None) -> int:
    """The most steps that a station may take: the coach's ceiling, or fewer where there is nothing more to add."""
    return len(ladder(item, written, library, weights_g, item.steps)) - 1


# ------------------------------------------------------------------ one station moved

def _able(day: StepBounds, taken: frozenset[str]) -> Pick:
    """The harder option that body, room and kit allow today, and for someone alone only if shown."""
    def pick(exercise: Exercise) -> Exercise | None:
        if day.client.same_as_always or day.limits.is_same_order:
            return None
        able = (e for e in harder_options(exercise, day.library)
                if e.id not in taken and may_stand_in(e, exercise, day.client, day.limits)
                and not any(loads(e, region) for region in day.hurting))
        return next(able, None)
    return pick


def position_today(item: Item, step: int, day: StepBounds, taken: frozenset[str]) -> Rung:
    """Where a station at that step stands today: short of a rung that today forbids."""
    written = day.library[item.exercise]
    ahead = ladder(item, written, day.library, day.client.weights_g, step)
    possible = ladder(item, written, day.library, day.client.weights_g, step, _able(day, taken))
    # another harder option than the coach's first stands on the same rungs as far as both climb alike
    same = [at for at, meant in zip(possible, ahead, strict=False) if (at.by, at.rank) == (meant.by, meant.rank)]
    at = same[-1]
    if at.by in AMOUNTS and is_held(item, written) and day.limits.longest_hold_s(written) is not None:
        return same[0]
    return at


def moved_item(item: Item, stand: StationStep, day: StepBounds, taken: frozenset[str]) -> tuple[Item, Move]:
    """A station at its step, and the move that tells it; the item as it was where nothing can be added today.

    Args:
        taken: exercises of the session, none of which is done twice for being a harder option.
    """
    at = position_today(item, stand.step, day, taken)
    base = ladder(item, day.library[item.exercise], day.library, day.client.weights_g, 0)[0]
    if at == base:
        return item, _told(item, stand, _amount_kind(item), amount_of(item), amount_of(item))
    harder = at.exercise if at.rank else ""
    if at.load_g != base.load_g and at.load_g:
        return item_at(item, at), _told(item, stand, MoveKind.LOAD, base.load_g, at.load_g, harder)
    what = MoveKind.HARDER if harder else _amount_kind(item)
    return item_at(item, at), _told(item, stand, what, base.amount, at.amount, harder)


def _amount_kind(item: Item) -> MoveKind:
    return MoveKind.REPS if item.reps else MoveKind.SECONDS


def _told(item: Item, stand: StationStep, what: MoveKind, written: int, amount: int, harder: str = "") -> Move:
    return Move(item.exercise, stand.step, what, stand.because, written, amount, harder)


def moved_session(session: Session, stands: Mapping[str, StationStep], day: StepBounds, left: Iterable[str] = ()
                  ) -> tuple[Session, tuple[Move, ...]]:
    """The session with each station at its step, and every move with its reason.

    Args:
        stands: by written exercise; a station that is not in it stays as written.
        left: exercises that are not done as written today, so that nothing is added to what stands in.
    """
    taken, still = {item.exercise for _, item in session.items()}, frozenset(left)
    moved: dict[str, Item] = {}
    moves: list[Move] = []
    for exercise, item in main_items(session).items():
        if exercise not in stands or exercise in still:
            continue
        moved[exercise], move = moved_item(item, stands[exercise], day, frozenset(taken))
        taken.add(moved[exercise].exercise)
        if moved[exercise] != item or stands[exercise].step == 0:
            moves.append(move)
    blocks = tuple(
        replace(b, items=tuple(moved.get(i.exercise, i) for i in b.items)) if b.is_main else b for b in session.blocks)
    return replace(session, blocks=blocks), tuple(moves)
