"""How far somebody stands beyond what was written, for each station, as a fold over the sessions that they did.

Two clean sessions running in which a station was done in full move it one step on; one that hurt, was eased by hand,
left out or cut short, or a session 2 or more harder than meant moves it one back; anything else holds. Source:
`app/domain/progress/progression_steps.py` for what a step adds, `app/domain/dosing/README.md` for the rest. [P]
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from app.domain.compile.prescription import FULL, owned_load_g
from app.domain.compile.substitution import Library
from app.domain.dosing.history import is_clean, sessions_of
from app.domain.model.body import Region
from app.domain.model.client import Client
from app.domain.model.exercise import Exercise
from app.domain.model.level import Level
from app.domain.model.plan import Move, MoveKind, Part, Step, StepReason
from app.domain.model.record import Ending, How, SessionDone
from app.domain.model.rules import RuleId
from app.domain.model.session import Item, Session
from app.domain.model.thresholds import CLEAN_NEEDED, EFFORT_OVER, GAP_BACK, GAP_OUT, PAIN_HOLDS
from app.domain.progress.progression_steps import amount_of, ceiling, loads, main_items

STEADY_LEVEL = Level.HOLD
"""Up to this level a session is done as written."""


@dataclass(frozen=True)
class StationState:
    """Where a station stands, `step` steps beyond what was written."""

    step: int = 0
    because: StepReason | None = None
    """What last changed it; None: nothing yet."""
    clean: int = 0
    """Clean sessions running at this step."""
    given: int = 0
    """The step at which it was last planned with a change."""


@dataclass(frozen=True)
class _State:
    """A standing on the way, with the day on which the exercise was last done."""

    at: StationState = StationState()
    last: date | None = None
    tier: int = 0
    """What the present gap has taken already: nothing, one step (1) or all of them (2)."""


@dataclass(frozen=True)
class _Station:
    """A station as it is written now."""

    session: str
    item: Item
    written: Exercise
    most: int
    library: Library = field(repr=False)


# ------------------------------------------------------------------ what one session says of one station

@dataclass(frozen=True)
class _Bouts:
    """What was planned for a station and what came of it. `ids` are the exercises that it was done as."""

    steps: Mapping[int, Step]
    ids: frozenset[str]
    move: Move | None
    swapped: bool
    hows: tuple[How | None, ...]
    """How each bout went; None: never reached."""


def _bouts(done: SessionDone, exercise: str) -> _Bouts:
    plan = done.plan
    move = next((m for m in plan.moves if m.exercise == exercise), None)
    own = move.to if move and move.to else exercise
    stand_ins = {s.to for s in plan.substitutions if s.written == own}
    steps = {n: s for n, s in enumerate(plan.steps)
             if s.is_effort and s.part is Part.MAIN and (s.written or s.exercise) == own}
    how = {d.index: d.how for d in done.done}
    return _Bouts(steps, frozenset({exercise, own, *stand_ins}), move, bool(stand_ins),
                  tuple(how.get(n) for n in steps))


def _is_rewritten(bouts: _Bouts, item: Item, level: int, weights_g: Sequence[int] | None) -> bool:
    """Whether it was planned from other amounts than are written now; only a session as written tells."""
    if level > STEADY_LEVEL or bouts.swapped or not bouts.steps:
        return False
    first, move = next(iter(bouts.steps.values())), bouts.move
    by_load = move is not None and move.what is MoveKind.LOAD
    load_g = move.written if move and by_load else first.load_g
    if load_g and load_g != owned_load_g(item.load_g, FULL, weights_g):
        return True
    if move and not by_load:
        return move.written != amount_of(item) or bool(first.reps) != bool(item.reps)
    if item.reps or first.reps:
        return first.reps != item.reps
    bout = [s for s in bouts.steps.values() if (s.round, s.side) == (first.round, first.side)]
    return sum(s.length_ms for s in bout) != amount_of(item) * 1000


def _why_back(done: SessionDone, bouts: _Bouts) -> StepReason | None:
    """What takes a step back, or None. A session that the doorbell ended says nothing of what was not reached."""
    if any(h.exercise in bouts.ids for h in done.hurts):
        return StepReason.HURT
    if any(before in bouts.ids for before, _ in done.by_hand):
        return StepReason.EASED
    if How.SKIPPED in bouts.hows:
        return StepReason.SKIPPED
    short = any(how not in (How.FULL, How.EASIER) for how in bouts.hows)
    if short and done.ending is not Ending.INTERRUPTED:
        return StepReason.CUT_SHORT
    return StepReason.TOO_HARD if (done.rpe or 0) - done.plan.target_rpe >= EFFORT_OVER else None


def hurting_in(done: SessionDone) -> frozenset[Region]:
    """Regions whose pain in or after a session keeps stations where they are."""
    told = [*(done.pain or {}).items(), *((h.spot, h.level) for h in done.hurts)]
    return frozenset(spot.region for spot, level in told if level >= PAIN_HOLDS)


def _counts(done: SessionDone, bouts: _Bouts, station: _Station, client: Client) -> bool:
    """Whether it is one of the clean ones that move a station on."""
    asked = [station.written, *(station.library[i] for i in bouts.ids if i in station.library)]
    return (
        is_clean(done, client) and done.plan.dose.level <= STEADY_LEVEL and bool(bouts.steps) and not bouts.swapped
        and all(how is How.FULL for how in bouts.hows)
        and not any(loads(e, region) for e in asked for region in hurting_in(done))
    )


def _is_lighter(done: SessionDone) -> bool:
    return any(r.rule is RuleId.LIGHTER_WEEK for r in done.plan.dose.reasons)


# ------------------------------------------------------------------ the fold

def _back(at: StationState, steps: int, because: StepReason) -> StationState:
    """So many steps back, never below 0; what was at 0 stays there unexplained."""
    return replace(at, step=max(0, at.step - steps), because=because if at.step else at.because, clean=0)


def _after_gap(state: _State, today: date) -> _State:
    """One step back after a fortnight without it, all of them after four weeks; each gap counts once."""
    days = (today - state.last).days if state.last else 0
    tier = (days >= GAP_BACK) + (days >= GAP_OUT)
    if tier <= state.tier:
        return state
    return replace(state, at=_back(state.at, state.at.step if days >= GAP_OUT else 1, StepReason.GAP), tier=tier)


def _after(at: StationState, done: SessionDone, station: _Station, client: Client) -> StationState:
    """The standing after a session that held the station."""
    bouts = _bouts(done, station.item.exercise)
    if _is_rewritten(bouts, station.item, done.plan.dose.level, client.weights_g):
        return StationState()
    step = bouts.move.step if bouts.move else 0
    at = replace(at, given=step) if bouts.move else at
    why = _why_back(done, bouts)
    if why:
        return _back(at, 1, why)
    if _is_lighter(done):
        return at
    if not _counts(done, bouts, station, client):
        return replace(at, clean=0)
    if step != at.step:
        # done well, but at another step than the one to be judged
        return at
    if at.clean + 1 < CLEAN_NEEDED or at.step >= station.most:
        return replace(at, clean=min(CLEAN_NEEDED, at.clean + 1))
    return replace(at, step=at.step + 1, because=StepReason.CLEAN, clean=0)


def _folded(station: _Station, sessions: Sequence[SessionDone], client: Client, today: date) -> StationState:
    state = _State()
    for done in sessions:
        day = done.stamp.local
        state = _after_gap(state, day)
        if done.plan.session == station.session:
            state = replace(state, at=_after(state.at, done, station, client))
        if _was_done(done, station.item.exercise):
            state = replace(state, last=day, tier=0)
    return _after_gap(state, today).at


def _was_done(done: SessionDone, exercise: str) -> bool:
    """Whether the exercise was done at all, in whichever session, as itself or as its harder option."""
    ids = {exercise, *(m.to for m in done.plan.moves if m.exercise == exercise and m.to)}
    return any(d.exercise in ids and d.done_ms > 0 for d in done.done)


def standings(session: Session, library: Library, client: Client, sessions: Sequence[SessionDone], today: date
              ) -> dict[str, StationState]:
    """Where each station of a session stands, by written exercise. The same records in any order give the same.

    Args:
        sessions: everything that they did, of any session; those taken back do not count.
    """
    past = [s for s in sessions_of(sessions) if s.stamp.local <= today]
    stations = (_Station(session.id, item, library[i], ceiling(item, library[i], library), library)
                for i, item in main_items(session).items())
    return {s.item.exercise: _folded(s, past, client, today) for s in stations}
