"""Today's caps: the highest demand allowed on each axis, and what else the body, the room and the day forbid."""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date

from app.domain.dosing.conditions import (
    HELD,
    SHORT_HOLD_S,
    SLOW_STAND_MS,
    condition_caps,
    is_one_handed,
    lifts_nothing,
    rises_steadily,
    rules_of,
    stays_level,
    stays_up,
)
from app.domain.dosing.holding import hands_help, is_held_throughout, may_hold
from app.domain.dosing.look import looked_at_from
from app.domain.dosing.sore_places import (
    ALL,
    cap_where_it_hurts,
    felt,
    getting_up_cap,
    is_hip_front_spared,
    is_off_side,
)
from app.domain.model.body import BODY_REGIONS, REGION_AXES, Spot
from app.domain.model.client import Client, Condition, Place
from app.domain.model.diary import Diary
from app.domain.model.exercise import CLEAR, Axis, Exercise, Mode, Position, Space
from app.domain.model.kit import BED, STEP, WEIGHTS
from app.domain.model.limbs import (
    BodyLimb,
    idle_across,
    lies_on_side,
    rests_arm,
    takes_both_arms,
)
from app.domain.model.plan import StepSide
from app.domain.model.thresholds import FALL_SUPPORT_DAYS

NOISE_CAP = 1
"""Without noise: no hop and no jump; a step like a walk stays."""

#: What getting down to one knee or to hands and knees asks of the floor axis, at the least.
DOWN = 2

#: With an arm that rests: it neither balances nor catches anybody.
ONE_ARM: Mapping[Axis, int] = {Axis.UNHELD_BALANCE: 0, Axis.SINGLE_LEG_BALANCE: 1}

#: With a walking aid besides, no hand is left to catch with: both feet carry.
ONE_ARM_AND_AID: Mapping[Axis, int] = {**ONE_ARM, Axis.SINGLE_LEG_BALANCE: 0}

#: What speaks against standing up from a chair without the hands, where they have to help.
HANDS_FREE = "hands_free"

def _asked(exercise: Exercise, axis: Axis, *, is_held: bool = False) -> int:
    """Its rating; on the floor never less than getting down there asks, however it was rated.

    With `is_held` the hand that may stay on something stays there, which takes the unheld balance away.
    """
    if is_held and axis is Axis.UNHELD_BALANCE and axis in exercise.demand and may_hold(exercise):
        return 0
    return max(exercise.asks(axis), DOWN if axis is Axis.FLOOR_TRANSFER and exercise.on_floor else 0)


