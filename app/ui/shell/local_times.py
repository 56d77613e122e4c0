"""Instants as the person's own clock would have shown them."""
from __future__ import annotations

from datetime import datetime, timedelta, timezone

from app.ui.shell.shell import Shell


def here(shell: Shell, instant: datetime) -> datetime:
    """The instant where the person is."""
    return instant.astimezone(timezone(timedelta(minutes=shell.clock.local(instant).offset_min)))
