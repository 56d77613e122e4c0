"""How much a session was: repetitions, time under tension, volume load, work against rest. Planned, and as it was done.

All of the main part alone; a warm-up and a cool-down are no training volume. Definitions: the project's list,
`README.md` beside this; nothing is decided by them.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from app.domain.model.exercise import Exercise, Mode
from app.domain.model.plan import Part, Step, StepKind, Timeline
from app.domain.model.record import SessionDone

Library = Mapping[str, Exercise]


@dataclass(frozen=True)
class Bout:
    """One bout of work or of a hold, as planned or as done. `load_g` 0: no weight."""

    kind: StepKind
    length_ms: int
    reps: int | None
    """None for a hold, and where the exercise is not known, so that its tempo is not known either."""
    rep_ms: int
    load_g: int = 0

    @property
    def tension_ms(self) -> int:
        """Time under tension: a hold's length, or repetitions × ms of one; all of it where those are not known."""
        return self.length_ms if self.kind is StepKind.HOLD or self.reps is None else self.reps * self.rep_ms

    @property
    def volume_g(self) -> int:
        """Repetitions × load, gram repetitions."""
        return (self.reps or 0) * self.load_g


@dataclass(frozen=True)
class SessionStatistics:
    """Sums over the bouts of the main part."""

    work_ms: int = 0
    rest_ms: int = 0
    """Everything between the first and the last of them that is no work: rests, changes of position, set-up."""
    reps: int = 0
    """Repetitions counted or worked out from time, each side for itself."""
    tension_ms: int = 0
    volume_g: int = 0
    """Σ repetitions × load, gram repetitions; of the weight as prescribed, in each hand or in all as it says there."""
    unknown: int = 0
    """Bouts of movement whose repetitions could not be worked out."""

    @property
    def volume_kg(self) -> float:
        """Volume load, kg × repetitions."""
        return self.volume_g / 1000

    @property
    def work_to_rest(self) -> int | None:
        """Work ÷ rest, percent, rounded down; None where there is no rest."""
        return self.work_ms * 100 // self.rest_ms if self.rest_ms else None

    @property
    def density(self) -> int | None:
        """Work ÷ the whole circuit, percent, rounded down; None where nothing was done."""
        whole = self.work_ms + self.rest_ms
        return self.work_ms * 100 // whole if whole else None


def reps_from_time(work_ms: int, rep_ms: int) -> int:
    """Whole repetitions that fit into the work."""
    return work_ms // rep_ms if rep_ms > 0 else 0


def planned_statistics(timeline: Timeline, library: Library) -> SessionStatistics:
    """Of a compiled session."""
    at = [index for index, step in enumerate(timeline.steps) if _counts(step)]
    return replace(_sums(_planned(timeline.steps[i], library) for i in at), rest_ms=_rest_ms(timeline, at))


def done_statistics(done: SessionDone, library: Library) -> SessionStatistics:
    """Of what was really done: exercises changed on the way, bouts cut short, and nothing that was skipped.

    Rest is as planned between the first and the last bout that was done; how long a pause took is not kept.
    """
    steps = done.plan.steps
    kept = [d for d in done.done if d.index < len(steps) and d.done_ms > 0 and _counts(steps[d.index])]
    bouts = (_done(steps[d.index], d.exercise, d.done_ms, library) for d in kept)
    return replace(_sums(bouts), rest_ms=_rest_ms(done.plan, [d.index for d in kept]))


def _counts(step: Step) -> bool:
    return step.is_effort and step.part is Part.MAIN


def _planned(step: Step, library: Library) -> Bout:
    rep_ms = _rep_ms(step, step.exercise or "", library)
    reps = step.reps if step.reps is not None else _timed(step.kind, step.length_ms, rep_ms)
    return Bout(step.kind, step.length_ms, reps, rep_ms, step.load_g or 0)


def _done(step: Step, exercise: str, done_ms: int, library: Library) -> Bout:
    """Of counted repetitions the share that was done."""
    if exercise != step.exercise:
        return _changed(step, library.get(exercise), done_ms)
    rep_ms = _rep_ms(step, exercise, library)
    if step.reps is None:
        return Bout(step.kind, done_ms, _timed(step.kind, done_ms, rep_ms), rep_ms, step.load_g or 0)
    share = min(done_ms, step.length_ms)
    return Bout(step.kind, done_ms, step.reps * share // step.length_ms, rep_ms, step.load_g or 0)


def _changed(step: Step, now: Exercise | None, done_ms: int) -> Bout:
    """What was put in on the way: as many as fit, never more than were asked; the weight only if it takes one."""
    if now is None:
        return Bout(StepKind.WORK, done_ms, None, 0)
    if now.mode is Mode.HOLD:
        return Bout(StepKind.HOLD, done_ms, None, 0)
    reps = reps_from_time(done_ms, now.rep_ms)
    return Bout(StepKind.WORK, done_ms, reps if step.reps is None else min(reps, step.reps), now.rep_ms,
                (step.load_g or 0) if now.loaded else 0)


def _rep_ms(step: Step, exercise: str, library: Library) -> int:
    """Of counted work as it was written from the plan, which knows how long it takes; else from the exercise.

    0: not known.
    """
    known = library[exercise].rep_ms if exercise in library else 0
    if step.reps and (step.written is None or not known):
        return step.length_ms // step.reps
    return known


def _timed(kind: StepKind, length_ms: int, rep_ms: int) -> int | None:
    return None if kind is StepKind.HOLD or not rep_ms else reps_from_time(length_ms, rep_ms)


def _sums(bouts: Iterable[Bout]) -> SessionStatistics:
    found = list(bouts)
    return SessionStatistics(
        work_ms=sum(b.length_ms for b in found), reps=sum(b.reps or 0 for b in found),
        tension_ms=sum(b.tension_ms for b in found), volume_g=sum(b.volume_g for b in found),
        unknown=sum(b.reps is None and b.kind is StepKind.WORK for b in found))


def _rest_ms(timeline: Timeline, at: list[int]) -> int:
    """Steps without work from the first to the last of these."""
    between = timeline.steps[min(at):max(at)] if at else ()
    return sum(s.length_ms for s in between if not s.is_effort)
