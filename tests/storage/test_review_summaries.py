"""The desk is told of everybody, from narrow columns alone."""
from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from sqlalchemy import event, select, update

from app.domain.measures.attention import attention
from app.domain.measures.attention_summary import AgreedPain, AttentionReason
from app.domain.measures.stall import steps_planned
from app.domain.model.body import Region, Spot
from app.domain.model.client import UsualPain
from app.domain.model.diary import Symptom
from app.domain.model.person import Person
from app.domain.model.record import CheckDone, CheckIn, Clearance, Ending, FunctionalCheck, SessionDone
from app.storage import people, records, review_summaries
from app.storage.database import Store
from app.storage.evidence import told_in_full
from app.storage.summaries import narrow_columns, numbers_of
from app.storage.tables import person as person_table
from tests.storage import story, values

DAY = story.T0.date()


@contextmanager
def _statements(store: Store) -> Iterator[list[str]]:
    """The SELECTs that are sent meanwhile."""
    sent: list[str] = []

    def note(_db: Any, _cursor: Any, words: str, *_rest: Any) -> None:
        if words.startswith(("SELECT", "WITH")):
            sent.append(words)

    event.listen(store.engine, "before_cursor_execute", note)
    yield sent
    event.remove(store.engine, "before_cursor_execute", note)


def test_the_desk_lists_those_whose_returns_come_here(told: Store) -> None:
    """And somebody who trains here as well, once a return of theirs was taken in."""
    with told.begin() as db:
        assert [p.id for p in people.desk_people(db)] == ["p-tomas"]
        people.note_return(db, "p-ines", 1, story.T0)
        assert [p.id for p in people.desk_people(db)] == ["p-ines", "p-tomas"]
        assert [s.person for s in review_summaries.standings(db)] == ["p-ines", "p-tomas"]
        assert [line.person for line in review_summaries.review_lines(db, DAY)] == ["p-ines", "p-tomas"]


def test_who_was_kept_by_an_older_version_holds_nothing_back(told: Store) -> None:
    """What somebody sends was not written then: they are taken to send what is usual, as they are everywhere else."""
    with told.begin() as db:
        kept = json.loads(db.execute(select(person_table.c.payload).where(person_table.c.id == "p-tomas")).scalar_one())
        older = {key: value for key, value in kept.items() if key not in ("sends", "body")}
        db.execute(update(person_table).where(person_table.c.id == "p-tomas").values(payload=json.dumps(older)))
        line, = review_summaries.review_lines(db, DAY)
        somebody = people.person(db, "p-tomas")
    assert somebody is not None and line.sends == somebody.sends


def test_a_line_holds_what_the_list_needs(told: Store) -> None:
    """Pain, effort against target, share done, changes by hand, and when something last came."""
    with told.read() as db:
        line, = review_summaries.review_lines(db, DAY)
        standing, = review_summaries.standings(db)
    assert (line.name, line.last_return, line.since) == ("Tomás", story.T0, DAY)
    check_in, session = line.told
    assert (check_in.record, check_in.kind, check_in.pain, check_in.sign) == ("i2", "check_in", 4, "")
    assert (session.record, session.kind, session.local) == ("s2", "session", DAY)
    assert (session.pain, session.rpe, session.target_rpe, session.completed) == (5, 6, 5, 75)
    assert session.by_hand == (("chair-squat", "half-squat"),)
    assert (standing.last_session, standing.last_check_in, standing.last_return) == (DAY, DAY, story.T0)


def test_somebody_silent_comes_with_their_last_session(told: Store) -> None:
    """However long ago, once, and only where there is none since."""
    with told.begin() as db:
        records.merge_records(db, [story.session_done("s0", "p-tomas", -30)])
        line, = review_summaries.review_lines(db, DAY + timedelta(days=60))
        assert [t.record for t in line.told] == ["s2"]
        line, = review_summaries.review_lines(db, DAY)
        assert [t.record for t in line.told] == ["i2", "s2"]


def test_what_was_taken_back_is_not_reviewed(told: Store) -> None:
    """Neither as a record nor as the last session."""
    with told.begin() as db:
        records.take_back(db, "p-tomas", "s2")
        line, = review_summaries.review_lines(db, DAY)
        standing, = review_summaries.standings(db)
        silent, = review_summaries.review_lines(db, DAY + timedelta(days=60))
    assert [t.record for t in line.told] == ["i2"]
    assert standing.last_session is None
    assert silent.told == ()


