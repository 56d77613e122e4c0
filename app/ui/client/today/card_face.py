"""What today's card has to say first: which of its faces is shown."""
from __future__ import annotations

from enum import Enum

from app.actions.training.today import Today
from app.domain.model.level import Level
from app.domain.model.rules import RuleId


class CardFace(Enum):
    """The faces of the card, the more pressing first."""

    NO_PROGRAMME = "no programme"
    RUNNING = "running"
    STOPPED = "stopped"
    WAITING = "waiting"
    """Stop questions were ticked; a clinician's yes is missing."""
    SCREENING = "screening"
    YES_GIVEN = "yes given"
    """A yes came after this morning's answers, so they are asked once more."""
    NO_SESSION = "no session"
    DONE = "done"
    ANSWER = "answer"
    REST = "rest"
    TOO_SHORT = "too short"
    NOTHING_LEFT = "nothing left"
    ASK = "ask"
    """The check-in comes first."""
    READY = "ready"


def standing(card: Today, *, chosen: bool) -> CardFace:
    """The face to show. `chosen`: a session was picked by hand, so what was done today does not stand in front."""
    if card.pack is None:
        return CardFace.NO_PROGRAMME
    if card.is_running:
        return CardFace.RUNNING
    locked = _locked(card)
    if locked is not None:
        return locked
    if card.session is None:
        return CardFace.NO_SESSION
    if card.done is not None and card.check_in is None and not chosen:
        return CardFace.DONE
    return _of_the_day(card)


def _locked(card: Today) -> CardFace | None:
    """What keeps Start locked whatever the session."""
    if card.stop is not None or (_level(card) >= Level.ASK_FIRST and not _answered_by_a_yes(card)):
        return CardFace.STOPPED
    if card.person.waiting:
        return CardFace.WAITING
    if card.ask_again:
        return CardFace.SCREENING
    return CardFace.YES_GIVEN if _answered_by_a_yes(card) else None


def _level(card: Today) -> int:
    return card.timeline.dose.level if card.check_in and card.timeline else 0


def _answered_by_a_yes(card: Today) -> bool:
    """Answers that stopped them, where no stop waits any more."""
    return card.check_in is not None and (card.check_in.level or 0) >= Level.ASK_FIRST and card.stop is None


def _of_the_day(card: Today) -> CardFace:
    level = _level(card)
    if level >= Level.REST:
        return CardFace.ANSWER if _signs_open(card) else CardFace.REST
    if card.too_short is not None:
        return CardFace.TOO_SHORT
    if card.timeline is None or not any(s.is_effort for s in card.timeline.steps):
        return CardFace.NOTHING_LEFT
    return CardFace.READY if card.check_in else CardFace.ASK


def _signs_open(card: Today) -> bool:
    reasons = card.timeline.dose.reasons if card.timeline else ()
    return any(r.rule is RuleId.SYMPTOMS and r.missing for r in reasons)
