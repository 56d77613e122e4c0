"""A programme: which session on which day of which week, and which weeks are lighter."""
from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Week:
    """The sessions of one week in their order. A lighter week halves the rounds, rounded up."""

    sessions: tuple[str, ...]
    lighter: bool = False
    note: str = ""


@dataclass(frozen=True)
class Programme:
    """Weeks in order; a session is due in its week, on any day that suits, with a day between strength sessions."""

    id: str
    name: str
    weeks: tuple[Week, ...]
    about: str = ""

    def session_ids(self) -> tuple[str, ...]:
        """Every session it uses, once each, in the order of first use."""
        return tuple(dict.fromkeys(s for week in self.weeks for s in week.sessions))
