"""A check-in says what was answered and nothing more, and leaving something out never makes it better."""
from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from app.actions.training.today import Today
from app.domain.model.body import Region, Spot
from app.domain.model.client import Client, Condition
from app.domain.model.diary import AnsweredBy, Symptom
from app.domain.model.person import Person
from app.domain.model.plan import Dose, Timeline
from app.domain.model.record import CheckIn, Ending, Event, EventKind, Hurt, Record, SessionDone, Stamp
from app.ui.client.check_in.check_in_answers import (
    ASKED_ON,
    Answers,
    Earlier,
    answers_of,
    check_in_of,
    earlier_of,
    flare_choices,
    missing,
    morning_spots,
    pages_of,
    passed_by,
    said_on,
)
from app.ui.client.check_in.check_in_screen import lacks
from app.words.client import check_in

DAY = date(2026, 3, 4)
NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)
KNEE, HIP, NECK = Spot(Region.KNEE, "left"), Spot(Region.HIP, "right"), Spot(Region.NECK)


def stamp(record: str, days_ago: int = 0) -> Stamp:
    """So many days before."""
    return Stamp(record, "ada", NOON - timedelta(days=days_ago), DAY - timedelta(days=days_ago), 0)


def session(days_ago: int, **more: object) -> SessionDone:
    """A session that hurt nowhere unless said."""
    told = {"pain": {}} | more
    plan = Timeline("short", (), Dose(1, 1, 100, 100, 100))
    return SessionDone(stamp(f"s{days_ago}", days_ago), "Short one", plan, "", Ending.FINISHED, (), 600,
                       **told)  # type: ignore[arg-type]


def known(*records: Record, check_in: CheckIn | None = None) -> Earlier:
    """What those records say this morning."""
    return earlier_of(Today(Person("ada", "Ada"), DAY, records=records, check_in=check_in))


def written(answers: Answers, earlier: Earlier | None = None, *, led: bool = False) -> CheckIn:
    """The record that they become."""
    return check_in_of(answers, earlier or known(), stamp("now"), DAY, led=led)


NOTHING = Answers(False, pain={}, soreness={}, slept=4, energy=4, calm=4)


def test_nothing_answered_is_nothing_written() -> None:
    """Every question stays open."""
    record = written(Answers())
    assert (record.symptoms, record.pain, record.soreness, record.morning_after) == (None, None, None, None)


def test_no_is_an_answer() -> None:
    """And differs from none."""
    record = written(NOTHING)
    assert (record.symptoms, record.pain, record.soreness) == (frozenset(), {}, {})


def test_yes_without_a_sign_is_no_answer() -> None:
    """Something is worrying and nobody said what: the question stays open."""
    assert written(replace(NOTHING, new=True)).symptoms is None
    assert missing(replace(NOTHING, new=True), ["signs"]) == ["signs"]


def test_a_sign_ends_the_questions_and_is_kept() -> None:
    """An emergency is not followed by a question about sleep."""
    answers = Answers(True, frozenset({"fainting", "head_cold"}))
    assert answers.stops() and answers.emergencies() == ["fainting"]
    assert written(answers).symptoms == {Symptom.EMERGENCY, Symptom.HEAD_COLD}
    assert not Answers(True, frozenset({"head_cold"})).stops()


def test_last_time_s_spots_are_questions_and_not_answers() -> None:
    """What hurt yesterday is asked about again; unasked, nothing is written about it."""
    earlier = known(CheckIn(stamp("c", 1), frozenset(), pain={KNEE: 4, HIP: 0}, soreness={NECK: 5}))
    assert (earlier.pain, earlier.soreness) == ({KNEE: 4}, {NECK: 5})
    assert written(Answers(), earlier).pain is None


def test_a_spot_passed_over_counts_as_last_time() -> None:
    """Saying something about the hip alone does not make the knee well."""
    earlier = known(CheckIn(stamp("c", 1), frozenset(), pain={KNEE: 4}))
    assert written(replace(NOTHING, pain={HIP: 2}), earlier).pain == {HIP: 2, KNEE: 4}
    assert written(replace(NOTHING, pain={KNEE: 0}), earlier).pain == {KNEE: 0}


def test_pain_told_in_a_later_session_is_remembered() -> None:
    """The latest word on each spot."""
    earlier = known(CheckIn(stamp("c", 2), frozenset(), pain={KNEE: 1}), session(1, hurts=(Hurt(KNEE, 5),)))
    assert earlier.pain == {KNEE: 5}


def test_the_morning_after_is_asked_once_it_is_past() -> None:
    """With the spots that hurt before, in it or since."""
    led = CheckIn(stamp("c", 2), frozenset(), pain={KNEE: 2})
    earlier = known(led, session(2, pain={HIP: 3}))
    assert pages_of(earlier, DAY) == ["signs", "pain", "morning", "soreness", "feel"]
    assert morning_spots(earlier, Answers(pain={NECK: 1})) == sorted([KNEE, HIP, NECK])
    assert written(replace(NOTHING, morning={KNEE: 4}), earlier).morning_after == {KNEE: 4}
    assert written(NOTHING, earlier).morning_after is None


def test_this_morning_is_the_morning_after_yesterday() -> None:
    """So it is not asked twice: today's pain is that answer too."""
    led = CheckIn(stamp("c", 1), frozenset(), pain={KNEE: 2})
    earlier = known(led, session(1, pain={KNEE: 2}))
    assert "morning" not in pages_of(earlier, DAY)
    assert written(replace(NOTHING, pain={KNEE: 5}), earlier).morning_after == {KNEE: 5}
    assert written(replace(NOTHING, pain={KNEE: 0}), earlier).morning_after == {KNEE: 0}
    assert written(replace(NOTHING, pain=None), earlier).morning_after is None


