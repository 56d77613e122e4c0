"""Somebody who trains: who they are, their body and places, and what they agreed to send."""
from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from app.domain.model.client import STARTER_PLACES, Client, Place
from app.domain.model.omit_defaults import LATE

#: Nothing said about a body.
NO_BODY = Client()


@dataclass(frozen=True)
class Person:
    """Somebody who trains on this device, or whose returns come to this desk."""

    id: str
    name: str
    body: Client = NO_BODY
    places: tuple[Place, ...] = STARTER_PLACES
    place: str = "Home"
    """Name of the place chosen last."""
    birth_year: int | None = None
    country: str = ""
    pounds: bool = False
    goals: str = ""
    led_by: str = ""
    """Name of the family member who leads them; empty: they train by themselves."""
    emergency_contact: str = ""
    emergency_number: str = "112"
    sends: frozenset[str] = frozenset({"sessions", "pain", "check_ins", "notes"})
    """What they agreed to send."""
    screened: date | None = None
    """When the stop questions were last answered with "no", or a clinician's yes to them was recorded."""
    waiting: frozenset[str] = frozenset()
    """Stop questions that were ticked and still wait for a clinician's yes: ids in `app/domain/dosing/screening.py`."""
    told_by: str = ""
    """Who named the conditions, in the person's own words, such as "Dr Moss, last spring"."""
    coach_key: str = ""
    programme: str = ""
    started: date | None = None
    sex: str = ""
    """`woman`, `man` or empty; only for the published bands of the chair stand, on the coach's side."""
    answered_list: int = field(default=1, metadata=LATE)
    """Which list of stop questions was answered last; 1: the first one, as with everybody who was here before."""

    @property
    def asked(self) -> str:
        """Their name where somebody leads them, so that pages speak of them and not to them; else empty."""
        return self.name if self.led_by else ""
