"""The table: what was measured, beside its floor of the same run, for one version or two."""
from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from statistics import median

NONE = "–"


@dataclass(frozen=True)
class Line:
    """One row of the table; every list holds the values of all turns, taken by turns."""

    what: str
    floor_name: str
    unit: str
    aim: str
    spent: Mapping[str, Sequence[float]]
    """By version."""
    floor: Sequence[float] = ()
    """Of all versions together: it is the same work in the same run. Empty where there is none to divide by."""
    facts: str = ""
    why_not: Mapping[str, str] = field(default_factory=dict)
    """Versions that could not be measured, and what they said."""


def value(samples: Sequence[float], unit: str) -> str:
    """The median with its unit, three digits; a dash where nothing was measured."""
    return f"{short(median(samples))} {unit}" if samples else NONE


def short(number: float) -> str:
    """Three digits that say something, and no zeros that do not."""
    if number == 0:
        return "0"
    if abs(number) >= 100:
        return f"{number:,.0f}"
    return f"{number:.{1 if abs(number) >= 10 else 2}f}"


def ratio(samples: Sequence[float], floor: Sequence[float]) -> float | None:
    """Median over median; None where there is nothing to divide, or to divide by."""
    below = median(floor) if floor else 0
    return median(samples) / below if samples and below else None


def said(number: float | None) -> str:
    """A ratio, to a hundredth."""
    return NONE if number is None else f"{number:.2f}"


def heading(versions: Sequence[str]) -> list[str]:
    """The names of the columns."""
    each = [column for version in versions for column in (version, f"{version} ÷ floor")]
    beside = [f"{versions[0]} ÷ {versions[1]}"] if len(versions) == 2 else []
    return ["what", "floor", *each, *beside, "aim"]


def cells(line: Line, versions: Sequence[str]) -> list[str]:
    """One row, in the order of `heading`."""
    floor = f"{line.floor_name} ({value(line.floor, line.unit)})" if line.floor else line.floor_name
    each = [cell for version in versions
            for cell in (value(line.spent.get(version, ()), line.unit),
                         said(ratio(line.spent.get(version, ()), line.floor)))]
    beside = []
    if len(versions) == 2:
        beside = [said(ratio(*(line.spent.get(version, ()) for version in versions)))]
    return [line.what, floor, *each, *beside, line.aim]


def printed(lines: Iterable[Line], versions: Sequence[str]) -> Iterator[str]:
    """The whole table, and below it what was measured and what could not be."""
    kept = list(lines)
    yield row(heading(versions))
    yield row("---" for _ in heading(versions))
    for line in kept:
        yield row(cells(line, versions))
    for line in kept:
        if line.facts:
            yield f"{line.what}: {line.facts}"
        yield from (f"{line.what}: NOT MEASURED for {version}: {why}" for version, why in line.why_not.items())


def row(words: Iterable[str]) -> str:
    """One line of a Markdown table."""
    return f"| {' | '.join(words)} |"
