"""Returns at the desk: each on its own, whole or not at all."""
from __future__ import annotations

import asyncio
from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from itertools import permutations

import pytest

from app.actions.desk import intake, publishing
from app.device.clock import ManualClock
from app.domain.errors import AppError, DamagedFile, NoRoom, NotOurFile, UntrustedSigner, WrongRecipient
from app.domain.model.client import Client as Body
from app.domain.model.person import Person
from app.domain.model.record import CheckIn, Record, SessionDone
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.text_form import to_text
from app.storage import people, records
from app.storage.database import Connection, Store
from app.storage.export import logical_dump
from app.storage.people import Trains
from tests.actions.afar import NOW, Client, check_in, new_keys, session

VERA, OLGA = Person("p-vera", "Vera"), Person("p-olga", "Olga", goals="Stairs")


def taken(store: Store, clock: ManualClock, *files: tuple[str, bytes]) -> tuple[intake.Taken, ...]:
    return asyncio.run(intake.take_in(store, clock, files))


def dumped(store: Store) -> str:
    with store.read() as db:
        return logical_dump(db)


def test_a_first_return_brings_the_person(store: Store, clock: ManualClock) -> None:
    """Whoever is new is added with their key, their records and the note of the return."""
    data = Client(VERA).sends(store, [check_in("p-vera", "c1"), session("p-vera", "s1")])
    [told] = taken(store, clock, ("vera.evenload-return", data))
    assert (told.person, told.new, told.newer, told.same, told.error) == (VERA, 2, 0, 0, None)
    with store.read() as db:
        assert [p.name for p in people.desk_people(db)] == ["Vera"]
        assert len(records.records(db, "p-vera", SessionDone)) == 1
        pinned = people.pinned_keys(db, "p-vera")
    assert pinned is not None and pinned.last_number == 1


def test_twice_and_as_text_is_harmless(store: Store, clock: ManualClock) -> None:
    """The same file again, or pasted as text among other words, changes nothing."""
    data = Client(VERA).sends(store, [check_in("p-vera", "c1")])
    taken(store, clock, ("a", data))
    before = dumped(store)
    pasted = f"Hello Odile\n> {to_text(data, Kind.RETURN)}\nBye".encode()
    again = taken(store, clock, ("a", data), ("pasted", pasted))
    assert [(t.new, t.same, t.error) for t in again] == [(0, 1, None), (0, 1, None)]
    assert dumped(store) == before


def test_a_bad_file_does_not_hold_up_the_good(store: Store, clock: ManualClock) -> None:
    """Damaged, foreign and misdirected files are listed with their own error; the good one is kept."""
    client = Client(VERA)
    good = client.sends(store, [check_in("p-vera", "c1")])
    damaged = good[:-1] + bytes([good[-1] ^ 1])
    told = taken(store, clock, ("bad", damaged), ("good", good), ("note.txt", b"milk, bread"))
    kinds: list[type[AppError] | None] = [type(t.error) if t.error else None for t in told]
    assert kinds == [DamagedFile, None, NotOurFile]
    assert told[1].new == 1


