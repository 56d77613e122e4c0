"""Sessions with their effort as a CSV table: date, minutes, rpe, in any order and with other columns beside them."""
from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from fractions import Fraction
from io import StringIO

from app.domain.errors import UnreadableSource, WrongValue

COLUMNS = ("date", "minutes", "rpe")
MOST_MINUTES, MOST_RPE = 24 * 60, 10
YEARS = range(1900, 2200)
#: From the first day to the last; every day between them is worked out, also one without a session.
MOST_DAYS = 50 * 366
_MOST_SHOWN = 60
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
_NUMBER = re.compile(r"-?(\d{1,9}(\.\d{0,9})?|\.\d{1,9})", re.ASCII)

Row = tuple[date, Fraction, Fraction]
"""Day, minutes, RPE."""


def load_rows(data: bytes, name: str) -> tuple[Row, ...]:
    """The rows of a table in their order. Exact numbers, so that nothing is lost in a sum.

    Args:
        name: what the file is called, for the errors.

    Raises:
        UnreadableSource: no UTF-8, or no CSV.
        WrongValue: a column or a value, and `where` names line and column; or days too far apart.
    """
    lines = _lines(_text(data, name), name)
    number, head = next(lines, (1, []))
    at = _positions(head, f"{name}, line {number}")
    rows = tuple(_row(cells, at, f"{name}, line {number}") for number, cells in lines)
    if not rows:
        raise WrongValue(where=f"{name}, line {number + 1}, column date", value=None, expected="at least one session")
    first, last = min(row[0] for row in rows), max(row[0] for row in rows)
    if (last - first).days > MOST_DAYS:
        raise WrongValue(where=f"{name}, column date", value=f"{first} to {last}",
                         expected=f"days at most {MOST_DAYS // 366} years apart")
    return rows


def _text(data: bytes, name: str) -> str:
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[:error.start]
        line, column = before.count(b"\n") + 1, error.start - before.rfind(b"\n")
        raise UnreadableSource(where=f"{name}, line {line}, column {column}", why="it is not UTF-8") from None


def _lines(words: str, name: str) -> Iterator[tuple[int, list[str]]]:
    """(number of its first line, cells) of every row that says something."""
    reader = csv.reader(StringIO(words, newline=""), strict=True)
    number = 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                yield number, [cell.strip() for cell in cells]
            number = reader.line_num + 1
    except csv.Error as error:
        raise UnreadableSource(where=f"{name}, line {number}", why=f"it is no CSV ({error})") from None


def _positions(head: Sequence[str], where: str) -> Mapping[str, int]:
    """The place of each column that is needed."""
    names = [cell.casefold() for cell in head]
    for column in COLUMNS:
        if names.count(column) != 1:
            value = None if column not in names else f"{column} {names.count(column)} times"
            raise WrongValue(where=f"{where}, column {column}", value=value,
                             expected=f"a first line that names {', '.join(COLUMNS)}, each once")
    return {column: names.index(column) for column in COLUMNS}


def _row(cells: Sequence[str], at: Mapping[str, int], where: str) -> Row:
    def cell(column: str) -> str:
        return cells[at[column]] if at[column] < len(cells) else ""

    return (_day(cell("date"), f"{where}, column date"),
            _number(cell("minutes"), f"{where}, column minutes", MOST_MINUTES),
            _number(cell("rpe"), f"{where}, column rpe", MOST_RPE))


def _day(words: str, where: str) -> date:
    try:
        day = date.fromisoformat(words) if _DAY.fullmatch(words) else None
    except ValueError:
        day = None
    if day is None or day.year not in YEARS:
        raise WrongValue(where=where, value=_shown(words), expected="a date of the calendar as 2026-03-02")
    return day


def _number(words: str, where: str, most: int) -> Fraction:
    value = Fraction(words) if _NUMBER.fullmatch(words) else None
    if value is None or not 0 <= value <= most:
        raise WrongValue(where=where, value=_shown(words), expected=f"a number from 0 to {most}")
    return value


def _shown(words: str) -> str | None:
    """A value that fits into a sentence."""
    return (words if len(words) <= _MOST_SHOWN else words[:_MOST_SHOWN - 1] + "…") or None
