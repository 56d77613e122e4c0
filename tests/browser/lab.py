"""Python inside a browser without the app's screens: the built app's parts, and whatever code a test sends.

What is sent is a function's body; `answer` must be set to a text.
"""
from __future__ import annotations

import asyncio
import json
import textwrap
from collections.abc import Coroutine, Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any, TypeVar

from playwright.sync_api import Browser, BrowserContext, Page

T = TypeVar("T")

LAB = Path(__file__).parent / "lab"
#: Laid over the built app by the server of a test.
LAB_FILES: Mapping[str, bytes] = {path.name: path.read_bytes() for path in LAB.iterdir()}


class BrokeThere(Exception):
    """The code sent to the browser raised; the words are its traceback."""


class Lab:
    """One page with Python in it."""

    def __init__(self, context: Browser | BrowserContext, address: str) -> None:
        self.page: Page = context.new_page()
        self.page.goto(f"{address}lab.html")

    def run(self, code: str, **values: Any) -> Any:
        """Runs code with these JSON values as names, and gives its `answer`, which is JSON text.

        Raises:
            BrokeThere: it raised.
        """
        given = f"import json\nglobals().update(json.loads({json.dumps(values)!r}))\nanswer = 'null'\n"
        got = self.page.evaluate("code => ask(code)", given + textwrap.dedent(code))
        if "error" in got:
            raise BrokeThere(got["error"])
        return json.loads(got["answer"])

    def close(self) -> None:
        """Ends the page and the Python in it."""
        self.page.close()


def natively(task: Coroutine[Any, Any, T]) -> T:
    """The result of a coroutine run here. In a thread, since the thread that drives a browser has a loop going."""
    with ThreadPoolExecutor(1) as apart:
        return apart.submit(asyncio.run, task).result()
