"""What shows over weeks: worse a day later, a week once more, the end of a programme, the coach's three parts."""
from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from app.actions.training.today import Today, strength_sessions, today
from app.device.clock import ManualClock
from app.domain.model.plan import Dose, Part, Step, StepKind, StepSide, Timeline
from app.domain.model.record import CheckIn, DoneStep, Ending, How, SessionDone, Stamp
from app.domain.progress.due_session import Due, schedule
from app.storage import people, records
from app.words import parts
from app.words.client import check_in, day_card, diary_weeks, events, plan, planning
from app.words.client import today as client
from app.words.coach import desk
from tests.browser.prepared import MORNING
from tests.stories import steps
from tests.stories.person import DESKTOP, PersonAt
from tests.stories.turns import COACH, MAUD, Demo


@pytest.fixture
def maud(demo_data: Path, tmp_path: Path) -> Demo:
    """Six weeks of somebody who trains alone; it is her turn."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "demo")))
    demo.turn_of(MAUD)
    return demo


def card_of(demo: Demo) -> Today:
    """Her card this morning."""
    return today(demo.store, ManualClock(MORNING), demo.ids[MAUD])


def begins_anew(demo: Demo, upto: int | None, rpe: int) -> Today:
    """Her programme begun yesterday, with all of its sessions done, or so many, at that effort where 5 was meant."""
    card = card_of(demo)
    assert card.programme is not None and card.source is not None
    yesterday, strength = card.day - timedelta(days=1), strength_sessions(card.source)

    def done() -> Iterator[SessionDone]:
        due: Due
        for n, due in enumerate(schedule(card.programme)[:upto] if card.programme else ()):
            step = Step(StepKind.WORK, Part.MAIN, 0, 30_000, "a", StepSide.BOTH, 1)
            plan = Timeline(due.session, (step,), Dose(0, 1, 100, 100, 100), strength=due.session in strength)
            stamp = Stamp(f"anew{n}", card.person.id, MORNING - timedelta(hours=20 - n / 60), yesterday, 0)
            yield SessionDone(stamp, due.session, plan, "ab" * 32, Ending.FINISHED,
                              (DoneStep(0, "a", 30_000, How.FULL),), 600, rpe=rpe, pain={})

    with demo.store.begin() as db:
        people.save_person(db, replace(card.person, started=yesterday))
        records.merge_records(db, done())
    return card_of(demo)


def test_after_an_illness_it_is_asked_whether_it_got_worse_later(person_at: PersonAt, maud: Demo) -> None:
    """It takes an answer; the answer makes the day light and is kept; nobody else is asked."""
    with person_at(maud.data, "/note/illness", began=MORNING, rate=4) as walker:
        walker.press(parts.answer(events.ILL_FEVER_SHORT, parts.NO), "A cold or cough", events.WRITE_DOWN)
        walker.sees_heading(events.WRITTEN).go("/check-in").choose(parts.answer(check_in.ANYTHING_SHORT, parts.NO))
        walker.press(client.NEXT).choose(check_in.NOTHING_HURTS).press(client.NEXT)
        walker.sees_heading(re.compile("^The morning after")).choose(check_in.NOTHING_WORSE).press(client.NEXT)
        walker.sees_heading(check_in.FLARE[0]).press(client.NEXT).sees(check_in.FLARE_MISSING)
        walker.press(check_in.RATHER_NOT[0]).sees(check_in.RATHER_NOT_MEANS["flare"])
        walker.choose(check_in.FLARE_CHOICES[1]).press(client.NEXT).sees(check_in.MUSCLES[0]).choose(check_in.NO_ACHES)
        walker.press(client.NEXT)
        walker.choose("Slept 4 of 5", "Energy 4 of 5", "Settled 4 of 5").press(client.DONE)
        walker.sees_button(steps.WHY)
    with maud.store.read() as db:
        told = records.latest(db, maud.ids[MAUD], CheckIn)
    assert told is not None and told.flare_days == 1 and (told.level or 0) >= 4


def test_the_end_of_a_programme_offers_what_comes_next_under_a_heading(person_at: PersonAt, maud: Demo) -> None:
    """Its last full weeks, another one, the coach; on Today and on the plan, until one is chosen."""
    card = begins_anew(maud, None, 5)
    assert card.due is not None and card.due.repeats and not card.due.lighter and card.source is not None
    ask = re.compile(f"^{planning.block_ask(card.source.coach)}")
    with person_at(maud.data, "/plan", began=MORNING) as walker:
        walker.sees_heading(planning.BLOCK_HEAD).go("/today").sees_heading(planning.BLOCK_HEAD)
        walker.sees_button(ask).press(re.compile(f"^{planning.BLOCK_AGAIN}")).sees_no_button(ask)
        walker.go("/plan").sees(plan.PLAN_THROUGH[0])


def test_place_minutes_and_other_sessions_of_today_are_folded_and_open_at_a_press(
    person_at: PersonAt, maud: Demo
) -> None:
    """Each in its place; pressed again it closes."""
    with person_at(maud.data, "/today", began=MORNING) as walker:
        walker.press(re.compile(f"^{client.WHERE_AND_LONG}"))
        walker.sees_heading(client.PLACE_HEAD).sees_heading(client.MINUTES_HEAD)
        walker.press(re.compile(f"^{client.OTHER_HEAD}")).sees(client.OTHER_HINT)
        walker.press(re.compile(f"^{day_card.WHAT_COMES}")).sees("Warm-up", "Cool-down")


def test_a_week_that_was_much_too_hard_stands_once_more_on_the_plan(person_at: PersonAt, maud: Demo) -> None:
    """With the reason, on Today too."""
    card = card_of(maud)
    assert card.programme is not None
    card = begins_anew(maud, len(card.programme.weeks[0].sessions), 8)
    assert card.due is not None and (card.due.week, card.due.again) == (1, 1)
    assert card.timeline is not None and card.timeline.week_again == 1
    with person_at(maud.data, "/plan", began=MORNING) as walker:
        walker.sees(client.week_again(1))


def test_the_desk_has_three_parts_that_never_mix(person_at: PersonAt, maud: Demo) -> None:
    """Harm, progress, silence, in that order."""
    maud.turn_of(COACH)
    with person_at(maud.data, "/desk", began=MORNING, size=DESKTOP) as walker:
        for part in (desk.HARM, desk.PROGRESS, desk.SILENCE):
            walker.sees_heading(re.compile(f"^{part}, "))


def test_the_diary_is_a_row_for_each_week_and_says_what_eased_a_session(person_at: PersonAt, maud: Demo) -> None:
    """The newest week stands open; a session leads to its whole strip and to the reasons as they were told then."""
    session = re.compile(r"^Dumbbell circuit, \w+ (1[6-9]|2[0-2]) February")
    with person_at(maud.data, "/diary", began=MORNING) as walker:
        walker.sees_heading(diary_weeks.WEEKS_HEAD).sees_heading("Saturday 28 February")
        walker.sees_button(re.compile("^Last week"))
        walker.sees_no_button(session)
        walker.press(re.compile("^Week of 16 February")).sees(re.compile("than planned: .*, because "))
        walker.sees_button(session)
        walker.press(re.compile("^Week of 16 February")).sees_no_button(session)
        walker.go(f"/diary/{maud.last_session(MAUD)}").sees(re.compile("^Time strip: ")).settle()
        if walker.shows_button(re.compile(f"^{diary_weeks.EVERY_REASON}")):
            walker.press(re.compile(f"^{diary_weeks.EVERY_REASON}"))
