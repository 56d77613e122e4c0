"""What an experienced coach would object to in a source, with the number, the place and what would mend it.

Only what could hurt a client blocks publishing; the rest is said and left to the coach. Source of the limits: the
project's list, DEVELOPERS.md "Proofreading". [P]
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from app.domain.client import Client, Place
from app.domain.exercise import Axis, Exercise, Pattern, Sides
from app.domain.limits import ALL
from app.domain.plan import Part, Step, StepKind, Timeline
from app.domain.programme import Programme
from app.domain.session import Block, BlockKind, Session
from app.domain.source import Source
from app.domain.stations import Order
from app.domain.substitution import ladder_down
from app.domain.timeline import compile_timeline

LEAST_PART_S = 300
LONGEST_HOLD_S = 30
MOST_FLOOR_CHANGES = 2
PUSHES = frozenset({Pattern.HORIZONTAL_PUSH, Pattern.VERTICAL_PUSH})
PULLS = frozenset({Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL})
#: Push to pull, percent.
PUSH_PULL = (70, 120)
LIGHTER_WITHIN = 6
OPEN_DAY = date(2000, 1, 1)


@dataclass(frozen=True)
class Problem:
    """One objection. `value` against `limit`; `where` and `what` are ids for its sentence."""

    rule: str
    where: str
    value: int
    limit: int
    blocks: bool = False
    what: str = ""


def _ladder(library: Mapping[str, Exercise]) -> Iterator[Problem]:
    for exercise in library.values():
        for option in exercise.easier:
            other = library[option.to]
            raised = [a for a in Axis if other.asks(a) > exercise.asks(a)]
            for axis in raised:
                yield Problem("easier_asks_more", exercise.id, other.asks(axis), exercise.asks(axis), True,
                              f"{other.id}:{axis}")
            relieved = {a for a in Axis if other.asks(a) < exercise.asks(a)}
            if set(option.relieves) - relieved:
                yield Problem("relief_not_there", exercise.id, len(set(option.relieves) - relieved), 0, True, other.id)
        below = [exercise, *(easier for easier, _ in ladder_down(exercise, library))]
        if any(option.to == exercise.id for easier in below for option in easier.easier):
            yield Problem("ladder_in_a_circle", exercise.id, 1, 0, True)


def _relief(source: Source, library: Mapping[str, Exercise]) -> Iterator[Problem]:
    """A demand of 2 or 3 in use wants an option that asks less there."""
    used = {item.exercise for session in source.sessions for _, item in session.items()}
    for exercise in (library[i] for i in sorted(used)):
        below = [e for e, _ in ladder_down(exercise, library)]
        for axis in Axis:
            asked = exercise.asks(axis)
            if asked >= 2 and not any(e.asks(axis) < asked for e in below):
                yield Problem("no_easier_option", exercise.id, asked, 1, asked >= ALL, axis)


def _holds(session: Session) -> Iterator[Problem]:
    for _, item in session.items():
        if item.hold_s > LONGEST_HOLD_S:
            yield Problem("long_hold", f"{session.id}/{item.exercise}", item.hold_s, LONGEST_HOLD_S)


def _one_sided(session: Session, library: Mapping[str, Exercise]) -> Iterator[Problem]:
    for _, item in session.items():
        if item.one_side_because and library[item.exercise].sides is not Sides.EACH:
            yield Problem("side_reason_without_sides", f"{session.id}/{item.exercise}", 1, 0)


def _part_s(timeline: Timeline, part: Part) -> int:
    return sum(s.length_ms for s in timeline.steps if s.part is part) // 1000


def _parts(session: Session, timeline: Timeline) -> Iterator[Problem]:
    kinds = {b.kind for b in session.blocks}
    for kind, part in ((BlockKind.WARM_UP, Part.WARM_UP), (BlockKind.COOL_DOWN, Part.COOL_DOWN)):
        seconds = _part_s(timeline, part) if kind in kinds else 0
        if seconds < LEAST_PART_S:
            yield Problem(f"short_{part}", session.id, seconds, LEAST_PART_S)


def _floor_changes(session: Session, timeline: Timeline) -> Iterator[Problem]:
    rounds: dict[int, int] = {}
    for step in timeline.steps:
        if step.kind is StepKind.CHANGE and step.part is Part.MAIN and step.round:
            rounds[step.round] = rounds.get(step.round, 0) + 1
    worst = max(rounds.values(), default=0)
    if worst > MOST_FLOOR_CHANGES:
        yield Problem("floor_changes", session.id, worst, MOST_FLOOR_CHANGES)


def _unprepared(session: Session, library: Mapping[str, Exercise]) -> Iterator[Problem]:
    """A joint demand of 2 or more in the main part that no warm-up move touches."""
    warm = [library[i.exercise] for b, i in session.items() if b.kind is BlockKind.WARM_UP]
    main = [library[i.exercise] for b, i in session.items() if b.is_main]
    muscles = {m for e in warm for m in (*e.muscles, *e.muscles_too)}
    for exercise in {e.id: e for e in main}.values():
        if max(exercise.demand.values(), default=0) >= 2 and not muscles & set(exercise.muscles):
            yield Problem("not_warmed_up", f"{session.id}/{exercise.id}", max(exercise.demand.values()), 1)


def _work_ms(timeline: Timeline, library: Mapping[str, Exercise], patterns: frozenset[Pattern]) -> int:
    work = (s for s in timeline.steps if _is_main_work(s))
    return sum(s.length_ms for s in work if library[s.exercise or ""].pattern in patterns)


def _is_main_work(step: Step) -> bool:
    return step.is_effort and step.part is Part.MAIN and bool(step.exercise)


def _push_pull(programme: Programme, timelines: Mapping[str, Timeline], library: Mapping[str, Exercise]
               ) -> Iterator[Problem]:
    for number, week in enumerate(programme.weeks, 1):
        push = sum(_work_ms(timelines[s], library, PUSHES) for s in week.sessions)
        pull = sum(_work_ms(timelines[s], library, PULLS) for s in week.sessions)
        if push + pull == 0:
            continue
        percent = push * 100 // pull if pull else 999
        if not PUSH_PULL[0] <= percent <= PUSH_PULL[1]:
            limit = PUSH_PULL[0] if percent < PUSH_PULL[0] else PUSH_PULL[1]
            yield Problem("push_and_pull", f"{programme.id}/week {number}", percent, limit)


def _lighter(programme: Programme) -> Iterator[Problem]:
    run = longest = 0
    for week in programme.weeks:
        run = 0 if week.lighter else run + 1
        longest = max(longest, run)
    if longest > LIGHTER_WITHIN:
        yield Problem("no_lighter_week", programme.id, longest, LIGHTER_WITHIN)


def _early_work(programme: Programme, library: Mapping[str, Session]) -> Iterator[Problem]:
    """Work:rest over 1:1 in weeks 1–2, percent."""
    for number, week in enumerate(programme.weeks[:2], 1):
        for session in (library[s] for s in dict.fromkeys(week.sessions)):
            percent = max((_work_rest(b) for b in session.blocks if b.kind is BlockKind.CIRCUIT), default=0)
            if percent > 100:
                yield Problem("much_work_early", f"{programme.id}/week {number}/{session.id}", percent, 100)


def _work_rest(block: Block) -> int:
    work = sum(i.work_s for i in block.items)
    rest = sum(i.rest_s if i.rest_s is not None else block.rest_s for i in block.items if i.work_s)
    return work * 100 // rest if rest else (999 if work else 0)


def written_timeline(session: Session, library: Mapping[str, Exercise]) -> Timeline:
    """A session as it was written: nobody's body, everything at hand, no check-in."""
    return compile_timeline(Order(session, library, Client(), Place(), OPEN_DAY))


def proofread(source: Source) -> tuple[Problem, ...]:
    """Every objection to a source, those that block publishing first."""
    library = source.library()
    timelines = {s.id: written_timeline(s, library) for s in source.sessions}
    sessions = {s.id: s for s in source.sessions}
    found = [*_ladder(library), *_relief(source, library)]
    for session in source.sessions:
        timeline = timelines[session.id]
        found += [*_holds(session), *_one_sided(session, library), *_parts(session, timeline),
                  *_floor_changes(session, timeline), *_unprepared(session, library)]
    for programme in source.programmes:
        found += [*_push_pull(programme, timelines, library), *_lighter(programme),
                  *_early_work(programme, sessions)]
    return tuple(sorted(found, key=lambda p: not p.blocks))
