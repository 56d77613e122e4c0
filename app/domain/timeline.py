"""From a session as written to steps on a ruler: `compile_timeline`.

Steps touch, never overlap and sum to the total; every time is a whole number of milliseconds. The gap between two
stations is max(rest, change + set-up), given as the rest that remains, then the change, then the set-up.
"""
from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from app.domain.client import Client
from app.domain.dose import decide_dose
from app.domain.errors import TooShort
from app.domain.exercise import Exercise
from app.domain.limits import Limits, limits_today
from app.domain.plan import Dose, LeftOut, Reason, Step, StepKind, StepSide, Timeline
from app.domain.rules import RuleId
from app.domain.stations import (
    Order,
    Picked,
    Station,
    Trim,
    block_rounds,
    main_rounds,
    pick,
    session_kit,
    stations_today,
)

#: Getting down to the floor or up takes 4.1 ± 1.1 s (Bohannon & Lusardi 2004); nobody is hurried. [P]
FLOOR_CHANGE_S, SLOW_FLOOR_CHANGE_S = 20, 30
HOLD_PAUSE_S = 5
"""Between the parts of a hold that is split because long holds are not allowed."""


def _change_s(before: Exercise | None, after: Exercise, client: Client) -> int:
    """Seconds to get down or up between two exercises; 0 where both are on the floor or neither is."""
    down = before is not None and before.on_floor
    if down == after.on_floor:
        return 0
    slow = (before is not None and before.loaded) or after.loaded or not client.rises_unaided
    return SLOW_FLOOR_CHANGE_S if slow else FLOOR_CHANGE_S


class _Ruler:
    """Lays steps end to end."""

    def __init__(self) -> None:
        self.steps: list[Step] = []
        self.at_ms = 0

    def add(self, step: Step) -> None:
        if step.length_ms > 0:
            self.steps.append(replace(step, start_ms=self.at_ms))
            self.at_ms += step.length_ms


def _gap(ruler: _Ruler, before: Station | None, after: Station, client: Client) -> None:
    """Rest that remains, then the change, then the set-up."""
    same = before is not None and before.actual.id == after.actual.id
    change_ms = _change_s(before.actual if before else None, after.actual, client) * 1000
    set_up_ms = 0 if same else after.actual.set_up_s * 1000
    rest_ms = max(0, (before.rest_s * 1000 if before else 0) - change_ms - set_up_ms)
    kind = before.rest_kind if before else StepKind.REST
    rest_part = before.part if before else after.part
    rest_round = before.round if before else None
    ruler.add(Step(kind, rest_part, 0, rest_ms, after.actual.id, round=rest_round))
    ruler.add(Step(StepKind.CHANGE, after.part, 0, change_ms, after.actual.id, round=after.round,
                   to_floor=after.actual.on_floor))
    ruler.add(Step(StepKind.SETUP, after.part, 0, set_up_ms, after.actual.id, after.bouts[0], after.round))


def _bout(ruler: _Ruler, station: Station, side: StepSide) -> None:
    got, swapped = station.amounts, station.actual.id != station.written.id
    step = Step(got.kind, station.part, 0, 0, station.actual.id, side, station.round, got.reps, got.load_g,
                station.written.id if swapped else None)
    for at, part_ms in enumerate(got.parts_ms()):
        if at:
            ruler.add(Step(StepKind.REST, station.part, 0, HOLD_PAUSE_S * 1000, station.actual.id, side,
                           station.round))
        ruler.add(replace(step, length_ms=part_ms))


def _lay(stations: Iterable[Station], client: Client) -> tuple[Step, ...]:
    ruler = _Ruler()
    before: Station | None = None
    for station in stations:
        _gap(ruler, before, station, client)
        for at, side in enumerate(station.bouts):
            if at:
                ruler.add(Step(StepKind.REST, station.part, 0, station.between_s * 1000, station.actual.id, side,
                               station.round))
            _bout(ruler, station, side)
        before = station
    if before is not None and before.actual.on_floor:
        up_s = FLOOR_CHANGE_S if client.rises_unaided else SLOW_FLOOR_CHANGE_S
        ruler.add(Step(StepKind.CHANGE, before.part, 0, up_s * 1000, None, to_floor=False))
    return tuple(ruler.steps)


