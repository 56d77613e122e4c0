"""What of a record stands in narrow columns, so that lists and charts read no payload."""
from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, fields
from datetime import date, datetime
from typing import Any

from sqlalchemy import Row

from app.domain.dosing.screening import SIGNS
from app.domain.dosing.way_back import is_new_stop
from app.domain.measures.stall import steps_planned
from app.domain.model.body import Spot
from app.domain.model.diary import Symptom
from app.domain.model.record import CheckDone, CheckIn, Ending, Event, Record, SessionDone
from app.storage.codec import canonical
from app.storage.tables import record as table

#: Stands where a session told of a joint that gave way and of no other sign.
GAVE_WAY = "gave_way"
_GRAVEST_FIRST = {name: at for at, name in enumerate(SIGNS)}


@dataclass(frozen=True)
class Summary:
    """One record in brief. What was not told, or does not apply to its kind, is None or empty."""

    person: str
    id: str
    kind: str
    """As in `app/domain/model/record_kinds.py`."""
    utc: datetime
    local: date
    session: str | None = None
    """Id of the session; which check; the kind of an event."""
    pain: int | None = None
    """Worst pain told, 0–10."""
    rpe: int | None = None
    target_rpe: int | None = None
    completed: int | None = None
    """Share of planned work done, whole percent."""
    took_s: int | None = None
    """Where it ended on its plan, s."""
    ending: Ending | None = None
    signs: tuple[str, ...] = ()
    """Stop signs that were told, the most serious first, or the rule that stopped them; a head cold is none."""
    by_hand: tuple[tuple[str, str], ...] = ()
    """Exercises changed by hand: (from, to)."""

    @property
    def minutes(self) -> int | None:
        """How long it took, rounded to whole minutes."""
        return None if self.took_s is None else (self.took_s + 30) // 60


#: The columns that `summary` reads, in its order.
COLUMNS = tuple(
    table.c[name]
    for name in ("person_id", "id", "kind", "utc", "local_date", "session", "pain", "rpe", "target_rpe", "completed",
                 "took_s", "ending", "sign", "by_hand")
)

#: Looked at over some weeks, by the attention list alone.
_OVER_WEEKS = ("strength", "slept", "energy", "calm", "soreness", "spots", "steps", "week_again")
_FIELDS = tuple(f.name for f in fields(Summary))


def summary(row: Row[Any]) -> Summary:
    """A row of `COLUMNS` as a value."""
    told: dict[str, Any] = dict(zip(_FIELDS, row, strict=True))
    told["ending"] = Ending(told["ending"]) if told["ending"] else None
    told["signs"] = tuple(told["signs"].split(" ")) if told["signs"] else ()
    told["by_hand"] = tuple((a, b) for a, b in json.loads(told["by_hand"] or "[]"))
    return Summary(**told)


def narrow_columns(record: Record) -> dict[str, Any]:
    """The columns of one record; those that do not apply are None."""
    told: dict[str, Any] = dict.fromkeys(
        ("session", "pain", "rpe", "target_rpe", "completed", "took_s", "ending", "sign", "by_hand", *_OVER_WEEKS)
    )
    if isinstance(record, CheckIn):
        told["pain"] = _worst(record.pain, record.morning_after)
        told["sign"] = " ".join(_stop_signs(record)) or _stopped_by(record)
        told.update(slept=record.slept, energy=record.energy, calm=record.calm, soreness=_worst(record.soreness),
                    spots=_numbers(_spots(record.pain, record.morning_after)))
    elif isinstance(record, SessionDone):
        told.update(
            session=record.plan.session, pain=record.worst_pain, rpe=record.rpe, target_rpe=record.plan.target_rpe,
            completed=record.completed, took_s=record.took_s, ending=record.ending.value,
            sign=record.sign or _gave_way(record),
            by_hand=canonical(record.by_hand) if record.by_hand else None, strength=record.plan.strength,
            spots=_numbers({str(spot): level for spot, level in record.hurt_at.items()}),
            steps=_numbers(dict(steps_planned(record.plan))), week_again=record.plan.week_again,
        )
    elif isinstance(record, CheckDone):
        told["session"] = record.check.value
    elif isinstance(record, Event):
        told.update(session=record.kind.value, sign=record.stopped_by or None)
    return told


def numbers_of(text: str | None) -> tuple[tuple[str, int], ...]:
    """(name, number) each, as `narrow_columns` wrote them: `left knee=4;right hip=2`."""
    return tuple((name, int(number)) for name, _, number in (one.partition("=") for one in text.split(";"))) \
        if text else ()


def _numbers(told: Mapping[str, int]) -> str | None:
    return ";".join(f"{name}={number}" for name, number in sorted(told.items())) or None


def _spots(*told: Mapping[Spot, int] | None) -> dict[str, int]:
    """The highest level of each spot that hurt."""
    worst: dict[str, int] = {}
    for spot, level in ((s, n) for t in told for s, n in (t or {}).items() if n):
        worst[str(spot)] = max(level, worst.get(str(spot), 0))
    return worst


def _gave_way(record: SessionDone) -> str | None:
    """A joint that gave way is a stop sign, however little it hurt."""
    return GAVE_WAY if any(hurt.gave_way for hurt in record.hurts) else None


def _stopped_by(record: CheckIn) -> str | None:
    """The rule that stopped them where no sign did, such as soreness for days; an earlier stop is told where it was."""
    return record.stopped_by or None if is_new_stop(record) else None


def _stop_signs(record: CheckIn) -> list[str]:
    """The signs ticked, or, where none is named, the symptoms. One that is not known here counts as serious."""
    named = record.signs or tuple(s.value for s in Symptom if s in (record.symptoms or ()))
    return sorted((n for n in named if n != Symptom.HEAD_COLD), key=lambda n: _GRAVEST_FIRST.get(n, -1))


def _worst(*told: Mapping[Spot, int] | None) -> int | None:
    """The highest level; 0 where nothing hurts; None where nothing was said."""
    if all(t is None for t in told):
        return None
    return max((level for t in told for level in (t or {}).values()), default=0)
