"""What one step beyond the written amount adds to a station, and a session with its stations moved.

In order: 5 s twice (a hold up to 30 s) or 1 repetition twice, then the harder option, then the next weight. With the
harder option or a heavier weight the amount starts again from what was written. Source: seconds or repetitions
before load, since one step of a small dumbbell is 25–100 %: `app/domain/dosing/README.md`. [P]
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from app.domain.compile.prescription import LONGEST_HOLD_S, owned_load_g
from app.domain.compile.substitution import Library, may_stand_in
from app.domain.dosing.limits import Limits
from app.domain.model.body import REGION_AXES, Region
from app.domain.model.client import Client
from app.domain.model.exercise import Exercise, Mode
from app.domain.model.plan import Move, MoveKind, StepReason
from app.domain.model.session import Item, Session

MORE_S, MORE_REPS, TWICE = 5, 1, 2
#: A next weight within this of the present one may follow at once; a heavier one only after seconds or repetitions.
LIGHT_PERCENT = 110
#: No step more than doubles a weight.
MOST_PERCENT = 200
AMOUNTS = (MoveKind.SECONDS, MoveKind.REPS)


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


def is_held(item: Item, exercise: Exercise) -> bool:
    """Whether the station is a hold, also where it was written in seconds of work."""
    return item.hold_s > 0 or exercise.mode is Mode.HOLD


def amount_of(item: Item) -> int:
    """Seconds or repetitions of one bout as written."""
    return item.reps or item.hold_s or item.work_s


def fits_in(harder: Exercise, written: Exercise) -> bool:
    """Whether a harder option can take the very bouts that were written: the same movement, sides and mode."""
    return (harder.pattern, harder.sides, harder.mode) == (written.pattern, written.sides, written.mode)


def _harder(written: Exercise, library: Library) -> list[Exercise]:
    """The next rung of the coach's ladder, in the coach's order."""
    found = [library[o.to] for o in written.harder if o.to in library and o.to != written.id]
    return [e for e in found if fits_in(e, written)]


def rungs(item: Item, written: Exercise, library: Library) -> tuple[MoveKind, ...]:
    """What the steps of a station add, in order, whatever today allows."""
    if item.reps:
        more = [MoveKind.REPS] * TWICE
    else:
        room_s = LONGEST_HOLD_S - amount_of(item) if is_held(item, written) else MORE_S * TWICE
        more = [MoveKind.SECONDS] * max(0, min(TWICE, room_s // MORE_S))
    if _harder(written, library):
        more.append(MoveKind.HARDER)
    if written.loaded and item.load_g:
        more.append(MoveKind.LOAD)
    return tuple(more)


def ceiling(item: Item, written: Exercise, library: Library) -> int:
    """The most steps that a station may take: the coach's ceiling, or fewer where there is nothing more to add."""
    return min(item.steps, len(rungs(item, written, library)))


def next_load_g(load_g: int, weights_g: Sequence[int] | None, *, raised: bool) -> int:
    """The next heavier weight owned; 0 where there is none, or where it is too far for now.

    Args:
        weights_g: weights owned; None is "not told", so no next one is known.
        raised: whether seconds or repetitions were raised before.
    """
    now_g = owned_load_g(load_g, 100, weights_g)
    next_g = min((w for w in weights_g or () if w > now_g), default=0)
    most = MOST_PERCENT if raised else LIGHT_PERCENT
    return next_g if now_g and next_g * 100 <= now_g * most else 0


# ------------------------------------------------------------------ one station moved

def _harder_today(written: Exercise, day: StepBounds, taken: frozenset[str]) -> Exercise | None:
    """The harder option, if the body, the room and the kit allow it, and for someone alone only if shown."""
    if day.client.same_as_always or day.limits.is_same_order:
        return None
    able = (e for e in _harder(written, day.library)
            if e.id not in taken and may_stand_in(e, written, day.client, day.limits)
            and not any(loads(e, region) for region in day.hurting))
    return next(able, None)


def _with_more(item: Item, held: bool, taken: Sequence[MoveKind], day: StepBounds) -> tuple[Item, MoveKind]:
    """Seconds or repetitions more; no longer holds where long holds are not allowed."""
    times = sum(kind in AMOUNTS for kind in taken)
    if item.reps:
        return replace(item, reps=item.reps + MORE_REPS * times), MoveKind.REPS
    if held and day.limits.longest_hold_s(day.library[item.exercise]) is not None:
        return item, MoveKind.SECONDS
    more_s = MORE_S * times
    longer = replace(item, hold_s=item.hold_s + more_s) if item.hold_s else replace(item, work_s=item.work_s + more_s)
    return longer, MoveKind.SECONDS


def moved_item(item: Item, stand: StationStep, day: StepBounds, taken: frozenset[str]) -> tuple[Item, Move]:
    """A station at its step, and the move that tells it; the item as it was where nothing can be added today.

    Args:
        taken: exercises of the session, none of which is done twice for being a harder option.
    """
    written = day.library[item.exercise]
    added = rungs(item, written, day.library)[:stand.step]
    harder = _harder_today(written, day, taken) if MoveKind.HARDER in added else None
    actual = harder or written
    raised = any(kind in AMOUNTS for kind in added)
    heavier_g = next_load_g(item.load_g, day.client.weights_g, raised=raised) if (
        MoveKind.LOAD in added and actual.loaded) else 0
    amount = amount_of(item)
    if heavier_g:
        now_g = owned_load_g(item.load_g, 100, day.client.weights_g)
        return (replace(item, exercise=actual.id, load_g=heavier_g),
                _told(item, stand, MoveKind.LOAD, now_g, heavier_g, harder))
    if harder:
        return replace(item, exercise=actual.id), _told(item, stand, MoveKind.HARDER, amount, amount, harder)
    moved, what = _with_more(item, is_held(item, written), added, day)
    return moved, _told(item, stand, what, amount, amount_of(moved))


def _told(item: Item, stand: StationStep, what: MoveKind, written: int, amount: int,
          harder: Exercise | None = None) -> Move:
    return Move(item.exercise, stand.step, what, stand.because, written, amount, harder.id if harder else "")


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
