"""A window that may have gone: its visit is kept for half an hour, and what runs for it meanwhile gets no error."""
from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import TypeVar

import flet as ft

T = TypeVar("T")


def is_gone() -> bool:
    """Whether nobody sees the page for which this runs; somebody may come back to it."""
    try:
        return ft.context.page.session.connection is None
    except RuntimeError:  # there is no page, or its visit is over
        return False


async def answer_of(call: Callable[[], Awaitable[T]]) -> T | None:
    """What the window says; None where it has gone, goes before it has answered, or cannot do it.

    It is waited for until then: an answer to a service that was dropped meanwhile would end the window.
    """
    if is_gone():
        return None
    try:
        return await call()
    except (RuntimeError, TimeoutError):
        return None
