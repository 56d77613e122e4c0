"""What happens around the sessions: the right next question, and nothing that lets anybody start too soon."""
from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from itertools import product
from typing import Any

import pytest

from app.domain.dosing import events as e
from app.domain.dosing.events import covers, events_of, goal_review_due, pause_ahead, pause_on, stop_after_fall
from app.domain.dosing.history import diary_today
from app.domain.dosing.screening import SIGNS
from app.domain.dosing.way_back import way_back
from app.domain.measures.week_minutes import week_frame
from app.domain.model.client import Client
from app.domain.model.diary import Symptom
from app.domain.model.person import Person
from app.domain.model.programme import Programme, Week
from app.domain.model.record import Event, EventKind, Record
from app.domain.model.source import Source
from app.domain.progress.due_session import Due
from app.domain.progress.planned_days import in_block, next_blocks, planned_day, planned_key, too_soon, with_day
from tests.domain.past import T0, check_in, plan, session, stamp, yes

TODAY = T0.date()


def event(kind: EventKind, day: float = 0, **what: Any) -> Event:
    """Something told so many days after the first morning."""
    return Event(stamp(f"{kind}{day}", day), kind, **what)


def pause(first: int, last: int) -> Event:
    """A pause, in days after the first morning."""
    return event(EventKind.PAUSE, since=TODAY + timedelta(days=first), until=TODAY + timedelta(days=last))


# ------------------------------------------------------------------ falls and illness

@pytest.mark.parametrize("answers", list(product((True, False, None), repeat=4)))
def test_only_a_fall_of_which_all_is_known_and_well_stops_nobody(answers: tuple[bool | None, ...]) -> None:
    """A knock on the head is an emergency; an open question is never taken for good."""
    told = {key: yes_ for key, yes_ in zip(e.FALL_QUESTIONS, answers, strict=True) if yes_ is not None}
    head, *rest = answers
    expected = e.FALL_HEAD if head else "" if (head, *rest) == (False, False, False, True) else e.FALL
    assert stop_after_fall(told) == expected
    assert SIGNS[e.FALL_HEAD] is Symptom.EMERGENCY


def test_a_fever_stops_and_so_does_one_that_nobody_asked_about() -> None:
    """Without one it does not."""
    assert e.stop_after_illness({e.FEVER: True}) == e.stop_after_illness({}) == Symptom.FEVER
    assert e.stop_after_illness({e.FEVER: False}) == ""


@pytest.mark.parametrize(("by", "level", "needs"), [
    ("fall_head", 8, "clinician"), ("fall", 7, "clinician"), ("fever", 7, "self")])
def test_what_stopped_them_stays_open_until_its_own_yes(by: str, level: int, needs: str) -> None:
    """Then they start again at a light session."""
    fell = event(EventKind.FALL, stopped_by=by)
    way = way_back([fell])
    assert way.stop is not None and (way.stop.level, way.stop.yes_from, way.previous_level) == (level, needs, level)
    assert way_back([fell, yes(fell.stamp.id, 1, "self")]).stop is not None
    kind = "self" if needs == "self" else "nurse"
    after = [fell, yes(fell.stamp.id, 3, kind)]
    assert way_back(after).stop is None
    morning = check_in(4)
    today = diary_today(morning, [*after, morning], Client())
    assert today.cleared and today.previous_level == level


def test_a_fall_that_was_taken_back_stops_nobody() -> None:
    """As with everything else."""
    fell = event(EventKind.FALL, stopped_by="fall_head")
    assert way_back([replace(fell, stamp=replace(fell.stamp, deleted=True))]).stop is None


def test_an_illness_without_fever_is_left_step_by_step() -> None:
    """As a head cold is: level 4, carried to the next session."""
    ill = event(EventKind.ILLNESS, what="cold", answers={e.FEVER: False})
    assert way_back([ill]).previous_level == 4 and way_back([ill]).stop is None
    assert way_back([ill, session(2)]).previous_level == 0
    for kind in (EventKind.MEDICINE, EventKind.ACTIVITY, EventKind.GOAL, EventKind.PAUSE):
        assert way_back([event(kind)]).previous_level == 0


def test_what_is_told_after_the_mornings_answers_counts_all_the_same() -> None:
    """An illness eases the session of that day, a fall stops it."""
    morning = check_in(1)
    assert diary_today(morning, [session(-3), morning], Client()).previous_level == 0
    for kind, by, level in ((EventKind.ILLNESS, "", 4), (EventKind.FALL, "fall", 7)):
        later = event(kind, 1.1, stopped_by=by)
        diary = diary_today(morning, [session(-3), morning, later], Client())
        assert (diary.previous_level, diary.cleared) == (level, level < 7)


# ------------------------------------------------------------------ pauses and goals

