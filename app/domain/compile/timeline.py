"""From a session as written to steps on a ruler: `compile_timeline`.

Steps touch, never overlap and sum to the total; every time is a whole number of milliseconds. The gap between two
stations is max(rest, change + set-up), given as the rest that remains, then the change, then the set-up.
"""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from app.domain.compile.condition_reasons import condition_reasons
from app.domain.compile.posture import PositionChange, changes_at_the_end, changes_between, depth
from app.domain.compile.shortening import WHOLE_SMALL_S, shortened, with_something_left
from app.domain.compile.stations import (
    Order,
    PickedStations,
    Station,
    Trim,
    as_written,
    block_rounds,
    main_rounds,
    pick,
    session_kit,
    stations_today,
)
from app.domain.dosing.dose import AMOUNTS, decide_dose, rounds_at
from app.domain.dosing.limb_caps import with_limb_caps
from app.domain.dosing.limits import Limits, limits_today
from app.domain.errors import TooShort
from app.domain.model.client import Client
from app.domain.model.exercise import Position
from app.domain.model.limbs import rests_leg
from app.domain.model.plan import Dose, LeftOut, Reason, Step, StepKind, StepSide, Timeline
from app.domain.model.rules import RuleId
from app.domain.model.session import Session

HOLD_PAUSE_S = 5
"""Between the parts of a hold that is split because long holds are not allowed."""


class _Ruler:
    """Lays steps end to end."""

    def __init__(self) -> None:
        self.steps: list[Step] = []
        self.at_ms = 0

    def add(self, step: Step) -> None:
        if step.length_ms > 0:
            self.steps.append(replace(step, start_ms=self.at_ms))
            self.at_ms += step.length_ms


def _change(ruler: _Ruler, step: Step, changes: Iterable[PositionChange]) -> None:
    """The steps of a change of position, each as `step` with its own length and line."""
    for change in changes:
        ruler.add(replace(step, length_ms=change.seconds * 1000, to_floor=change.to_floor, stage=change.stage))


def _gap(ruler: _Ruler, before: Station | None, after: Station, client: Client, set_up_s: int) -> None:
    """Rest that remains, then the change, then the set-up."""
    was, now = before.actual if before else None, after.actual
    changes = changes_between(was, now, client)
    change_ms = sum(change.seconds for change in changes) * 1000
    set_up_ms = 0 if was is not None and was.id == now.id else set_up_s * 1000
    rest_ms = max(0, (before.rest_s * 1000 if before else 0) - change_ms - set_up_ms)
    kind = before.rest_kind if before else StepKind.REST
    ruler.add(Step(kind, before.part if before else after.part, 0, rest_ms, now.id,
                   round=before.round if before else None))
    _change(ruler, Step(StepKind.CHANGE, after.part, 0, 0, now.id, round=after.round), changes)
    ruler.add(Step(StepKind.SETUP, after.part, 0, set_up_ms, now.id, after.bouts[0], after.round))


def _bout(ruler: _Ruler, station: Station, side: StepSide) -> None:
    got, swapped = station.amounts, station.actual.id != station.written.id
    step = Step(got.kind, station.part, 0, 0, station.actual.id, side, station.round, got.reps, got.load_g,
                station.written.id if swapped else None)
    for at, part_ms in enumerate(got.parts_ms()):
        if at:
            ruler.add(Step(StepKind.REST, station.part, 0, HOLD_PAUSE_S * 1000, station.actual.id, side,
                           station.round))
        ruler.add(replace(step, length_ms=part_ms))


def _lay(stations: Iterable[Station], order: Order) -> tuple[Step, ...]:
    ruler, client, seen = _Ruler(), order.client, set[str]()
    before: Station | None = None
    for station in stations:
        _gap(ruler, before, station, client, order.set_up_s(station.actual, seen))
        seen.add(station.actual.id)
        for at, side in enumerate(station.bouts):
            if at:
                ruler.add(Step(StepKind.REST, station.part, 0, station.between_s * 1000, station.actual.id, side,
                               station.round))
            _bout(ruler, station, side)
        before = station
    if before is not None and depth(before.actual):
        _change(ruler, Step(StepKind.CHANGE, before.part, 0, 0), changes_at_the_end(before.actual, client))
    return tuple(ruler.steps)


# ------------------------------------------------------------------ fitting into the time there is

