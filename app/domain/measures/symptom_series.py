"""What a coach looks at over weeks: pain and soreness by spot, effort told and meant."""
from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from app.domain.dosing.way_back import check_ins_of, sessions_of
from app.domain.model.body import Spot
from app.domain.model.record import Record, SessionDone

WEEKS = 6
STRETCH_DAYS = 3
"""So long that people who train every other day have an answer in nearly each."""


class Named(dict[Spot, int]):
    """Levels of some spots, saying nothing about any other."""


Told = tuple[date, Mapping[Spot, int]]
"""A day's answer; a spot that it does not name did not hurt, unless it is `Named`."""


@dataclass(frozen=True)
class SpotSeries:
    """The worst of each stretch of days, oldest first, 0–10; None where nobody was asked or nothing answered."""

    spot: Spot
    values: tuple[int | None, ...]

    @property
    def last(self) -> int:
        """The latest that was told."""
        return next(v for v in reversed(self.values) if v is not None)

    @property
    def worst(self) -> int:
        """The highest that was told."""
        return max(v for v in self.values if v is not None)


def pain_by_spot(records: Sequence[Record], end: date) -> tuple[SpotSeries, ...]:
    """Pain of every joint that hurt within six weeks, in check-ins, the morning after, in and after sessions."""
    return _by_spot(records, end, _pains)


def soreness_by_spot(records: Sequence[Record], end: date) -> tuple[SpotSeries, ...]:
    """Soreness of the muscles of every region that was achy within six weeks."""
    return _by_spot(records, end, _soreness)


def pain_told_until(records: Sequence[Record], end: date) -> date | None:
    """The last day within six weeks on which anything was answered about joints; None: on none."""
    return _until(records, end, _pains)


def soreness_told_until(records: Sequence[Record], end: date) -> date | None:
    """The same of achy muscles."""
    return _until(records, end, _soreness)


def _until(records: Sequence[Record], end: date, told: Callable[[Sequence[Record]], Iterator[Told]]) -> date | None:
    first = end - timedelta(days=7 * WEEKS - 1)
    return max((day for day, _ in told(records) if first <= day <= end), default=None)


def effort(records: Sequence[Record], end: date) -> tuple[tuple[int | None, int], ...]:
    """(told, meant) of each session within six weeks, oldest first, 0–10."""
    first = end - timedelta(days=7 * WEEKS - 1)
    return tuple((s.rpe, s.plan.target_rpe) for s in sessions_of(records) if first <= s.stamp.local <= end)


def _pains(records: Sequence[Record]) -> Iterator[Told]:
    for told in check_ins_of(records):
        for answer in (told.pain, told.morning_after):
            if answer is not None:
                yield told.stamp.local, answer
    for done in sessions_of(records):
        if done.pain is not None:
            yield done.stamp.local, done.pain
        if done.hurts:
            yield done.stamp.local, _worst_hurts(done)


def _worst_hurts(done: SessionDone) -> Mapping[Spot, int]:
    found = Named()
    for hurt in done.hurts:
        found[hurt.spot] = max(hurt.level, found.get(hurt.spot, 0))
    return found


def _soreness(records: Sequence[Record]) -> Iterator[Told]:
    return ((c.stamp.local, c.soreness) for c in check_ins_of(records) if c.soreness is not None)


def _by_spot(records: Sequence[Record], end: date, told: Callable[[Sequence[Record]], Iterator[Told]]
             ) -> tuple[SpotSeries, ...]:
    """The latest worst first."""
    count = 7 * WEEKS // STRETCH_DAYS
    first = end - timedelta(days=count * STRETCH_DAYS - 1)
    stretches: list[list[Mapping[Spot, int]]] = [[] for _ in range(count)]
    for day, levels in told(records):
        if first <= day <= end:
            stretches[(day - first).days // STRETCH_DAYS].append(levels)
    spots = {spot for answers in stretches for levels in answers for spot, level in levels.items() if level}
    found = [SpotSeries(spot, tuple(_worst(spot, answers) for answers in stretches)) for spot in spots]
    return tuple(sorted(found, key=lambda s: (-s.last, -s.worst, s.spot)))


def _worst(spot: Spot, answers: Sequence[Mapping[Spot, int]]) -> int | None:
    said = [levels.get(spot, 0) for levels in answers if spot in levels or not isinstance(levels, Named)]
    return max(said, default=None)
