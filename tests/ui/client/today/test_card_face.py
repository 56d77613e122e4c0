"""The card shows the more pressing face first, and Start only where nothing speaks against it."""
from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from app.actions.training.today import Today
from app.domain.dosing.way_back import Stop
from app.domain.errors import TooShort
from app.domain.model.person import Person
from app.domain.model.plan import Dose, Part, Reason, Step, StepKind, Timeline
from app.domain.model.record import CheckIn, Ending, SessionDone, Stamp
from app.domain.model.rules import RuleId
from app.storage.packs import KeptPack
from app.ui.client.today.card_face import CardFace, standing
from tests.exchange.fixed import SOURCE

DAY = date(2026, 3, 2)
NOW = datetime(2026, 3, 2, 7, 30, tzinfo=UTC)
STAMP = Stamp("c", "ada", NOW, DAY, 0)
WORK = (Step(StepKind.WORK, Part.MAIN, 0, 30_000, "rise"),)


def dose(level: int, *reasons: Reason) -> Dose:
    """Of that level."""
    return Dose(level, 1, 100, 100, 100, reasons)


READY = Today(
    Person("ada", "Ada", screened=DAY), DAY, KeptPack("ab", "key", SOURCE, NOW), session=SOURCE.sessions[0],
    check_in=CheckIn(STAMP, frozenset(), level=1), timeline=Timeline("short", WORK, dose(1)),
)
STOP = Stop("c", 7, NOW, "stop_and_ask", "clinician")
DONE = SessionDone(STAMP, "Short one", Timeline("short", (), dose(1)), "", Ending.FINISHED, (), 600)
OPEN_SIGNS = Reason(RuleId.SYMPTOMS, 6, (("missing", "symptoms"),))
SAME_DAY = Reason(RuleId.DAYS, 6, (("days", 0),))


@pytest.mark.parametrize(("card", "face"), [
    (READY, CardFace.READY),
    (replace(READY, check_in=None), CardFace.ASK),
    (replace(READY, pack=None), CardFace.NO_PROGRAMME),
    (replace(READY, is_running=True, stop=STOP), CardFace.RUNNING),
    (replace(READY, stop=STOP), CardFace.STOPPED),
    (replace(READY, check_in=None, stop=STOP), CardFace.STOPPED),
    (replace(READY, timeline=Timeline("short", (), dose(7))), CardFace.STOPPED),
    (replace(READY, person=Person("ada", "Ada", waiting=frozenset({"aneurysm"})), ask_again=True), CardFace.WAITING),
    (replace(READY, ask_again=True), CardFace.SCREENING),
    (replace(READY, check_in=CheckIn(STAMP, level=7), timeline=Timeline("short", (), dose(7))), CardFace.YES_GIVEN),
    (replace(READY, check_in=CheckIn(STAMP, level=8), ask_again=True), CardFace.SCREENING),
    (replace(READY, session=None), CardFace.NO_SESSION),
    (replace(READY, check_in=None, done=DONE), CardFace.DONE),
    (replace(READY, timeline=Timeline("short", (), dose(6, OPEN_SIGNS))), CardFace.ANSWER),
    (replace(READY, timeline=Timeline("short", (), dose(6, SAME_DAY))), CardFace.REST),
    (replace(READY, timeline=None, too_short=TooShort(session="s", least_s=900, asked_s=600)), CardFace.TOO_SHORT),
    (replace(READY, timeline=Timeline("short", (), dose(1))), CardFace.NOTHING_LEFT),
])
def test_the_face(card: Today, face: CardFace) -> None:
    """Of every state."""
    assert standing(card, chosen=False) is face


def test_a_session_picked_by_hand_is_shown_after_today_s(
) -> None:
    """What was done today does not stand in front of it; a stop does."""
    card = replace(READY, check_in=None, done=DONE)
    assert standing(card, chosen=True) is CardFace.ASK
    assert standing(replace(card, stop=STOP), chosen=True) is CardFace.STOPPED
