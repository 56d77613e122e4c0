"""What runs for as long as a screen is shown, and at most as long as its visit is kept.

Flet ends an effect with its component, but leaves every component of a visit that is over as it is: its effects would
go on until the program ends, and hold the page.
"""
from __future__ import annotations

import asyncio
import functools
from collections.abc import Awaitable, Callable, Coroutine
from typing import Any

import flet as ft

HELD_AS = "running"


def while_kept(page: ft.Page, work: Callable[[], Awaitable[None]]) -> Callable[[], Awaitable[None]]:
    """`work`, for an effect; it is cancelled when the visit is over, if not before."""
    @functools.wraps(work)
    async def run() -> None:
        running, task = _running(page), asyncio.current_task()
        assert task
        running.add(task)
        try:
            await work()
        finally:
            running.discard(task)
    return run


def start(page: ft.Page, work: Coroutine[Any, Any, object]) -> None:
    """Begins it beside what runs, and ends it with the visit, if not before. Nobody needs to see the page."""
    running = _running(page)
    task = asyncio.create_task(work)
    running.add(task)
    task.add_done_callback(running.discard)


def end_with_visit(page: ft.Page) -> None:
    """From now on, whatever runs for this page ends with its visit."""
    def over(_: object) -> None:
        for task in tuple(_running(page)):
            task.cancel()
    page.on_close = over


def _running(page: ft.Page) -> set[asyncio.Task[object]]:
    """The tasks of a page, which its session holds."""
    held: set[asyncio.Task[object]] | None = page.session.store.get(HELD_AS)
    if held is None:
        held = set()
        page.session.store.set(HELD_AS, held)
    return held
