"""What the attention list is made from, over everybody at once, in eight queries however many records there are."""
from __future__ import annotations

import json
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from sqlalchemy import Connection, Row, Select, func, select

from app.domain.measures.attention_summary import AgreedPain, PersonSummary, RecordSummary
from app.domain.model.client import Condition
from app.domain.model.misdated import AHEAD
from app.domain.model.person import Person
from app.domain.model.record import CheckDone, CheckIn, Clearance, Event, EventKind, SessionDone
from app.domain.model.record_kinds import KIND_OF
from app.domain.model.thresholds import CHECKS_DAYS, FORTNIGHT_DAYS, FOUR_WEEKS_DAYS, PAIN_HOLDS, RATE_DAYS
from app.storage.checked_text import unchanged
from app.storage.codec import from_text
from app.storage.people import on_desk
from app.storage.summaries import COLUMNS, Summary, numbers_of, summary
from app.storage.tables import person as person_table
from app.storage.tables import record as table

_TOLD = tuple(
    table.c[name]
    for name in ("person_id", "id", "kind", "local_date", "pain", "rpe", "target_rpe", "completed", "sign", "by_hand",
                 "session", "aside", "spots", "ending", "strength", "slept", "energy", "calm", "soreness", "steps",
                 "week_again")
)
#: Without a day of today, none is in the future.
_ANY_DAY = date(9999, 12, 30)
_SESSION, _CHECK_IN, _CLEARANCE, _EVENT, _CHECK = (
    KIND_OF[of].kept for of in (SessionDone, CheckIn, Clearance, Event, CheckDone))
#: Before the days that are read, sessions are only counted: as far back as a usual week is taken from.
_COUNTED = timedelta(days=RATE_DAYS + FORTNIGHT_DAYS - FOUR_WEEKS_DAYS)
_HEARD = (_CHECK_IN, _SESSION, _EVENT)


@dataclass(frozen=True)
class PersonOnDesk:
    """Somebody on the desk and when they were last heard of."""

    person: str
    name: str
    added: datetime
    last_session: date | None
    last_check_in: date | None
    last_return: datetime | None


def standings(db: Connection, today: date = _ANY_DAY) -> tuple[PersonOnDesk, ...]:
    """Everybody whom the desk lists, by name. One aggregate over an index for each kind of record.

    What bears a day after tomorrow counts for nothing.
    """
    sessions, check_ins = (_last_day(kind, today + AHEAD).subquery() for kind in (_SESSION, _CHECK_IN))
    p = person_table.c
    wanted = (
        select(p.id, p.name, p.created_utc, sessions.c.day, check_ins.c.day, p.last_return_utc)
        .outerjoin(sessions, sessions.c.person_id == p.id)
        .outerjoin(check_ins, check_ins.c.person_id == p.id)
        .where(on_desk())
        .order_by(p.name, p.id)
    )
    return tuple(PersonOnDesk(*row) for row in db.execute(wanted))


def review_lines(db: Connection, since: date, today: date = _ANY_DAY) -> tuple[PersonSummary, ...]:
    """Everybody whom the desk lists, by name, with what they told from a training day on, oldest first.

    Whoever has no session since then comes with the last one before, so that silence has its evidence; pauses come
    whenever they were told, and so does a stop that nobody has answered. What bears a day after tomorrow is marked as
    put aside.
    """
    paused, still_open = _pauses(db), _open_stops(db, since, today + AHEAD)
    before, usual, checks = _counted_before(db, since), _usual_pains(db, since), _checks(db, since)
    ticked = _conditions(db, checks)
    told: dict[str, list[RecordSummary]] = {}
    for row in _rows_told(db, since, today + AHEAD):
        told.setdefault(row[0], []).append(_told(row, today + AHEAD))
    p = person_table.c
    wanted = select(p.id, p.name, p.last_return_utc, p.created_utc).where(on_desk()).order_by(p.name, p.id)
    return tuple(
        PersonSummary(person, name, tuple(told.get(person, ())), last_return, added.date(),
             tuple(paused.get(person, ())), still_open.get(person), before.get(person, 0), usual.get(person, ()),
             tuple(checks.get(person, ())), ticked.get(person, frozenset()))
        for person, name, last_return, added in db.execute(wanted)
    )


def summaries(db: Connection, person_id: str, since: date = date.min) -> tuple[Summary, ...]:
    """One person's records in brief from a training day on, oldest first, without those taken back."""
    c = table.c
    wanted = select(*COLUMNS).where(c.person_id == person_id, c.deleted.is_(False), c.local_date >= since)
    return tuple(summary(row) for row in db.execute(wanted.order_by(c.local_date, c.utc, c.id)))


def _rows_told(db: Connection, since: date, until: date) -> Iterator[Row[Any]]:
    c = table.c
    told = select(*_TOLD).where(c.deleted.is_(False), c.kind.in_(_HEARD)).order_by(c.local_date, c.utc, c.id)
    last = _last_day(_SESSION, until).subquery()
    before = told.join(last, (last.c.person_id == c.person_id) & (last.c.day == c.local_date))
    yield from db.execute(before.where(c.kind == _SESSION, last.c.day < since))
    yield from db.execute(told.where(c.local_date >= since))


