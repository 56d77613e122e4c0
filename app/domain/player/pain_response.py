"""After "that hurts": what of the rest of the session may still be done, and as what."""
from __future__ import annotations

from dataclasses import dataclass, replace

from app.domain.compile.bouts import keeps_work, unrested
from app.domain.compile.posture import depth
from app.domain.compile.substitution import Library, ladder_down, may_stand_in
from app.domain.dosing.limits import Limits
from app.domain.dosing.look import NEVER
from app.domain.dosing.sore_places import ALL, getting_up_cap, pain_cap
from app.domain.model.body import LAIN_ON, REGION_AXES, Region
from app.domain.model.client import Client
from app.domain.model.exercise import Axis, Exercise, Mode
from app.domain.model.limbs import lies_on_side
from app.domain.model.record import Hurt, HurtKind
from app.domain.model.thresholds import PAIN_ENDS
from app.domain.player.player_state import PlayerState

NUMBNESS = "numbness"
"""The stop sign that numbness is."""


@dataclass(frozen=True)
class Sparing:
    """Stand-ins by the exercise they replace, what is left out, and whether the session ends."""

    swaps: tuple[tuple[str, Exercise], ...]
    leave_out: tuple[str, ...]
    ends: bool
    limits: Limits


def easier_now(exercise: Exercise, library: Library, client: Client, limits: Limits) -> Exercise | None:
    """The nearest easier option that today allows, or None.

    On the way nothing counted becomes a hold, since its time on the ruler may be longer than anybody should hold;
    nothing takes other bouts, since one side may have been done; and nobody is told to get up or down for it.
    """
    held = exercise.mode is Mode.HOLD
    able = (e for e, _ in ladder_down(exercise, library)
            if may_stand_in(e, exercise, client, limits) and (held or e.mode is not Mode.HOLD)
            and _takes_its_bouts(e, exercise, client))
    return next(able, None)


def _takes_its_bouts(option: Exercise, exercise: Exercise, client: Client) -> bool:
    """Whether it can be done in the very bouts that stand on the ruler, on the same sides and in the same place."""
    if depth(option) != depth(exercise) or not keeps_work(exercise, option):
        return False
    return option.sides is not exercise.sides or set(unrested(exercise, client)) <= set(unrested(option, client))


def ends_session(hurt: Hurt) -> bool:
    """Nobody goes on after pain of 8 or more, where a joint gave way, or where something went numb."""
    return hurt.level >= PAIN_ENDS or hurt.gave_way or hurt.kind is HurtKind.NUMB


def spared(limits: Limits, hurt: Hurt) -> Limits:
    """Limits with the region that hurts spared on both sides, as much as the same answer in the morning spares it."""
    cap, region = pain_cap(hurt.level), hurt.spot.region
    lower = {axis: min(cap, limits.caps.get(axis, ALL)) for axis in REGION_AXES[region]}
    floor = min(getting_up_cap(region, cap), lower.get(Axis.FLOOR_TRANSFER, limits.caps.get(Axis.FLOOR_TRANSFER, ALL)))
    is_clear = cap <= 1
    return replace(
        limits, caps={**limits.caps, **lower, Axis.FLOOR_TRANSFER: floor}, body_caps={}, limb_caps={},
        is_off_side=limits.is_off_side or (is_clear and region in LAIN_ON),
        is_hip_front_spared=limits.is_hip_front_spared or (is_clear and region is Region.HIP))


def wants_a_look(hurt: Hurt, limits: Limits) -> bool:
    """Whether somebody should look at it before anything goes on."""
    return hurt.level >= limits.looked_at.get(hurt.spot, NEVER)


def _is_over(exercise: Exercise, limits: Limits) -> bool:
    """Whether it asks too much of what hurts, or lies on it, or stretches it."""
    return bool(limits.over(exercise)) or (limits.is_off_side and lies_on_side(exercise)) \
        or (limits.is_hip_front_spared and exercise.takes_thigh_back)


def spare(state: PlayerState, hurt: Hurt, library: Library, client: Client, limits: Limits) -> Sparing:
    """What follows: from pain 8 on, where a joint gave way or something is numb, or where somebody should look at it,
    the end; else the region is spared.

    What hurt is never simply gone on with: it is eased, or left out.
    """
    limits = spared(limits, hurt)
    ahead = dict.fromkeys(s.exercise for s in state.steps[state.index:] if s.is_effort and s.exercise)
    swaps, out, is_steady = [], [], client.same_as_always or limits.is_same_order
    for exercise in (library[i] for i in ahead if i):
        if not _is_over(exercise, limits) and exercise.id != hurt.exercise:
            continue
        option = None if is_steady else easier_now(exercise, library, client, limits)
        if option is None:
            out.append(exercise.id)
        else:
            swaps.append((exercise.id, option))
    return Sparing(tuple(swaps), tuple(out), ends_session(hurt) or wants_a_look(hurt, limits), limits)
