"""What only a desktop computer's own system offers, through plyer."""
from __future__ import annotations

import asyncio
import contextlib
import importlib
import io
import sys
import warnings
from collections.abc import Callable


def is_desktop() -> bool:
    """Whether plyer is safe to touch: on a phone its look-ups can end the process, in a browser it has nothing."""
    return sys.platform in {"linux", "darwin", "win32"} and not hasattr(sys, "getandroidapilevel")


def feature_method(feature: str, method: str) -> Callable[..., object]:
    """plyer's `feature.method`. It prints a traceback when it has no back end; that is kept from the screen.

    Raises:
        NotImplementedError: not a desktop.
    """
    if not is_desktop():
        raise NotImplementedError(feature)
    with contextlib.redirect_stderr(io.StringIO()), warnings.catch_warnings():
        warnings.simplefilter("ignore")
        found: Callable[..., object] = getattr(getattr(importlib.import_module("plyer"), feature), method)
    return found


async def on_desktop(feature: str, method: str, **what: str) -> None:
    """Calls plyer in a thread, since it blocks until it is done.

    Raises:
        Exception: whatever plyer's back end raises where it lacks something.
    """
    act = feature_method(feature, method)
    await asyncio.to_thread(act, **what)
