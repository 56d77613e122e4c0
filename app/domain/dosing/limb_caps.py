"""Caps that one sore limb sets, kept apart from those of the whole body, so that the other side may go on.

A spot with a side lies on one limb. Its demands on that limb alone (`LOCAL_AXES`) hold for work that uses the limb;
what jars, turns or goes to the floor is capped on both. Sparing the sore side alone is practice. [P]
"""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import TypeVar

from app.domain.dosing.limits import Limits, caps_today
from app.domain.model.body import Spot
from app.domain.model.client import Client
from app.domain.model.diary import Diary
from app.domain.model.exercise import Axis
from app.domain.model.limbs import LIMBS, LOCAL_AXES, BodyLimb, limb_of

V = TypeVar("V")


def with_limb_caps(limits: Limits, client: Client, diary: Diary | None, today: date) -> Limits:
    """The same limits, with what a single limb forbids told apart, so that one-sided work can keep to it alone."""
    spots = {*client.spare, *((diary.pain if diary else None) or {})}
    sore = {limb for spot in spots if (limb := limb_of(spot))}
    if not sore:
        return limits
    base = _caps_of(limits, client, diary, today, frozenset())
    by_limb = {limb: _caps_of(limits, client, diary, today, frozenset({limb})) for limb in LIMBS if limb in sore}
    return replace(limits, body_caps=base, limb_caps=by_limb)


def _caps_of(limits: Limits, client: Client, diary: Diary | None, today: date, limbs: frozenset[BodyLimb]
             ) -> dict[Axis, int]:
    """Today's caps as if of all sore limbs only these were sore; what is felt by the whole body stays."""
    kept = replace(client, spare=_of(client.spare, limbs))
    felt = replace(diary, pain=_of(diary.pain, limbs)) if diary and diary.pain is not None else diary
    alone = caps_today(kept, felt, today)
    return {axis: alone[axis] if axis in LOCAL_AXES else limits.caps[axis] for axis in limits.caps}


def _of(told: Mapping[Spot, V], limbs: frozenset[BodyLimb]) -> dict[Spot, V]:
    """What was told of these limbs, and of all that lies on no single one."""
    return {spot: value for spot, value in told.items() if limb_of(spot) is None or limb_of(spot) in limbs}
