"""What the attention list is made from, over everybody at once, in seven queries however many records there are."""
from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import cache
from typing import Any, NamedTuple

from sqlalchemy import (
    BindParameter,
    ColumnElement,
    Connection,
    ScalarSelect,
    Select,
    String,
    bindparam,
    func,
    select,
    type_coerce,
)

from app.domain.measures.attention_summary import AgreedPain, PersonSummary, RecordSummary
from app.domain.model.client import Client
from app.domain.model.misdated import AHEAD
from app.domain.model.person import NO_BODY, Person
from app.domain.model.record import CheckDone, CheckIn, Clearance, Event, EventKind, SessionDone
from app.domain.model.record_kinds import KIND_OF
from app.domain.model.thresholds import CHECKS_DAYS, FORTNIGHT_DAYS, FOUR_WEEKS_DAYS, PAIN_HOLDS, RATE_DAYS
from app.storage.checked_text import unchanged
from app.storage.codec import decode, from_text
from app.storage.people import on_desk
from app.storage.summaries import COLUMNS, Summary, numbers_of, summary
from app.storage.tables import person as person_table
from app.storage.tables import record as table

#: In the order of a summary's fields, which begin after the person.
_TOLD = tuple(
    # few days, many rows: each day is read once, by `Briefs`
    type_coerce(table.c[name], String) if name == "local_date" else table.c[name]
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
    """Everybody whom the desk lists, by name. Two steps into an index for each of them, however much they told.

    What bears a day after tomorrow counts for nothing.
    """
    p = person_table.c
    sessions, check_ins = (_last_day(kind) for kind in (_SESSION, _CHECK_IN))
    wanted = select(p.id, p.name, p.created_utc, sessions, check_ins, p.last_return_utc)
    wanted = wanted.where(on_desk()).order_by(p.name, p.id)
    return tuple(PersonOnDesk(*row) for row in db.execute(wanted, {"until": today + AHEAD}))


def review_lines(db: Connection, since: date, today: date = _ANY_DAY) -> tuple[PersonSummary, ...]:
    """Everybody whom the desk lists, by name, with what they told from a training day on, oldest first.

    Whoever has no session since then comes with the last one before, so that silence has its evidence; pauses come
    whenever they were told, and so does a stop that nobody has answered. What bears a day after tomorrow is marked as
    put aside. Each row is read once, and each digest compared once.
    """
    ask, days = _questions(), {"since": since, "until": today + AHEAD, "counted": since - _COUNTED,
                               "checked": since - timedelta(days=CHECKS_DAYS)}
    paused, still_open = _pauses(db, ask), _open_stops(db, ask, days)
    before = {row[0]: row[1] for row in db.execute(ask.counted_before, days).all()}
    checks = _checks(db, ask, days)
    told: dict[str, list[RecordSummary]] = {}
    brief = Briefs(today + AHEAD)
    for wanted in (ask.last_before, ask.told_since):
        for row in db.execute(wanted, days):
            told.setdefault(row[0], []).append(brief(row))
    lines = list[PersonSummary]()
    for person, name, last_return, added, text in db.execute(ask.people).all():
        own, said = tuple(told.get(person, ())), json.loads(text)
        hurt = any(t.pain is not None and t.pain >= PAIN_HOLDS and t.local >= since for t in own)
        asked = person in checks or (hurt and said.get("body", {}).get("usual_pain"))
        body = decode(Person, said).body if asked else NO_BODY
        lines.append(PersonSummary(
            person, name, own, last_return, added.date(), tuple(paused.get(person, ())), still_open.get(person),
            before.get(person, 0), _agreed(body) if hurt else (), tuple(checks.get(person, ())),
            body.conditions if person in checks else frozenset(), frozenset(said.get("sends", Person.sends))))
    return tuple(lines)


def summaries(db: Connection, person_id: str, since: date = date.min) -> tuple[Summary, ...]:
    """One person's records in brief from a training day on, oldest first, without those taken back."""
    c = table.c
    wanted = select(*COLUMNS).where(c.person_id == person_id, c.deleted.is_(False), c.local_date >= since)
    return tuple(summary(row) for row in db.execute(wanted.order_by(c.local_date, c.utc, c.id)))


class Briefs:
    """Turns rows of `_TOLD` into values. Days, spots and steps that read the same are taken apart once."""

    def __init__(self, until: date) -> None:
        self.until = until
        """What bears a later day is put aside."""
        self.days: dict[str, date] = {}
        self.read: dict[str | None, tuple[tuple[str, int], ...]] = {None: ()}

    def __call__(self, row: Sequence[Any]) -> RecordSummary:
        """One record in brief."""
        (_, name, kind, day, pain, rpe, target, completed, sign, by_hand, session, aside, spots, ending, strength,
         slept, energy, calm, soreness, steps, again) = row
        local = self.days.get(day) or self.days.setdefault(day, date.fromisoformat(day))
        return RecordSummary(
            name, kind, local, pain, rpe, target, completed,
            sign.partition(" ")[0] if sign else "",  # the most serious stands first
            tuple((a, b) for a, b in json.loads(by_hand)) if by_hand else (),
            session or "" if kind == _EVENT else "", aside or local > self.until, self._numbers(spots), ending or "",
            strength, slept, energy, calm, soreness, self._numbers(steps), again or 0,
            session or "" if kind == _SESSION else "")

    def _numbers(self, text: str | None) -> tuple[tuple[str, int], ...]:
        found = self.read.get(text)
        if found is None:
            found = self.read[text] = numbers_of(text)
        return found


class _Questions(NamedTuple):
    """What is asked of the store. It says the same each time, but for the days, and is therefore put together once."""

    people: Select[Any]
    last_before: Select[Any]
    """The last session of whoever has none since then."""
    told_since: Select[Any]
    pauses: Select[Any]
    """They are few, so their payload is read."""
    counted_before: Select[Any]
    """Sessions of which something was done in the weeks before."""
    checks: Select[Any]
    open_stops: Select[Any]
    """The last stop, where it was before and no yes came after it."""


@cache
def _questions() -> _Questions:
    p, c = person_table.c, table.c
    since: BindParameter[Any] = bindparam("since")
    until: BindParameter[Any] = bindparam("until")
    people = select(p.id, p.name, p.last_return_utc, p.created_utc, p.payload).where(on_desk()).order_by(p.name, p.id)
    in_order = c.local_date, c.utc, c.id
    told = select(*_TOLD).where(c.deleted.is_(False)).order_by(*in_order)
    # on its own: taken into the query around it, it would be asked anew for every record
    last = select(p.id, _last_day(_SESSION).label("day")).where(on_desk()).cte("last").prefix_with("MATERIALIZED")
    before = told.join(last, (last.c.id == c.person_id) & (last.c.day == c.local_date))
    before = before.where(c.kind == _SESSION, last.c.day < since)
    payloads = select(c.person_id, c.payload, c.hash).where(_theirs(), c.deleted.is_(False)).order_by(*in_order)
    counted = select(c.person_id, func.count()).where(
        _theirs(), c.kind == _SESSION, c.deleted.is_(False), c.aside.is_(False), c.completed > 0,
        c.local_date < since, c.local_date >= bindparam("counted")).group_by(c.person_id)
    lately = table.alias("lately")
    one = select(lately.c.id).where(lately.c.person_id == c.person_id, lately.c.kind == _CHECK,
                                    lately.c.deleted.is_(False), lately.c.local_date >= since)
    return _Questions(
        people, before, told.where(c.kind.in_(_HEARD), c.local_date >= since),
        payloads.where(c.kind == _EVENT, c.session == EventKind.PAUSE.value), counted,
        payloads.where(c.kind == _CHECK, c.aside.is_(False), c.local_date >= bindparam("checked"), one.exists()),
        _last_stops().where(c.local_date < since, ~_answered(until).exists()))


def _last_stops() -> Select[Any]:
    c = table.c
    stops = select(c.person_id, func.max(c.utc).label("utc"))
    stops = stops.where(c.sign.is_not(None), c.deleted.is_(False), c.kind.in_(_HEARD)).group_by(c.person_id)
    last = stops.subquery()
    wanted = select(*_TOLD).join(last, (last.c.person_id == c.person_id) & (last.c.utc == c.utc))
    return wanted.where(c.sign.is_not(None), c.deleted.is_(False))


def _answered(until: BindParameter[Any]) -> Select[Any]:
    """A yes that came after the record of the query around it."""
    c, yes = table.c, table.alias("yes")
    return select(yes.c.id).where(yes.c.person_id == c.person_id, yes.c.kind == _CLEARANCE, yes.c.deleted.is_(False),
                                  yes.c.utc > c.utc, yes.c.aside.is_(False), yes.c.local_date <= until)


def _pauses(db: Connection, ask: _Questions) -> dict[str, list[tuple[date, date]]]:
    """(first day, last day) of every pause, by person."""
    found: dict[str, list[tuple[date, date]]] = {}
    for person, payload, told in db.execute(ask.pauses):
        pause = from_text(Event, unchanged(payload, told))
        if pause.until is not None:
            found.setdefault(person, []).append((pause.since or pause.stamp.local, pause.until))
    return found


def _checks(db: Connection, ask: _Questions, days: Mapping[str, date]) -> dict[str, Sequence[CheckDone]]:
    """By person: their functional checks, oldest first, of those who did one since then. They are few."""
    found: dict[str, list[CheckDone]] = {}
    for person, payload, told in db.execute(ask.checks, days):
        found.setdefault(person, []).append(from_text(CheckDone, unchanged(payload, told)))
    return {person: tuple(done) for person, done in found.items()}


def _open_stops(db: Connection, ask: _Questions, days: Mapping[str, date]) -> dict[str, RecordSummary]:
    """By person: the last stop that is open."""
    brief = Briefs(date.max)
    return {row[0]: brief(row) for row in db.execute(ask.open_stops, days)}


def _agreed(body: Client) -> tuple[AgreedPain, ...]:
    """What was agreed on as usual."""
    return tuple(AgreedPain(str(spot), one.level, one.until) for spot, one in body.usual_pain.items())


def _theirs() -> ColumnElement[bool]:
    """Of somebody on the desk: by the people, so that the index over person, kind and day leads to few rows."""
    return table.c.person_id.in_(select(person_table.c.id).where(on_desk()))


def _last_day(kind: str) -> ScalarSelect[Any]:
    """Of the person of the query around it: one step into the index over person, kind and day."""
    c = table.c
    wanted = select(func.max(c.local_date)).where(
        c.person_id == person_table.c.id, c.kind == kind, c.deleted.is_(False), c.local_date <= bindparam("until"))
    return wanted.correlate(person_table).scalar_subquery()
