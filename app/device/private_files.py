"""The browser's private file system under Python's own: what is written here is on the disk when the write returns.

The work is done by `opfs_fs.mjs` beside the page, which its worker hands to Python as `store_files`. One page at a
time may hold a folder.
"""
from __future__ import annotations

import asyncio
from pathlib import Path
from typing import Any
from urllib.parse import quote, urlsplit

from app.domain.errors import NewerDatabase, NoPrivateFiles, NoRoom, StoreBusy

#: A page that is being reloaded may still be letting go of its files.
WAIT_S = 2.0
STEP_S = 0.1
#: How `opfs_fs.mjs` lays files.
SLOTS = "evenload slot 1"


def folder_name(address: str) -> str:
    """The folder of the app at an address: two apps on one host have two, and so does one app at two places.

    `https://host/studio-a/#/today` gives `evenload_studio-a`. `page.js` names it alike.
    """
    parts = [part for part in urlsplit(address).path.split("/")[:-1] if part]
    return "_".join(["evenload", *(quote(part, safe="!'()*").replace("_", "%5F") for part in parts)])


async def mount(folder: str, where: Path = Path("/store"), wait_s: float = WAIT_S) -> Path:
    """Makes the folder of the private file system appear at `where`, and holds it until this page ends.

    Raises:
        StoreBusy: another page holds it.
        NewerDatabase: a newer version laid its files otherwise; nothing was changed.
        NoRoom: the browser gives no room for it.
        NoPrivateFiles: this browser, or this page of it, has none.
    """
    files = _module()
    end = asyncio.get_running_loop().time() + wait_s
    claimed = False
    while True:
        claimed = claimed or bool(await files.claim(f"store:{folder}"))
        if claimed and await _mounted(files, folder, where):
            return where
        if asyncio.get_running_loop().time() > end:
            raise StoreBusy(path=folder)
        await asyncio.sleep(STEP_S)


async def _mounted(files: Any, folder: str, where: Path) -> bool:
    """False while another page still holds a file of the folder."""
    import pyodide_js
    from pyodide.ffi import JsException

    try:
        await files.mount(pyodide_js.FS, str(where), folder)
    except JsException as refusal:
        if "NoModificationAllowed" in str(refusal):
            return False
        if "QuotaExceeded" in str(refusal):
            raise NoRoom(path=folder) from refusal
        if "NewerSlots" in str(refusal):
            raise NewerDatabase(path=folder, found=str(refusal), known=SLOTS) from refusal
        raise NoPrivateFiles(why=str(refusal)) from refusal
    return True


def _module() -> Any:
    try:
        import store_files
    except ImportError as error:
        raise NoPrivateFiles(why="not in a browser") from error
    return store_files