def _told(row: Row[Any], until: date = date.max) -> RecordSummary:
    values: list[Any] = list(row)
    values[8] = (row.sign or "").partition(" ")[0]  # the most serious stands first
    values[9] = tuple((a, b) for a, b in json.loads(row.by_hand)) if row.by_hand else ()
    values[10] = row.session or "" if row.kind == _EVENT else ""
    values[11] = row.aside or row.local_date > until
    values[12], values[13] = numbers_of(row.spots), row.ending or ""
    values[19], values[20] = numbers_of(row.steps), row.week_again or 0
    values.append(row.session or "" if row.kind == _SESSION else "")
    return RecordSummary(*values[1:])


def _pauses(db: Connection) -> dict[str, list[tuple[date, date]]]:
    """(first day, last day) of every pause, by person. They are few, so their payload is read."""
    c, found = table.c, dict[str, list[tuple[date, date]]]()
    # from the people, so that the index over person, kind and day leads to the few events at once
    theirs = select(c.person_id, c.payload, c.hash).where(c.person_id.in_(select(person_table.c.id).where(on_desk())))
    wanted = theirs.where(c.kind == _EVENT, c.deleted.is_(False), c.session == EventKind.PAUSE.value)
    wanted = wanted.order_by(c.local_date, c.utc, c.id)
    for person, payload, told in db.execute(wanted):
        pause = from_text(Event, unchanged(payload, told))
        if pause.until is not None:
            found.setdefault(person, []).append((pause.since or pause.stamp.local, pause.until))
    return found


def _counted_before(db: Connection, since: date) -> dict[str, int]:
    """By person: sessions of which something was done in the weeks before `since`."""
    c = table.c
    wanted = select(c.person_id, func.count()).where(
        c.kind == _SESSION, c.deleted.is_(False), c.aside.is_(False), c.completed > 0, c.local_date < since,
        c.local_date >= since - _COUNTED)
    return {row[0]: row[1] for row in db.execute(wanted.group_by(c.person_id))}


def _usual_pains(db: Connection, since: date) -> dict[str, tuple[AgreedPain, ...]]:
    """By person: what was agreed on as usual. Read only of those in whom something hurt since then."""
    p, c = person_table.c, table.c
    hurt = select(c.person_id).where(c.local_date >= since, c.pain >= PAIN_HOLDS, c.deleted.is_(False))
    wanted = select(p.id, p.payload).where(on_desk(), p.id.in_(hurt))
    return {person: tuple(AgreedPain(str(spot), one.level, one.until)
                          for spot, one in from_text(Person, text).body.usual_pain.items())
            for person, text in db.execute(wanted) if '"usual_pain":{}' not in text}


def _checks(db: Connection, since: date) -> dict[str, list[CheckDone]]:
    """By person: their functional checks, oldest first, of those who did one since then. They are few."""
    c, found = table.c, dict[str, list[CheckDone]]()
    lately = select(c.person_id).where(c.kind == _CHECK, c.local_date >= since, c.deleted.is_(False))
    wanted = select(c.person_id, c.payload, c.hash).where(
        c.person_id.in_(lately), c.kind == _CHECK, c.deleted.is_(False), c.aside.is_(False),
        c.local_date >= since - timedelta(days=CHECKS_DAYS))
    for person, payload, told in db.execute(wanted.order_by(c.local_date, c.utc, c.id)):
        found.setdefault(person, []).append(from_text(CheckDone, unchanged(payload, told)))
    return found


def _conditions(db: Connection, of: Collection[str]) -> dict[str, frozenset[Condition]]:
    """By person: what they ticked."""
    p = person_table.c
    wanted = select(p.id, p.payload).where(p.id.in_(of))
    return {person: from_text(Person, text).body.conditions for person, text in db.execute(wanted)} if of else {}


def _open_stops(db: Connection, since: date, until: date) -> dict[str, RecordSummary]:
    """By person: the last stop, where it was before `since` and no yes came after it."""
    c, yes = table.c, table.alias("yes")
    stops = select(c.person_id, func.max(c.utc).label("utc"))
    stops = stops.where(c.sign.is_not(None), c.deleted.is_(False), c.kind.in_(_HEARD)).group_by(c.person_id)
    last = stops.subquery()
    answered = select(yes.c.id).where(yes.c.person_id == c.person_id, yes.c.kind == _CLEARANCE,
                                      yes.c.deleted.is_(False), yes.c.utc > c.utc,
                                      yes.c.aside.is_(False), yes.c.local_date <= until)
    wanted = select(*_TOLD).join(last, (last.c.person_id == c.person_id) & (last.c.utc == c.utc))
    wanted = wanted.where(c.sign.is_not(None), c.deleted.is_(False), c.local_date < since, ~answered.exists())
    return {row[0]: _told(row) for row in db.execute(wanted)}


def _last_day(kind: str, until: date) -> Select[Any]:
    c = table.c
    wanted = select(c.person_id, func.max(c.local_date).label("day"))
    return wanted.where(c.kind == kind, c.deleted.is_(False), c.local_date <= until).group_by(c.person_id)
