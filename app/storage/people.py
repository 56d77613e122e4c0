"""Those who train on this device and those whose returns come to this desk."""
from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from enum import StrEnum

from sqlalchemy import ColumnElement, Connection, bindparam, case, delete, insert, or_, select, update

from app.domain.model.misdated import AHEAD
from app.domain.model.person import Person
from app.storage.codec import from_text, to_text
from app.storage.tables import choice as choice_table
from app.storage.tables import person as table
from app.storage.upsert import put


class Trains(StrEnum):
    """Where somebody trains: on this device, or elsewhere with their returns coming here."""

    HERE = "here"
    ELSEWHERE = "elsewhere"


@dataclass(frozen=True)
class PinnedKeys:
    """The keys a person's first return came with, and the last return that was taken in."""

    signing: str
    sealing: str
    last_return: datetime | None
    last_number: int | None


@dataclass(frozen=True)
class Sender:
    """What decides over somebody's return: where they train, and what is pinned; None: nothing yet."""

    is_here: bool
    pinned: PinnedKeys | None


@dataclass(frozen=True)
class HandChoice:
    """A change made by hand: `chosen` in place of `written`, how often, and when last."""

    written: str
    chosen: str
    times: int
    last: datetime


_NEVER = datetime.max.replace(tzinfo=UTC)
_c, _OF = table.c, table.c.id == bindparam("of")
#: Asked for every return, and therefore built once.
_ADDED, _CHANGED = insert(table), update(table).where(_OF).values(name=bindparam("name"), payload=bindparam("payload"))
_NAMES = select(_c.name).order_by(_c.name, _c.id)
_SENDER = select(_c.here, _c.signing_key, _c.sealing_key, _c.last_return_utc, _c.last_return_number).where(_OF)
_NUMBER, _UTC = bindparam("number", type_=_c.last_return_number.type), bindparam("utc", type_=_c.last_return_utc.type)
_NOTED = update(table).where(_OF).values(
    last_return_number=case((or_(_c.last_return_number.is_(None), _c.last_return_number < _NUMBER), _NUMBER),
                            else_=_c.last_return_number),
    last_return_utc=case((or_(_c.last_return_utc.is_(None), _c.last_return_utc < _UTC,
                              _c.last_return_utc > bindparam("most", type_=_c.last_return_utc.type)), _UTC),
                         else_=_c.last_return_utc))


def add_person(db: Connection, person: Person, trains: Trains, utc: datetime,
               keys: tuple[str, str] | None = None) -> None:
    """Adds somebody new, with the keys for signing and sealing that their first return came with.

    Raises:
        sqlalchemy.exc.IntegrityError: somebody with that id is here already.
    """
    signing, sealing = keys or (None, None)
    db.execute(_ADDED, {
        "id": person.id, "name": person.name, "here": trains is Trains.HERE, "payload": to_text(person),
        "created_utc": utc, "signing_key": signing, "sealing_key": sealing,
    })


def save_person(db: Connection, person: Person) -> None:
    """Keeps what is now known of somebody who was added; keys and returns stay as they are.

    Raises:
        KeyError: nobody with that id was added.
    """
    said = {"of": person.id, "name": person.name, "payload": to_text(person)}
    if db.execute(_CHANGED, said).rowcount == 0:
        raise KeyError(person.id)


def person(db: Connection, person_id: str) -> Person | None:
    """The person of that id, or None."""
    text = db.execute(select(table.c.payload).where(table.c.id == person_id)).scalar()
    return None if text is None else from_text(Person, text)


def people(db: Connection, trains: Trains | None = None) -> tuple[Person, ...]:
    """Everybody, or those who train in one place, by name."""
    wanted = select(table.c.payload).order_by(table.c.name, table.c.id)
    if trains is not None:
        wanted = wanted.where(table.c.here == (trains is Trains.HERE))
    return tuple(from_text(Person, text) for text in db.execute(wanted).scalars())


