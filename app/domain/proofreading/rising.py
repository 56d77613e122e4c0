"""Objections to a programme in which balance or pulling never builds up."""
from __future__ import annotations

from collections.abc import Iterator, Sequence

from app.domain.model.exercise import Axis
from app.domain.model.programme import Programme
from app.domain.model.proofreading_limits import ProofreadingLimits
from app.domain.proofreading.finding import Finding
from app.domain.proofreading.weeks_of_programme import PULLS, DraftWeek

#: How much of something a week asks: each number that rises counts.
Amount = tuple[int, ...]


def rising_problems(programme: Programme, weeks: Sequence[DraftWeek], limits: ProofreadingLimits) -> Iterator[Finding]:
    """In full weeks; a lighter one neither counts nor sets the mark."""
    full = [week for week, written in zip(weeks, programme.weeks, strict=True) if week.drafts and not written.lighter]
    for name, amounts in (("balance", [_balance(w) for w in full]), ("pull", [_pull(w) for w in full])):
        run = _longest_flat(amounts)
        if run > limits.weeks_to_rise:
            yield Finding("does_not_rise", programme.id, run, limits.weeks_to_rise, what=name)


def _balance(week: DraftWeek) -> Amount:
    """The highest demand on balance in a main part, and the time of balance work there."""
    asked = [draft.of(item).asks(Axis.SINGLE_LEG_BALANCE) for draft in week.drafts for item in draft.main_items()]
    return max(asked, default=0), week.balance_ms()


def _pull(week: DraftWeek) -> Amount:
    """The heaviest weight pulled, and the time of pulling."""
    loads = [item.load_g for draft in week.drafts for item in draft.main_items() if draft.of(item).pattern in PULLS]
    return max(loads, default=0), week.work_ms(PULLS)


def _longest_flat(amounts: Sequence[Amount]) -> int:
    """Most weeks running in which no number goes beyond all before; the first week is none of them."""
    run = longest = 0
    best = amounts[0] if amounts else ()
    for amount in amounts[1:]:
        rises = any(now > mark for now, mark in zip(amount, best, strict=True))
        run = 0 if rises else run + 1
        longest = max(longest, run)
        best = tuple(map(max, amount, best))
    return longest
