"""How far somebody stands beyond what was written, for each station, as a fold over the sessions that they did.

The history is the exercise's, whichever session held it. Two clean sessions running in which it was done in full at its
place or beyond move it one step on, once in seven days; one that hurt, was eased by hand, left out or cut short, or a
session 2 or more harder than meant moves it one back; anything else holds. Source: `progression_ladder.py` for what a
step adds, `app/domain/dosing/README.md` for the rest. [P]
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from app.domain.compile.substitution import Library
from app.domain.dosing.history import LOOK_BACK, is_clean
from app.domain.dosing.way_back import sessions_of
from app.domain.model.body import Region
from app.domain.model.client import Client
from app.domain.model.exercise import Exercise
from app.domain.model.level import Level
from app.domain.model.plan import Move, Part, Step, StepReason
from app.domain.model.record import Ending, How, SessionDone
from app.domain.model.rules import RuleId
from app.domain.model.session import MOST_STEPS, Item, Session
from app.domain.model.thresholds import (
    CLEAN_NEEDED,
    CLEAN_WITH_USUAL_PAIN,
    EFFORT_OVER,
    EFFORT_UNDER,
    GAP_BACK,
    GAP_OUT,
    PAIN_HOLDS,
    STEP_DAYS,
)
from app.domain.progress.progression_ladder import AMOUNTS, Rung, harder_options, ladder
from app.domain.progress.progression_steps import loads, main_items

STEADY_LEVEL = Level.HOLD
"""Up to this level a session is done as written, and what was gained stays."""


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
    moved_on: date | None = None
    """The day of the session that last led a step on."""
    easy: int = 0
    """How many of the clean sessions running were much easier than meant."""


@dataclass(frozen=True)
class _State:
    """A standing on the way, with the day on which the exercise was last done."""

    at: StationState = StationState()
    last: date | None = None
    tier: int = 0
    """What the present gap has taken already: nothing, one step (1) or all of them (2)."""


@dataclass(frozen=True)
class _Station:
    """A station as it is written now, with every place that it can stand at."""

    item: Item
    written: Exercise
    library: Library = field(repr=False)
    rungs: tuple[Rung, ...] = ()
    """Every place that it could stand at, also beyond the coach's ceiling."""
    ranks: Mapping[str, int] = field(default_factory=dict, hash=False)
    """How many harder options above the written one each exercise of its ladder stands."""

    @property
    def most(self) -> int:
        """The last step: the coach's ceiling, or less where there is nothing more to add."""
        return min(self.item.steps, len(self.rungs) - 1)


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


def _asked(bouts: _Bouts, station: _Station) -> tuple[Exercise, ...]:
    """Every exercise that it was done as, and the one that is written."""
    return (station.written, *(station.library[i] for i in bouts.ids if i in station.library))


def _hurts(done: SessionDone, bouts: _Bouts, station: _Station) -> bool:
    """Whether a region that it loads hurt, usual or not."""
    return any(loads(e, region) for e in _asked(bouts, station) for region in hurting_in(done))


def _counts(done: SessionDone, bouts: _Bouts, *, clean: bool) -> bool:
    """Whether it is one of the clean ones that move a station on. What hurt was no more than usual, or nothing."""
    return (clean and done.plan.dose.level <= STEADY_LEVEL and bool(bouts.steps)
            and not bouts.swapped and all(how is How.FULL for how in bouts.hows))


def _is_lighter(done: SessionDone) -> bool:
    return any(r.rule is RuleId.LIGHTER_WEEK for r in done.plan.dose.reasons)


def _ranks(written: Exercise, library: Library, rungs: Sequence[Rung]) -> dict[str, int]:
    ranks, rung = {written.id: 0}, [written]
    for rank in range(1, 1 + max((at.rank for at in rungs), default=0)):
        rung = [h for e in rung for h in harder_options(e, library) if h.id not in ranks]
        ranks |= {e.id: rank for e in rung}
    return ranks


def _station(item: Item, library: Library, client: Client) -> _Station:
    written = library[item.exercise]
    rungs = ladder(item, written, library, client.weights_g, MOST_STEPS)
    return _Station(item, written, library, rungs, _ranks(written, library, rungs))