def test_a_pause_holds_from_its_first_to_its_last_day() -> None:
    """Both included; the one told last where two overlap."""
    one = pause(2, 5)
    assert [covers(one, TODAY + timedelta(days=n)) for n in (1, 2, 5, 6)] == [False, True, True, False]
    assert pause_on([one], TODAY + timedelta(days=3)) == one
    assert pause_on([one], TODAY) is None and pause_ahead([one], TODAY) == one
    assert pause_ahead([one], TODAY + timedelta(days=2)) is None
    assert not covers(event(EventKind.PAUSE, since=TODAY), TODAY)


def test_events_come_in_order_and_by_kind() -> None:
    """Without what was taken back."""
    late, early = event(EventKind.FALL, 2), event(EventKind.ACTIVITY, 1)
    gone = replace(event(EventKind.FALL, 3), stamp=stamp("x", 3, deleted=True))
    assert events_of([late, early, gone, check_in(0)]) == (early, late)
    assert events_of([late, early, gone], EventKind.FALL) == (late,)


@pytest.mark.parametrize(("days", "due"), [(27, False), (28, True)])
def test_goals_are_looked_at_again_every_four_weeks(days: int, due: bool) -> None:
    """From the start, and from each time that they were looked at."""
    ada = Person("p", "Ada", goals="reach the top shelf", started=TODAY)
    at = TODAY + timedelta(days=days)
    assert goal_review_due(ada, [], at) is due
    looked: list[Record] = [event(EventKind.GOAL, 10, what=e.KEPT)]
    assert goal_review_due(ada, looked, at) is False
    assert goal_review_due(ada, looked, TODAY + timedelta(days=38)) is True
    assert goal_review_due(replace(ada, goals=" "), [], at) is False


# ------------------------------------------------------------------ the week in minutes

def test_the_week_holds_sessions_and_moving_about() -> None:
    """Monday to Sunday, by the day on which it was; strength work by days."""
    told: list[Record] = [
        session(0, took_s=1230), session(2, took_s=600), session(2.1, took_s=600, timeline=plan(strength=False)),
        session(7), event(EventKind.ACTIVITY, 3, minutes=30),
        event(EventKind.ACTIVITY, 8, minutes=20, since=TODAY + timedelta(days=6)),
        event(EventKind.ACTIVITY, -1, minutes=5)]
    frame = week_frame(told, TODAY + timedelta(days=4))
    assert (frame.monday, frame.session_minutes, frame.activity_minutes, frame.strength_days) == (TODAY, 41, 50, 2)
    assert frame.minutes == 91
    assert week_frame([], TODAY).minutes == 0


# ------------------------------------------------------------------ days chosen, and the next block

DUE = Due("legs", 2, 1, 3, lighter=False)


def test_a_day_is_kept_for_one_session_of_one_programme() -> None:
    """Another day replaces it, none takes it away."""
    kept = with_day({}, "six", DUE, TODAY)
    assert planned_day(kept, "six", DUE) == TODAY
    assert planned_day(kept, "six", Due("legs", 3, 1, 3, lighter=False)) is None
    assert planned_day(kept, "other", DUE) is None and planned_day(kept, "six", None) is None
    other = with_day(kept, "six", Due("arms", 2, 2, 3, lighter=False), TODAY + timedelta(days=1))
    assert len(other) == 2 and set(with_day(other, "six", DUE, None)) == {"six/2/2"}
    assert planned_key("six", DUE) == "six/2/1"
    for anew in (replace(DUE, again=1), replace(DUE, lap=1)):
        assert planned_day(kept, "six", anew) is None


@pytest.mark.parametrize(("days", "soon"), [(-1, False), (0, True), (1, True), (2, False)])
def test_strength_work_wants_a_day_between(days: int, soon: bool) -> None:
    """Moving and balance do not."""
    day = TODAY + timedelta(days=days)
    assert too_soon([session(0)], day) is soon
    assert too_soon([session(0, timeline=plan(strength=False))], day) is False


def test_a_new_block_begins_without_what_was_done_before() -> None:
    """Where a start is known."""
    before, after = session(0), session(3)
    ada = Person("p", "Ada", started=date(2026, 3, 4))
    assert in_block(ada, (before, after)) == (after,)
    assert in_block(replace(ada, started=None), (before, after)) == (before, after)


def test_the_coachs_other_programmes_follow_in_the_coachs_order() -> None:
    """Beginning after this one; an empty one is none."""
    def made(name: str, *sessions: str) -> Programme:
        return Programme(name, name, (Week(sessions),))

    source = Source("s", "Nell", 1, (), (), (made("a", "x"), made("b", "x"), made("c"), made("d", "x")))
    assert [p.id for p in next_blocks(source, "b")] == ["d", "a"]
    assert [p.id for p in next_blocks(source, "gone")] == ["a", "b", "d"]
