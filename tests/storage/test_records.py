"""Records are revised, taken back and merged, and never silently lost."""
from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy import Connection
from sqlalchemy.exc import IntegrityError

from app.domain.model.record import CheckIn, Clearance, Ending, Record, SessionDone
from app.storage import people, records
from app.storage.database import Store, open_store
from app.storage.erasing import erase_everything
from app.storage.export import logical_dump
from tests.sampling import examples
from tests.storage import story, values


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Store:
    """One store for many examples; each begins by emptying it."""
    return open_store(tmp_path_factory.mktemp("merge") / "data")


def _merge_all(store: Store, parts: list[list[Record]]) -> str:
    with store.begin() as db:
        erase_everything(db)
        people.add_person(db, story.INES, people.Trains.ELSEWHERE, story.T0)
        people.add_person(db, story.TOMAS, people.Trains.ELSEWHERE, story.T0)
    for part in parts:
        with store.begin() as db:
            records.merge_records(db, part)
    with store.read() as db:
        return logical_dump(db)


@given(data=st.data(), states=st.lists(values.records, max_size=8))
@settings(max_examples=examples(60, 1_000))
def test_any_order_any_overlap_and_repeats_end_in_the_same_store(
    shared: Store, data: st.DataObject, states: list[Record]
) -> None:
    """Cut the states into returns in any way, send some twice and in any order."""
    once = _merge_all(shared, [states])
    repeats = data.draw(st.lists(st.sampled_from(states), max_size=5)) if states else []
    shuffled = data.draw(st.permutations(states + repeats))
    cuts = sorted(data.draw(st.lists(st.integers(0, len(shuffled)), max_size=3)))
    parts = [shuffled[a:b] for a, b in zip([0, *cuts], [*cuts, len(shuffled)], strict=True)]
    assert _merge_all(shared, parts) == once


@given(states=st.lists(values.records, min_size=1, max_size=8))
@settings(max_examples=examples(40, 500))
def test_what_is_kept_is_the_highest_revision(shared: Store, states: list[Record]) -> None:
    """And it comes back as the value that was given."""
    _merge_all(shared, [states])
    with shared.read() as db:
        for person in values.PEOPLE:
            for kept in records.all_records(db, person):
                rivals = [s for s in states if (s.stamp.person, s.stamp.id) == (person, kept.stamp.id)]
                assert kept in rivals
                assert kept.stamp.revision == max(r.stamp.revision for r in rivals)


@given(states=st.lists(values.records, max_size=8))
@settings(max_examples=examples(30, 300))
def test_every_record_of_a_file_is_accounted_for_once(shared: Store, states: list[Record]) -> None:
    """New, newer, same or older; and a second time nothing is new."""
    _merge_all(shared, [])
    with shared.begin() as db:
        first, second = records.merge_records(db, states), records.merge_records(db, states)
    for merged in (first, second):
        told = merged.new + merged.newer + merged.same + merged.older
        assert sorted(told) == sorted(s.stamp.id for s in states)
    assert not (second.new + second.newer)
    assert len(second.same) >= len(first.new) and first.newer == ()


def test_a_correction_is_the_next_revision(told: Store) -> None:
    """And the one that is read from then on."""
    with told.begin() as db:
        before = records.latest(db, "p-ines", CheckIn)
        assert before is not None
        after = records.save_record(db, replace(before, note="the right knee, sorry"))
    with told.read() as db:
        assert (before.stamp.revision, after.stamp.revision) == (1, 2)
        assert records.record(db, "p-ines", "i1") == after
        assert records.records(db, "p-ines", CheckIn) == (after,)


def test_an_old_return_does_not_undo_a_correction(told: Store) -> None:
    """It arrives late and is told apart."""
    with told.begin() as db:
        old = records.record(db, "p-tomas", "i2")
        assert isinstance(old, CheckIn)
        newer = replace(old, note="later", stamp=replace(old.stamp, revision=2))
        assert records.merge_records(db, [newer]).newer == ("i2",)
        assert records.merge_records(db, [old]).older == ("i2",)
        assert records.merge_records(db, [newer]).same == ("i2",)
        assert records.record(db, "p-tomas", "i2") == newer


