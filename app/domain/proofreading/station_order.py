"""Objections to the order of stations: what runs on without a break, and what comes too often."""
from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from app.domain.model.exercise import Axis, Exercise
from app.domain.model.session import BlockKind, Item
from app.domain.proofreading.finding import CLEAR_DEMAND, FULL_DEMAND, Finding, SessionUnderCheck, turns


def order_problems(draft: SessionUnderCheck) -> Iterator[Finding]:
    """Runs of one muscle, of grip and of wrist; how often wrists and shoulders are asked; head-low after effort."""
    limits = draft.limits
    yield from _muscles_running(draft)
    yield from _running(draft, "grip_in_a_row", Axis.GRIP, limits.grip_in_a_row)
    yield from _running(draft, "wrist_in_a_row", Axis.WRIST_WEIGHT_BEARING, limits.wrist_in_a_row)
    yield from _often(draft, "wrist_often", Axis.WRIST_WEIGHT_BEARING, CLEAR_DEMAND, limits.wrist_items)
    yield from _often(draft, "overhead_often", Axis.OVERHEAD_SHOULDER, FULL_DEMAND, limits.overhead_items)
    yield from _head_low(draft)


def stretches(draft: SessionUnderCheck) -> Iterator[tuple[Item, ...]]:
    """Stations of the main part in the order in which they are done, cut where a round is followed by a rest."""
    run: list[Item] = []
    for block in draft.session.blocks:
        if not block.is_main:
            continue
        for turn in range(turns(block)):
            if turn and block.round_rest_s:
                yield tuple(run)
                run = []
            run += block.items
    yield tuple(run)


def longest_run(items: Sequence[Item], holds: Callable[[Item], bool]) -> tuple[int, Item | None]:
    """How many items in a row hold, at the most, and the last of them."""
    best: tuple[int, Item | None] = (0, None)
    run = 0
    for item in items:
        run = run + 1 if holds(item) else 0
        if run > best[0]:
            best = run, item
    return best


def _longest(draft: SessionUnderCheck, holds: Callable[[Exercise], bool]) -> tuple[int, Item | None]:
    runs = (longest_run(stretch, lambda item: holds(draft.of(item))) for stretch in stretches(draft))
    return max(runs, key=lambda run: run[0])


def _muscles_running(draft: SessionUnderCheck) -> Iterator[Finding]:
    """Strength stations one after the other with the same prime mover; each place once."""
    strength = [e for e in map(draft.of, draft.main_items()) if e.is_strength]
    found: dict[str, Finding] = {}
    for muscle in dict.fromkeys(m for e in strength for m in e.muscles):
        length, last = _longest(draft, lambda e, m=muscle: e.is_strength and m in e.muscles)  # type: ignore[misc]
        if last is not None and length > draft.limits.muscle_in_a_row:
            where = draft.at(last)
            found.setdefault(where, Finding("muscle_in_a_row", where, length, draft.limits.muscle_in_a_row,
                                            what=muscle))
    yield from found.values()


def _running(draft: SessionUnderCheck, rule: str, axis: Axis, limit: int) -> Iterator[Finding]:
    length, last = _longest(draft, lambda e: e.asks(axis) >= CLEAR_DEMAND)
    if last is not None and length > limit:
        yield Finding(rule, draft.at(last), length, limit)


def _often(draft: SessionUnderCheck, rule: str, axis: Axis, demand: int, limit: int) -> Iterator[Finding]:
    count = sum(draft.of(item).asks(axis) >= demand for item in draft.main_items())
    if count > limit:
        yield Finding(rule, draft.session.id, count, limit)


def _head_low(draft: SessionUnderCheck) -> Iterator[Finding]:
    """A head below the heart at a demand of 2 or more, straight after a station, also as the first of the cool-down."""
    after = tuple(draft.items_in(BlockKind.COOL_DOWN))[:1]
    runs = list(stretches(draft))
    runs[-1] = (*runs[-1], *(after if runs[-1] else ()))
    low = {item.exercise: item for run in runs for item in run[1:]
           if draft.of(item).asks(Axis.HEAD_BELOW_HEART) >= CLEAR_DEMAND}
    for item in low.values():
        asked = draft.of(item).asks(Axis.HEAD_BELOW_HEART)
        yield Finding("head_low_after_effort", draft.at(item), asked, CLEAR_DEMAND - 1)
