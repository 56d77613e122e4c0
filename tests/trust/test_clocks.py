"""Travel, daylight saving, leap days and wrong clocks: training days, gaps, loads and attention stay as they were."""
from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from app.actions.desk import attention_list
from app.actions.new_stamp import new_stamp
from app.device.clock import LocalDay, ManualClock
from app.domain.dosing.history import diary_today
from app.domain.dosing.way_back import way_back
from app.domain.measures.training_load import weekly_loads
from app.domain.model.client import Client
from app.domain.model.misdated import LEAPT, SET_BACK, ClockFault, clock_doubt
from app.domain.model.record import CheckIn, Ending, SessionDone, Stamp
from app.storage import people, records
from app.storage.database import open_store
from app.storage.people import Trains
from app.words.client.wrong_clock import clock_line
from tests.storage import story

ZONES = ("Europe/London", "America/New_York", "Pacific/Auckland", "Pacific/Honolulu", "Pacific/Kiritimati",
         "Asia/Kolkata", "Australia/Lord_Howe", "America/St_Johns", "UTC")


class Travelling(ManualClock):
    """A clock that knows the zones of the world, daylight saving with them."""

    def __init__(self, began: datetime, zone: str) -> None:
        super().__init__(began)
        self.zone = ZoneInfo(zone)

    def local(self, instant: datetime) -> LocalDay:
        there = instant.astimezone(self.zone)
        return LocalDay(there.date(), round((there.utcoffset() or timedelta()).total_seconds() / 60))


instants = st.datetimes(datetime(2023, 1, 1), datetime(2029, 1, 1)).map(lambda one: one.replace(tzinfo=UTC))


@given(instants, st.lists(st.tuples(st.sampled_from(ZONES), st.integers(1, 90 * 60)), min_size=1, max_size=12))
def test_a_training_day_is_the_day_where_the_person_is(began: datetime, legs: list[tuple[str, int]]) -> None:
    """Wherever they travel: local day, offset and instant always agree, and the instants keep their order."""
    clock = Travelling(began, "UTC")
    stamps = []
    for zone, minutes in legs:
        clock.jump(minutes * 60)
        clock.zone = ZoneInfo(zone)
        stamps.append(new_stamp(clock, "ada"))
    for (zone, _), stamp in zip(legs, stamps, strict=True):
        assert stamp.local == stamp.utc.astimezone(ZoneInfo(zone)).date()
        assert stamp.local == (stamp.utc + timedelta(minutes=stamp.offset_min)).date()
    assert [s.utc for s in stamps] == sorted(s.utc for s in stamps)
    assert clock_doubt(stamps, clock.now()) is None, "a traveller's clock is not wrong"


def _done(day: date, utc: datetime, number: int, offset_min: int = 0) -> SessionDone:
    stamp = Stamp(f"s{number}", "p-ines", utc, day, offset_min)
    return replace(story.session_done("s", "p-ines"), stamp=stamp, plan=replace(story.PLAN, strength=True),
                   ending=Ending.FINISHED, pain={}, hurts=(), rpe=5)


def _at(day: date, offset_min: int = 0) -> datetime:
    """Nine in the morning of that day, where the offset is."""
    return datetime(day.year, day.month, day.day, 9, tzinfo=UTC) - timedelta(minutes=offset_min)


days = st.dates(date(2023, 1, 1), date(2028, 12, 31))


@given(days, st.lists(st.tuples(st.integers(0, 40), st.sampled_from([-660, -600, -210, 0, 60, 330, 630, 825, 840])),
                      min_size=1, max_size=8))
def test_gaps_and_attention_are_by_local_days(first: date, sessions: list[tuple[int, int]]) -> None:
    """The same days from another zone give the same diary and the same list: east or west, winter or summer."""
    today = first + timedelta(days=41)
    there = [_done(first + timedelta(days=d), _at(first + timedelta(days=d), offset), n, offset)
             for n, (d, offset) in enumerate(sorted(sessions))]
    # nobody trains on a later day before they trained on an earlier one, wherever they flew
    assume(all(a.stamp.local == b.stamp.local or a.stamp.utc < b.stamp.utc for a, b in pairwise(there)))
    here = [replace(one, stamp=replace(one.stamp, utc=_at(one.stamp.local), offset_min=0)) for one in there]
    morning = CheckIn(Stamp("c", "p-ines", _at(today), today, 0), pain={}, slept=4, energy=4, calm=4)
    body = Client()
    told = [diary_today(morning, (*past, morning), body) for past in (there, here)]
    assert told[0] == told[1]
    gap = (today - max(one.stamp.local for one in there)).days
    assert told[0].last is not None and told[0].last.days_ago == gap
    assert way_back(there, today) == way_back(here, today)
    assert weekly_loads(there, today, 8) == weekly_loads(here, today, 8)


