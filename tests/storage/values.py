"""Every kind of record, in states that collide: few people and ids, many revisions and contents."""
from __future__ import annotations

from datetime import UTC, date, datetime

from hypothesis import strategies as st

from app.domain.model.body import BODY_REGIONS, PAIRED_REGIONS, Spot
from app.domain.model.diary import AnsweredBy, Symptom
from app.domain.model.record import (
    CheckDone,
    CheckIn,
    Clearance,
    Ending,
    Event,
    EventKind,
    FunctionalCheck,
    Record,
    SessionDone,
    Stamp,
)
from tests.storage.story import PLAN

PEOPLE = ("p-ines", "p-tomas")

spots = st.sampled_from(BODY_REGIONS).flatmap(
    lambda r: st.builds(Spot, st.just(r), st.sampled_from(("", "left", "right") if r in PAIRED_REGIONS else ("",)))
)
levels = st.none() | st.dictionaries(spots, st.integers(0, 10), max_size=3)
days = st.dates(date(2026, 1, 1), date(2026, 3, 1))
instants = st.datetimes(datetime(2026, 1, 1), datetime(2026, 3, 1), timezones=st.just(UTC))
stamps = st.builds(
    Stamp, id=st.sampled_from(("a", "b", "c")), person=st.sampled_from(PEOPLE), utc=instants, local=days,
    offset_min=st.integers(-720, 840), revision=st.integers(1, 3), deleted=st.booleans(),
)
check_ins = st.builds(
    CheckIn, stamps, symptoms=st.none() | st.frozensets(st.sampled_from(Symptom)), pain=levels, morning_after=levels,
    soreness=levels, slept=st.none() | st.integers(1, 5), answered_by=st.sampled_from(AnsweredBy), note=st.text(),
)
sessions = st.builds(
    SessionDone, stamps, name=st.text(), plan=st.just(PLAN), pack=st.just("ab" * 32),
    ending=st.sampled_from(Ending), done=st.just(()), took_s=st.integers(0, 3_600),
    rpe=st.none() | st.integers(0, 10), pain=levels,
)
clearances = st.builds(Clearance, stamps, answers=st.text(), who=st.text(), kind=st.sampled_from(("self", "coach")))
checks = st.builds(
    CheckDone, stamps, st.sampled_from(FunctionalCheck), stands=st.none() | st.integers(0, 60),
    time_ms=st.none() | st.integers(0, 120_000), hands_used=st.booleans(),
    seat_cm=st.none() | st.integers(30, 60),
)
events = st.builds(
    Event, stamps, st.sampled_from(EventKind), what=st.sampled_from(("", "walk", "cold")),
    minutes=st.none() | st.integers(1, 600), since=st.none() | days, until=st.none() | days,
    answers=st.dictionaries(st.sampled_from(("head", "hurts")), st.booleans()), note=st.text(),
    stopped_by=st.sampled_from(("", "fall")),
)
records: st.SearchStrategy[Record] = st.one_of(check_ins, sessions, clearances, checks, events)
