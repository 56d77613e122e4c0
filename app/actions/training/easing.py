"""Taking back an easier option that was chosen by mistake."""
from __future__ import annotations

from app.actions.training.playing import Playing, do
from app.device.clock import Clock
from app.domain.model.exercise import Exercise
from app.domain.player.player import TakenBack
from app.storage import people
from app.storage.database import Store


def undo_easier(store: Store, clock: Clock, playing: Playing, was: Exercise, now: Exercise) -> Playing:
    """What stood there before the last `take_easier`, for the rest of the session; the choice is forgotten.

    What was done meanwhile stays as it was done. `was` is what it was, `now` the easier option that was taken.
    """
    written = next((s.written for s in playing.state.steps if s.exercise == now.id and s.written), was.id)
    playing = do(store, clock, playing, TakenBack())
    with store.begin() as db:
        people.forget_choice(db, playing.person.id, written, now.id)
    return playing
