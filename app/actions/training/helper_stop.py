"""Somebody who leads sees before a session that the person is not as always."""
from __future__ import annotations

from dataclasses import replace

from app.actions.training.check_in import blank_check_in, decided_in, with_signs
from app.actions.training.today import Today, card_in
from app.device.clock import Clock
from app.domain.model.diary import AnsweredBy
from app.domain.model.person import Person
from app.storage.database import Store


def stop_today(store: Store, clock: Clock, person: Person, sign: str, mark: str) -> Today:
    """What was seen, added to this morning's answers: a sign stops them as if it had been told then.

    `mark` goes into the note. Without a sign nothing is decided: they are tired, and there is another day.
    """
    with store.begin() as db:
        told = card_in(db, clock, person.id).check_in or blank_check_in(clock, person.id)
        told = replace(told, note=f"{told.note} {mark}.".strip(), answered_by=AnsweredBy.LEADER)
        if sign:
            told = with_signs(told, tuple(dict.fromkeys([*told.signs, sign])))
        return decided_in(db, clock, told)
