"""Checks and events in the store: kept, corrected, taken back, and told to the desk."""
from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from app.domain.measures.attention import flags_of
from app.domain.measures.attention_summary import AttentionReason
from app.domain.model.record import CheckDone, Event, EventKind, FunctionalCheck
from app.storage import people, records, review_summaries
from app.storage.database import Store
from app.storage.erasing import erase_person
from app.storage.export import logical_dump
from tests.storage import story

DAY = story.T0.date()
STANDS = CheckDone(story.stamp("k1", "p-tomas"), FunctionalCheck.CHAIR_STAND, stands=11, note="kitchen chair – ça va")
FALL = Event(story.stamp("e1", "p-tomas", 1), EventKind.FALL, since=DAY, answers={"head": False}, stopped_by="fall")


def pause(record_id: str, first: date, last: date | None) -> Event:
    """A pause of Tomás's."""
    return Event(story.stamp(record_id, "p-tomas", 2), EventKind.PAUSE, since=first, until=last)


def test_a_check_and_an_event_come_back_as_they_were(told: Store) -> None:
    """By kind and among all; corrected as their next revision."""
    with told.begin() as db:
        kept = records.save_record(db, STANDS), records.save_record(db, FALL)
        assert records.records(db, "p-tomas", CheckDone) == (kept[0],)
        assert records.latest(db, "p-tomas", Event) == kept[1]
        assert set(kept) <= set(records.all_records(db, "p-tomas"))
        again = records.save_record(db, replace(kept[0], stands=12))
        assert again.stamp.revision == kept[0].stamp.revision + 1
        assert records.record(db, "p-tomas", "k1") == again


def test_nothing_of_what_was_said_stays_when_it_is_taken_back(told: Store) -> None:
    """Neither which check nor what kind of event it was."""
    with told.begin() as db:
        for one in (STANDS, FALL):
            records.save_record(db, one)
            records.take_back(db, "p-tomas", one.stamp.id)
        check, event = (records.record(db, "p-tomas", one.stamp.id) for one in (STANDS, FALL))
        dump = logical_dump(db)
    assert isinstance(check, CheckDone) and (check.stands, check.note) == (None, "")
    assert isinstance(event, Event) and (event.kind, event.stopped_by, event.answers) == (EventKind.ACTIVITY, "", {})
    assert "kitchen chair" not in dump and '\\"head\\"' not in dump


def test_the_dump_tells_stores_with_other_events_apart(told: Store) -> None:
    """And erasing somebody erases theirs."""
    with told.begin() as db:
        before = logical_dump(db)
        records.merge_records(db, [FALL, STANDS])
        assert logical_dump(db) != before
        erase_person(db, "p-tomas")
        assert "p-tomas" not in logical_dump(db)


def test_the_desk_is_told_of_a_fall_and_of_pauses(told: Store) -> None:
    """Of pauses whenever they were told; of one without an end, or taken back, nothing."""
    long_ago = replace(pause("e5", DAY - timedelta(days=3), DAY + timedelta(days=30)),
                       stamp=replace(story.stamp("e5", "p-tomas", -40), revision=1))
    gone = pause("e4", DAY, DAY + timedelta(days=9))
    with told.begin() as db:
        records.merge_records(db, [FALL, pause("e2", DAY, DAY + timedelta(days=5)), pause("e3", DAY, None), long_ago,
                                   replace(gone, stamp=replace(gone.stamp, deleted=True))])
        line, = review_summaries.review_lines(db, DAY)
        assert [p.id for p in people.desk_people(db)] == ["p-tomas"]
    fell = next(t for t in line.told if t.record == "e1")
    assert (fell.kind, fell.what, fell.sign) == ("event", "fall", "fall")
    assert line.pauses == ((DAY - timedelta(days=3), DAY + timedelta(days=30)), (DAY, DAY + timedelta(days=5)))
    assert AttentionReason.SIGN in [f.because for f in flags_of(line, DAY + timedelta(days=2))]
