"""Which session is due: the programme goes on with what was done, not with the calendar."""
from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.model.programme import Programme, Week
from app.domain.model.record import Ending, SessionDone
from app.domain.progress.due_session import COUNTS_FROM, counts, due_session, going_round, progress, schedule
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


def test_e5_after_the_end_the_last_full_weeks_go_round_and_never_a_lighter_one() -> None:
    """And say that they repeat; each time round is another."""
    past = [done(d.session, n) for n, d in enumerate(schedule(SIX))]
    assert due(*past) == ("lift", 1, 1, False, True)
    round_ = [done(name, 50 + n) for n, name in enumerate(("lift", "move", "lift", "move", "lift"))]
    found = []
    for upto in range(len(round_) + 1):
        one = due_session(SIX, [*past, *round_[:upto]], STRENGTH)
        assert one is not None and one.repeats and not one.lighter
        found.append((one.session, one.week, one.number, one.lap))
    assert found == [("lift", 1, 1, 1), ("move", 1, 2, 1), ("lift", 2, 1, 1), ("move", 2, 2, 1), ("lift", 2, 3, 1),
                     ("lift", 1, 1, 2)]
    assert all(d.done_on for d in progress(SIX, [*past, *round_], STRENGTH))


def test_three_weeks_go_round_and_lighter_ones_only_where_there_is_no_other() -> None:
    """Of a long programme the last three; of one of nothing but lighter weeks, those."""
    long = Programme("l", "L", tuple(Week(("lift",), lighter=n in (3, 6)) for n in range(1, 7)))
    assert going_round(long) == (2, 4, 5)
    assert going_round(Programme("e", "E", (Week(("move",), lighter=True), Week(())))) == (1,)
    assert going_round(Programme("e", "E", (Week(()),))) == ()


def hard(name: str, day: int, rpe: int | None) -> SessionDone:
    """Done at that effort, where 5 was meant; a stretch is no strength work."""
    return session(day, f"{name}{day}", timeline=plan(session=name, strength=name in STRENGTH), rpe=rpe)


@pytest.mark.parametrize(("efforts", "again"), [
    ((7, 7), 1), ((6, 8), 1), ((9, 5), 1), ((6, 7), 0), ((7, None), 1), ((None, None), 0), ((5, 5), 0)])
def test_e6_a_week_much_harder_than_meant_is_done_once_more(efforts: tuple[int | None, int | None], again: int) -> None:
    """By the mean of its strength sessions: two points over. What was not told says nothing."""
    two = Programme("t", "T", (Week(("lift", "move", "lift"), note="slowly"), Week(("lift",))))
    past = [hard("lift", 0, efforts[0]), hard("move", 1, 2), hard("lift", 3, efforts[1])]
    found = due_session(two, past, STRENGTH)
    assert found is not None and (found.week, found.number, found.again) == ((1, 1, 1) if again else (2, 1, 0))
    assert [d.done_on is None for d in progress(two, past, STRENGTH)] == [bool(again)] * 3 + [True]


def test_a_week_repeats_until_it_is_as_hard_as_meant_and_counts_how_often() -> None:
    """Also after the end. A light session between, however hard, holds nothing back."""
    two = Programme("t", "T", (Week(("lift", "move")), Week(("lift", "move"))))
    past: list[SessionDone] = []
    for n, (rpe, where) in enumerate(((8, (1, 1, 0)), (8, (1, 2, 0)), (5, (2, 0, 0)), (5, (1, 0, 1)), (9, (1, 1, 1)))):
        past += [hard("lift", 7 * n, rpe), hard("move", 7 * n + 2, 10)]
        found = due_session(two, past, STRENGTH)
        assert found is not None and (found.week, found.again, found.lap) == where


def test_less_than_counted_never_moves_a_week_on_nor_ends_it() -> None:
    """Half done each time: the same session is due, and the week is not judged by it."""
    past = [done("lift", n, share=50, rpe=9) for n in range(4)]
    assert due(*past)[:3] == ("lift", 1, 1)


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
