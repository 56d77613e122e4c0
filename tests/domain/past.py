"""Records of somebody's days, a few words each."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any

from app.domain.model.body import Spot, parse_spot
from app.domain.model.plan import Dose, Part, Step, StepKind, StepSide, Timeline
from app.domain.model.record import CheckIn, Clearance, DoneStep, Ending, How, SessionDone, Stamp

T0 = datetime(2026, 3, 2, 7, 0, tzinfo=UTC)
STEPS = (Step(StepKind.WORK, Part.MAIN, 0, 60_000, "a", StepSide.BOTH, 1),
         Step(StepKind.WORK, Part.MAIN, 60_000, 40_000, "b", StepSide.BOTH, 1))


def stamp(name: str, day: float = 0, **more: Any) -> Stamp:
    """So many days after the first morning."""
    utc = T0 + timedelta(days=day)
    return Stamp(name, "p", utc, utc.date(), 0, **more)


def plan(carried: int = 0, target: int = 5, *, strength: bool = True, session: str = "s") -> Timeline:
    """A minute of one exercise and forty seconds of another."""
    return Timeline(session, STEPS, Dose(carried, 1, 100, 100, 100, carried=carried), target_rpe=target,
                    strength=strength)


def session(day: float = 0, name: str = "", share: int = 100, timeline: Timeline | None = None, **more: Any
            ) -> SessionDone:
    """Done in full, as hard as meant, without pain, unless told otherwise; `share` in percent of the work."""
    done = (DoneStep(0, "a", 600 * share, How.FULL), DoneStep(1, "b", 400 * share, How.FULL))
    told = SessionDone(stamp(name or f"s{day}", day), "S", timeline or plan(), "", Ending.FINISHED, done, 900, rpe=5,
                       pain={})
    return replace(told, **({"active_s": more.get("took_s", told.took_s)} | more))


def check_in(day: float = 0, name: str = "", **answers: Any) -> CheckIn:
    """A morning on which all is well, unless told otherwise."""
    well: dict[str, Any] = {"symptoms": frozenset(), "pain": {}, "morning_after": {}, "soreness": {}, "slept": 5,
                            "energy": 5, "calm": 5}
    return CheckIn(stamp(name or f"c{day}", day), **(well | answers))


def yes(answers: str, day: float, kind: str = "physiotherapist", who: str = "R. Lund", **more: Any) -> Clearance:
    """Somebody's yes to a stop."""
    return Clearance(stamp(f"y{answers}{day}{kind}", day, **more), answers, who, kind)


def sore(**spots: int) -> Mapping[Spot, int]:
    """`sore(left_knee=4)`."""
    return {parse_spot(words): level for words, level in spots.items()}