def test_what_is_taken_back_leaves_a_trace_without_content(told: Store) -> None:
    """Lists no longer show it, other devices are told, and nothing that was said remains."""
    with told.begin() as db:
        records.take_back(db, "p-ines", "s1")
        assert records.latest(db, "p-ines", SessionDone) is None
        assert records.records(db, "p-ines", SessionDone) == ()
        trace = records.record(db, "p-ines", "s1")
        assert trace in records.all_records(db, "p-ines")
    assert isinstance(trace, SessionDone)
    assert (trace.stamp.deleted, trace.stamp.revision) == (True, 2)
    assert (trace.note, trace.pain, trace.hurts, trace.done, trace.plan.steps) == ("", None, (), (), ())
    with told.begin() as db:
        assert records.merge_records(db, [story.session_done("s1", "p-ines")]).older == ("s1",)
        assert records.latest(db, "p-ines", SessionDone) is None


def test_taking_back_what_is_not_there_says_so(told: Store) -> None:
    """None, and nothing changes."""
    with told.begin() as db:
        before = logical_dump(db)
        assert records.take_back(db, "p-ines", "no such") is None
        assert logical_dump(db) == before


def test_nobody_can_touch_the_records_of_another(told: Store) -> None:
    """The same id under another person is another record."""
    with told.begin() as db:
        mine = records.record(db, "p-ines", "i1")
        theirs = story.check_in("i1", "p-tomas", pain=9)
        records.merge_records(db, [replace(theirs, stamp=replace(theirs.stamp, revision=99))])
        assert records.record(db, "p-ines", "i1") == mine


def test_a_record_of_somebody_unknown_is_refused_whole(told: Store) -> None:
    """Also the good ones beside it: the transaction is undone."""
    with told.read() as db:
        before = logical_dump(db)
    with pytest.raises(IntegrityError), told.begin() as db:
        records.merge_records(db, [story.check_in("i9", "p-ines"), story.check_in("i9", "nobody")])
    with told.read() as db:
        assert logical_dump(db) == before


def _days(db: Connection, since: date) -> list[date]:
    return [r.stamp.local for r in records.records(db, "p-ines", SessionDone, since)]


def test_days_are_those_of_the_place_where_the_person_was(told: Store) -> None:
    """A traveller's evening is still that day, though UTC is a day ahead."""
    with told.begin() as db:
        away = story.session_done("s3", "p-ines", 5)
        local = replace(away, stamp=replace(away.stamp, local=date(2026, 3, 6), offset_min=-600))
        records.save_record(db, local)
    with told.read() as db:
        assert _days(db, date(2026, 3, 6)) == [date(2026, 3, 6)]
        assert _days(db, date(2026, 3, 7)) == []
        assert _days(db, date.min) == [date(2026, 3, 2), date(2026, 3, 6)]
        latest = records.latest(db, "p-ines", SessionDone, until=date(2026, 3, 5))
        assert latest is not None and latest.stamp.id == "s1"


def test_a_yes_is_kept_with_what_it_answers(told: Store) -> None:
    """Who said it and of what kind."""
    with told.read() as db:
        found = records.latest(db, "p-ines", Clearance)
    assert found is not None
    assert (found.answers, found.who, found.kind) == ("s1", "Dr Lind", "physiotherapist")


def test_more_records_than_fit_into_one_statement(store: Store) -> None:
    """1,201 of them, merged twice."""
    many = [story.check_in(f"i{n}", "p-ines", n % 900) for n in range(1_201)]
    with store.begin() as db:
        people.add_person(db, story.INES, people.Trains.HERE, story.T0)
        assert len(records.merge_records(db, many).new) == 1_201
        assert len(records.merge_records(db, many).same) == 1_201
        assert len(records.records(db, "p-ines", CheckIn)) == 1_201


def test_a_store_in_memory_does_for_a_glance() -> None:
    """No file is made."""
    store = open_store("sqlite://")
    with store.begin() as db:
        story.tell(db)
    with store.read() as db:
        session = records.latest(db, "p-ines", SessionDone)
    assert session is not None and session.ending is Ending.PAIN and store.path is None
    assert not Path(":memory:").exists()
