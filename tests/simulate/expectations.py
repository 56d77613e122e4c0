"""What must hold of every simulated client, and what is expected of one kind: the sentences of what does not."""
from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from app.domain.dosing.sore_places import usual_for
from app.domain.model.body import REGION_AXES, Region
from app.domain.model.exercise import Exercise
from app.domain.model.plan import Part, Timeline
from app.domain.model.record import SessionDone
from app.domain.model.thresholds import PAIN_HOLDS
from tests.simulate.kinds import Kind
from tests.simulate.life import Story

STILL = timedelta(days=28)
STILL_SESSIONS = 8


def heaviest(story: Story, first_week: int, last_week: int) -> int:
    """The heaviest weight that was lifted in these weeks, grams."""
    begin = story.done[0].stamp.local
    return max((step.load_g or 0 for day, plan in story.plans() for step in plan.steps
                if step.is_effort and first_week <= (day - begin).days // 7 <= last_week), default=0)


def steps_of(plan: Timeline) -> dict[str, int]:
    """The step of each station that stands beyond what was written."""
    return {move.exercise: move.step for move in plan.moves}


def moved_on(story: Story) -> bool:
    """Whether anything ever stood beyond what was written."""
    return any(move.step > 0 for _, plan in story.plans() for move in plan.moves)


def amiss(story: Story) -> list[str]:
    """Everything that is not as it must be."""
    kind, reasons = story.kind, {told.reason for told in story.told}
    found = [*_gains_with_pain(story), *_sits_still_untold(story), *_never_offered_what_follows(story)]
    if kind.moves is not None and moved_on(story) != kind.moves:
        found.append(f"{'nothing ever moved on' if kind.moves else 'something moved on'}")
    if kind.heavier and heaviest(story, 9, 11) <= heaviest(story, 0, 1):
        found.append(f"no heavier weight by the twelfth week ({heaviest(story, 9, 11)} g)")
    if kind.told and not kind.told & reasons:
        found.append(f"the coach was told of {sorted(reasons) or 'nothing'} and not of any of {sorted(kind.told)}")
    if kind.quiet and (harm := sorted({told.reason for told in story.told if told.is_harm})):
        found.append(f"the coach was called for {harm}")
    return found


def _hurting(done: SessionDone, story: Story) -> set[Region]:
    told = dict(done.pain or {})
    return {spot.region for spot, level in told.items() if level >= PAIN_HOLDS and not _agreed(story.kind, spot, level)}


def _agreed(kind: Kind, spot: object, level: int) -> bool:
    usual = usual_for(kind.body, spot)  # type: ignore[arg-type]
    return usual is not None and level <= usual.level


def _gains_with_pain(story: Story) -> Iterator[str]:
    """Nobody gets more of what loads a region that hurt in the session before."""
    before: dict[str, int] = {}
    library: dict[str, Exercise] = dict(story.cards[0].library) if story.cards else {}
    for earlier, later in zip(story.done, story.done[1:], strict=False):
        before |= steps_of(earlier.plan)
        axes = {axis for region in _hurting(earlier, story) for axis in REGION_AXES[region]}
        for exercise, step in steps_of(later.plan).items():
            asked = any(library[exercise].asks(axis) for axis in axes) if exercise in library else False
            if asked and step > before.get(exercise, 0):
                yield f"{later.stamp.local}: {exercise} went on to {step} after pain"


def _sits_still_untold(story: Story) -> Iterator[str]:
    """In four weeks with eight sessions something new is asked for, or the coach hears why not.

    Whoever is led never moves on by a guess, which the coach has chosen with the person; that is not told again.
    """
    if story.kind.led_by:
        return
    for at, done in enumerate(story.done):
        weeks = [d for d in story.done[at:] if d.stamp.local - done.stamp.local < STILL]
        if len(weeks) < STILL_SESSIONS or weeks[-1] is story.done[-1]:
            continue
        known = {_amounts(d.plan) for d in story.done[:at + 1]}
        new = any(_amounts(d.plan) not in known for d in weeks if d.plan.strength)
        if new or any(r.level > 1 for d in weeks for r in d.plan.dose.reasons):
            continue
        week = (weeks[-1].stamp.local - story.done[0].stamp.local).days // 7
        if not any(told.week <= week for told in story.told):
            yield f"sat still for four weeks from {done.stamp.local}, and nobody was told"
            return


def _amounts(plan: Timeline) -> tuple[tuple[object, ...], ...]:
    """What the main part asks for, bout by bout."""
    return tuple((s.exercise, s.length_ms, s.reps, s.load_g) for s in plan.steps if s.is_effort and s.part is Part.MAIN)


def _never_offered_what_follows(story: Story) -> Iterator[str]:
    """A programme that is through goes on with full weeks."""
    repeats = [card for card in story.cards if card.due and card.due.repeats]
    if repeats and all(card.due and card.due.lighter for card in repeats) and len(repeats) > 2:
        yield "the programme ended in a lighter week that goes round for ever"
