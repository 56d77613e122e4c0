"""Records by week: Monday to Sunday where the person was, newest first, nothing twice and nothing lost."""
from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from app.domain.measures.weeks import monday_of, weekly_minutes, weeks_of
from app.domain.model.plan import Dose, Timeline
from app.domain.model.record import CheckIn, Ending, Record, SessionDone, Stamp

TODAY = date(2026, 3, 4)
PLAN = Timeline("s", (), Dose(0, 1, 100, 100, 100))


def stamp(number: int, days_ago: int, *, deleted: bool = False) -> Stamp:
    day = TODAY - timedelta(days=days_ago)
    return Stamp(f"r{number}", "p", datetime(day.year, day.month, day.day, 9, tzinfo=UTC), day, 0, deleted=deleted)


def session(number: int, days_ago: int, seconds: int) -> SessionDone:
    return SessionDone(stamp(number, days_ago), "S", PLAN, "", Ending.FINISHED, (), seconds)


@given(st.lists(st.tuples(st.integers(0, 100), st.booleans(), st.booleans()), max_size=30))
def test_every_record_stands_once_in_its_week(told: list[tuple[int, bool, bool]]) -> None:
    """Also several a day; what was taken back stands nowhere."""
    records: list[Record] = [
        session(n, days, 600) if is_session else CheckIn(stamp(n, days, deleted=deleted))
        for n, (days, is_session, deleted) in enumerate(told)
    ]
    weeks = weeks_of(records)
    listed = [r for week in weeks for day in week.days for r in day.records]
    assert {r.stamp.id for r in listed} == {r.stamp.id for r in records if not r.stamp.deleted}
    assert len(listed) == len({r.stamp.id for r in listed})
    assert all(monday_of(day.day) == week.monday for week in weeks for day in week.days)
    days = [day.day for week in weeks for day in week.days]
    assert days == sorted(days, reverse=True)


def test_minutes_are_summed_before_they_are_rounded() -> None:
    """Two sessions of 90 s are 3 minutes; a week without any is 0; older weeks are left away."""
    minutes = weekly_minutes([session(1, 0, 90), session(2, 2, 90), session(3, 7, 1200), session(4, 90, 999)], TODAY, 3)
    assert minutes == ((date(2026, 2, 16), 0), (date(2026, 2, 23), 20), (date(2026, 3, 2), 3))
