"""Spots that are known to be sore, so that a question about pain begins with them."""
from __future__ import annotations

from app.actions.training.playing import Playing
from app.domain.dosing.history import check_ins_of, sessions_of
from app.domain.model.body import Spot
from app.storage import records
from app.storage.database import Store

MOST = 6


def sore_spots(store: Store, playing: Playing) -> tuple[Spot, ...]:
    """What hurt in this session, this morning, after the last one, then what is spared; at most six."""
    with store.read() as db:
        past = records.all_records(db, playing.person.id)
    found = [hurt.spot for hurt in reversed(playing.state.hurts)]
    for told in (check_ins_of(past)[-1:], sessions_of(past)[-1:]):
        for record in told:
            levels = record.pain or {}
            found += sorted((spot for spot in levels if levels[spot]), key=lambda spot: (-levels[spot], spot))
    found += [*sorted(playing.person.body.spare), *sorted(playing.person.body.usual_pain)]
    return tuple(dict.fromkeys(found))[:MOST]