def test_nothing_of_a_refused_file_is_kept(store: Store, clock: ManualClock) -> None:
    """After each refused file a dump of the store is as it was."""
    good = Client(VERA).sends(store, [check_in("p-vera", "c1")])
    before = dumped(store)
    for at in range(0, len(good), max(1, len(good) // 40)):
        bad = good[:at] + bytes([good[at] ^ 1]) + good[at + 1:]
        [told] = taken(store, clock, ("bad", bad))
        assert told.error is not None
        assert told.person is None
    assert dumped(store) == before


def test_sealed_for_another_coach(store: Store, clock: ManualClock) -> None:
    """A desk without keys, or with other ones, cannot open it and says so."""
    data = Client(VERA).sends(store, [check_in("p-vera", "c1")])
    with store.begin() as db:
        for kind in publishing.KINDS:
            from app.storage import keys
            keys.replace_keys(db, keys.StoredKeyPair(keys.COACH, kind, bytes(range(32)), bytes(range(32)), NOW))
    [told] = taken(store, clock, ("vera", data))
    assert isinstance(told.error, WrongRecipient)


def test_another_key_is_refused_until_the_coach_asked(store: Store, clock: ManualClock) -> None:
    """A second phone's key is not the pinned one; accepted by hand, it is pinned from then on."""
    client = Client(VERA)
    taken(store, clock, ("one", client.sends(store, [check_in("p-vera", "c1")])))
    before = dumped(store)
    other = replace(client, keys=asyncio.run(new_keys()))
    data = other.sends(store, [check_in("p-vera", "c2")])
    [told] = taken(store, clock, ("two", data))
    assert isinstance(told.error, UntrustedSigner) and told.is_new_phone
    assert dumped(store) == before
    assert asyncio.run(intake.accept_new_phone(store, clock, "two", data)).new == 1
    assert taken(store, clock, ("three", other.sends(store, [check_in("p-vera", "c3")])))[0].new == 1


def test_an_older_return_brings_records_and_no_old_facts(store: Store, clock: ManualClock) -> None:
    """Out of order, the records merge and what is known of the person stays the newer."""
    client = Client(VERA)
    old = client.sends(store, [check_in("p-vera", "c1", 9)], NOW - timedelta(days=9))
    client.person = replace(VERA, body=Body(alone=True), goals="Carry the shopping")
    new = client.sends(store, [check_in("p-vera", "c2")])
    taken(store, clock, ("new", new), ("old", old))
    with store.read() as db:
        assert people.person(db, "p-vera") == client.person
        assert len(records.records(db, "p-vera", CheckIn)) == 2


def test_a_refused_signer_among_others_holds_up_none(store: Store, clock: ManualClock) -> None:
    """Files share a transaction, and yet each of the good ones is kept, before the refused one and after it."""
    vera, olga = Client(VERA), Client(OLGA)
    taken(store, clock, ("vera", vera.sends(store, [check_in("p-vera", "c1")])))
    strange = replace(vera, keys=asyncio.run(new_keys())).sends(store, [check_in("p-vera", "c2")])
    files = [("olga", olga.sends(store, [check_in("p-olga", "c1")])), ("strange", strange),
             ("vera", vera.sends(store, [check_in("p-vera", "c3")]))]
    told = taken(store, clock, *files)
    assert [(t.name, t.new, t.is_new_phone) for t in told] == [("olga", 1, False), ("strange", 0, True),
                                                               ("vera", 1, False)]
    with store.read() as db:
        assert [r.stamp.id for r in records.records(db, "p-vera", CheckIn)] == ["c1", "c3"]
        assert len(records.records(db, "p-olga", CheckIn)) == 1


def test_a_fault_in_one_file_leaves_those_before_it(store: Store, clock: ManualClock,
                                                    monkeypatch: pytest.MonkeyPatch) -> None:
    """What was told of is kept, also when the disk fills up in the middle of files that share a transaction."""
    files = [(who.id, Client(who).sends(store, [check_in(who.id, "c1")])) for who in (VERA, OLGA)]
    write = records.merge_records

    def fails(db: Connection, incoming: Iterable[Record], arrived: datetime | None = None, *,
              first: bool = False) -> records.Merged:
        merged = write(db, incoming, arrived, first=first)
        if any(record.stamp.person == OLGA.id for record in incoming):
            raise NoRoom(path="desk")
        return merged

    monkeypatch.setattr(records, "merge_records", fails)
    told: list[str] = []

    async def take_one_by_one() -> None:
        async for one in intake.taking(store, clock, files):
            told.append(one.name)

    with pytest.raises(NoRoom):
        asyncio.run(take_one_by_one())
    assert told == ["p-vera"]
    with store.read() as db:
        assert [p.name for p in people.desk_people(db)] == ["Vera"]
        assert len(records.records(db, "p-vera", CheckIn)) == 1
        assert records.records(db, "p-olga", CheckIn) == ()


def test_names_that_read_alike_are_told_also_within_one_go(store: Store, clock: ManualClock) -> None:
    """Of the second, that the first is here."""
    first, second = Person("p-1", "Ines"), Person("p-2", "INES")
    told = taken(store, clock, *((who.id, Client(who).sends(store, [])) for who in (first, second)))
    assert [t.resembles for t in told] == [(), ("Ines",)]


@pytest.mark.parametrize("order", [(0, 1, 2), (2, 1, 0), (1, 0, 2, 1)])
def test_any_order_gives_the_same_records(store: Store, clock: ManualClock, order: tuple[int, ...]) -> None:
    """Overlapping returns in any order end with the corrected record."""
    client = Client(VERA)
    first = check_in("p-vera", "c1", pain=2)
    corrected = replace(first, stamp=replace(first.stamp, revision=2), pain={})
    files = [client.sends(store, given) for given in ([first], [first, session("p-vera", "s1")], [corrected])]
    taken(store, clock, *((str(at), files[at]) for at in order))
    with store.read() as db:
        assert records.records(db, "p-vera", CheckIn) == (corrected,)
        assert len(records.records(db, "p-vera", SessionDone)) == 1


@pytest.mark.parametrize("order", [*permutations(range(3)), (2, 0, 2, 1), (1, 0, 1, 2, 0)])
def test_any_order_gives_the_same_person_and_last_return(store: Store, clock: ManualClock, order: tuple[int, ...]
                                                         ) -> None:
    """What the newest of them says of the person stands, and so do its number and its time."""
    client, files = Client(VERA), []
    for at, goals in enumerate(("Stairs", "Carry the shopping", "Dance")):
        client.person = replace(VERA, goals=goals)
        files.append(client.sends(store, [check_in("p-vera", f"c{at}", 3 - at)], NOW - timedelta(days=3 - at)))
    for at in order:
        taken(store, clock, (str(at), files[at]))
    with store.read() as db:
        pinned, found = people.pinned_keys(db, "p-vera"), people.person(db, "p-vera")
        assert len(records.records(db, "p-vera", CheckIn)) == 3
    assert found is not None and found.goals == "Dance"
    assert pinned is not None and (pinned.last_number, pinned.last_return) == (3, NOW - timedelta(days=1))


def test_who_trains_here_keeps_what_was_not_sent(store: Store, clock: ManualClock) -> None:
    """A return of somebody on this very device, without its notes, takes nothing from their own records."""
    person = replace(OLGA, sends=frozenset({"sessions", "check_ins"}))
    mine = check_in("p-olga", "c1", pain=6, note="after the stairs")
    with store.begin() as db:
        people.add_person(db, person, Trains.HERE, NOW)
        records.save_record(db, mine)
    [told] = taken(store, clock, ("olga", Client(person).sends(store, [mine])))
    assert (told.new, told.same) == (0, 1)
    with store.read() as db:
        assert people.person(db, "p-olga") == person
        assert records.records(db, "p-olga", CheckIn) == (mine,)
        assert [p.name for p in people.desk_people(db)] == ["Olga"]
