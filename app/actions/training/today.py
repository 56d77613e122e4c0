"""What is due today for one person, compiled for their body, their kit, the room and this morning's answers."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from app.device.clock import Clock
from app.domain.compile.stations import Order, session_kit
from app.domain.dosing.history import diary_today
from app.domain.dosing.limits import Limits, limits_today
from app.domain.dosing.screening import must_ask_again
from app.domain.dosing.way_back import Stop, check_ins_of, sessions_of, way_back
from app.domain.errors import TooShort
from app.domain.model.client import Client, Place
from app.domain.model.diary import Diary
from app.domain.model.exercise import Exercise
from app.domain.model.misdated import AHEAD
from app.domain.model.person import Person
from app.domain.model.plan import Timeline
from app.domain.model.programme import Programme
from app.domain.model.record import CheckIn, Record, SessionDone
from app.domain.model.session import Session
from app.domain.model.source import Source
from app.domain.progress.due_session import Due, due_session
from app.domain.progress.planned_days import in_block
from app.domain.progress.progression_today import compile_moved, done_before
from app.domain.progress.suiting_session import suiting_session
from app.storage import journal, packs, people, records
from app.storage.database import Connection, Store
from app.storage.packs import KeptPack


@dataclass(frozen=True)
class Today:
    """Everything that today's card and the player need. `timeline` is None where there is nothing to do."""

    person: Person
    day: date
    pack: KeptPack | None = None
    programme: Programme | None = None
    due: Due | None = None
    session: Session | None = None
    check_in: CheckIn | None = None
    """This morning's answers, unless they were used up by a session."""
    timeline: Timeline | None = None
    too_short: TooShort | None = None
    stop: Stop | None = None
    """A stop that still waits for somebody's yes."""
    is_running: bool = False
    ask_again: bool = False
    """The stop questions are due."""
    done: SessionDone | None = None
    """What was done today already."""
    limits: Limits | None = None
    instead_of: Session | None = None
    """The session that was due, where another one stands for it that suits somebody who sits or needs a hold."""
    records: tuple[Record, ...] = field(default=(), repr=False)

    @property
    def source(self) -> Source | None:
        """The coach's work."""
        return self.pack.source if self.pack else None

    @property
    def library(self) -> Mapping[str, Exercise]:
        """Exercises by id; empty without a pack."""
        return self.pack.source.library() if self.pack else {}

    @property
    def names(self) -> dict[str, str]:
        """Exercise names by id."""
        return {e.id: e.name for e in self.library.values()}

    @property
    def place(self) -> Place:
        """Where they are."""
        return place_of(self.person)

    def kit(self) -> list[str]:
        """What the compiled session needs, without what every room has."""
        done = {s.exercise for s in self.timeline.steps if s.is_effort} if self.timeline else set()
        return sorted({k for i in done if i for k in self.library[i].needs()})


def place_of(person: Person) -> Place:
    """The place chosen last; the first where that one is gone."""
    return next((p for p in person.places if p.name == person.place), person.places[0] if person.places else Place())


def strength_sessions(source: Source) -> frozenset[str]:
    """Ids of sessions that hold strength work."""
    library = source.library()
    return frozenset(s.id for s in source.sessions if s.trains_strength(library))


def programme_of(person: Person, source: Source) -> Programme | None:
    """The programme that they follow, or the coach's first."""
    named = (p for p in source.programmes if p.id == person.programme)
    return next(named, source.programmes[0] if source.programmes else None)


def open_check_in(everything: Sequence[Record], day: date) -> CheckIn | None:
    """Today's latest check-in that no session has used up."""
    today = [c for c in check_ins_of(everything) if c.stamp.local == day]
    if not today:
        return None
    used = [s for s in sessions_of(everything)
            if s.stamp.utc >= today[-1].stamp.utc and s.stamp.local <= day + AHEAD]
    return None if used else today[-1]


def order_for(person: Person, body: Client, source: Source, session: Session, diary: Diary | None, day: date,
              *, lighter_week: bool) -> Order:
    """What is compiled for a person today."""
    table = source.rules.table()
    return Order(session, source.library(), body, place_of(person), day, diary, table, source.whole_library,
                 lighter_week)


def today(store: Store, clock: Clock, person_id: str, session_id: str | None = None) -> Today:
    """Today's card. `session_id` is another session than the one that is due.

    Raises:
        KeyError: nobody of that id.
    """
    with store.read() as db:
        return card_in(db, clock, person_id, session_id)


def card_in(db: Connection, clock: Clock, person_id: str, session_id: str | None = None) -> Today:
    """The same as it stands within a transaction, for an action that decides by it and writes.

    Raises:
        KeyError: nobody of that id.
    """
    day = clock.local(clock.now()).day
    person = people.person(db, person_id)
    if person is None:
        raise KeyError(person_id)
    pack = packs.newest_pack(db, person.coach_key) if person.coach_key else None
    everything = records.all_records(db, person_id)
    chosen = {c.written: c.chosen for c in reversed(people.choices(db, person_id))}
    running = journal.running(db, person_id)
    past = tuple(s for s in sessions_of(everything) if s.stamp.local <= day + AHEAD)
    card = Today(
        person, day, pack, stop=way_back(everything, day + AHEAD).stop, is_running=running is not None,
        ask_again=must_ask_again(person.screened, past[-1].stamp.local if past else None, day),
        done=past[-1] if past and past[-1].stamp.local == day else None,
        check_in=open_check_in(everything, day), records=everything,
    )
    return _compiled(card, replace(person.body, chosen={**chosen, **person.body.chosen}), past, session_id) \
        if pack else card


def _compiled(card: Today, body: Client, past: Sequence[SessionDone], session_id: str | None) -> Today:
    source = card.source
    assert source is not None
    programme = programme_of(card.person, source)
    due = due_session(programme, in_block(card.person, past), strength_sessions(source)) if programme else None
    session = source.session(session_id or (due.session if due else ""))
    if session is None:
        return replace(card, programme=programme, due=due)
    written = session
    if session_id is None:
        session = suiting_session(session, source.sessions, source.library(), body, card.place, card.day)
    suits = session is not written
    card = replace(card, programme=programme, due=due, session=session, instead_of=written if suits else None)
    table = source.rules.table()
    diary = diary_today(card.check_in, card.records, body, table=table) if card.check_in else None
    lighter = bool(due and due.lighter and due.session == written.id)
    order = order_for(card.person, body, source, session, diary, card.day, lighter_week=lighter)
    order = replace(order, done_before=done_before(past))
    limits = limits_today(body, order.place, diary, session_kit(session, order.library), card.day)
    try:
        timeline = replace(compile_moved(order, limits, past), week_again=due.again if due else 0)
        return replace(card, timeline=timeline, limits=limits)
    except TooShort as short:
        return replace(card, too_short=short, limits=limits)
