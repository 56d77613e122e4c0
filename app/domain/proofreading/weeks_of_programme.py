"""Objections to the weeks of a programme: what is out of balance, what is missing, and what rises too fast."""
from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from app.domain.model.exercise import Axis, Exercise, Pattern
from app.domain.model.plan import Part, Step
from app.domain.model.programme import Programme
from app.domain.model.proofreading_limits import ProofreadingLimits
from app.domain.model.session import Block, BlockKind
from app.domain.proofreading.finding import CLEAR_DEMAND, Finding, SessionUnderCheck

PUSHES = frozenset({Pattern.HORIZONTAL_PUSH, Pattern.VERTICAL_PUSH})
PULLS = frozenset({Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL})
KNEES = frozenset({Pattern.SQUAT, Pattern.LUNGE})
HIPS = frozenset({Pattern.HINGE})
#: What every week should hold besides balance.
WANTED: Mapping[str, frozenset[Pattern]] = {"squat": KNEES, "hinge": HIPS, "push": PUSHES, "pull": PULLS}
#: Work for 100 s of rest at which each step ends: 20/30 to 30/40, then 30/30, then 40/20 s. [P]
WORK_REST_STEPS = (75, 100, 200)
NOTHING_AGAINST = 999
"""Percent where there is nothing to compare with."""


@dataclass(frozen=True)
class DraftWeek:
    """One week with the sessions of it as they were written."""

    place: str
    drafts: tuple[SessionUnderCheck, ...]

    def work_ms(self, patterns: frozenset[Pattern]) -> int:
        """Work of the main parts that trains one of these patterns, ms."""
        return sum(step.length_ms for draft in self.drafts for step in draft.timeline.steps
                   if _is_main_work(step) and draft.library[step.exercise or ""].pattern in patterns)

    def balance_ms(self) -> int:
        """Time in the main parts of what is balance work or asks for balance clearly, ms."""
        return sum(step.length_ms for draft in self.drafts for step in draft.timeline.steps
                   if _is_main_work(step) and _is_balance(draft.library[step.exercise or ""]))


def draft_weeks(programme: Programme, drafts: Mapping[str, SessionUnderCheck]) -> list[DraftWeek]:
    """Its weeks in order."""
    return [DraftWeek(f"{programme.id}/week {number}", tuple(drafts[s] for s in week.sessions))
            for number, week in enumerate(programme.weeks, 1)]


def programme_problems(programme: Programme, drafts: Mapping[str, SessionUnderCheck], limits: ProofreadingLimits
                       ) -> Iterator[Finding]:
    """Everything about one programme."""
    weeks = draft_weeks(programme, drafts)
    for week in weeks:
        yield from _push_pull(week, limits)
        yield from _knee_hip(week, limits)
        yield from _missing(week)
    yield from _lighter(programme, limits)
    yield from _early_work(weeks, limits)
    yield from _rising_work(weeks, limits)


def _is_balance(exercise: Exercise) -> bool:
    return exercise.pattern is Pattern.BALANCE or exercise.asks(Axis.SINGLE_LEG_BALANCE) >= CLEAR_DEMAND


def _is_main_work(step: Step) -> bool:
    return step.is_effort and step.part is Part.MAIN and bool(step.exercise)


def _outside(rule: str, week: DraftWeek, percent: int, least: int, most: int) -> Iterator[Finding]:
    if not least <= percent <= most:
        yield Finding(rule, week.place, percent, least if percent < least else most)


def _push_pull(week: DraftWeek, limits: ProofreadingLimits) -> Iterator[Finding]:
    push, pull = week.work_ms(PUSHES), week.work_ms(PULLS)
    if push + pull:
        percent = push * 100 // pull if pull else NOTHING_AGAINST
        yield from _outside("push_and_pull", week, percent, limits.push_pull_least, limits.push_pull_most)


def _knee_hip(week: DraftWeek, limits: ProofreadingLimits) -> Iterator[Finding]:
    """Only where there is both; where one is missing, that is said."""
    knee, hip = week.work_ms(KNEES), week.work_ms(HIPS)
    if knee and hip:
        yield from _outside("knee_and_hip", week, knee * 100 // hip, limits.knee_hip_least, limits.knee_hip_most)


def _missing(week: DraftWeek) -> Iterator[Finding]:
    """A week off has nothing to miss."""
    if not week.drafts:
        return
    found = {name: bool(week.work_ms(patterns)) for name, patterns in WANTED.items()}
    found["balance"] = bool(week.balance_ms())
    yield from (Finding("week_without", week.place, 0, 1, what=name) for name, is_there in found.items()
                if not is_there)


def _lighter(programme: Programme, limits: ProofreadingLimits) -> Iterator[Finding]:
    run = longest = 0
    for week in programme.weeks:
        run = 0 if week.lighter else run + 1
        longest = max(longest, run)
    if longest > limits.weeks_to_lighter:
        yield Finding("no_lighter_week", programme.id, longest, limits.weeks_to_lighter)


def _early_work(weeks: Sequence[DraftWeek], limits: ProofreadingLimits) -> Iterator[Finding]:
    """Work against rest in the first weeks, percent."""
    for week in weeks[:limits.early_weeks]:
        for draft in {d.session.id: d for d in week.drafts}.values():
            percent = _draft_work_rest(draft)
            if percent > limits.early_work:
                yield Finding("much_work_early", f"{week.place}/{draft.session.id}", percent, limits.early_work)


def _rising_work(weeks: Sequence[DraftWeek], limits: ProofreadingLimits) -> Iterator[Finding]:
    """Against the highest week so far, so that what was reached before a lighter week may follow it."""
    highest: int | None = None
    for week in weeks:
        percent = max((_draft_work_rest(d) for d in week.drafts), default=0)
        if not percent:
            continue
        rise = 0 if highest is None else _step(percent) - _step(highest)
        if rise > limits.steps_a_week:
            yield Finding("work_rises_fast", week.place, rise, limits.steps_a_week)
        highest = max(percent, highest or 0)


def _step(percent: int) -> int:
    return sum(percent > end for end in WORK_REST_STEPS)


def _draft_work_rest(draft: SessionUnderCheck) -> int:
    circuits = (b for b in draft.session.blocks if b.kind is BlockKind.CIRCUIT)
    return max((_work_rest(b) for b in circuits), default=0)


def _work_rest(block: Block) -> int:
    work = sum(i.work_s for i in block.items)
    rest = sum(i.rest_s if i.rest_s is not None else block.rest_s for i in block.items if i.work_s)
    return work * 100 // rest if rest else (NOTHING_AGAINST if work else 0)