def test_a_morning_that_was_told_is_not_asked_again() -> None:
    """It does not change any more."""
    told = CheckIn(stamp("d", 1), frozenset(), pain={}, morning_after={KNEE: 3})
    earlier = known(session(2), told)
    assert "morning" not in pages_of(earlier, DAY)
    assert written(NOTHING, earlier).morning_after == {KNEE: 3}


def test_today_s_session_has_no_morning_after_yet() -> None:
    """Nothing is asked about a morning to come."""
    assert pages_of(known(session(0)), DAY) == ["signs", "pain", "soreness", "feel"]
    assert written(NOTHING, known(session(0))).morning_after is None


@pytest.mark.parametrize(("by_them", "led", "by"), [
    (None, False, AnsweredBy.SELF), (True, True, AnsweredBy.SELF), (False, True, AnsweredBy.LEADER),
    (None, True, AnsweredBy.LEADER),
])
def test_a_guess_is_kept_as_a_guess(by_them: bool | None, led: bool, by: AnsweredBy) -> None:
    """And what nobody owned up to is one."""
    assert written(replace(NOTHING, by_them=by_them), led=led).answered_by is by


def test_answering_again_begins_with_what_was_said() -> None:
    """And changes nothing by itself."""
    first = written(replace(NOTHING, pain={KNEE: 3}, signs=frozenset({"head_cold"}), new=True))
    assert written(answers_of(first), known(check_in=first)) == first


# ------------------------------------------------------------------ worse a day or two later

ILL = Event(stamp("ill", 10), EventKind.ILLNESS, what="cold")


def test_whether_it_got_worse_later_is_asked_of_those_for_whom_it_matters() -> None:
    """After an illness in the last four weeks, or in treatment for cancer; once for a session; of nobody else."""
    assert "flare" not in pages_of(known(session(2)), DAY)
    assert pages_of(known(ILL, session(2)), DAY) == ["signs", "pain", "morning", "flare", "soreness", "feel"]
    assert "flare" not in pages_of(known(Event(stamp("old", 28), EventKind.ILLNESS), session(2)), DAY)
    assert "flare" not in pages_of(known(ILL), DAY)
    treated = Person("ada", "Ada", Client(conditions=frozenset({Condition.CANCER_TREATMENT})))
    assert earlier_of(Today(treated, DAY, records=(session(2),))).asks_flare
    asked = CheckIn(stamp("c1", 1), pain={}, flare_days=0)
    assert not known(ILL, session(2), asked).asks_flare
    assert known(ILL, session(2), replace(asked, flare_days=None)).asks_flare


def test_only_days_that_have_come_can_be_chosen_and_the_answer_is_kept() -> None:
    """No, the day after, two days after; without an answer it stays open."""
    assert flare_choices(known(ILL, session(1)), DAY) == [0, 1]
    earlier = known(ILL, session(3))
    assert flare_choices(earlier, DAY) == [0, 1, 2]
    assert written(replace(NOTHING, flare=2), earlier).flare_days == 2
    assert written(replace(NOTHING, flare=0), earlier).flare_days == 0
    assert written(replace(NOTHING, flare=2), known(session(3))).flare_days is None
    assert "flare" in missing(NOTHING, pages_of(earlier, DAY))
    assert answers_of(CheckIn(stamp("now"), flare_days=1)).flare == 1
# ------------------------------------------------------------------ passed by, and what keeps a page open

def test_what_one_would_rather_not_say_is_kept_apart_from_nothing() -> None:
    """Passing a page by takes back what was said on it; saying something takes the passing by back."""
    told = replace(NOTHING, pain={KNEE: 3})
    for page, names in ASKED_ON.items():
        silent = passed_by(told, page)
        assert page in silent.unsaid and all(getattr(silent, name) in (None, frozenset()) for name in names)
        assert page not in passed_by(silent, page).unsaid
    silent = passed_by(told, "pain")
    assert written(silent).pain is None
    said = said_on(silent, "pain", pain={})
    assert said.unsaid == frozenset() and written(said).pain == {}


def test_not_saying_whether_anything_is_new_ends_the_questions() -> None:
    """There is no session then, so nothing more is asked."""
    assert passed_by(Answers(), "signs").stops() and not Answers().stops()


def test_a_page_is_left_only_once_it_is_answered_or_passed_by() -> None:
    """What is missing is said in words, and a part of the body is named with it."""
    earlier = known(CheckIn(stamp("c", 1), frozenset(), pain={KNEE: 4}))
    for page in ("signs", "pain", "soreness", "feel"):
        assert lacks(Answers(), page, "", earlier)[1]
        assert lacks(passed_by(Answers(), page), page, "", earlier) == (None, "")
    spot, words = lacks(replace(NOTHING, pain={HIP: 2}), "pain", "", earlier)
    assert spot == KNEE and words == check_in.asked_again("Left knee")
    spot, words = lacks(replace(NOTHING, pain={KNEE: 2}, asking=HIP), "pain", "", earlier)
    assert spot == HIP and words == check_in.number_missing("Right hip", may_leave_out=True)
    assert lacks(replace(NOTHING, pain={KNEE: 2}), "pain", "", earlier) == (None, "")
    assert lacks(NOTHING, "feel", "Ines", earlier) == (None, check_in.WHO_MISSING)


def test_answers_given_again_stand_as_they_were_kept() -> None:
    """What was not said stands as not said."""
    again = answers_of(written(passed_by(passed_by(NOTHING, "pain"), "feel")))
    assert {"pain", "feel"} <= again.unsaid and "soreness" not in again.unsaid and again.soreness == {}
