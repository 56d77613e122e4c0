"""Everything that may happen around the sessions, and every check, can be said: plainly, and without a promise."""
from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.checks import functional_checks
from app.domain.checks.functional_checks import Change, Withheld
from app.domain.checks.published_figures import BANDS, TalkingPoint
from app.domain.dosing import events
from app.domain.measures.attention_summary import AttentionReason, Flag
from app.domain.measures.week_minutes import Frame
from app.domain.model.exercise import Axis
from app.domain.model.record import CheckDone, Event, EventKind, FunctionalCheck
from app.words.client import checks as check_words
from app.words.client import events as event_words
from app.words.client import planning
from app.words.coach import attention
from app.words.coach import checks as coach_words
from tests.domain.past import T0, stamp
from tests.generators import checks_done, texts
from tests.words.test_text import assert_plain

TODAY = T0.date()
WHATS = st.sampled_from(["", *event_words.WHAT])
happened = st.builds(
    Event, st.just(stamp("e")), st.sampled_from(EventKind), what=WHATS, minutes=st.none() | st.integers(1, 600),
    since=st.none() | st.just(TODAY), until=st.none() | st.just(TODAY + timedelta(days=9)),
    answers=st.dictionaries(st.sampled_from((*events.FALL_QUESTIONS, events.FEVER)), st.booleans()),
    stopped_by=st.sampled_from(("", "fall", "fall_head", "fever")))


@given(happened)
def test_whatever_happened_can_be_said(event: Event) -> None:
    """In the diary, at the desk and on the attention list."""
    assert_plain(event_words.event_line(event))
    assert event_words.event_detail(event) in event_words.event_line(event)
    for because in (AttentionReason.FALL, AttentionReason.ILLNESS):
        said = attention.flag_text(Flag("p", "Ada", because, TODAY, ("e",), (2,)), event)
        assert "reported on Monday 2 March, 2 in four weeks" in said and "  " not in said


def test_a_fall_and_a_pause_read_as_people_say_them() -> None:
    """With what was asked and answered."""
    fall = Event(stamp("e"), EventKind.FALL, since=date(2026, 3, 1), answers={"head": False, "hurts": True},
                 note="wet step")
    assert event_words.event_line(fall) == (
        "A fall. On Sunday 1 March; a knock on the head: no; more than a bruise: yes; “wet step”.")
    pause = Event(stamp("e"), EventKind.PAUSE, since=TODAY, until=date(2026, 3, 15))
    assert event_words.pause_line(pause) == "A break from Monday 2 March to Sunday 15 March."
    walk = Event(stamp("e"), EventKind.ACTIVITY, what="walk", minutes=1)
    assert event_words.event_line(walk) == "Active. A walk, 1 minute."


def test_every_kind_and_question_has_words_for_both() -> None:
    """The person themselves, and whoever leads them."""
    for table in (event_words.KINDS, event_words.KIND_NOTES, event_words.NAMES):
        assert set(table) == set(EventKind)
    assert set(event_words.FALL_QUESTIONS) == set(event_words.FALL_SHORT) == set(events.FALL_QUESTIONS)
    for kind in EventKind:
        assert "{" not in event_words.kind_words(kind, "Kasimir") + event_words.kind_words(kind)


@pytest.mark.parametrize("stopped_by", ["", "fall", "fall_head"])
@pytest.mark.parametrize("thinners", [True, False])
def test_after_a_fall_the_number_to_call_is_named(stopped_by: str, thinners: bool) -> None:
    """Whatever came of it; who takes something that thins the blood is told so first."""
    lines = event_words.fall_lines(stopped_by, {"thinners": thinners}, "999")
    for line in lines:
        assert_plain(line)
    assert any("999" in line for line in lines)
    assert ("thins the blood" in lines[0]) is thinners


def test_days_are_said_as_near_as_they_are() -> None:
    """Today, tomorrow, yesterday, or by name."""
    days = [planning.day_choice(TODAY + timedelta(days=n), TODAY) for n in range(3)]
    assert days == ["Today", "Tomorrow", "Wed 4 Mar"]
    assert [planning.day_choice_back(TODAY - timedelta(days=n), TODAY) for n in range(3)] == [
        "Today", "Yesterday", "Sat 28 Feb"]
    for gap in (-1, 0, 3):
        assert_plain(planning.planned_line(TODAY + timedelta(days=gap), TODAY))


@given(st.integers(0, 900), st.integers(0, 900), st.integers(0, 7))
def test_the_week_is_said_without_any_pressing(sessions: int, moved: int, days: int) -> None:
    """Numbers, and no "still to go"."""
    said = event_words.frame_line(Frame(TODAY, sessions, moved, days))
    assert_plain(said)
    assert not {"only", "still", "more", "goal", "target"} & set(said.lower().split())


# ------------------------------------------------------------------ checks

@given(checks_done("p"), checks_done("p"))
def test_whatever_came_of_a_check_can_be_said(before: CheckDone, now: CheckDone) -> None:
    """To the client and to the coach, and never as more than it is."""
    assert_plain(check_words.result_line(now))
    if before.check is now.check:
        found = functional_checks.change(before, now)
        said = check_words.change_words(found, before, now)
        assert_plain(said)
        assert coach_words.COACH_CHANGE[found] in coach_words.coach_result(now, before)
        assert now.check is not FunctionalCheck.ONE_LEG or found is Change.NO_CALL