def names(db: Connection) -> tuple[str, ...]:
    """Everybody's name, in order, without reading what is known of them."""
    return tuple(db.execute(_NAMES).scalars())


def sender(db: Connection, person_id: str) -> Sender | None:
    """What decides over the returns of that person, or None where nobody of that id is here."""
    row = db.execute(_SENDER, {"of": person_id}).one_or_none()
    return None if row is None else Sender(row[0], None if row[1] is None else PinnedKeys(*row[1:]))


def on_desk() -> ColumnElement[bool]:
    """Whom the desk lists: everybody who trains elsewhere or has ever sent a return."""
    return or_(table.c.here.is_(False), table.c.last_return_number.is_not(None))


def desk_people(db: Connection) -> tuple[Person, ...]:
    """Everybody whom the desk lists, by name."""
    wanted = select(table.c.payload).where(on_desk()).order_by(table.c.name, table.c.id)
    return tuple(from_text(Person, text) for text in db.execute(wanted).scalars())


def pin_keys(db: Connection, person_id: str, signing: str, sealing: str) -> PinnedKeys:
    """Pins a person's keys if none are pinned, and returns those that now are; compare them with what came."""
    unpinned = table.c.id == person_id, table.c.signing_key.is_(None)
    db.execute(update(table).where(*unpinned).values(signing_key=signing, sealing_key=sealing))
    found = pinned_keys(db, person_id)
    if found is None:
        raise KeyError(person_id)
    return found


def replace_keys(db: Connection, person_id: str, signing: str, sealing: str) -> None:
    """Pins other keys, after the coach has made sure that the person has a new phone, whose returns count from 1."""
    known = update(table).where(table.c.id == person_id)
    db.execute(known.values(signing_key=signing, sealing_key=sealing))
    db.execute(known.where(table.c.last_return_number.is_not(None)).values(last_return_number=0))


def pinned_keys(db: Connection, person_id: str) -> PinnedKeys | None:
    """The keys pinned for a person, or None."""
    known = sender(db, person_id)
    return known.pinned if known else None


def person_by_key(db: Connection, signing: str) -> Person | None:
    """Whose returns are signed with that key, or None."""
    text = db.execute(select(table.c.payload).where(table.c.signing_key == signing).order_by(table.c.id)).scalar()
    return None if text is None else from_text(Person, text)


def note_return(db: Connection, person_id: str, number: int, utc: datetime, arrived: datetime | None = None) -> None:
    """Keeps that return `number`, made at `utc`, was taken in; number and time each only ever grow.

    A time that was kept and lies after the one at which this return `arrived` was a wrong clock's, and gives way.
    """
    db.execute(_NOTED, {"of": person_id, "number": number, "utc": utc, "most": arrived + AHEAD if arrived else _NEVER})


def count_choice(db: Connection, person_id: str, written: str, chosen: str, utc: datetime) -> int:
    """Counts a change made by hand, and returns how often it was made now."""
    c = choice_table.c
    here = c.person_id == person_id, c.written == written, c.chosen == chosen
    times = int(db.execute(select(c.times).where(*here)).scalar() or 0) + 1
    put(db, choice_table, {
        "person_id": person_id, "written": written, "chosen": chosen, "times": times, "last_utc": utc,
    })
    return times


def forget_choice(db: Connection, person_id: str, written: str, chosen: str) -> None:
    """Takes back the last time that a change was made by hand; one never made changes nothing."""
    c = choice_table.c
    here = c.person_id == person_id, c.written == written, c.chosen == chosen
    db.execute(update(choice_table).where(*here).values(times=c.times - 1))
    db.execute(delete(choice_table).where(*here, c.times < 1))


def choices(db: Connection, person_id: str) -> tuple[HandChoice, ...]:
    """The changes a person made by hand, the latest first."""
    c = choice_table.c
    wanted = select(c.written, c.chosen, c.times, c.last_utc).where(c.person_id == person_id)
    return tuple(HandChoice(*row) for row in db.execute(wanted.order_by(c.last_utc.desc(), c.written, c.chosen)))