# ------------------------------------------------------------------ fitting into the time there is

def _trims(order: Order, rounds: int, picked: Picked) -> Iterator[Trim]:
    """From everything to the least, one thing less at a time."""
    for left in range(max(rounds, 1), 0, -1):
        yield Trim(left)
    dropped: set[tuple[int, int]] = set()
    for block_no, block in reversed(list(enumerate(order.session.blocks))):
        for item_no, item in reversed(list(enumerate(block.items))):
            if block.is_main and item.accessory and picked.stations[block_no, item_no] is not None:
                dropped.add((block_no, item_no))
                yield Trim(1, frozenset(dropped))


def _fit(order: Order, dose: Dose, picked: Picked, limits: Limits) -> tuple[tuple[Step, ...], Trim, bool]:
    """The fullest session that fits, what was trimmed, and whether anything was.

    Raises:
        TooShort: even the least does not fit.
    """
    most = max((block_rounds(b, order, dose) for b in order.session.blocks if b.is_main), default=1)
    trims = list(_trims(order, most, picked))
    room_ms = None if order.place.minutes is None else order.place.minutes * 60_000
    least_ms = 0
    for at, trim in enumerate(trims):
        steps = _lay(stations_today(order, picked, dose, limits, trim), order.client)
        least_ms = steps[-1].end_ms if steps else 0
        if room_ms is None or least_ms <= room_ms:
            return steps, trim, at > 0
    raise TooShort(session=order.session.id, least_s=-(-least_ms // 1000), asked_s=(room_ms or 0) // 1000)


def compile_timeline(order: Order) -> Timeline:
    """Today's session with its dose, stand-ins and what was left out. Same order in, same timeline out.

    At level 6–8 there are no steps.

    Raises:
        TooShort: the place's minutes are fewer than the session needs; the error names the least.
    """
    session, library = order.session, order.library
    strength = session.trains_strength(library)
    dose = decide_dose(order.diary, order.client, main_rounds(session), order.today, strength=strength,
                       table=order.table)
    if not dose.allows_session:
        return Timeline(session.id, (), dose, target_rpe=session.target_rpe)
    limits = limits_today(order.client, order.place, order.diary, session_kit(session, library), order.today)
    picked = pick(order, dose, limits)
    steps, trim, trimmed = _fit(order, dose, picked, limits)
    out = picked.left_out + _dropped(order, trim)
    return Timeline(session.id, steps, _told(order, dose, trim, trimmed), picked.substitutions, out,
                    session.target_rpe, strength and dose.load > 0)


def _dropped(order: Order, trim: Trim) -> tuple[LeftOut, ...]:
    return tuple(LeftOut(order.session.blocks[b].items[i].exercise, ("minutes",)) for b, i in sorted(trim.dropped))


def _told(order: Order, dose: Dose, trim: Trim, trimmed: bool) -> Dose:
    """The dose with the rounds really done, and a reason for each that the calendar or the clock took."""
    reasons, rounds = list(dose.reasons), dose.rounds
    main = next((b for b in order.session.blocks if b.is_main), None)
    if order.lighter_week and main and block_rounds(main, order, dose) < rounds:
        rounds = block_rounds(main, order, dose)
        reasons.append(Reason(RuleId.LIGHTER_WEEK, 0, (("rounds", rounds),)))
    if trimmed:
        rounds = min(rounds, trim.rounds)
        reasons.append(Reason(RuleId.MINUTES, 0, (("minutes", order.place.minutes or 0), ("rounds", rounds))))
    return replace(dose, rounds=rounds, reasons=tuple(reasons))