@dataclass(frozen=True)
class Limits:
    """What an exercise must keep to today."""

    caps: Mapping[Axis, int] = field(hash=False)
    kit: frozenset[str]
    space: Space = Space.LARGE
    hold_s: int | None = None
    """Longest hard hold, s; None: as written. Stretches, breathing and light holds stay as they are."""
    needs_support: bool = False
    """Balance only with a hand on something: so for whomever anything keeps from balancing without, whatever it is."""
    is_held_up: bool = False
    """They stand, and stand up, only with something to hold, whatever they do."""
    is_seated: bool = False
    """Only what is done sitting."""
    is_one_handed: bool = False
    """Nothing for which both arms work, carry or hold on; one that is new may be in a sling."""
    is_off_side: bool = False
    """Nothing that is done lying on one side."""
    is_level: bool = False
    """Nothing that is stepped up on to, and no bend with one foot ahead."""
    is_up: bool = False
    """Nothing that is done lying."""
    is_hip_front_spared: bool = False
    """No thigh behind the body: no stretch of the front of the hip, and no split stance that bends."""
    is_on_bed: bool = False
    """Only what is done on the bed: whose leg rests does not cross to a chair and back."""
    is_weightless: bool = False
    """No weight whatever the day, for want of a clinician's yes."""
    is_weightless_standing: bool = False
    """No weight while standing: the one hand that there is stays free."""
    is_weightless_lying: bool = False
    """No weight while lying down."""
    slowest_stand_ms: int = 0
    """What one stand up from a chair takes at the least, ms, and none of them is brisk; 0: as written."""
    is_same_order: bool = False
    """Nothing stands in for anything."""
    rest: int = 100
    """Rest at least so many percent of what was written."""
    most_rpe: int | None = None
    room_caps: Mapping[Axis, int] = field(default_factory=dict, hash=False)
    """Caps that the room sets, named apart in the reasons."""
    without_weights: bool = False
    """No weight today: none that is owned is light enough, or the dose allows none."""
    is_weightless_day: bool = False
    """The dose allows no weight at all."""
    bed: bool = True
    """Whether there is a bed."""
    body_caps: Mapping[Axis, int] = field(default_factory=dict, hash=False)
    """`caps` without what only one limb forbids; empty: the same as `caps`."""
    limb_caps: Mapping[BodyLimb, Mapping[Axis, int]] = field(default_factory=dict, hash=False)
    """For each sore limb: the caps of work that uses it. See `app/domain/dosing/limb_caps.py`."""

    looked_at: Mapping[Spot, int] = field(default_factory=dict, hash=False)
    """By spot the pain from which somebody should look at it before the session goes on."""

    def caps_of(self, exercise: Exercise, side: StepSide) -> Mapping[Axis, int]:
        """The caps of one side's bout: without those of the like limb across, where the bout leaves that in peace."""
        if not self.body_caps:
            return self.caps
        spared = idle_across(exercise, side)
        told = [self.body_caps, *(caps for limb, caps in self.limb_caps.items() if limb not in spared)]
        return {axis: min(caps[axis] for caps in told) for axis in self.body_caps}

    def over(self, exercise: Exercise, side: StepSide | None = None) -> tuple[Axis, ...]:
        """Axes on which it asks more than the body allows today; of one side's bout, where that is told."""
        caps = self.caps if side is None else self.caps_of(exercise, side)
        # nothing asks more than the highest rating
        return tuple(a for a in Axis if (cap := caps.get(a, ALL)) < ALL and self.asked(exercise, a) > cap)

    def asked(self, exercise: Exercise, axis: Axis) -> int:
        """What it asks of this body, which may have to keep a hand on something."""
        return _asked(exercise, axis, is_held=self.needs_support)

    def longest_hold_s(self, exercise: Exercise) -> int | None:
        """Its longest hold in one piece, s; None: as written."""
        is_hard = exercise.mode is Mode.HOLD and exercise.asks(Axis.HARD_HOLD) >= CLEAR
        return self.hold_s if is_hard else None

    def lacks(self, exercise: Exercise) -> tuple[str, ...]:
        """The things that it needs and that are not at hand."""
        bed = {BED} if exercise.position is Position.ON_BED and not self.bed else frozenset()
        return tuple(sorted((exercise.needs() - self.kit) | bed))

    def against(self, exercise: Exercise, side: StepSide | None = None) -> tuple[str, ...]:
        """All that speaks against it today, or against one side's bout of it; empty: it may be done."""
        return tuple(dict.fromkeys(key for key, _ in self._found(exercise, side)))

    def detail(self, exercise: Exercise, side: StepSide | None = None) -> tuple[str, ...]:
        """The same as `against` with what this exercise asks: `deep_knee_flexion:2`, `kit:band`, `weight:day`."""
        return tuple(f"{key}:{what}" for key, what in self._found(exercise, side))

    def _found(self, exercise: Exercise, side: StepSide | None) -> Iterator[tuple[str, str]]:
        yield from ((axis, str(self.asked(exercise, axis))) for axis in self.over(exercise, side))
        yield from (("kit", kit) for kit in self.lacks(exercise))
        if _asked(exercise, Axis.FLOOR_TRANSFER) > self.room_caps.get(Axis.FLOOR_TRANSFER, ALL):
            yield "floor", ""
        if exercise.asks(Axis.IMPACT) > self.room_caps.get(Axis.IMPACT, ALL):
            yield "noise", ""
        if exercise.space is Space.LARGE and self.space is Space.SMALL:
            yield "space", ""
        if self.is_held_up and exercise.position is Position.STANDING and not is_held_throughout(exercise):
            yield "support", ""
        if self.is_seated and exercise.sits_forward:
            yield "forward", ""
        if self.slowest_stand_ms and exercise.rises_briskly:
            yield "brisk", ""
        if self.is_held_up and exercise.is_chair_stand and not hands_help(exercise):
            yield HANDS_FREE, ""
        if self.is_one_handed and takes_both_arms(exercise):
            yield "both_arms", ""
        if self.is_hip_front_spared and exercise.takes_thigh_back:
            yield "hip_front", ""
        if self.is_on_bed and exercise.position is not Position.ON_BED:
            yield "crossing", ""
        if self.is_level and STEP in exercise.needs():
            yield "step_up", ""
        if self.is_level and exercise.bends_in_stride:
            yield "split", ""
        if self.is_up and exercise.lies:
            yield "lying", ""
        elif self.is_off_side and lies_on_side(exercise):
            yield "on_side", ""
        if self.is_seated and exercise.position is not Position.SEATED:
            yield "seated", exercise.position
        if self.without_weights and (exercise.loaded or WEIGHTS & exercise.needs()):
            yield "weight", "day" if self.is_weightless_day else "owned"
        elif self.is_weightless and (exercise.loaded or WEIGHTS & exercise.needs()):
            yield "weight", "go_ahead"
        elif self.is_weightless_standing and exercise.loaded and exercise.position is Position.STANDING:
            yield "weight", "standing"
        elif self.is_weightless_lying and exercise.loaded and exercise.lies:
            yield "weight", "lying"


