"""What the desk looks at over some weeks: how people felt, where it hurt, and how far stations stand.

Spelt out here and not taken from `app.storage.tables`, which moves on. Only what the desk still looks at is read from
the records that are here: the last weeks, counted back from the newest record of each person.
"""
from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None

_LOOKED_AT = timedelta(days=100)
_HOLD = 1
_COLUMNS: dict[str, Any] = {
    "strength": sa.Boolean(create_constraint=False), "slept": sa.Integer, "energy": sa.Integer, "calm": sa.Integer,
    "soreness": sa.Integer, "spots": sa.Text, "steps": sa.Text, "week_again": sa.Integer,
}


def upgrade() -> None:
    """Columns that may be empty, filled where the desk looks."""
    for name, kind in _COLUMNS.items():
        op.add_column("record", sa.Column(name, kind))
    db = op.get_bind()
    last = db.execute(sa.text("select person_id, max(local_date) from record where aside = false group by person_id"))
    found = sa.text("select id, kind, payload from record where person_id = :p and local_date >= :d "
                    "and deleted = false and kind in ('check_in', 'session')")
    names = list(_COLUMNS)
    put = sa.text(f"update record set {', '.join(f'{n} = :{n}' for n in names)} where person_id = :p and id = :i")
    for person, day in last.fetchall():
        since = (date.fromisoformat(str(day)) - _LOOKED_AT).isoformat()
        rows = [dict.fromkeys(names) | _read(kind, json.loads(payload)) | {"p": person, "i": record}
                for record, kind, payload in db.execute(found, {"p": person, "d": since}).fetchall()]
        if rows:
            db.execute(put, rows)


def _read(kind: str, told: Mapping[str, Any]) -> dict[str, Any]:
    """The columns of one record, from what it says."""
    if kind == "check_in":
        return {"slept": told.get("slept"), "energy": told.get("energy"), "calm": told.get("calm"),
                "soreness": None if told.get("soreness") is None else max(told["soreness"].values(), default=0),
                "spots": _text(_worst([*(told.get("pain") or {}).items(), *(told.get("morning_after") or {}).items()]))}
    plan = told["plan"]
    hurts = [(hurt["spot"], hurt["level"]) for hurt in told.get("hurts", ())]
    return {"strength": bool(plan.get("strength")), "steps": _text(dict(_steps(plan))), "week_again": 0,
            "spots": _text(_worst([*(told.get("pain") or {}).items(), *hurts]))}


def _steps(plan: Mapping[str, Any]) -> Iterator[tuple[str, int]]:
    if not plan.get("strength") or plan["dose"]["level"] > _HOLD:
        return
    moves = {move.get("to") or move["exercise"]: move for move in plan.get("moves", ())}
    for step in plan["steps"]:
        if step["kind"] in ("work", "hold") and step["part"] == "main":
            done = step.get("written") or step.get("exercise") or ""
            if done:
                yield (moves[done]["exercise"], moves[done]["step"]) if done in moves else (done, 0)


def _worst(told: list[tuple[str, int]]) -> dict[str, int]:
    worst: dict[str, int] = {}
    for spot, level in told:
        if level:
            worst[spot] = max(level, worst.get(spot, 0))
    return worst


def _text(numbers: Mapping[str, int]) -> str | None:
    """`left knee=4;right hip=2`, in order; None where there is nothing."""
    return ";".join(f"{name}={number}" for name, number in sorted(numbers.items())) or None