@pytest.mark.parametrize("offset_min", [-660, -210, 0, 345, 840])
def test_the_coach_is_told_the_same_wherever_they_are(offset_min: int) -> None:
    """Pain of three mornings, by the days of the place where they were written."""
    store, clock = open_store("sqlite://"), ManualClock(datetime(2026, 4, 2, 12, tzinfo=UTC))
    mornings = [date(2026, 3, 27 + n) for n in range(3)]
    pains = [CheckIn(Stamp(f"c{n}", "p-ines", _at(day, offset_min), day, offset_min), pain={story.KNEE: 5 + n})
             for n, day in enumerate(mornings)]
    with store.begin() as db:
        people.add_person(db, story.INES, Trains.ELSEWHERE, story.T0)
        records.merge_records(db, pains, clock.now())
        people.pin_keys(db, "p-ines", "k1", "k2")
        people.note_return(db, "p-ines", 1, clock.now())
    seen = attention_list.attention_list(store, clock)
    assert [(str(flag.because), flag.numbers, flag.on) for flag in seen.harm] == [
        ("pain", (7,), mornings[-1]), ("rising", (5, 6, 7), mornings[-1])]


@given(days, st.integers(2, 30))
def test_days_run_on_over_a_leap_day(first: date, count: int) -> None:
    """A gap over 29 February is a day longer, and the change of a clock makes no day longer or shorter."""
    day = first + timedelta(days=count)
    told = diary_today(CheckIn(Stamp("c", "p-ines", _at(day), day, 0), pain={}),
                       (_done(first, _at(first), 1, 0),), Client())
    assert told.last is not None and told.last.days_ago == (day - first).days == count


@given(instants, st.timedeltas(timedelta(minutes=1), timedelta(days=400)))
def test_a_clock_behind_its_own_entries_is_told(now: datetime, back: timedelta) -> None:
    """Beyond what a clock is set right by."""
    found = clock_doubt([Stamp("c", "ada", now + back, (now + back).date(), 0)], now)
    assert (found is not None and found.fault is ClockFault.BEHIND) == (back > SET_BACK)


@given(instants, st.timedeltas(timedelta(0), timedelta(days=900)))
def test_a_clock_that_leapt_is_told(now: datetime, later: timedelta) -> None:
    """A year ahead, as a flat battery or a slip of the finger makes it; not a holiday."""
    found = clock_doubt([Stamp("c", "ada", now, now.date(), 0)], now + later)
    assert (found is not None and found.fault is ClockFault.LEAPT) == (later > LEAPT)


def test_nobody_without_an_entry_is_told_anything() -> None:
    """A new device may say what it likes."""
    assert clock_doubt([], datetime(1970, 1, 1, tzinfo=UTC)) is None


@pytest.mark.parametrize(("now", "begins"), [
    (datetime(2026, 3, 1, 7, 30, tzinfo=UTC), "This device says that it’s 1 March 2026, 07:30, but your newest entry"),
    (datetime(2027, 3, 1, 7, 30, tzinfo=UTC), "This device says that it’s 1 March 2027, 07:30, and your newest entry"),
])
def test_the_sentence_names_both_times(now: datetime, begins: str) -> None:
    """So that anybody sees which of them is wrong; each by the time of its place."""
    stamp = Stamp("c", "ada", datetime(2026, 3, 2, 23, 15, tzinfo=UTC), date(2026, 3, 3), 60)
    doubt = clock_doubt([stamp], now)
    assert doubt is not None
    assert clock_line(doubt, now).startswith(begins) and "3 March 2026, 00:15" in clock_line(doubt, now)
