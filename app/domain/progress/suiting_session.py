"""Which session somebody does who only sits, or stands only with something to hold: the due one, or one that suits."""
from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from app.domain.compile.stations import session_kit
from app.domain.compile.substitution import Library
from app.domain.dosing.limits import limits_today
from app.domain.model.client import Client, Place
from app.domain.model.session import Session

ENOUGH = 50
"""Percent of the stations that can be done as written; with fewer another session is looked for. [P]"""


def suiting_session(due: Session, sessions: Sequence[Session], library: Library, client: Client, place: Place,
                    today: date) -> Session:
    """The due session, or of its kind the one of which most can be done as written; the earlier of two alike.

    One session of a kind stands for another, so that the programme goes on with it.
    """
    limits = limits_today(client, place, None, frozenset(), today)
    if not (limits.is_seated or limits.is_held_up):
        return due
    share = {session.id: _share(session, library, client, place, today) for session in (due, *sessions)}
    if share[due.id] >= ENOUGH:
        return due
    kind = due.trains_strength(library)
    alike = [session for session in sessions if session.trains_strength(library) is kind]
    return max((due, *alike), key=lambda session: share[session.id])


def _share(session: Session, library: Library, client: Client, place: Place, today: date) -> int:
    """Percent of its stations that this body and room allow as they are written."""
    limits = limits_today(client, place, None, session_kit(session, library), today)
    written = [library[item.exercise] for _, item in session.items()]
    return 100 * sum(not limits.against(exercise) for exercise in written) // len(written) if written else 0
