"""What runs for a screen ends with its visit."""
from __future__ import annotations

import asyncio
import shutil
from pathlib import Path

import flet as ft
from flet.messaging.session_store import SessionStore

from app.ui.shell.visit import HELD_AS, end_with_visit, while_kept
from tests.tree.window import window


class Session:
    """Of a page: the part that is asked for."""

    def __init__(self) -> None:
        self.store = SessionStore()


class Page:
    """The part of a page that is asked for."""

    def __init__(self) -> None:
        self.session = Session()
        self.on_close = lambda _: None


def test_what_runs_ends_when_the_visit_is_over() -> None:
    """Also what would go on for ever; what was done before is let be, and other pages' work goes on."""
    async def run() -> list[bool]:
        one, other = Page(), Page()

        async def for_ever() -> None:
            await asyncio.Event().wait()

        async def soon() -> None:
            pass

        tasks = [asyncio.create_task(while_kept(page, work)()) for page, work in (  # type: ignore[arg-type]
            (one, for_ever), (one, soon), (other, for_ever))]
        end_with_visit(one)  # type: ignore[arg-type]
        await asyncio.sleep(0)
        one.on_close(None)
        await asyncio.wait(tasks, timeout=0.05)
        ended = [task.cancelled() for task in tasks] + [tasks[2].done()]
        tasks[2].cancel()
        return ended

    assert asyncio.run(run()) == [True, False, False, False]


def test_every_page_of_the_app_ends_so(ready: Path, tmp_path: Path) -> None:
    """Its reminder, and a session that was looked at; nothing of it is left to run."""
    with window(Path(shutil.copytree(ready, tmp_path / "data")), "/play") as person:
        page: ft.Page = person.client.page
        running = page.session.store.get(HELD_AS)
        assert running is not None and len(running) == 2
        person.client.event(page, "close")
        person.settle()
        assert len(running) == 0
