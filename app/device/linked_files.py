"""Files that a link or the command line names: beside the app on its own host, or on this machine's disk."""
from __future__ import annotations

import asyncio
import sys
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Protocol
from urllib.parse import parse_qs, quote, urlsplit

from app.domain.errors import Elsewhere, NoLinks, NoNetwork, NothingThere, TooLarge

#: `#/get?file=NAME` opens NAME.
ROUTE = "/get"
PAGE = "index.html"
#: How long a host may be silent.
WITHIN_S = 60
NOT_FOUND = frozenset({403, 404, 410})

Ask = Callable[[str, str, int], Awaitable[bytes]]
"""The bytes at an address, of a file of that name, up to so many."""


class Linked(Protocol):
    """Where a named file is looked for."""

    def name_in(self, link: str) -> str:
        """The file that a whole link names.

        Raises:
            Elsewhere, NoLinks: it is none into this app.
        """

    async def fetch(self, name: str, most: int) -> bytes:
        """Its bytes, at most so many.

        Raises:
            Elsewhere, NothingThere, TooLarge, NoNetwork, NoLinks: why there are none.
        """


class GivenFiles:
    """Files of this machine that were named when the program was started; no others."""

    def __init__(self, *paths: Path) -> None:
        self._paths = {path.name: path for path in paths}

    def name_in(self, link: str) -> str:
        raise NoLinks(name=link_file(link))

    async def fetch(self, name: str, most: int) -> bytes:
        path = self._paths.get(name)
        if path is None:
            raise NoLinks(name=name)
        try:
            if path.stat().st_size > most:
                raise _too_large(name, most)
            return path.read_bytes()
        except OSError as error:
            raise NothingThere(name=name) from error


class HostFiles:
    """Files beside the app, below its own folder and nowhere else. `page` is the app's address."""

    def __init__(self, page: str, ask: Ask | None = None) -> None:
        self._folder = folder_of(page)
        self._ask = ask or fetched

    def name_in(self, link: str) -> str:
        name = link_file(link)
        try:
            is_ours = folder_of(link) == self._folder
        except ValueError:  # no address at all, as with a bracket too many
            is_ours = False
        if not is_ours:
            raise Elsewhere(name=name)
        return name

    async def fetch(self, name: str, most: int) -> bytes:
        return await self._ask(address_below(self._folder, name), name, most)


def _too_large(name: str, most: int) -> TooLarge:
    return TooLarge(name=name, limit=f"{most // 1_000_000} MB", found="more")


def route_of(name: str) -> str:
    """The app's own address that opens a file."""
    return f"{ROUTE}?file={quote(name, safe='/')}"


def is_link(text: str) -> bool:
    """Whether it is one address, with the part that names a file."""
    return f"#{ROUTE}?" in text and len(text.split()) == 1


def link_file(link: str) -> str:
    """What a link calls its file; empty if it names none."""
    return parse_qs(link.partition("#")[2].partition("?")[2]).get("file", [""])[0]


def folder_of(page: str) -> str:
    """The folder that a page lies in, with a slash at its end: `https://host/studio-a/` of `…/studio-a/#/today`."""
    parts = urlsplit(page.partition("#")[0])
    return f"{parts.scheme.lower()}://{parts.netloc.lower()}{parts.path.rpartition('/')[0]}/"


def address_below(folder: str, name: str) -> str:
    """The address of a file below a folder.

    Raises:
        Elsewhere: the name leads out of it, or could be read as if it did.
    """
    parts = name.split("/")
    if any(part in ("", ".", "..") for part in parts) or not name.isprintable() or "\\" in name:
        raise Elsewhere(name=name or "A link without a file")
    # a host or a proxy may take `%2e%2e%2f` for what it stands for
    if "%" in name:
        raise Elsewhere(name=name)
    return folder + quote(name, safe="/")


async def fetched(address: str, name: str, most: int) -> bytes:
    """By the browser: from this host, never led to another, no further than allowed.

    Raises:
        NothingThere, TooLarge, NoNetwork: as `Linked.fetch`.
    """
    if sys.platform != "emscripten":
        raise NoLinks(name=name)
    from pyodide.ffi import JsException

    try:
        return await asyncio.wait_for(_fetched(address, name, most), WITHIN_S)
    except (JsException, TimeoutError) as silence:
        raise NoNetwork(name=name) from silence


async def _fetched(address: str, name: str, most: int) -> bytes:
    import js
    from pyodide.ffi import to_js

    wanted = to_js({"redirect": "error", "cache": "no-store"}, dict_converter=js.Object.fromEntries)
    answer = await js.fetch(address, wanted)
    if answer.status in NOT_FOUND:
        raise NothingThere(name=name)
    if not answer.ok:
        raise NoNetwork(name=name)
    reader, parts, so_far = answer.body.getReader(), list[bytes](), 0
    while not (part := await reader.read()).done:
        parts.append(part.value.to_bytes())
        so_far += len(parts[-1])
        if so_far > most:
            await reader.cancel()
            raise _too_large(name, most)
    return b"".join(parts)