def _room_ms(order: Order) -> int | None:
    return None if order.place.minutes is None else order.place.minutes * 60_000


def _first_trim(order: Order, dose: Dose, trims: Sequence[Trim]) -> int:
    """How much less the session as written would have to be today or on any better day.

    What is eased or left out makes room on the clock, and that room is never filled with more of the rest.
    """
    room_ms, at = _room_ms(order), 0
    if room_ms is None:
        return at
    plain, free, written = replace(order, client=Client()), Limits({}, frozenset()), as_written(order)
    for level in range(dose.level + 1):
        amount = AMOUNTS[level]
        eased = Dose(level, 0, amount.work, amount.rest, amount.load)
        while at < len(trims) - 1:
            steps = _lay(stations_today(plain, written, eased, free, trims[at]), plain)
            if not steps or steps[-1].end_ms <= room_ms:
                break
            at += 1
    return at


def _fit(order: Order, dose: Dose, picked: PickedStations, limits: Limits) -> tuple[tuple[Step, ...], Trim]:
    """The fullest session that fits, and what was trimmed.

    Raises:
        TooShort: even the least does not fit.
    """
    room_ms, least_ms = _room_ms(order), 0
    trims = shortened(order.session, order.library, room_ms)
    for trim in trims[_first_trim(order, dose, trims):]:
        trim = with_something_left(order, picked, trim)
        steps = _lay(stations_today(order, picked, dose, limits, trim), order)
        least_ms = steps[-1].end_ms if steps else 0
        if room_ms is None or least_ms <= room_ms:
            return steps, trim
    if (room_ms or 0) < WHOLE_SMALL_S * 1000:
        least_ms = min(least_ms, WHOLE_SMALL_S * 1000)
    raise TooShort(session=order.session.name, least_s=-(-least_ms // 1000), asked_s=(room_ms or 0) // 1000)


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
    if not order.table.spare_both_sides:
        limits = with_limb_caps(limits, order.client, order.diary, order.today)
    limits = replace(limits, is_on_bed=_stays_on_bed(order, limits))
    picked = pick(order, dose, limits)
    steps, trim = _fit(order, dose, picked, limits)
    dropped = _dropped(order, picked, trim)
    told = _told(order, dose, trim, dropped)
    told = replace(told, reasons=(*told.reasons, *condition_reasons(order, dose, limits, steps)))
    return Timeline(session.id, steps, told, picked.substitutions,
                    picked.left_out + dropped, _target_rpe(session, limits), strength and dose.load > 0,
                    one_sided=picked.one_sided)


def _stays_on_bed(order: Order, limits: Limits) -> bool:
    """Whether whoever does a session with a bed in it has a leg that rests, so that nobody crosses on the other one."""
    written = (order.library[item.exercise] for block in order.session.blocks for item in block.items)
    return rests_leg(order.client) and limits.bed and any(one.position is Position.ON_BED for one in written)


def _dropped(order: Order, picked: PickedStations, trim: Trim) -> tuple[LeftOut, ...]:
    """Stations that would be done, had they time."""
    return tuple(LeftOut(order.session.blocks[b].items[i].exercise, ("minutes",))
                 for b, i in sorted(trim.dropped) if picked.done((b, i)))


def _told(order: Order, dose: Dose, trim: Trim, dropped: tuple[LeftOut, ...]) -> Dose:
    """The dose with the rounds really done, and a reason for each that the calendar or the clock took."""
    main = [b for b in order.session.blocks if b.is_main]
    week = [block_rounds(b, order, dose) for b in main]
    reasons, rounds = list(dose.reasons), max(week, default=dose.rounds)
    if any(left < rounds_at(dose.level, b.rounds) for left, b in zip(week, main, strict=True)):
        reasons.append(Reason(RuleId.LIGHTER_WEEK, 0, (("rounds", rounds),)))
    if dropped or trim.rounds < max(week, default=1):
        rounds = min(rounds, trim.rounds)
        reasons.append(Reason(RuleId.MINUTES, 0, (("minutes", order.place.minutes or 0), ("rounds", rounds))))
    return replace(dose, rounds=rounds, reasons=tuple(reasons))


def _target_rpe(session: Session, limits: Limits) -> int:
    """Effort aimed at: as written, or the most that a condition allows."""
    return session.target_rpe if limits.most_rpe is None else min(session.target_rpe, limits.most_rpe)