def test_results_read_as_people_say_them() -> None:
    """With the hands that pushed, the leg, the stick."""
    def said(check: FunctionalCheck, **what: object) -> str:
        return check_words.result_words(CheckDone(stamp("k"), check, **what))  # type: ignore[arg-type]

    assert said(FunctionalCheck.CHAIR_STAND, stands=12) == "12 stands"
    assert said(FunctionalCheck.CHAIR_STAND, stands=12,
                hands_used=True) == "0 stands without hands, 12 stands with them"
    assert said(FunctionalCheck.ONE_LEG, time_ms=17_460, side="left") == "17.4 seconds on the left leg"
    assert said(FunctionalCheck.WALK, time_ms=9_399, aid=True) == "9.3 seconds, with a stick or frame"


@pytest.mark.parametrize("why", Withheld)
def test_why_a_check_is_not_offered_is_said(why: Withheld) -> None:
    """With the way to it where there is one."""
    words, act, route = check_words.WITHHELD[why]
    assert words and bool(act) == bool(route)
    assert_plain(check_words.withheld_words(why, (Axis.KNEELING,)))


@pytest.mark.parametrize("check", FunctionalCheck)
def test_every_check_is_told_step_by_step(check: FunctionalCheck) -> None:
    """What is needed, how it goes, and a try that does not count; in plain sentences."""
    told = check_words.INSTRUCTIONS[check]
    for line in (*told.needs, *told.how, told.practice, check_words.ABOUT[check], coach_words.COACH_ERROR[check]):
        assert_plain(line)
    assert check in check_words.NAMES


def test_a_check_that_is_withheld_says_what_to_do_instead() -> None:
    """The one in its place by name, or whom to ask."""
    said = check_words.withheld_words(Withheld.LIMITS, (Axis.UNHELD_BALANCE,), FunctionalCheck.ONE_LEG_HELD)
    assert said.endswith("Do “On one leg, holding on” instead.")
    assert check_words.withheld_words(Withheld.LIMITS, (Axis.ANKLE_LOAD,)).endswith(check_words.ASK_COACH)
    assert "higher seat" in check_words.withheld_words(Withheld.NEW_HIP, (), FunctionalCheck.CHAIR_STAND_HIGH)
    assert "instead" in check_words.withheld_words(Withheld.SEATED) and "better day" in check_words.withheld_words(
        Withheld.PAIN)


def test_f1_the_protocol_says_how_high_the_seat_is_and_what_counts_at_the_bell() -> None:
    """Of both chairs; and hands count 0."""
    for check, height in ((FunctionalCheck.CHAIR_STAND, "43 cm"), (FunctionalCheck.CHAIR_STAND_HIGH, "50 cm")):
        told = check_words.INSTRUCTIONS[check]
        assert any(height in line for line in told.needs)
        assert check_words.AT_THE_BELL in told.how and any("result is then 0" in line for line in told.how)


def test_what_is_worth_a_talk_is_no_diagnosis_and_for_the_coach_alone() -> None:
    """Each says so; pace and seat stand beside the result."""
    assert set(coach_words.TALKING_POINTS) == set(TalkingPoint)
    assert all("not a diagnosis" in words for words in coach_words.TALKING_POINTS.values())
    four = CheckDone(stamp("k"), FunctionalCheck.WALK_4M, time_ms=5_000)
    assert coach_words.coach_result(four, None).endswith("5.0 seconds, 0.80 m/s")
    assert "m/s" not in check_words.result_words(four)
    high = CheckDone(stamp("k"), FunctionalCheck.CHAIR_STAND_HIGH, stands=9, seat_cm=50)
    assert coach_words.coach_result(high, None).endswith("9 stands, seat 50 cm")
    band = next(b for b in BANDS if b.check is FunctionalCheck.CHAIR_STAND)
    assert coach_words.placed_line(band, high).endswith("not placed, because the seat was 50 cm")


def test_bands_and_their_source_are_for_the_coach() -> None:
    """Each figure with its age and where it comes from; nothing of them in what the client reads."""
    lines = [coach_words.band_line(band) for band in BANDS]
    assert "Women of 70–74: 10–15 stands (Rikli & Jones 1999, 25th to 75th percentile)" in lines
    assert "At 60–69: mean 8.1 s (Bohannon 2006, meta-analysis; a mean, and no usual range)" in lines
    assert any(line.startswith("At 71–75: mean 9.5 (7.8–11.2) s (Pondal & del Ser 2008") for line in lines)
    slow = CheckDone(stamp("k"), FunctionalCheck.WALK, time_ms=11_000)
    assert coach_words.placed_line(BANDS[-1], slow).endswith(": within the band")
    assert "falls poorly" in coach_words.COACH_CAUTION and "fall" in check_words.HONEST


@given(texts())
def test_goals_stay_in_the_persons_own_words(goal: str) -> None:
    """Whatever they are."""
    assert goal in event_words.goal_quote(goal)
