"""What the coach says of single exercises: which stay as they are, and which change by hand is to last."""
from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import flet as ft

from app.domain.model.record import SessionDone
from app.ui.coach.person.person_sheet import Sheet
from app.ui.parts import Card, options
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell
from app.words.coach import reply as words

LATEST = 6
"""Sessions looked through for exercises and changes."""

Pair = tuple[str, str]


@dataclass(frozen=True)
class Stations:
    """`held` None: as sent before. `swaps` last from now on."""

    held: frozenset[str] | None = None
    swaps: tuple[Pair, ...] = ()


AS_BEFORE = Stations()


def held_sent(sheet: Sheet) -> frozenset[str]:
    """The exercises that the coach holds, as last sent."""
    lists = (r.content["held"] for r in reversed(sheet.sent) if r.content.get("held") is not None)
    return frozenset(map(str, next(lists, ())))


def stations_known(sessions: Sequence[SessionDone]) -> dict[str, str]:
    """Names of the exercises that moved on lately, by the id as written; the furthest on first."""
    steps: dict[str, int] = {}
    names: dict[str, str] = {}
    for done in sessions[:LATEST]:
        for move in done.plan.moves:
            steps[move.exercise] = max(steps.get(move.exercise, 0), move.step)
            names.setdefault(move.exercise, done.names.get(move.exercise, move.exercise))
    return {one: names[one] for one in sorted(steps, key=lambda i: (-steps[i], names[i]))}


def changes_known(sessions: Sequence[SessionDone]) -> dict[Pair, Mapping[str, str]]:
    """Changes that were made by hand lately, with the names to tell them by; the most frequent first.

    Without those to an exercise in which something hurt.
    """
    hurt = {one.exercise for done in sessions[:LATEST] for one in done.hurts}
    times: dict[Pair, int] = {}
    named: dict[Pair, Mapping[str, str]] = {}
    for done in sessions[:LATEST]:
        for pair in dict.fromkeys(pair for pair in done.by_hand if pair[1] not in hurt):
            times[pair] = times.get(pair, 0) + 1
            named.setdefault(pair, done.names)
    return {pair: named[pair] for pair in sorted(times, key=lambda p: (-times[p], p))}


@ft.component
def StationPanel(shell: Shell, sheet: Sheet, now: Stations, on_change: Callable[[Stations], object]) -> ft.Control:
    """Two lists to tick; nothing where there is nothing to say."""
    c = shell.card()
    held = now.held if now.held is not None else held_sent(sheet)
    pieces = [*_holding(c, sheet, held, lambda chosen: on_change(Stations(chosen, now.swaps))),
              *_changing(c, sheet, now.swaps, lambda swaps: on_change(Stations(now.held, swaps)))]
    return c.stack(pieces, t.GAP_S)


def _holding(c: Card, sheet: Sheet, held: frozenset[str], tell: Callable[[frozenset[str]], object]
             ) -> list[ft.Control]:
    names = stations_known(sheet.sessions)
    names |= {one: one.replace("-", " ") for one in sorted(held - names.keys())}
    if not names:
        return []
    among = options(*((one, words.stays(name)) for one, name in names.items()))
    return [c.subhead(words.HOLD_HEAD), c.soft(words.HOLD_WHY),
            c.several_of_list(among, held, lambda one: tell(held ^ {one}))]


def _changing(c: Card, sheet: Sheet, swaps: tuple[Pair, ...], tell: Callable[[tuple[Pair, ...]], object]
              ) -> list[ft.Control]:
    known = changes_known(sheet.sessions)
    if not known:
        return []
    among = options(*((pair, words.always(pair, names)) for pair, names in known.items()))

    def toggle(pair: Pair) -> object:
        return tell(tuple(p for p in known if (p in swaps) != (p == pair)))

    return [c.subhead(words.LASTING_HEAD), c.soft(words.LASTING_WHY),
            c.several_of_list(among, frozenset(swaps), toggle)]
