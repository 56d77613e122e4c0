"""Today's session with each station at its step, and what is new to somebody: it takes more time to set up."""
from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from app.domain.compile.stations import Order
from app.domain.compile.timeline import compile_timeline
from app.domain.dosing.history import is_as_usual
from app.domain.dosing.limits import Limits
from app.domain.dosing.sore_places import is_usual
from app.domain.dosing.way_back import sessions_of
from app.domain.errors import TooShort
from app.domain.model.body import Region
from app.domain.model.client import Client
from app.domain.model.diary import Diary
from app.domain.model.exercise import Exercise
from app.domain.model.level import Level
from app.domain.model.plan import StepReason, Timeline
from app.domain.model.record import How, SessionDone
from app.domain.model.rules import RuleId
from app.domain.model.thresholds import PAIN_HOLDS
from app.domain.progress.progression_ladder import AMOUNTS, ladder
from app.domain.progress.progression_state import StationState, hurting_in, standings
from app.domain.progress.progression_steps import StationStep, StepBounds, loads, main_items, moved_session

#: Where one of these is why, the session is as written: nobody asked, or there is less time or a lighter week.
AS_WRITTEN = frozenset({RuleId.NO_CHECK_IN, RuleId.MINUTES, RuleId.LIGHTER_WEEK})


@dataclass(frozen=True)
class Hurting:
    """Regions with pain now or in the last session: where it is more than was agreed on as usual, and where not."""

    new: frozenset[Region] = frozenset()
    usual: frozenset[Region] = frozenset()


def hurting_today(diary: Diary | None, sessions: Sequence[SessionDone], client: Client, today: date) -> Hurting:
    """What hurts from the pain on that keeps a station where it is."""
    new, usual, past = set[Region](), set[Region](), sessions_of(sessions)
    for spot, level in ((diary.pain if diary else None) or {}).items():
        if diary and level >= PAIN_HOLDS:
            (usual if is_usual(client, diary, spot, level, today) else new).add(spot.region)
    if past:
        agreed = {spot.region for spot in client.usual_pain}
        told = hurting_in(past[-1])
        kept = told & agreed if is_as_usual(past[-1], client) else frozenset()
        usual, new = usual | kept, new | (told - kept)
    return Hurting(frozenset(new), frozenset(usual - new))


def stand_today(at: StationState, exercise: Exercise, client: Client, hurting: Hurting, *, heavier: bool = True,
                holds: bool = False) -> StationStep | None:
    """The step that a station takes today, or None where nothing is to be told of it.

    It goes on only where nothing that it loads hurts and the coach does not hold it; else it stays where it was. With a
    usual pain more of the same may be done, and nothing heavier or harder.

    Args:
        heavier: whether the way from where it was leads over a weight or a harder option.
        holds: whether today holds things as they are.
    """
    if at.step > at.given:
        painful = any(loads(exercise, region) for region in hurting.new | (hurting.usual if heavier else frozenset()))
        if painful or exercise.id in client.held:
            return StationStep(at.given, StepReason.PAIN if painful else StepReason.HELD) if at.given else None
        if holds:
            return StationStep(at.given, StepReason.CLEAN) if at.given else None
        return StationStep(at.step, StepReason.CLEAN)
    if at.step < at.given:
        return StationStep(at.step, _why_less(at))
    return StationStep(at.step, StepReason.CLEAN) if at.step else None


def _why_less(at: StationState) -> StepReason:
    """What took it back; where nothing did, the coach lowered the ceiling."""
    return StepReason.HELD if at.because in (None, StepReason.CLEAN) else at.because


def compile_moved(order: Order, limits: Limits, sessions: Sequence[SessionDone]) -> Timeline:
    """Today's session with each station at its step; as written from level 2 on and in a lighter week.

    Level 1 holds what was gained and adds nothing. Nothing is added to what stands in today, nor where time is short.

    Args:
        limits: those of the session as written.
        sessions: everything that they did.

    Raises:
        TooShort: as `compile_timeline`.
    """
    plain = compile_timeline(order)
    as_written = any(reason.rule in AS_WRITTEN for reason in plain.dose.reasons)
    if plain.dose.level > Level.HOLD or as_written or order.lighter_week or not plain.steps:
        return plain
    hurting = hurting_today(order.diary, sessions, order.client, order.today)
    at = standings(order.session, order.library, order.client, sessions, order.today)
    session, moves = moved_session(
        order.session, dict(_stands(at, order, hurting, holds=plain.dose.level == Level.HOLD)),
        StepBounds(order.library, order.client, limits, hurting.new | hurting.usual),
        [*(s.written for s in plain.substitutions), *(out.exercise for out in plain.left_out)])
    try:
        moved = compile_timeline(replace(order, session=session))
    except TooShort:
        return plain
    fits = (moved.dose, moved.substitutions, moved.left_out) == (plain.dose, plain.substitutions, plain.left_out)
    return replace(moved, moves=moves) if fits else plain


def _stands(at: Mapping[str, StationState], order: Order, hurting: Hurting, *, holds: bool
            ) -> Iterator[tuple[str, StationStep]]:
    items = main_items(order.session)
    for exercise, one in at.items():
        written = order.library[exercise]
        way = ladder(items[exercise], written, order.library, order.client.weights_g, one.step)[one.given + 1:]
        heavier = any(rung.by not in AMOUNTS for rung in way)
        stand = stand_today(one, written, order.client, hurting, heavier=heavier, holds=holds)
        if stand:
            yield exercise, stand


def is_waiting(plan: Timeline, sessions: Sequence[SessionDone]) -> bool:
    """Whether today's session is as written or less, though the last of its kind stood beyond that."""
    past = [s for s in sessions_of(sessions) if s.plan.session == plan.session]
    return bool(plan.steps and not plan.moves and past and any(m.step for m in past[-1].plan.moves))


def done_before(sessions: Sequence[SessionDone]) -> frozenset[str]:
    """Exercises that they have ever done."""
    return frozenset(d.exercise for s in sessions_of(sessions) for d in s.done if d.done_ms > 0)


def shown_in(done: SessionDone) -> frozenset[str]:
    """Exercises that may stand in from now on for somebody alone: done in full each time, and nothing hurt in them."""
    hurt = {h.exercise for h in done.hurts}
    not_full = {d.exercise for d in done.done if d.how not in (How.FULL, How.EASIER)}
    in_full = {d.exercise for d in done.done if d.how in (How.FULL, How.EASIER)}
    return frozenset(in_full - not_full - hurt)
