"""The check-in: nothing is lost, nothing goes on by itself, every question is answered or passed by with care."""
from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from app.domain.model.body import Region, Spot
from app.domain.model.record import CheckIn
from app.storage import people, records
from app.storage.database import open_store
from app.words import parts
from app.words.client import check_in, day_card, player, safety
from app.words.client import today as client
from tests.browser.prepared import MORNING
from tests.stories.person import Person, PersonAt
from tests.stories.turns import MAUD, Demo

NO = parts.answer(check_in.ANYTHING_SHORT, parts.NO)
FEELS = tuple(parts.of(about, 4, 5) for about in (check_in.SLEPT, check_in.ENERGY, check_in.SETTLED))
NOT_SAID = re.compile(f"^{check_in.RATHER_NOT[0]}")
SECONDS_A_PRESS = 3
"""Reading a short question, finding the answer and pressing it."""


@pytest.fixture
def data(following: Path, tmp_path: Path) -> Path:
    """Somebody who follows a programme and has answered nothing today."""
    return Path(shutil.copytree(following, tmp_path / "data"))


def last_check_in(data: Path) -> CheckIn:
    """What was kept of the answers of who trains here."""
    store = open_store(data)
    try:
        with store.read() as db:
            (person,) = people.people(db, people.Trains.HERE)
            return [r for r in records.all_records(db, person.id) if isinstance(r, CheckIn)][-1]
    finally:
        store.close()


def test_where_it_hurt_before_is_asked_anew(person_at: PersonAt, demo_data: Path, tmp_path: Path) -> None:
    """Each spot of last time; a new one on the picture; and how the morning after was."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "data")))
    demo.turn_of(MAUD)
    with person_at(demo.data, "/check-in", began=MORNING) as walker:
        walker.choose(NO).press(client.NEXT).sees(check_in.JOINTS[0])
        walker.press(parts.BEHIND, "Left ankle").choose(parts.of("Left ankle", 2, 10)).sees_button("Left ankle: 2")
        answered = 0
        while spot := still_asked(walker.press(client.NEXT).settle()):
            walker.choose(parts.of(spot, 1, 10))
            answered += 1
        assert answered
        walker.sees_heading(re.compile("^The morning after")).choose(check_in.NOTHING_WORSE).press(client.NEXT)
        walker.sees(check_in.MUSCLES[0]).choose(check_in.NO_ACHES).press(client.NEXT).sees(check_in.FEEL[0])


def still_asked(walker: Person) -> str:
    """The part of the body that hurt last time and was not answered yet; empty once all are."""
    return next((found[1] for line in walker.spoken() if (found := re.search(r"^(.+) hurt last time\.", line))), "")


def test_a_joint_that_was_pressed_is_asked_about_and_never_dropped(person_at: PersonAt, data: Path) -> None:
    """Next asks for the number in words, twice if need be; a slip can be left out; then it is nothing that hurts."""
    with person_at(data, "/check-in") as walker:
        walker.press(client.NEXT).sees(check_in.NO_OR_YES_FIRST).sees(check_in.ANYTHING_EXAMPLES)
        walker.choose(NO).press(client.NEXT).sees(check_in.JOINTS[0])
        walker.press(client.NEXT).sees(check_in.where_missing(check_in.NOTHING_HURTS))
        walker.press("Left knee").sees(parts.how_much("Left knee"))
        for _ in range(2):
            walker.press(client.NEXT).sees(check_in.number_missing("Left knee", may_leave_out=True))
        walker.press(parts.leave_out("Left knee"), client.NEXT)
        walker.sees(check_in.where_missing(check_in.NOTHING_HURTS))
        walker.press("Left knee").choose(parts.of("Left knee", 3, 10)).press(client.NEXT).sees(check_in.MUSCLES[0])
        walker.choose(check_in.NO_ACHES).press(client.NEXT).choose(*FEELS[:2]).press(client.DONE)
        walker.sees(check_in.feel_missing([check_in.SETTLED])).choose(FEELS[2]).press(client.DONE)
        walker.sees_button(client.START)
    assert last_check_in(data).pain == {Spot(Region.KNEE, "left"): 3}


def test_who_would_rather_not_say_gets_the_careful_session_and_reads_so(person_at: PersonAt, data: Path) -> None:
    """What passing a question by means stands in the answer; the record keeps it apart from "nothing"."""
    with person_at(data, "/check-in") as walker:
        walker.choose(NO).press(client.NEXT)
        for page in ("pain", "soreness", "feel"):
            walker.press(check_in.RATHER_NOT[0]).sees(check_in.RATHER_NOT_MEANS[page])
            walker.press(client.DONE if page == "feel" else client.NEXT)
        walker.sees(re.compile("^Not answered: .* and .* keeping today easier")).sees_button(client.START)
    kept = last_check_in(data)
    assert (kept.pain, kept.soreness, kept.slept, kept.energy, kept.calm) == (None,) * 5
    assert kept.symptoms == frozenset() and kept.level and kept.level > 1


def test_without_the_first_answer_there_is_no_session(person_at: PersonAt, data: Path) -> None:
    """It is passed by with care, says what that means, and can be answered later."""
    with person_at(data, "/check-in") as walker:
        walker.press(check_in.RATHER_NOT[0]).sees(check_in.RATHER_NOT_MEANS["signs"]).press(client.NEXT)
        walker.sees_heading(client.ANSWER_HEAD).sees_no_button(client.START)
        walker.press(client.ANSWER_ACT).sees_chosen(NOT_SAID).choose(NO).press(client.NEXT).sees(check_in.JOINTS[0])
    assert last_check_in(data).symptoms is None


def usual_morning(walker: Person) -> int:
    """All is well: how many presses it takes from the first question to the card."""
    presses = 0
    for answer in (NO, check_in.NOTHING_HURTS, check_in.NO_ACHES):
        walker.choose(answer).press(client.NEXT)
        presses += 2
    walker.choose(*FEELS).press(client.DONE)
    return presses + len(FEELS) + 1


def test_a_usual_morning_takes_forty_seconds(person_at: PersonAt, data: Path) -> None:
    """Counted in presses; and after the last answer one press starts."""
    with person_at(data, "/check-in") as walker:
        assert usual_morning(walker) * SECONDS_A_PRESS <= 40
        walker.press(client.START).sees(re.compile("left$")).sees_button(player.PAUSE)


def test_an_address_alone_starts_nothing(person_at: PersonAt, data: Path) -> None:
    """Somebody who comes to the player otherwise than by Start looks around first."""
    with person_at(data, "/check-in") as walker:
        usual_morning(walker)
        walker.sees_button(client.START).go("/play").sees_heading(player.BEFORE).sees(safety.CLEAR)
        walker.press(re.compile(f"^{day_card.WHAT_COMES}")).sees("Warm-up").press(player.NOT_NOW)
        walker.sees_button(client.START)
