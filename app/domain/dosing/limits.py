"""Today's caps: the highest demand allowed on each axis, and what else the body, the room and the day forbid."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from app.domain.model.body import BODY_REGIONS, REGION_AXES, Spot
from app.domain.model.client import Client, Condition, Place, UsualPain
from app.domain.model.diary import Diary
from app.domain.model.exercise import Axis, Exercise, Space, Support
from app.domain.model.kit import WEIGHTS
from app.domain.model.thresholds import FALL_SUPPORT_DAYS, PAIN_CAPS, PAIN_RESTS

ALL = 3
USUAL_CAP = 2
NOISE_CAP = 1
"""Without noise: no hop and no jump; a step like a walk stays."""

#: What getting down to one knee or to hands and knees asks of the floor axis, at the least.
DOWN = 2

#: Source: the project's table, `README.md` beside this. [P], each to be agreed with a clinician.
CONDITION_CAPS: Mapping[Condition, Mapping[Axis, int]] = {
    Condition.OSTEOPOROSIS: {Axis.LOADED_SPINAL_FLEXION: 1, Axis.LOADED_TWIST: 0, Axis.IMPACT: 1},
    Condition.VERTIGO: {Axis.HEAD_BELOW_HEART: 0, Axis.FLOOR_TRANSFER: 1},
    Condition.PELVIC_FLOOR: {Axis.IMPACT: 0},
    Condition.HIP_REPLACEMENT: {Axis.DEEP_HIP_FLEXION: 1, Axis.LOADED_TWIST: 1},
    Condition.KNEE_REPLACEMENT: {Axis.KNEELING: 1, Axis.IMPACT: 1},
    Condition.FALLS: {Axis.SINGLE_LEG_BALANCE: 1},
    Condition.CANNOT_RISE: {Axis.FLOOR_TRANSFER: 1},
    Condition.HIGH_BLOOD_PRESSURE: {Axis.HEAD_BELOW_HEART: 1},
    Condition.HEART_CONDITION: {Axis.HEAD_BELOW_HEART: 1},
    Condition.BETA_BLOCKER: {},
    Condition.PACEMAKER: {},
    Condition.INSULIN: {},
    Condition.ONE_SIDE: {},
}
#: Longest hold with one of these, s.
SHORT_HOLD_S = 10
SHORT_HOLDS = frozenset({Condition.HIGH_BLOOD_PRESSURE, Condition.HEART_CONDITION})


def _asked(exercise: Exercise, axis: Axis) -> int:
    """Its rating; on the floor never less than getting down there asks, however it was rated."""
    return max(exercise.asks(axis), DOWN if axis is Axis.FLOOR_TRANSFER and exercise.on_floor else 0)


@dataclass(frozen=True)
class Limits:
    """What an exercise must keep to today."""

    caps: Mapping[Axis, int] = field(hash=False)
    kit: frozenset[str]
    space: Space = Space.LARGE
    hold_s: int | None = None
    """Longest hold, s; None: as written."""
    needs_support: bool = False
    """Balance only with something to hold."""
    room_caps: Mapping[Axis, int] = field(default_factory=dict, hash=False)
    """Caps that the room sets, named apart in the reasons."""
    without_weights: bool = False
    """No weight today: none that is owned is light enough, or the dose allows none."""

    def over(self, exercise: Exercise) -> tuple[Axis, ...]:
        """Axes on which it asks more than the body allows today."""
        return tuple(a for a in Axis if _asked(exercise, a) > self.caps.get(a, ALL))

    def against(self, exercise: Exercise) -> tuple[str, ...]:
        """All that speaks against it today; empty: it may be done."""
        found: list[str] = [*self.over(exercise)]
        if exercise.needs() - self.kit:
            found.append("kit")
        if _asked(exercise, Axis.FLOOR_TRANSFER) > self.room_caps.get(Axis.FLOOR_TRANSFER, ALL):
            found.append("floor")
        if exercise.asks(Axis.IMPACT) > self.room_caps.get(Axis.IMPACT, ALL):
            found.append("noise")
        if exercise.space is Space.LARGE and self.space is Space.SMALL:
            found.append("space")
        if self.needs_support and exercise.asks(Axis.SINGLE_LEG_BALANCE) and exercise.support is Support.NONE:
            found.append("support")
        if self.without_weights and (exercise.loaded or WEIGHTS & exercise.needs()):
            found.append("weight")
        return tuple(found)


def usual_pain_holds(usual: UsualPain | None, level: int, rise: int | None, today: date) -> bool:
    """Whether this pain is the agreed usual one: at or under it, settled by the morning, agreement not run out."""
    return usual is not None and level <= usual.level and today <= usual.until and rise is not None and rise <= 0


def usual_for(client: Client, spot: Spot) -> UsualPain | None:
    """The agreement for a spot; one for a region without a side holds for both."""
    return client.usual_pain.get(spot) or client.usual_pain.get(Spot(spot.region))


def _at(told: Mapping[Spot, int], spot: Spot) -> int:
    """The worst that was told of a spot, with a side or without; 0 where nothing was."""
    return max((value for other, value in told.items() if spot.meets(other)), default=0)


def is_usual(client: Client, diary: Diary, spot: Spot, level: int, today: date) -> bool:
    """Whether the pain at `spot` is covered by an agreement today."""
    unasked = 0 if diary.first_session else None
    rise = unasked if diary.pain_rise is None else _at(diary.pain_rise, spot)
    hours = _at(diary.pain_hours, spot)
    return usual_pain_holds(usual_for(client, spot), level, rise if hours == 0 else max(hours, 1), today)


def _pain_cap(client: Client, diary: Diary, spot: Spot, level: int, today: date) -> int:
    if is_usual(client, diary, spot, level, today):
        return USUAL_CAP
    return pain_cap(level)


def pain_cap(level: int) -> int:
    """The highest demand on the axes of a region that hurts so much, on both sides."""
    return 0 if level >= PAIN_RESTS else 1 if level >= PAIN_CAPS else ALL


def caps_today(client: Client, diary: Diary | None, today: date) -> dict[Axis, int]:
    """The lowest cap on every axis from limits, areas to spare, conditions and today's pain, alike on both sides."""
    caps = dict.fromkeys(Axis, ALL)

    def lower(axis: Axis, cap: int) -> None:
        caps[axis] = min(caps[axis], cap)

    for axis, cap in client.limits.items():
        lower(axis, cap)
    for spot, cap in client.spare.items():
        for axis in REGION_AXES[spot.region]:
            lower(axis, cap)
    for condition in client.conditions:
        for axis, cap in CONDITION_CAPS[condition].items():
            lower(axis, cap)
    if not client.rises_unaided:
        lower(Axis.FLOOR_TRANSFER, 1)
    for spot, level in ((diary.pain if diary else None) or {}).items():
        if spot.region in BODY_REGIONS:
            for axis in REGION_AXES[spot.region]:
                lower(axis, _pain_cap(client, diary or Diary(), spot, level, today))
    return caps


def has_fallen(diary: Diary | None) -> bool:
    """Whether a fall is so recent that balance is done with a hand on something only. [P]"""
    return diary is not None and diary.fall is not None and diary.fall.days_ago <= FALL_SUPPORT_DAYS


def limits_today(
    client: Client, place: Place, diary: Diary | None, session_kit: frozenset[str], today: date
) -> Limits:
    """Everything that today forbids. `session_kit` is at hand where neither client nor place says what is."""
    kit = place.kit if place.kit is not None else client.kit
    room: dict[Axis, int] = {}
    if not place.floor:
        room[Axis.FLOOR_TRANSFER] = 1
    if not place.noise:
        room[Axis.IMPACT] = NOISE_CAP
    return Limits(
        caps=caps_today(client, diary, today),
        kit=session_kit if kit is None else kit,
        space=place.space,
        hold_s=SHORT_HOLD_S if client.conditions & SHORT_HOLDS else None,
        needs_support=Condition.FALLS in client.conditions or has_fallen(diary),
        room_caps=room,
    )
