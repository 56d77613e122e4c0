"""What the attention list is made from, over everybody at once, in seven queries however many records there are."""
from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from sqlalchemy import ColumnElement, Connection, Row, ScalarSelect, func, select

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
    """Everybody whom the desk lists, by name. Two steps into an index for each of them, however much they told.

    What bears a day after tomorrow counts for nothing.
    """
    p = person_table.c
    sessions, check_ins = (_last_day(kind, today + AHEAD) for kind in (_SESSION, _CHECK_IN))
    wanted = select(p.id, p.name, p.created_utc, sessions, check_ins, p.last_return_utc)
    return tuple(PersonOnDesk(*row) for row in db.execute(wanted.where(on_desk()).order_by(p.name, p.id)))


def review_lines(db: Connection, since: date, today: date = _ANY_DAY) -> tuple[PersonSummary, ...]:
    """Everybody whom the desk lists, by name, with what they told from a training day on, oldest first.

    Whoever has no session since then comes with the last one before, so that silence has its evidence; pauses come
    whenever they were told, and so does a stop that nobody has answered. What bears a day after tomorrow is marked as
    put aside. Each row is read once, and each digest compared once.
    """
    paused, still_open = _pauses(db), _open_stops(db, since, today + AHEAD)
    before, checks = _counted_before(db, since), _checks(db, since)
    told: dict[str, list[RecordSummary]] = {}
    brief = Briefs(today + AHEAD)
    for row in _rows_told(db, since, today + AHEAD):
        told.setdefault(row[0], []).append(brief(row))
    p, lines = person_table.c, list[PersonSummary]()
    wanted = select(p.id, p.name, p.last_return_utc, p.created_utc, p.payload).where(on_desk())
    for person, name, last_return, added, text in db.execute(wanted.order_by(p.name, p.id)).all():
        own, said = tuple(told.get(person, ())), json.loads(text)
        hurt = any(t.pain is not None and t.pain >= PAIN_HOLDS and t.local >= since for t in own)
        body = decode(Person, said).body if person in checks or (hurt and said["body"].get("usual_pain")) else NO_BODY
        lines.append(PersonSummary(
            person, name, own, last_return, added.date(), tuple(paused.get(person, ())), still_open.get(person),
            before.get(person, 0), _agreed(body) if hurt else (), tuple(checks.get(person, ())),
            body.conditions if person in checks else frozenset(), frozenset(said.get("sends", ()))))
    return tuple(lines)


def summaries(db: Connection, person_id: str, since: date = date.min) -> tuple[Summary, ...]:
    """One person's records in brief from a training day on, oldest first, without those taken back."""
    c = table.c
    wanted = select(*COLUMNS).where(c.person_id == person_id, c.deleted.is_(False), c.local_date >= since)
    return tuple(summary(row) for row in db.execute(wanted.order_by(c.local_date, c.utc, c.id)))


class Briefs:
    """Turns rows of `_TOLD` into values. Spots and steps that read the same are taken apart once."""

    def __init__(self, until: date) -> None:
        self.until = until
        """What bears a later day is put aside."""
        self.read: dict[str | None, tuple[tuple[str, int], ...]] = {None: ()}

    def __call__(self, row: Sequence[Any]) -> RecordSummary:
        """One record in brief."""
        (_, name, kind, local, pain, rpe, target, completed, sign, by_hand, session, aside, spots, ending, strength,
         slept, energy, calm, soreness, steps, again) = row
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


def _rows_told(db: Connection, since: date, until: date) -> Iterable[Row[Any]]:
    """The last session of whoever has none since then, and then whatever was told since."""
    c = table.c
    told = select(*_TOLD).where(c.deleted.is_(False)).order_by(c.local_date, c.utc, c.id)
    # on its own: taken into the query around it, it would be asked anew for every record
    last = select(person_table.c.id, _last_day(_SESSION, until).label("day")).where(on_desk()).cte("last")
    last = last.prefix_with("MATERIALIZED")
    before = told.join(last, (last.c.id == c.person_id) & (last.c.day == c.local_date))
    yield from db.execute(before.where(c.kind == _SESSION, last.c.day < since)).all()
    yield from db.execute(told.where(c.kind.in_(_HEARD), c.local_date >= since)).all()


def _pauses(db: Connection) -> dict[str, list[tuple[date, date]]]:
    """(first day, last day) of every pause, by person. They are few, so their payload is read."""
    c, found = table.c, dict[str, list[tuple[date, date]]]()
    theirs = select(c.person_id, c.payload, c.hash).where(_theirs(), c.kind == _EVENT, c.deleted.is_(False))
    wanted = theirs.where(c.session == EventKind.PAUSE.value).order_by(c.local_date, c.utc, c.id)
    for person, payload, told in db.execute(wanted):
        pause = from_text(Event, unchanged(payload, told))
        if pause.until is not None:
            found.setdefault(person, []).append((pause.since or pause.stamp.local, pause.until))
    return found


def _counted_before(db: Connection, since: date) -> dict[str, int]:
    """By person: sessions of which something was done in the weeks before `since`."""
    c = table.c
    wanted = select(c.person_id, func.count()).where(
        _theirs(), c.kind == _SESSION, c.deleted.is_(False), c.aside.is_(False), c.completed > 0,
        c.local_date < since, c.local_date >= since - _COUNTED)
    return {row[0]: row[1] for row in db.execute(wanted.group_by(c.person_id)).all()}


def _checks(db: Connection, since: date) -> dict[str, Sequence[CheckDone]]:
    """By person: their functional checks, oldest first, of those who did one since then. They are few."""
    c, found = table.c, dict[str, list[CheckDone]]()
    lately = table.alias("lately")
    one = select(lately.c.id).where(lately.c.person_id == c.person_id, lately.c.kind == _CHECK,
                                    lately.c.deleted.is_(False), lately.c.local_date >= since)
    wanted = select(c.person_id, c.payload, c.hash).where(
        _theirs(), c.kind == _CHECK, c.deleted.is_(False), c.aside.is_(False),
        c.local_date >= since - timedelta(days=CHECKS_DAYS), one.exists())
    for person, payload, told in db.execute(wanted.order_by(c.local_date, c.utc, c.id)):
        found.setdefault(person, []).append(from_text(CheckDone, unchanged(payload, told)))
    return {person: tuple(done) for person, done in found.items()}


def _agreed(body: Client) -> tuple[AgreedPain, ...]:
    """What was agreed on as usual."""
    return tuple(AgreedPain(str(spot), one.level, one.until) for spot, one in body.usual_pain.items())


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
    brief = Briefs(date.max)
    return {row[0]: brief(row) for row in db.execute(wanted)}


def _theirs() -> ColumnElement[bool]:
    """Of somebody on the desk: by the people, so that the index over person, kind and day leads to few rows."""
    return table.c.person_id.in_(select(person_table.c.id).where(on_desk()))


def _last_day(kind: str, until: date) -> ScalarSelect[Any]:
    """Of the person of the query around it: one step into the index over person, kind and day."""
    c = table.c
    wanted = select(func.max(c.local_date)).where(
        c.person_id == person_table.c.id, c.kind == kind, c.deleted.is_(False), c.local_date <= until)
    return wanted.correlate(person_table).scalar_subquery()
