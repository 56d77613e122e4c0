"""Stamps for records made on this device."""
from __future__ import annotations

import uuid

from app.device.clock import Clock
from app.domain.model.record import Stamp
from app.storage.journal import SavedPosition


def new_stamp(clock: Clock, person_id: str) -> Stamp:
    """A stamp of this instant with an id of its own. The training day is the local date."""
    now = clock.now()
    here = clock.local(now)
    return Stamp(uuid.uuid4().hex, person_id, now, here.day, here.offset_min)


def beat_now(clock: Clock, position_ms: int) -> SavedPosition:
    """Where a session stands, by both clocks."""
    return SavedPosition(position_ms, clock.now(), clock.monotonic_ms())
