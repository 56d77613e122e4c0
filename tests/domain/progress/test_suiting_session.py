"""Who only sits, or stands only with a hold, is given a session that suits; everybody else what is due."""
from __future__ import annotations

import pytest

from app.domain.model.client import Client, Condition, Place
from app.domain.model.exercise import Position
from app.domain.progress.suiting_session import suiting_session
from tests.domain.shipped import SESSIONS, TODAY, library, shipped


def suiting(due: str, *conditions: Condition) -> str:
    """The id of the session for somebody with these."""
    session = shipped().session(due)
    assert session is not None
    return suiting_session(session, shipped().sessions, library(), Client(conditions=frozenset(conditions)), Place(),
                           TODAY).id


@pytest.mark.parametrize("due", SESSIONS)
def test_somebody_in_a_wheelchair_is_given_a_session_for_sitting(due: str) -> None:
    """Of the same kind, and at least half of it as written."""
    session = shipped().session(suiting(due, Condition.WHEELCHAIR))
    written = shipped().session(due)
    assert session is not None and written is not None
    assert session.trains_strength(library()) is written.trains_strength(library())
    sitting = [library()[i.exercise].position is Position.SEATED for _, i in session.items()]
    assert sum(sitting) * 2 >= len(sitting)


@pytest.mark.parametrize("due", SESSIONS)
def test_everybody_else_gets_what_is_due(due: str) -> None:
    """Whatever they have."""
    assert suiting(due) == suiting(due, Condition.FALLS, Condition.OSTEOPOROSIS) == due


def test_a_session_of_which_half_can_be_done_stays() -> None:
    """With a walking aid too."""
    assert suiting("in-the-chair", Condition.WHEELCHAIR) == suiting("in-the-chair", Condition.WALKING_AID)
    assert suiting("in-the-chair", Condition.WALKING_AID) == "in-the-chair"
