"""Work that nobody waits for, beside the loop that is running."""
from __future__ import annotations

import asyncio
from collections.abc import Callable


def beside(act: Callable[[], object]) -> None:
    """Begins it in a thread of the loop's own; without a loop it is done at once."""
    try:
        loop = asyncio.get_running_loop()
    except RuntimeError:
        act()
    else:
        loop.run_in_executor(None, act)
