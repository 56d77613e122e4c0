"""What a condition changed in a compiled session beside its choice of exercises: rests, hard holds, effort."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from app.domain.compile.stations import Order
from app.domain.dosing.conditions import CONDITION_RULES, SHORT_HOLD_S, condition_caps
from app.domain.dosing.limits import Limits, has_fallen
from app.domain.model.client import Condition
from app.domain.model.exercise import Axis, Exercise, Support
from app.domain.model.limbs import leaves_a_hand, rests_arm
from app.domain.model.plan import Dose, Reason, Step, StepKind
from app.domain.model.rules import RuleId


def condition_reasons(order: Order, dose: Dose, limits: Limits, steps: Sequence[Step]) -> Iterator[Reason]:
    """One for each change that can be seen in the steps or in the effort aimed at, and for no other."""
    lets_go = any(_could_let_go(order.library[s.exercise]) for s in steps if s.is_effort and s.exercise)
    if limits.needs_support and lets_go:
        yield _told(_holds_for(order), "hand", 1)
    for condition in sorted(order.client.conditions):
        rule = CONDITION_RULES[condition]
        if rule.is_short_hold and _has_split_hold(order, limits, steps):
            yield _told(condition, "hold", SHORT_HOLD_S)
        if rule.rest > dose.rest and any(b.is_main and b.rest_s for b in order.session.blocks):
            yield _told(condition, "rest", rule.rest)
        if rule.most_rpe is not None and rule.most_rpe < order.session.target_rpe:
            yield _told(condition, "effort", rule.most_rpe)


def _holds_for(order: Order) -> str:
    """The condition for which somebody holds on; empty where it is a limit of their own."""
    held = [c for c in sorted(order.client.conditions)
            if Axis.UNHELD_BALANCE in condition_caps(order.client, c, order.today)]
    arm = [Condition.ONE_SIDE] if rests_arm(order.client) else []
    fall = [Condition.FALLS] if has_fallen(order.diary) else []
    return next(iter((*held, *arm, *fall)), "")


def _could_let_go(exercise: Exercise) -> bool:
    """Whether its cues leave it open to let go, so that the hand has to be asked for."""
    return exercise.support is Support.OPTIONAL and leaves_a_hand(exercise) and exercise.asks(Axis.UNHELD_BALANCE) > 0


def _told(condition: str, what: str, value: int) -> Reason:
    return Reason(RuleId.CONDITION, 0, (("condition", condition), ("value", value), ("what", what)))


def _has_split_hold(order: Order, limits: Limits, steps: Sequence[Step]) -> bool:
    """Whether a hard hold is done in parts: the same one follows itself after a pause."""
    holds = [s for s in steps if s.kind is StepKind.HOLD and s.exercise is not None
             and limits.longest_hold_s(order.library[s.exercise]) is not None]
    return any(a.exercise == b.exercise and a.round == b.round and a.side == b.side and a.part == b.part
               for a, b in pairwise(holds))
