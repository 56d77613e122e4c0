"""The table of conditions in the exact words of the trade: caps, first limits, what else, and where it comes from."""
from __future__ import annotations

from collections.abc import Iterator, Mapping

from app.domain.compile.posture import STAND_S
from app.domain.dosing.conditions import CONDITION_RULES, SHORT_HOLD_S, SLOW_STAND_MS, ConditionRule
from app.domain.model.client import Condition
from app.domain.model.exercise import Axis
from app.words.conditions import COACH_SAID, COACH_WORDS


def axis_name(axis: Axis) -> str:
    """`single leg balance`."""
    return axis.value.replace("_", " ")


def condition_rows() -> tuple[tuple[str, ...], ...]:
    """One row for each: name, caps for good, first limits, what else, sources."""
    return tuple((COACH_WORDS[c], _caps(rule.caps), _first(rule), "; ".join(_also(c, rule)), _sources(rule))
                 for c, rule in CONDITION_RULES.items())


def _sources(rule: ConditionRule) -> str:
    return "; ".join([*(one.short for one in rule.sources), *filter(None, (rule.note,)), "[P]"])


def _caps(caps: Mapping[Axis, int]) -> str:
    return "; ".join(f"{axis_name(a)} ≤ {cap}" for a, cap in caps.items())


def _first(rule: ConditionRule) -> str:
    told = [f"{_caps(rule.first)}; to be reviewed after {rule.first_weeks} weeks"] if rule.first else []
    if rule.acute:
        told.append(f"{_caps(rule.acute)} in the first {rule.acute_weeks} weeks, and while no date is known")
    return "; ".join(told)


def _also(condition: Condition, rule: ConditionRule) -> Iterator[str]:
    if rule.is_held:
        yield "balance only while holding on"
    if rule.is_seated:
        yield "only exercises done sitting"
    if rule.is_one_handed_acute:
        yield "nothing that takes both arms in the first weeks; never a push with that arm until the go-ahead"
    if rule.is_up_first:
        yield "until the go-ahead nothing lying down, and no thigh behind the body"
    if rule.is_steady_up_first:
        yield (f"until the go-ahead a chair stand takes ≥ {SLOW_STAND_MS // 1000} s and is never brisk, "
               "nothing is stepped up on to, and no knee bends with one foot ahead")
    if rule.is_weightless_first:
        yield "until the go-ahead no weight is lifted"
    if rule.is_weightless_lying:
        yield "no weight while lying down"
    if rule.is_slow_up:
        yield (f"a chair stand takes ≥ {SLOW_STAND_MS // 1000} s and is never brisk; after each rise from a seat "
               f"≥ {STAND_S} s of standing")
    if rule.is_short_hold:
        yield f"hard holds (2 and more) split into ≤ {SHORT_HOLD_S} s; stretches and breathing stay as they are"
    if rule.rest > 100:
        yield f"rest ≥ {rule.rest}%"
    if rule.most_rpe is not None:
        yield f"planned effort ≤ {rule.most_rpe}"
    if rule.is_same_order:
        yield "no exercise is swapped"
    yield from COACH_SAID.get(condition, ())