def test_a_stop_sign_reaches_the_list_and_a_head_cold_does_not(told: Store) -> None:
    """The most serious one, and any that this version does not know."""
    with told.begin() as db:
        def signs(*ids: str, symptoms: frozenset[Symptom] = frozenset()) -> tuple[str, ...]:
            answer = CheckIn(story.stamp("i3", "p-tomas", 1), signs=ids, symptoms=symptoms)
            records.save_record(db, answer)
            return review_summaries.summaries(db, "p-tomas", DAY + timedelta(days=1))[0].signs

        assert signs("head_cold") == ()
        assert signs(symptoms=frozenset({Symptom.HEAD_COLD})) == ()
        assert signs(symptoms=frozenset({Symptom.FEVER, Symptom.EMERGENCY})) == ("emergency", "fever")
        assert signs("dizziness", "a_sign_of_later") == ("a_sign_of_later", "dizziness")
        assert signs("dizziness", "chest_pressure") == ("chest_pressure", "dizziness")
        harm, *_ = attention(review_summaries.review_lines(db, DAY), DAY + timedelta(days=1))
    assert [(f.because, f.words) for f in harm if f.because is AttentionReason.SIGN] == [(AttentionReason.SIGN,
                                                                                          ("chest_pressure",))]


def test_a_stop_that_nobody_answered_stays_on_the_list_however_old_it_is(told: Store) -> None:
    """Half a year later it still waits; a yes for it takes it off, one from before it does not."""
    late = DAY + timedelta(days=180)

    def on_the_list() -> list[str]:
        with told.read() as db:
            harm, *_ = attention(review_summaries.review_lines(db, late - timedelta(days=28)), late)
        return [f.words[0] for f in harm if f.because is AttentionReason.SIGN]

    with told.begin() as db:
        before = Clearance(story.stamp("y1", "p-tomas", 1), "old", "Dr Lind", "doctor")
        stop = CheckIn(story.stamp("i4", "p-tomas", 2), signs=("dizziness",))
        records.merge_records(db, [before, stop])
    assert on_the_list() == ["dizziness"]
    with told.begin() as db:
        records.merge_records(db, [Clearance(story.stamp("y2", "p-tomas", 3), "i4", "Dr Lind", "doctor")])
    assert on_the_list() == []


def test_a_person_in_brief(told: Store) -> None:
    """One's own diary without any payload; a yes is in it too."""
    with told.read() as db:
        briefs = review_summaries.summaries(db, "p-ines")
    assert [(b.kind, b.local) for b in briefs] == [("check_in", DAY), ("session", DAY), ("clearance", date(2026, 3, 3))]
    session = briefs[1]
    assert (session.session, session.ending, session.took_s, session.minutes) == ("short", Ending.PAIN, 80, 1)


@pytest.mark.parametrize("number", [1, 40])
def test_the_number_of_queries_does_not_grow_with_people(store: Store, number: int) -> None:
    """Seven for the list; no payload of a record is read but that of pauses and checks, and every person's once."""
    with store.begin() as db:
        for n in range(number):
            people.add_person(db, Person(f"p{n}", f"N{n}"), people.Trains.ELSEWHERE, story.T0)
            records.merge_records(db, [story.session_done("s", f"p{n}"), story.check_in("i", f"p{n}", 20)])
    with store.read() as db, _statements(store) as sent:
        lines = review_summaries.review_lines(db, DAY + timedelta(days=10))
    assert len(lines) == number and all(len(line.told) == 2 for line in lines)
    assert len(sent) == 7
    assert sum("record.payload" in words for words in sent) == 2
    assert sum("person.payload" in words for words in sent) == 1


def test_no_query_goes_through_all_records(told: Store) -> None:
    """Neither the list nor the people's page reads three years of everybody; stop signs have an index of their own."""
    asked: list[tuple[str, Any]] = []

    def note(_db: Any, _cursor: Any, words: str, values: Any, *_rest: Any) -> None:
        asked.append((words, values))

    event.listen(told.engine, "before_cursor_execute", note)
    with told.read() as db:
        review_summaries.review_lines(db, DAY)
        review_summaries.standings(db, DAY)
    event.remove(told.engine, "before_cursor_execute", note)
    with told.read() as db:
        ways = [row[3] for words, values in asked if words.lstrip().startswith(("SELECT", "WITH"))
                for row in db.exec_driver_sql(f"EXPLAIN QUERY PLAN {words}", values)]
    assert any("record_by_day" in way for way in ways)
    assert {way for way in ways if way.startswith("SCAN record")} == {"SCAN record USING INDEX record_by_sign"}


