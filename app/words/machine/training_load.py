"""Words of the `load` command. Knows no Flet."""
from __future__ import annotations

from collections.abc import Iterator, Sequence

from app.domain.measures.training_load import DayLoad, WeekLoad

NO_VALUE = "–"
SAID = (
    "Load is RPE × minutes (AU). Monotony is the mean ÷ the sample standard deviation of the 7 daily loads; strain is "
    "load × monotony. Acute and chronic are exponentially weighted over 7 and 28 days. No number here says what is too "
    "much."
)


def _row(first: str, values: Sequence[str]) -> str:
    return f"{first:<12}" + "".join(f"{value:>12}" for value in values)


def _number(value: float | None, digits: int) -> str:
    return NO_VALUE if value is None else f"{value:.{digits}f}"


def load_table(weeks: Sequence[WeekLoad], days: Sequence[DayLoad]) -> Iterator[str]:
    """Lines of a plain table, weeks first; – where there is no value."""
    yield _row("week from", ("load", "monotony", "strain"))
    for week in weeks:
        yield _row(week.start.isoformat(),
                   (_number(week.load, 1), _number(week.monotony, 3), _number(week.strain, 1)))
    yield ""
    yield _row("day", ("load", "acute", "chronic", "ratio"))
    for day in days:
        yield _row(day.day.isoformat(),
                   (_number(day.load, 1), _number(day.acute, 1), _number(day.chronic, 1), _number(day.ratio, 3)))
    yield ""
    yield SAID
