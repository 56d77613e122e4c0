"""What goes for want of time, one thing less at a time, down to a whole small session with its warm-up and its end.

Rounds first, then accessory stations, the last first; only where that is not enough, other stations, and with them
what they were warmed up for. The order is the same for every body and every day. [P]
"""
from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from app.domain.compile.prescription import FULL, written_ms
from app.domain.compile.stations import Key, Order, PickedStations, Trim
from app.domain.compile.substitution import Library
from app.domain.model.exercise import Axis, Exercise, Sides
from app.domain.model.session import BlockKind, Session

WHOLE_SMALL_S = 600
"""Ten minutes: so long a whole small session takes at most, and in less none is cut down to it. [P]"""
#: Stations left of (main part, cool-down, warm-up), step by step.
SMALLER = ((3, 2, 3), (2, 1, 2), (1, 1, 1))
CLEAR_DEMAND = 2
"""From here on a demand of the main part wants a warm-up move, as the proofreader sees it."""


def shortened(session: Session, library: Library, room_ms: int | None) -> tuple[Trim, ...]:
    """From everything to the least; down to a small session only where there is time for one."""
    main = [(number, block) for number, block in enumerate(session.blocks) if block.is_main]
    trims = [Trim(left) for left in range(max((b.rounds for _, b in main), default=1), 0, -1)]
    accessory = [(b, i) for b, block in main for i, item in enumerate(block.items) if item.accessory]
    trims += [Trim(1, frozenset(accessory[at:])) for at in reversed(range(len(accessory)))]
    if room_ms is not None and room_ms < WHOLE_SMALL_S * 1000:
        return tuple(trims)
    gone = list(accessory)
    for key in _further(session, library, frozenset(accessory)):
        gone.append(key)
        trims.append(Trim(1, frozenset(gone)))
    return tuple(trims)


def _keys(session: Session, *kinds: BlockKind) -> list[Key]:
    return [(b, i) for b, block in enumerate(session.blocks) if (block.kind in kinds if kinds else block.is_main)
            for i in range(len(block.items))]


def _further(session: Session, library: Library, accessory: frozenset[Key]) -> Iterator[Key]:
    """What goes after that, in order: the last stations, the first of the cool-down, what warms up for nothing left."""
    main = [key for key in _keys(session) if key not in accessory]
    end, warm = _keys(session, BlockKind.COOL_DOWN), _keys(session, BlockKind.WARM_UP)

    def at(key: Key) -> Exercise:
        return library[session.blocks[key[0]].items[key[1]].exercise]

    for least_main, least_end, least_warm in SMALLER:
        while len(main) > least_main:
            yield main.pop()
        while len(end) > least_end:
            yield end.pop(0)
        while len(warm) > least_warm:
            key = _least_needed(warm, [at(k) for k in main], at)
            warm.remove(key)
            yield key


def _least_needed(warm: Sequence[Key], main: Sequence[Exercise], at: Callable[[Key], Exercise]) -> Key:
    """The warm-up move, the last of equals, without which the fewest clear demands of the main part go unprepared."""
    wanted = [axis for axis in Axis if any(e.asks(axis) >= CLEAR_DEMAND for e in main)]

    def missing(gone: Key) -> int:
        kept = [at(key) for key in warm if key != gone]
        return sum(not any(e.asks(axis) for e in kept) for axis in wanted)

    return min(reversed(warm), key=missing)


def with_something_left(order: Order, picked: PickedStations, trim: Trim) -> Trim:
    """The same, but where nothing would be left of a part today, the first of it that can be done.

    It is no longer than what would have been left on a better day.
    """
    session = order.session
    for keys in (_keys(session, BlockKind.WARM_UP), _keys(session), _keys(session, BlockKind.COOL_DOWN)):
        left = [key for key in keys if key not in trim.dropped]
        if any(picked.done(key) for key in left):
            continue
        most_ms = max((_bout_ms(order, key) for key in left), default=0)
        back = next((key for key in keys if picked.done(key) and _bout_ms(order, key) <= most_ms), None)
        if back is not None:
            trim = replace(trim, dropped=trim.dropped - {back})
    return trim


def _bout_ms(order: Order, key: Key) -> int:
    """One bout as written, ms; both where the sides are apart."""
    item = order.session.blocks[key[0]].items[key[1]]
    exercise = order.library[item.exercise]
    return written_ms(item, exercise, FULL) * (2 if exercise.sides is Sides.EACH else 1)
