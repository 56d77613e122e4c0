"""What the dose takes from a session, as numbers of seconds, repetitions and rounds: what was written and what is left.

The percents of the rule table round to whole amounts per station (`prescription.py`); this tells the amounts.
"""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from app.domain.compile.prescription import eased_hold_s, eased_reps, eased_work_s, longer_rest_s
from app.domain.compile.stations import main_rounds
from app.domain.model.plan import Dose
from app.domain.model.session import Block, Item, Session


class CountedAmount(StrEnum):
    """What is counted."""

    ROUNDS = "rounds"
    WORK = "work"
    HOLD = "hold"
    REPS = "reps"
    REST = "rest"


@dataclass(frozen=True)
class AmountEased:
    """One kind of amount: each pair (written, today) that differs, once, in ascending order. Seconds or counts."""

    what: CountedAmount
    pairs: tuple[tuple[int, int], ...]


def eased_amounts(session: Session, dose: Dose) -> tuple[AmountEased, ...]:
    """Every amount of the main part that the dose changed, rounds first. Empty where nothing was taken."""
    found: dict[CountedAmount, set[tuple[int, int]]] = {what: set() for what in CountedAmount}
    found[CountedAmount.ROUNDS].add((main_rounds(session), dose.rounds))
    for block, item in session.items():
        if block.is_main:
            what, written, now = _bout(item, dose)
            found[what].add((written, now))
            found[CountedAmount.REST] |= {(rest, longer_rest_s(rest, dose.rest)) for rest in _rests(block, item)}
    changed = {what: tuple(sorted(p for p in pairs if p[0] != p[1])) for what, pairs in found.items()}
    return tuple(AmountEased(what, pairs) for what, pairs in changed.items() if pairs)


def _bout(item: Item, dose: Dose) -> tuple[CountedAmount, int, int]:
    if item.reps:
        return CountedAmount.REPS, item.reps, eased_reps(item.reps, dose.work)
    if item.hold_s:
        return CountedAmount.HOLD, item.hold_s, eased_hold_s(item.hold_s, dose.work)
    return CountedAmount.WORK, item.work_s, eased_work_s(item.work_s, dose.work)


def _rests(block: Block, item: Item) -> Iterator[int]:
    yield block.rest_s if item.rest_s is None else item.rest_s
    yield block.round_rest_s
