"""What the commands print with `--json`. Fields may be added, never removed or changed."""
from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from app.domain.model.plan import Dose, LeftOut, OneSided, Step, Substitution, Timeline
from app.domain.model.source import Source
from app.domain.proofreading.proofread import Finding
from app.words import text
from app.words.coach.proofreading import problem_mend, problem_text
from app.words.reasons import reason_text

GRAMS = 1000


def _kg(load_g: int | None) -> float | int | None:
    if load_g is None:
        return None
    return load_g // GRAMS if load_g % GRAMS == 0 else load_g / GRAMS


def step_shape(step: Step) -> dict[str, Any]:
    """One step; what does not apply is null."""
    return {
        "kind": step.kind.value, "block": step.part.value, "exercise": step.exercise,
        "side": step.side.value if step.side else None, "round": step.round, "reps": step.reps,
        "load_kg": _kg(step.load_g), "start_ms": step.start_ms, "length_ms": step.length_ms, "written": step.written,
        "to_floor": step.to_floor, "stage": step.stage.value if step.stage else None,
    }


def dose_shape(dose: Dose) -> dict[str, Any]:
    """The dose with its reasons as the client reads them."""
    reasons = [{"rule": r.rule.value, "level": r.level, "text": reason_text(r), "data": dict(r.data)}
               for r in dose.reasons]
    return {"level": dose.level, "rounds": dose.rounds, "work": dose.work, "rest": dose.rest, "load": dose.load,
            "reasons": reasons, "rules_version": dose.rules_version}


def _swap_shape(swap: Substitution, names: dict[str, str]) -> dict[str, Any]:
    return {"from": swap.written, "to": swap.to, "because": list(map(str, swap.because)),
            "text": text.substitution_text(swap, names), "side": swap.side or None}


def _left_shape(left: LeftOut) -> dict[str, Any]:
    return {"exercise": left.exercise, "because": list(map(str, left.because)), "text": text.left_out_text(left)}


def _one_sided_shape(one: OneSided) -> dict[str, Any]:
    return {"exercise": one.exercise, "spared": one.spared, "because": list(map(str, one.because)),
            "text": text.one_sided_text(one)}


def timeline_shape(timeline: Timeline, source: Source) -> dict[str, Any]:
    """A compiled session."""
    names = {e.id: e.name for e in source.exercises}
    return {
        "session": timeline.session, "total_s": timeline.total_ms // 1000,
        "steps": [step_shape(s) for s in timeline.steps], "dose": dose_shape(timeline.dose),
        "substitutions": [_swap_shape(s, names) for s in timeline.substitutions],
        "left_out": [_left_shape(o) for o in timeline.left_out],
        "one_sided": [_one_sided_shape(o) for o in timeline.one_sided],
    }


def problem_shape(problem: Finding) -> dict[str, Any]:
    """One objection of the proofreader."""
    return {"rule": problem.rule, "where": problem.where, "text": problem_text(problem), "value": problem.value,
            "limit": problem.limit, "mend": problem_mend(problem), "blocks": problem.blocks}


def source_shape(kind: str, source: Source, problems: Sequence[Finding]) -> dict[str, Any]:
    """What a source or a pack holds, and what the proofreader says."""
    return {
        "kind": kind, "coach": source.coach, "version": source.version, "title": source.title,
        "sessions": [s.id for s in source.sessions], "exercises": [e.id for e in source.exercises],
        "programmes": [p.id for p in source.programmes], "problems": [problem_shape(p) for p in problems],
    }
