"""Which session is due: the programme goes on with what was done, not with the calendar."""
from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.model.programme import Programme, Week
from app.domain.model.record import Ending, SessionDone
from app.domain.progress.due_session import COUNTS_FROM, counts, due_session, progress, schedule
from tests.domain.past import plan, session
from tests.sampling import examples

WEEKS = (Week(("lift", "move")), Week(("lift", "move", "lift"), note="slower"), Week(("move",), lighter=True))
SIX = Programme("p", "P", WEEKS)
STRENGTH = {"lift", "hotel"}


def done(name: str, day: int = 0, **more: object) -> SessionDone:
    """A session of that name, done."""
    return session(day, f"{name}{day}", timeline=plan(session=name), **more)


def due(*past: SessionDone) -> tuple[str, int, int, bool, bool]:
    """Session, week, number within it, whether lighter, whether round again."""
    found = due_session(SIX, past, STRENGTH)
    assert found is not None
    return found.session, found.week, found.number, found.lighter, found.repeats


def test_the_schedule_is_every_session_in_its_order() -> None:
    """Weeks and places counted from 1."""
    assert [(d.session, d.week, d.number, d.of) for d in schedule(SIX)] == [
        ("lift", 1, 1, 2), ("move", 1, 2, 2), ("lift", 2, 1, 3), ("move", 2, 2, 3), ("lift", 2, 3, 3),
        ("move", 3, 1, 1)]


def test_the_next_is_the_first_that_was_not_done() -> None:
    """However long ago the last one was."""
    assert due() == ("lift", 1, 1, False, False)
    assert due(done("lift")) == ("move", 1, 2, False, False)
    assert due(done("lift"), done("move", 90)) == ("lift", 2, 1, False, False)


def test_one_session_stands_for_another_of_its_kind_alone() -> None:
    """The hotel room for the garage; a stretch never for strength work."""
    assert due(done("hotel"))[:3] == ("move", 1, 2)
    assert due(done("move"))[:3] == ("lift", 1, 1)
    assert due(done("lift"), done("hotel", 1))[:3] == ("move", 1, 2)


@pytest.mark.parametrize(("share", "ending", "counted"), [
    (100, Ending.FINISHED, True), (COUNTS_FROM, Ending.FINISHED, True), (COUNTS_FROM - 1, Ending.FINISHED, False),
    (80, Ending.INTERRUPTED, True), (80, Ending.TOO_MUCH, True), (100, Ending.PAIN, False), (100, Ending.SIGN, False)])
def test_enough_of_it_done_and_not_ended_by_pain_or_a_sign(share: int, ending: Ending, counted: bool) -> None:
    """Else the same is due again."""
    record = done("lift", share=share, ending=ending)
    assert counts(record) is counted
    assert due(record)[:3] == (("move", 1, 2) if counted else ("lift", 1, 1))


def test_after_the_end_the_last_week_goes_round() -> None:
    """And says that it repeats."""
    past = [done(d.session, n) for n, d in enumerate(schedule(SIX))]
    assert due(*past) == ("move", 3, 1, True, True)
    assert due(*past, done("move", 50), done("move", 60)) == ("move", 3, 1, True, True)
    two = replace(SIX, weeks=(*WEEKS, Week(("lift", "move"))))
    more = [done("lift", 70), done("move", 71)]
    again = [due_session(two, [*past, *added], STRENGTH) for added in (more, [*more, done("lift", 72)])]
    assert [d.session for d in again if d] == ["lift", "move"]


def test_an_empty_programme_has_nothing_due() -> None:
    """No error either."""
    assert due_session(Programme("e", "E", ()), [done("lift")], STRENGTH) is None
    assert due_session(Programme("e", "E", (Week(()),)), [], STRENGTH) is None


@settings(max_examples=examples(100, 3_000))
@given(st.lists(st.tuples(st.sampled_from(("lift", "move", "hotel")), st.integers(0, 100)), max_size=15))
def test_doing_more_never_goes_back(past: list[tuple[str, int]]) -> None:
    """Each record leaves the schedule where it was or one further, in order."""
    records = [done(name, day, share=share) for day, (name, share) in enumerate(past)]
    before = 0
    for upto in range(len(records) + 1):
        plan_now = progress(SIX, records[:upto], STRENGTH)
        marks = [d.done_on is not None for d in plan_now]
        assert marks == sorted(marks, reverse=True)
        assert before <= sum(marks) <= before + 1
        before = sum(marks)
