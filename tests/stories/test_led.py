"""A daughter leads her father through his session: whose it is, how he is, what she does, and what is only a guess."""
from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from app.domain.model.diary import AnsweredBy
from app.words import parts
from app.words.client import lead
from app.words.client import player as says
from app.words.client import today as client
from app.words.signs import sign_words
from tests.stories.kept import kept_sessions
from tests.stories.person import Person, PersonAt

NAME = "Anton Brekke"
NOT_HIMSELF = lead.not_themselves("man")


@pytest.fixture
def data(led: Path, tmp_path: Path) -> Path:
    """His answers of this morning are in; the left knee is a little sore."""
    return Path(shutil.copytree(led, tmp_path / "data"))


def to_the_start(walker: Person) -> Person:
    """From today's card over both questions to the first count."""
    walker.press(client.START)
    walker.sees_heading(lead.whose_question(NAME)).press(lead.whose_yes(NAME))
    walker.sees_heading(lead.how_today(NAME)).sees_button(NOT_HIMSELF).press(lead.AS_USUAL)
    return walker.sees(re.compile("left$")).sees(says.whose(NAME))


def test_she_leads_him_through_and_her_guess_stays_a_guess(person_at: PersonAt, data: Path) -> None:
    """What to say, where to stand, what to hold and to watch; questions only once he sits; his session, all along."""
    with person_at(data, "/today") as walker:
        to_the_start(walker)
        walker.sees(says.whose(NAME)).press(says.PAUSE)
        walker.sees(lead.YOU_SAY, lead.YOU_STAND, lead.YOU_HOLD, lead.WATCH_FOR, *lead.WATCH_ALWAYS)
        walker.press(says.HURTS).sees_heading(lead.SIT_THEM_DOWN)
        walker.sees_no_button(re.compile(f"^{says.GAVE_WAY}"))
        walker.press(lead.they_sit(NAME)).choose(parts.answer(says.GAVE_WAY, parts.NO))
        walker.press("Left knee").choose(parts.of("Left knee", 3, 10)).sees(lead.SAID_OR_SEEN, *lead.SEEN)
        walker.sees_button(lead.SEEN_GREY)
        walker.sees_chosen(lead.I_THINK)
        walker.sees(lead.GUESS_NOTE).press(says.TELL).sees_heading(says.CHANGED)
        walker.press(says.GO_ON).sees(re.compile("left$"))
        walker.press(says.PAUSE, says.END).press(re.compile(f"^{says.END_REASONS[0][1]}"))
        walker.sees(re.compile(f"How hard .*{NAME}"))
    hurt = kept_sessions(data)[-1].hurts[-1]
    assert hurt.answered_by is AnsweredBy.LEADER and hurt.level == 3


def test_not_himself_today_stops_before_and_during(person_at: PersonAt, data: Path) -> None:
    """Before, nothing starts; under way it is one tap from the count, and the number stands above the list."""
    with person_at(data, "/today") as walker:
        to_the_start(walker)
        walker.press(NOT_HIMSELF).sees_heading(NOT_HIMSELF).sees(re.compile("^Call 999"), "Then phone Ragna, 555 0102.")
        walker.press(says.BACK_TO_SESSION).sees_button(says.GO_ON)
        walker.press(NOT_HIMSELF, re.compile(f"^{says.AMISS[2][1]}"))
        walker.sees(sign_words("dizziness"), re.compile("Help Anton Brekke sit down and rest")).go("/today")
        walker.sees_heading(client.STOP_HEAD)
        walker.sees_no_button(client.START)
    assert kept_sessions(data)[-1].sign == "dizziness"


def test_confused_before_a_session_opens_none(person_at: PersonAt, data: Path) -> None:
    """The card says whom to call, and Start is gone."""
    with person_at(data, "/play") as walker:
        walker.press(lead.whose_yes(NAME), NOT_HIMSELF)
        walker.sees(re.compile("^Call 999")).press(re.compile(f"^{says.AMISS[0][1]}"))
        walker.sees_heading(client.URGENT_HEAD)
        walker.sees_no_button(client.START)
        walker.go("/play").settle()
        walker.sees_no_button(says.START)


def test_another_person_is_not_led_through_his_session(person_at: PersonAt, data: Path) -> None:
    """Somebody else leads to whose turn it is."""
    with person_at(data, "/play") as walker:
        walker.press(lead.WHOSE_NO).settle()
        assert "/who" in walker.route
