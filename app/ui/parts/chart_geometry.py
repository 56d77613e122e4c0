"""Where a chart's lines, bars and words lie, without a single Flet shape."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

Point = tuple[float, float]


@dataclass(frozen=True)
class Plot:
    """The field of a chart, px, and the value at its upper edge; 0 lies at the foot."""

    left: float
    right: float
    head: float
    foot: float
    top: float

    def x(self, index: int, count: int) -> float:
        """Where the `index`-th of `count` equal steps lies; a single one at the right end."""
        return self.left + (self.right - self.left) * (index / (count - 1) if count > 1 else 1.0)

    def y(self, value: float) -> float:
        """Where a value lies, held within the field."""
        return self.foot - (self.foot - self.head) * min(max(value / self.top, 0.0), 1.0)


def runs(values: Sequence[float | None], plot: Plot) -> tuple[tuple[Point, ...], ...]:
    """Points joined where values follow one another; a missing value breaks the line, it is never bridged."""
    found: list[list[Point]] = [[]]
    for i, value in enumerate(values):
        if value is None:
            found.append([])
        else:
            found[-1].append((plot.x(i, len(values)), plot.y(value)))
    return tuple(tuple(run) for run in found if run)


def last_known(values: Sequence[float | None]) -> float | None:
    """The latest value that was given."""
    return next((v for v in reversed(values) if v is not None), None)


def spread(wanted: Sequence[float], room: float, low: float, high: float) -> tuple[float, ...]:
    """Heights for words that want to stand at `wanted`, moved apart to `room` px and held within low and high."""
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    placed = [0.0] * len(wanted)
    at = low - room
    for i in order:
        at = placed[i] = max(wanted[i], at + room, low)
    limit = high + room
    for i in reversed(order):
        limit = placed[i] = min(placed[i], limit - room)
    return tuple(placed)


def bars(count: int, plot: Plot, widest: float = 44) -> tuple[tuple[float, float], ...]:
    """Left and right of `count` bars, px, evenly placed with at least a quarter of the room between them."""
    each = (plot.right - plot.left) / max(count, 1)
    half = min(widest, each * 0.7) / 2
    return tuple((plot.left + each * (i + 0.5) - half, plot.left + each * (i + 0.5) + half) for i in range(count))
