"""A phone or a desk whose clock is wrong hides neither harm nor silence, and is told of."""
from __future__ import annotations

import asyncio
from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from app.actions.desk import attention_list, intake
from app.device.clock import ManualClock
from app.domain.measures.attention_summary import AttentionReason, Flag
from app.domain.model.client import Client as Body
from app.domain.model.client import Condition
from app.domain.model.person import Person
from app.domain.model.record import CheckIn, Clearance, Ending, Event, EventKind, Record, SessionDone, Stamp
from app.storage import people, records, review_summaries
from app.storage.database import Store
from app.storage.people import Trains
from app.words.coach import attention as says
from app.words.coach import desk
from tests.actions.afar import NOW, Client, check_in, new_keys, session

VERA = Person("p-vera", "Vera")
FAR = datetime(2031, 5, 4, 7, 30, tzinfo=UTC)
A = AttentionReason


def dated(record: Record, when: datetime) -> Record:
    """The same record as a phone with that clock writes it."""
    return replace(record, stamp=replace(record.stamp, utc=when, local=when.date()))


def taken(store: Store, clock: ManualClock, client: Client, told: Iterable[Record], made: datetime = NOW
          ) -> intake.Taken:
    """A return of theirs, taken in."""
    [one] = asyncio.run(intake.take_in(store, clock, [("file", client.sends(store, told, made))]))
    return one


def listed(store: Store, clock: ManualClock) -> list[tuple[AttentionReason, tuple[int, ...]]]:
    """What the desk shows, harm first."""
    seen = attention_list.attention_list(store, clock)
    return [(f.because, f.numbers) for f in (*seen.harm, *seen.silence)]


def flag(store: Store, clock: ManualClock, because: AttentionReason) -> Flag:
    """The one item of that kind."""
    seen = attention_list.attention_list(store, clock)
    found, = (f for f in (*seen.harm, *seen.silence) if f.because is because)
    return found


def test_one_check_in_of_2031_hides_no_pain(store: Store, clock: ManualClock) -> None:
    """Pain of 9 on five days is on the list, and so is the date that cannot be."""
    client = Client(VERA)
    pains = [check_in("p-vera", f"c{day}", day, 9) for day in range(5)]
    got = taken(store, clock, client, [dated(check_in("p-vera", "far"), FAR), *pains])
    assert (got.new, got.misdated, got.clock_is_wrong) == (6, 1, False)
    assert listed(store, clock) == [(A.PAIN, (9,)), (A.DATES, (1,))]
    asyncio.run(clock.advance(86_400))
    taken(store, clock, client, [dated(check_in("p-vera", "c9", pain=6), clock.now())])
    assert listed(store, clock)[0] == (A.PAIN, (6,))


def test_harm_with_a_date_that_cannot_be_is_harm(store: Store, clock: ManualClock) -> None:
    """Pain, a stop sign and a fall of 2031 are listed as of the day on which they arrived."""
    told = [dated(check_in("p-vera", "c1", pain=7), FAR),
            dated(session("p-vera", "s1", ending=Ending.SIGN, sign="chest_pressure"), FAR + timedelta(hours=1)),
            dated(Event(Stamp("e1", "p-vera", NOW, NOW.date(), 0), EventKind.FALL), FAR)]
    taken(store, clock, Client(VERA), told)
    assert [(because, n) for because, n in listed(store, clock)] == [
        (A.SIGN, ()), (A.FALL, (1,)), (A.PAIN, (7,)), (A.DATES, (3,))]
    assert {f.on for f in attention_list.attention_list(store, clock).harm} == {NOW.date()}
    record = attention_list.evidence(store, [flag(store, clock, A.DATES)])
    assert "2031" in says.flag_text(flag(store, clock, A.DATES), next(iter(record.values())))


@pytest.mark.parametrize("when", [FAR, datetime(1970, 1, 1, tzinfo=UTC), datetime(9999, 12, 31, 23, tzinfo=UTC),
                                  datetime(2000, 1, 1, tzinfo=UTC)])
def test_pain_is_seen_whatever_the_clock_says(store: Store, clock: ManualClock, when: datetime) -> None:
    """A phone that began again in 1970 tells of pain of today."""
    assert taken(store, clock, Client(VERA), [dated(check_in("p-vera", "c1", pain=8), when)]).misdated == 1
    assert listed(store, clock) == [(A.PAIN, (8,)), (A.DATES, (1,))]


def test_tomorrow_is_a_day_that_can_be(store: Store, clock: ManualClock) -> None:
    """East of the desk it is tomorrow already; the day after is not."""
    tomorrow, later = NOW + timedelta(days=1), NOW + timedelta(days=2)
    got = taken(store, clock, Client(VERA), [dated(check_in("p-vera", "c1", pain=5), tomorrow)])
    assert (got.misdated, listed(store, clock)) == (0, [(A.PAIN, (5,))])
    assert taken(store, clock, Client(VERA), [])
    with store.begin() as db:
        assert records.merge_records(db, [dated(check_in("p-vera", "c2"), later)], NOW).misdated == ("c2",)


