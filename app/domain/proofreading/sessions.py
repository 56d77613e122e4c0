"""Objections to one session: its times and sides, its warm-up and cool-down, and what single stations ask."""
from __future__ import annotations

import re
from collections.abc import Iterator

from app.domain.model.exercise import FIRST_AXES, Axis, Mode, Sides, Support
from app.domain.model.plan import Part, StepSide
from app.domain.model.session import BlockKind, Item
from app.domain.proofreading.finding import CLEAR_DEMAND, FULL_DEMAND, Finding, SessionUnderCheck

LONGEST_BOUT_S = 600
LONGEST_SESSION_MIN = 240
MINUTE_MS = 60_000
_STATED = re.compile(r"(\d{1,3})\s*min")


def session_problems(draft: SessionUnderCheck) -> Iterator[Finding]:
    """Everything about one session but the order of its stations."""
    for check in (_times, _whole_time, _sides, _turns, _holds, _side_reasons, _parts, _stated_length, _floor_changes,
                  _unprepared, _unstretched, _impact, _balance):
        yield from check(draft)


# ------------------------------------------------------------------ times that cannot be

def _times(draft: SessionUnderCheck) -> Iterator[Finding]:
    """Work in which not one repetition fits, or that never ends."""
    for _, item in draft.session.items():
        exercise = draft.of(item)
        if exercise.mode is not Mode.REPS:
            continue
        if item.work_s and item.work_s * 1000 < exercise.rep_ms:
            yield Finding("no_repetition_fits", draft.at(item), item.work_s, -(-exercise.rep_ms // 1000), True)
        bout_s = item.reps * exercise.rep_ms // 1000
        if bout_s > LONGEST_BOUT_S:
            yield Finding("endless_work", draft.at(item), bout_s, LONGEST_BOUT_S, True)


def _whole_time(draft: SessionUnderCheck) -> Iterator[Finding]:
    minutes = draft.timeline.total_ms // MINUTE_MS
    if minutes > LONGEST_SESSION_MIN:
        yield Finding("endless_session", draft.session.id, minutes, LONGEST_SESSION_MIN, True)


# ------------------------------------------------------------------ left and right

def _sides(draft: SessionUnderCheck) -> Iterator[Finding]:
    """One-sided work takes the same time on both sides, unless a recorded reason forbids one."""
    excused = {item.exercise for _, item in draft.session.items() if item.one_side_because}
    times: dict[str, dict[StepSide, int]] = {}
    for step in draft.timeline.steps:
        if step.is_effort and step.exercise and step.side in (StepSide.LEFT, StepSide.RIGHT):
            both = times.setdefault(step.exercise, {StepSide.LEFT: 0, StepSide.RIGHT: 0})
            both[step.side] += step.length_ms // 1000
    for exercise, both in times.items():
        less, more = sorted(both.values())
        if less < more and exercise not in excused:
            rule = "sides_differ" if less else "side_missing"
            yield Finding(rule, f"{draft.session.id}/{exercise}", less, more, not less)


def _turns(draft: SessionUnderCheck) -> Iterator[Finding]:
    """Sides in turn: a single turn leaves one out, an odd count gives one more."""
    for _, item in draft.session.items():
        if draft.of(item).sides is not Sides.ALTERNATING or item.one_side_because:
            continue
        count = _count(draft, item)
        if count == 1:
            yield Finding("side_missing", draft.at(item), 0, 1, True)
        elif item.reps % 2:
            yield Finding("sides_differ", draft.at(item), item.reps // 2, item.reps - item.reps // 2)


def _count(draft: SessionUnderCheck, item: Item) -> int:
    """Repetitions of one bout, 0 for a hold."""
    rep_ms = draft.of(item).rep_ms
    return item.reps or (item.work_s * 1000 // rep_ms if rep_ms else 0)


def _side_reasons(draft: SessionUnderCheck) -> Iterator[Finding]:
    for _, item in draft.session.items():
        if item.one_side_because and draft.of(item).sides is not Sides.EACH:
            yield Finding("side_reason_without_sides", draft.at(item), 1, 0)


# ------------------------------------------------------------------ lengths

def _holds(draft: SessionUnderCheck) -> Iterator[Finding]:
    """Also where a position that is held was given seconds of work."""
    for _, item in draft.session.items():
        seconds = item.hold_s or (item.work_s if draft.of(item).mode is Mode.HOLD else 0)
        if seconds > draft.limits.hold_s:
            yield Finding("long_hold", draft.at(item), seconds, draft.limits.hold_s)


def _parts(draft: SessionUnderCheck) -> Iterator[Finding]:
    kinds = {b.kind for b in draft.session.blocks}
    wanted = ((BlockKind.WARM_UP, Part.WARM_UP, "short_warm_up", draft.limits.warm_up_s),
              (BlockKind.COOL_DOWN, Part.COOL_DOWN, "short_cool_down", draft.limits.cool_down_s))
    for kind, part, rule, least in wanted:
        length_ms = sum(s.length_ms for s in draft.timeline.steps if s.part is part)
        seconds = length_ms // 1000 if kind in kinds else 0
        if seconds < least:
            yield Finding(rule, draft.session.id, seconds, least)


def _stated_length(draft: SessionUnderCheck) -> Iterator[Finding]:
    """The first "… min…" of the description against the clock."""
    stated = _STATED.search(draft.session.about)
    if stated is None:
        return
    minutes, total_ms = int(stated[1]), draft.timeline.total_ms
    if abs(total_ms - minutes * MINUTE_MS) * 100 > minutes * MINUTE_MS * draft.limits.length_off:
        yield Finding("stated_length", draft.session.id, (total_ms + MINUTE_MS // 2) // MINUTE_MS, minutes)


def _floor_changes(draft: SessionUnderCheck) -> Iterator[Finding]:
    rounds: dict[int, int] = {}
    for step in draft.timeline.steps:
        if step.to_floor is not None and step.part is Part.MAIN and step.round:
            rounds[step.round] = rounds.get(step.round, 0) + 1
    worst = max(rounds.values(), default=0)
    if worst > draft.limits.floor_changes:
        yield Finding("floor_changes", draft.session.id, worst, draft.limits.floor_changes)


# ------------------------------------------------------------------ before, after, and what is asked

def _unprepared(draft: SessionUnderCheck) -> Iterator[Finding]:
    """A joint demand of 2 or more in the main part that no warm-up move touches."""
    warm = [draft.of(item) for item in draft.items_in(BlockKind.WARM_UP)]
    muscles = {m for e in warm for m in (*e.muscles, *e.muscles_too)}
    for item in {item.exercise: item for item in draft.main_items()}.values():
        exercise = draft.of(item)
        most = max(map(exercise.asks, FIRST_AXES))
        if most >= CLEAR_DEMAND and not muscles & set(exercise.muscles):
            yield Finding("not_warmed_up", draft.at(item), most, CLEAR_DEMAND - 1)


def _unstretched(draft: SessionUnderCheck) -> Iterator[Finding]:
    """A prime mover of strength work that no move of the cool-down reaches. Without a cool-down that alone is said."""
    after = [draft.of(item) for item in draft.items_in(BlockKind.COOL_DOWN)]
    reached = {m for e in after for m in (*e.muscles, *e.muscles_too)}
    strength = [e for e in map(draft.of, draft.main_items()) if e.is_strength]
    worked = dict.fromkeys(m for e in strength for m in e.muscles)
    if after:
        yield from (Finding("not_stretched", draft.session.id, 0, 1, what=m) for m in worked if m not in reached)


def _impact(draft: SessionUnderCheck) -> Iterator[Finding]:
    for item in {item.exercise: item for _, item in draft.session.items()}.values():
        asked = draft.of(item).asks(Axis.IMPACT)
        if asked > draft.limits.impact:
            yield Finding("impact", draft.at(item), asked, draft.limits.impact)


def _balance(draft: SessionUnderCheck) -> Iterator[Finding]:
    """Full balance work with nothing to hold, or after strength work has tired the legs."""
    tired = False
    for block in draft.session.blocks:
        for item in block.items:
            exercise = draft.of(item)
            if exercise.asks(Axis.SINGLE_LEG_BALANCE) < FULL_DEMAND:
                continue
            if exercise.support is Support.NONE:
                yield Finding("balance_unsupported", draft.at(item), FULL_DEMAND, FULL_DEMAND - 1)
            if tired:
                yield Finding("balance_when_tired", draft.at(item), FULL_DEMAND, FULL_DEMAND - 1)
        tired = tired or (block.is_main and any(draft.of(item).is_strength for item in block.items))
