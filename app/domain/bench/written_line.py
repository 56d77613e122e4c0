"""One exercise as a line of words: "chair stand 8x /30" is eight times, then 30 s of rest."""
from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from app.domain.bench.sheet_edits import BOUNDS, MOST_REST_S, Measure, usual_item, with_amount
from app.domain.model.exercise import Exercise, Mode
from app.domain.model.session import Item

MOST_OFFERED = 5
_TIMES = re.compile(r"(?:(\d{1,2})\s*x|x\s*(\d{1,2}))", re.IGNORECASE)
_SECONDS = re.compile(r"(\d{1,3})\s*(?:s|sec)?", re.IGNORECASE)
_WORD = re.compile(r"\w+")


@dataclass(frozen=True)
class WrittenLine:
    """What was understood of a line: words for an exercise, and what stands behind them."""

    words: str = ""
    measure: Measure | None = None
    amount: int = 0
    rest_s: int | None = None


def read_line(text: str) -> WrittenLine:
    """Words first, then an amount (`40`, `40s`, `8x`) and a rest behind a slash (`/20`), in any order."""
    words: list[str] = []
    line = WrittenLine()
    for token in text.replace("/", " /").split():
        times, seconds = _TIMES.fullmatch(token), _SECONDS.fullmatch(token)
        if token.startswith("/") and token[1:].removesuffix("s").isdecimal():
            line = replace(line, rest_s=min(int(token[1:].removesuffix("s")), MOST_REST_S))
        elif words and times:
            line = replace(line, measure=Measure.TIMES, amount=int(times[1] or times[2]))
        elif words and seconds:
            line = replace(line, measure=Measure.SECONDS, amount=int(seconds[1]))
        else:
            words.append(token)
    return replace(line, words=" ".join(words))


def offered(library: Mapping[str, Exercise], words: str, most: int = MOST_OFFERED) -> tuple[Exercise, ...]:
    """Exercises in whose name each word begins a word: those that begin with the first of them
    first, and short ones before long ones.
    """
    asked = [word.casefold() for word in _WORD.findall(words)]
    if not asked:
        return ()
    found = [e for e in library.values() if _holds(_WORD.findall(e.name.casefold()), asked)]
    return tuple(sorted(found, key=lambda e: (not e.name.casefold().startswith(asked[0]), len(e.name), e.name))[:most])


def _holds(names: Iterable[str], asked: Iterable[str]) -> bool:
    there = list(names)
    return all(any(name.startswith(word) for name in there) for word in asked)


def item_of(line: WrittenLine, exercise: Exercise, before: Item | None = None) -> Item:
    """The line as an item. What was left out comes from the line before it, where the measure is the same, else from
    the exercise."""
    item = usual_item(exercise)
    if line.amount:
        measure = Measure.HELD if exercise.mode is Mode.HOLD else line.measure or Measure.SECONDS
        least, most, _ = BOUNDS[measure]
        item = with_amount(item, measure, min(max(line.amount, least), most))
    elif before is not None and exercise.mode is not Mode.HOLD and before.work_s:
        item = with_amount(item, Measure.SECONDS, before.work_s)
    return replace(item, rest_s=line.rest_s)