def test_a_session_of_2031_hides_silence_for_a_fortnight_and_not_for_years(store: Store, clock: ManualClock) -> None:
    """It counts as of its arrival."""
    taken(store, clock, Client(VERA), [dated(session("p-vera", "s1"), FAR)])
    with store.read() as db:
        assert review_summaries.standings(db, NOW.date())[0].last_session == NOW.date()
    asyncio.run(clock.advance(13 * 86_400))
    assert A.FORTNIGHT not in dict(listed(store, clock))
    asyncio.run(clock.advance(86_400))
    assert dict(listed(store, clock))[A.FORTNIGHT] == (14,)


def test_a_pause_until_9999_explains_eight_weeks(store: Store, clock: ManualClock) -> None:
    """The longest that can be told, whatever is written."""
    pause = Event(Stamp("e1", "p-vera", NOW, NOW.date(), 0), EventKind.PAUSE, since=NOW.date(),
                  until=date(9999, 12, 31))
    taken(store, clock, Client(VERA), [session("p-vera", "s1"), pause])
    asyncio.run(clock.advance(8 * 7 * 86_400))
    assert listed(store, clock) == []
    asyncio.run(clock.advance(21 * 86_400))
    assert A.NOTHING_BACK in dict(listed(store, clock))


def test_a_return_of_2031_keeps_no_later_condition_away(store: Store, clock: ManualClock) -> None:
    """The number says which is later; nothing was heard in 2031."""
    client = Client(VERA)
    assert taken(store, clock, client, [], FAR).clock_is_wrong
    client.person = replace(VERA, body=Body(conditions=frozenset({Condition.OSTEOPOROSIS})))
    taken(store, clock, client, [session("p-vera", "s1")])
    with store.read() as db:
        found = people.person(db, "p-vera")
        pinned = people.pinned_keys(db, "p-vera")
    assert found is not None and found.body.conditions == {Condition.OSTEOPOROSIS}
    assert pinned is not None and pinned.last_return == NOW
    asyncio.run(clock.advance(21 * 86_400))
    assert A.NOTHING_BACK in dict(listed(store, clock))


def test_an_older_return_with_a_time_of_2031_brings_no_old_facts_back(store: Store, clock: ManualClock) -> None:
    """Where its time cannot be, its number alone says that it is older."""
    client = Client(VERA)
    old = client.sends(store, [], FAR)
    client.person = replace(VERA, goals="Carry the shopping")
    taken(store, clock, client, [])
    asyncio.run(intake.take_in(store, clock, [("old", old)]))
    with store.read() as db:
        assert people.person(db, "p-vera") == client.person


def test_a_phone_set_back_to_an_earlier_copy_is_heard(store: Store, clock: ManualClock) -> None:
    """Its numbers come once more, later; what it says of the person is the newest."""
    client = Client(VERA, sent=9)
    taken(store, clock, client, [], NOW - timedelta(days=9))
    client.sent, client.person = 3, replace(VERA, goals="Stairs")
    taken(store, clock, client, [])
    with store.read() as db:
        found, pinned = people.person(db, "p-vera"), people.pinned_keys(db, "p-vera")
    assert found is not None and found.goals == "Stairs"
    assert pinned is not None and (pinned.last_number, pinned.last_return) == (10, NOW)


def test_what_an_earlier_version_took_in_hides_nothing(store: Store, clock: ManualClock) -> None:
    """It kept records and returns of 2031 as they were; they are put aside as they are read."""
    with store.begin() as db:
        people.add_person(db, VERA, Trains.ELSEWHERE, NOW - timedelta(days=40))
        told = [dated(check_in("p-vera", "far"), FAR), dated(session("p-vera", "far2"), FAR),
                check_in("p-vera", "c1", 1, 9), session("p-vera", "s1", 20)]
        yes = dated(Clearance(Stamp("y1", "p-vera", NOW, NOW.date(), 0), "old", "Dr Lind", "doctor"), FAR)
        stop = dated(session("p-vera", "s0", ending=Ending.SIGN, sign="dizziness"), NOW - timedelta(days=35))
        records.merge_records(db, [*told, yes, stop])
        people.note_return(db, "p-vera", 1, FAR)
    assert listed(store, clock) == [(A.SIGN, ()), (A.PAIN, (9,)), (A.DATES, (2,)), (A.NOTHING_BACK, (40,))]
    with store.begin() as db:
        people.note_return(db, "p-vera", 2, NOW, NOW)
        standing, = review_summaries.standings(db, NOW.date())
    assert (standing.last_session, standing.last_return) == (NOW.date() - timedelta(days=20), NOW)
    assert A.FORTNIGHT in dict(listed(store, clock))


