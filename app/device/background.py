"""Work that nobody waits for, beside the loop that is running."""
from __future__ import annotations

import asyncio
from collections.abc import Callable


def beside(act: Callable[[], object]) -> None:
    """Begins it in a thread of the loop's own; what it raises is told by the loop. Only while a loop runs."""
    asyncio.get_running_loop().run_in_executor(None, act)
