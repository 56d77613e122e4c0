"""Words of the screen that asks who is here."""
from __future__ import annotations

from app.domain.model.record import Person

TITLE = "Who is here?"
COACH = "The coach’s desk"
NEW = "Somebody new"


def about(person: Person) -> str:
    """One line about a person: who leads them, or that they train alone."""
    if person.led_by:
        return f"led by {person.led_by}"
    return "trains alone" if person.body.alone else "trains here"