@given(values.sessions)
def test_narrow_columns_say_what_the_session_says(done: SessionDone) -> None:
    """They are copies and never another truth."""
    row = narrow_columns(done)
    assert (row["pain"], row["completed"], row["rpe"]) == (done.worst_pain, done.completed, done.rpe)


def test_the_worst_pain_of_a_morning() -> None:
    """Now or after the last session; nothing said is not nothing hurting."""
    empty, knee, hip = CheckIn(story.stamp("i", "p")), Spot(Region.KNEE), Spot(Region.HIP)
    assert narrow_columns(empty)["pain"] is None
    assert narrow_columns(replace(empty, pain={}))["pain"] == 0
    assert narrow_columns(replace(empty, pain={knee: 2, hip: 3}, morning_after={knee: 6}))["pain"] == 6


def test_a_joint_that_gave_way_is_a_stop_sign(told: Store) -> None:
    """However little it hurt; a sign that was named comes before it."""
    done = story.session_done("s4", "p-tomas")
    gave_way = replace(done, hurts=(replace(done.hurts[0], level=1, gave_way=True),))
    assert narrow_columns(done)["sign"] is None
    assert narrow_columns(gave_way)["sign"] == "gave_way"
    assert narrow_columns(replace(gave_way, sign="dizziness"))["sign"] == "dizziness"


def test_evidence_is_read_whole_for_many_at_once(told: Store) -> None:
    """Exactly what was asked for, each with its own person, without what was taken back."""
    with told.begin() as db:
        records.merge_records(db, [story.check_in("s1", "p-tomas")])
        asked = [("p-ines", "s1"), ("p-tomas", "i2"), ("p-tomas", "nothing"), ("nobody", "s1")]
        found = {(r.stamp.person, r.stamp.id) for r in told_in_full(db, asked)}
        assert found == {("p-ines", "s1"), ("p-tomas", "i2")}
        records.take_back(db, "p-ines", "s1")
        assert [r.stamp.id for r in told_in_full(db, asked)] == ["i2"]


def test_a_line_holds_what_is_looked_at_over_weeks(told: Store) -> None:
    """How they felt, where it hurt, how the session ended, whether it was strength work; old sessions as a number."""
    with told.begin() as db:
        records.merge_records(db, [story.session_done(f"o{n}", "p-tomas", -n) for n in (10, 20, 31)])
        line, = review_summaries.review_lines(db, DAY)
    check_in, session = line.told
    assert (check_in.slept, check_in.energy) == (4, 3) and dict(check_in.spots)
    assert session.ending == story.session_done("s2", "p-tomas").ending.value and session.strength is not None
    assert line.sessions_before == 2


def test_an_agreed_usual_pain_comes_with_whom_it_hurts(told: Store) -> None:
    """With its level and its day."""
    until = DAY + timedelta(days=90)
    with told.begin() as db:
        tomas = people.person(db, "p-tomas")
        assert tomas is not None
        usual = {Spot(Region.KNEE, "left"): UsualPain(5, "physiotherapist", until)}
        people.save_person(db, replace(tomas, body=replace(tomas.body, usual_pain=usual)))
        line, = review_summaries.review_lines(db, DAY)
        later, = review_summaries.review_lines(db, DAY + timedelta(days=5))
    assert line.usual == (AgreedPain("left knee", 5, until),) and later.usual == ()


def test_the_check_before_the_last_comes_with_it(told: Store) -> None:
    """However many weeks lie between; of whoever did none lately, nothing is read."""
    with told.begin() as db:
        records.merge_records(db, [CheckDone(story.stamp(name, "p-tomas", day), FunctionalCheck.CHAIR_STAND, stands=n)
                                   for name, day, n in (("k1", -60, 12), ("k2", 1, 8))])
        line, = review_summaries.review_lines(db, DAY)
        later, = review_summaries.review_lines(db, DAY + timedelta(days=20))
    assert [c.stands for c in line.checks] == [12, 8] and later.checks == ()


@given(values.sessions | values.check_ins)
def test_numbers_beside_a_record_read_back_as_they_were(record: SessionDone | CheckIn) -> None:
    """Spots and steps, each with its number."""
    row = narrow_columns(record)
    spots = dict(numbers_of(row["spots"]))
    if isinstance(record, SessionDone):
        assert spots == {str(spot): level for spot, level in record.hurt_at.items()}
        assert dict(numbers_of(row["steps"])) == dict(steps_planned(record.plan))
    else:
        assert max(spots.values(), default=0) == (row["pain"] or 0)
        assert row["soreness"] == (None if record.soreness is None else max(record.soreness.values(), default=0))