def caps_today(client: Client, diary: Diary | None, today: date) -> dict[Axis, int]:
    """The lowest cap on every axis from limits, areas to spare, conditions and today's pain, alike on both sides."""
    caps = dict.fromkeys(Axis, ALL)

    def lower(axis: Axis, cap: int) -> None:
        caps[axis] = min(caps[axis], cap)

    for axis, cap in client.limits.items():
        lower(axis, cap)
    for told in client.told_limits:
        lower(told.axis, told.at_most)
    for spot, cap in client.spare.items():
        for axis in REGION_AXES[spot.region]:
            lower(axis, cap)
        lower(Axis.FLOOR_TRANSFER, getting_up_cap(spot.region, cap))
    for axis, cap in one_arm_caps(client, today).items():
        lower(axis, cap)
    for condition in client.conditions:
        for axis, cap in condition_caps(client, condition, today).items():
            lower(axis, cap)
    if not client.rises_unaided:
        lower(Axis.FLOOR_TRANSFER, 1)
    for axis, cap in HELD.items() if has_fallen(diary) else ():
        lower(axis, cap)
    for spot, level in felt(diary).items():
        if spot.region in BODY_REGIONS:
            cap = cap_where_it_hurts(client, diary or Diary(), spot, level, today)
            for axis in REGION_AXES[spot.region]:
                lower(axis, cap)
            lower(Axis.FLOOR_TRANSFER, getting_up_cap(spot.region, cap))
    return caps


def one_arm_caps(client: Client, today: date) -> Mapping[Axis, int]:
    """What one arm alone allows: it steadies somebody on one leg, and takes no walking aid's place. [P]"""
    if Condition.WALKING_AID in client.conditions and (rests_arm(client) or is_one_handed(client, today)):
        return ONE_ARM_AND_AID
    return ONE_ARM if rests_arm(client) else {}


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
    at_hand, rules = session_kit if kit is None else kit, tuple(rules_of(client))
    caps = caps_today(client, diary, today)
    return Limits(
        caps=caps,
        kit=at_hand | ({"chair"} if any(r.is_seated for r in rules) else frozenset()),
        space=place.space,
        hold_s=SHORT_HOLD_S if any(r.is_short_hold for r in rules) else None,
        needs_support=caps[Axis.UNHELD_BALANCE] < ALL,
        is_held_up=Condition.WALKING_AID in client.conditions,
        is_seated=any(r.is_seated for r in rules),
        is_one_handed=is_one_handed(client, today),
        is_off_side=is_off_side(client, diary, today),
        is_level=stays_level(client),
        is_up=stays_up(client),
        is_hip_front_spared=is_hip_front_spared(client, diary, today),
        is_weightless=lifts_nothing(client),
        is_weightless_standing=rests_arm(client),
        is_weightless_lying=any(r.is_weightless_lying for r in rules),
        slowest_stand_ms=SLOW_STAND_MS if rises_steadily(client) else 0,
        is_same_order=client.same_as_always or any(r.is_same_order for r in rules),
        rest=max((r.rest for r in rules), default=100),
        most_rpe=min((r.most_rpe for r in rules if r.most_rpe is not None), default=None),
        room_caps=room,
        bed=place.bed,
        looked_at=looked_at_from(client, diary, today, in_session=True),
    )