def _reached(bouts: _Bouts, station: _Station) -> int:
    """The furthest place of its ladder that the planned bouts come up to; −1 where they are less than is written."""
    first = next(iter(bouts.steps.values()))
    rank, exercise = station.ranks.get(first.exercise or ""), station.library.get(first.exercise or "")
    if rank is None or exercise is None:
        return -1
    bout = [s for s in bouts.steps.values() if (s.round, s.side) == (first.round, first.side)]
    seconds = sum(s.length_ms for s in bout) // 1000
    reps = first.reps or (seconds * 1000 // exercise.rep_ms if exercise.rep_ms else 0)
    amount, load_g = reps if station.item.reps else seconds, first.load_g or 0
    within = (n for n, at in enumerate(station.rungs)
              if at.rank < rank or (at.rank == rank and at.load_g <= load_g and at.amount <= amount))
    return max(within, default=-1)


# ------------------------------------------------------------------ the fold

def _back(at: StationState, steps: int, because: StepReason) -> StationState:
    """So many steps back, never below 0; what was at 0 stays there unexplained."""
    return replace(at, step=max(0, at.step - steps), because=because if at.step else at.because, clean=0, easy=0)


def _after_gap(state: _State, today: date) -> _State:
    """One step back after a fortnight without it, all of them after four weeks; each gap counts once."""
    days = (today - state.last).days if state.last else 0
    tier = (days >= GAP_BACK) + (days >= GAP_OUT)
    if tier <= state.tier:
        return state
    return replace(state, at=_back(state.at, state.at.step if days >= GAP_OUT else 1, StepReason.GAP), tier=tier)


def _after(at: StationState, done: SessionDone, station: _Station, *, clean: bool) -> StationState:
    """The standing after a session that held the station."""
    bouts = _bouts(done, station.item.exercise)
    reached = _reached(bouts, station) if bouts.steps else -1
    at = replace(at, given=max(0, reached)) if bouts.move else at
    why = _why_back(done, bouts)
    if why:
        return _back(at, 1, why)
    if _is_lighter(done):
        return at
    if not _counts(done, bouts, clean=clean):
        return replace(at, clean=0, easy=0)
    hurts = _hurts(done, bouts, station)
    if reached < at.step or (hurts and reached > at.step):
        # done well, but at another place than the one to be judged
        return at
    if min(reached, station.most) > at.step:
        # it was done further on in another session, and that is this week's step
        at = replace(at, step=min(reached, station.most), because=StepReason.CLEAN, clean=0, easy=0,
                     moved_on=done.stamp.local)
    easy = (done.rpe or 0) <= done.plan.target_rpe - EFFORT_UNDER
    at = replace(at, clean=at.clean + 1, easy=at.easy + 1 if easy else 0)
    needed = CLEAN_WITH_USUAL_PAIN if hurts else CLEAN_NEEDED
    return _moved_on(at, done.stamp.local, station, needed=needed, hurts=hurts)


def _moved_on(at: StationState, day: date, station: _Station, *, needed: int, hurts: bool) -> StationState:
    """One step on where enough went well; two of amount where it was much too easy. Weights wait for a usual pain."""
    waits = at.moved_on is not None and (day - at.moved_on).days < STEP_DAYS
    if at.clean < needed or waits or at.step >= station.most:
        return replace(at, clean=min(needed, at.clean))
    ahead = [rung.by in AMOUNTS for rung in station.rungs[at.step + 1:at.step + 3]]
    if hurts and not ahead[0]:
        return replace(at, clean=needed)
    steps = 2 if at.easy >= CLEAN_NEEDED and ahead == [True, True] and not hurts else 1
    return replace(at, step=at.step + steps, because=StepReason.CLEAN, clean=0, easy=0, moved_on=day)


def _folded(station: _Station, past: Sequence[tuple[SessionDone, frozenset[str], bool]], today: date) -> StationState:
    state = _State()
    for done, held, clean in past:
        day = done.stamp.local
        state = _after_gap(state, day)
        if station.item.exercise in held:
            state = replace(state, at=_after(state.at, done, station, clean=clean))
        if _was_done(done, station.item.exercise):
            state = replace(state, last=day, tier=0)
    at = _after_gap(state, today).at
    return at if at.step <= station.most else replace(at, step=station.most, because=StepReason.HELD)


def _stations_of(done: SessionDone) -> frozenset[str]:
    """Exercises that its main part held, as written."""
    to = {m.to: m.exercise for m in done.plan.moves if m.to}
    held = (s.written or s.exercise or "" for s in done.plan.steps if s.is_effort and s.part is Part.MAIN)
    return frozenset(to.get(one, one) for one in held)


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
    all_of_them = [s for s in sessions_of(sessions) if s.stamp.local <= today]
    past = [(s, _stations_of(s), is_clean(s, client, all_of_them[max(0, at - LOOK_BACK):at]))
            for at, s in enumerate(all_of_them)]
    return {exercise: _folded(_station(item, library, client), past, today)
            for exercise, item in main_items(session).items()}