def test_what_is_put_aside_is_kept_whole_and_a_correction_brings_it_back(store: Store, clock: ManualClock) -> None:
    """The payload is as it came; a later revision with a date that can be counts like any other."""
    client, far = Client(VERA), dated(check_in("p-vera", "c1", pain=2), FAR)
    taken(store, clock, client, [far])
    with store.read() as db:
        assert records.records(db, "p-vera", CheckIn) == (far,)
    right = replace(far, stamp=replace(far.stamp, utc=NOW, local=NOW.date(), revision=2))
    assert (taken(store, clock, client, [right]).newer, listed(store, clock)) == (1, [])


# ------------------------------------------------------------------ a new phone

def test_a_new_phone_counts_from_one_and_was_heard_today(store: Store, clock: ManualClock) -> None:
    """Its first return has a lower number than the last one of the old phone."""
    client = Client(VERA, sent=20)
    taken(store, clock, client, [session("p-vera", "s1")])
    asyncio.run(clock.advance(31 * 86_400))
    fresh = replace(client, keys=asyncio.run(new_keys()), sent=0, person=replace(VERA, goals="Stairs"))
    data = fresh.sends(store, [dated(session("p-vera", "s2"), clock.now())], clock.now())
    assert asyncio.run(intake.accept_new_phone(store, clock, "file", data)).new == 1
    assert listed(store, clock) == []
    with store.read() as db:
        found, pinned = people.person(db, "p-vera"), people.pinned_keys(db, "p-vera")
    assert found is not None and found.goals == "Stairs"
    assert pinned is not None and (pinned.last_number, pinned.last_return) == (1, clock.now())


def test_a_new_phone_s_key_is_kept_with_its_file_or_not_at_all(store: Store, clock: ManualClock,
                                                              monkeypatch: pytest.MonkeyPatch) -> None:
    """Cut off in the middle, the old key holds and nothing of the file is here."""
    client = Client(VERA)
    taken(store, clock, client, [])
    with store.read() as db:
        before = people.pinned_keys(db, "p-vera")
    fresh = replace(client, keys=asyncio.run(new_keys()))
    data = fresh.sends(store, [session("p-vera", "s1")])

    def cut_off(*_: object, **_more: object) -> None:
        raise KeyboardInterrupt
    monkeypatch.setattr(records, "merge_records", cut_off)
    with pytest.raises(KeyboardInterrupt):
        asyncio.run(intake.accept_new_phone(store, clock, "file", data))
    with store.read() as db:
        assert people.pinned_keys(db, "p-vera") == before
        assert records.records(db, "p-vera", SessionDone) == ()


def test_another_sealing_key_is_another_phone(store: Store, clock: ManualClock) -> None:
    """Replies would be sealed to it: it is refused like another signing key."""
    client = Client(VERA)
    taken(store, clock, client, [])
    other = asyncio.run(new_keys())
    mixed = replace(client, keys=replace(client.keys, sealing=other.sealing))
    got = taken(store, clock, mixed, [session("p-vera", "s1")])
    assert got.is_new_phone
    with store.read() as db:
        assert records.records(db, "p-vera", SessionDone) == ()


def test_whoever_reads_like_somebody_known_is_told_of(store: Store, clock: ManualClock) -> None:
    """A second client of that name is kept as one of their own, and the coach hears of it; each is asked once."""
    taken(store, clock, Client(VERA), [])
    twin = Client(Person("p-other", "V\u0435r\u0430\u200b."))
    got = taken(store, clock, twin, [])
    assert got.resembles == ("Vera",)
    assert "the name is very like one you know (Vera)" in desk.odd_lines(0, got.resembles, False)[0]
    assert taken(store, clock, twin, []).resembles == ()
    assert taken(store, clock, Client(Person("p-third", "Verena")), []).resembles == ()


@pytest.mark.parametrize("name", ["", " ", "\u200b", "\u3164", "Ver\x9ba", "\u202eareV"])
def test_a_name_that_cannot_be_read_is_told_of(store: Store, clock: ManualClock, name: str) -> None:
    """Blank, unseen, with a control of the upper set, or turned round: the diary is kept, and the coach hears of it."""
    got = taken(store, clock, Client(Person("p-odd", name)), [session("p-odd", "s1")])
    assert got.new == 1 and got.is_unreadable
    assert desk.odd_lines(0, (), False, got.is_unreadable) == (desk.UNREADABLE_NAME,)
    assert not taken(store, clock, Client(VERA), []).is_unreadable


def test_mending_leaves_what_is_aside_where_it_is(store: Store, clock: ManualClock) -> None:
    """What stands beside a record is compared with what it says; the order of arrival is none of it."""
    taken(store, clock, Client(VERA), [dated(check_in("p-vera", "c1", pain=8), FAR), check_in("p-vera", "c2", pain=8)])
    with store.begin() as db:
        assert records.mend_columns(db, 10) == 0
    assert listed(store, clock) == [(A.PAIN, (8,)), (A.DATES, (1,))]
