"""One way to ask the machine for something: bounded in time, never raising, noted once where it lacks.

A window that has gone lacks nothing: it is only not there.
"""
from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable

from app.device.abilities import Ability, Missing
from app.device.window import is_gone

log = logging.getLogger(__name__)


async def ask(ability: Ability, missing: Missing, act: Callable[[], Awaitable[object]], within_s: float) -> bool:
    """Whether the machine did `act` in time. A machine that cannot must never stop a session.

    Flet raises RuntimeError, TimeoutError, ValueError or its own kinds for what a client lacks, and plyer whatever its
    back end does; so every Exception means "not here". Cancelling passes through.
    """
    try:
        await asyncio.wait_for(act(), within_s)
    except Exception as lack:
        log.debug("%s: %r", ability, lack)
        if not is_gone():
            missing.note(ability)
        return False
    missing.forget(ability)
    return True
