"""The app inside a browser: Python, the store and the screens in one page, with no server behind it.

`start` is what the page's worker runs. The store is opened at once, while the page is still being drawn.
"""
from __future__ import annotations

import asyncio
import functools
import gc
from typing import NamedTuple

import flet as ft

from app.actions.files.bundled import take_bundled
from app.device.abilities import Device
from app.device.blob_shelf import BlobShelf
from app.device.clock import SystemClock
from app.device.device import open_device
from app.device.linked_files import HostFiles
from app.device.private_files import folder_name, mount
from app.device.store_place import ask_for_newer, browser_place, tell_refused, tell_shown
from app.domain.branding.brand import EVENLOAD, Brand
from app.domain.errors import AppError, NewerDatabase, StoreBusy
from app.exchange.brands.ready_brand import READY_FILE, read_brand_packs, read_ready_brand
from app.lost_records import show_lost
from app.main import build_app
from app.resources import brand_file
from app.storage.database import FILE_NAME, Store, copy_of_the_day, open_store
from app.ui.notice_page import show_notice
from app.ui.routes import load_next
from app.words.machine import web

RETRY_S = 1.0
LATER_S, BETWEEN_S = 1.5, 0.2
"""After the first screen, and from one other screen that is loaded to the next."""


class OpenedApp(NamedTuple):
    """What every start needs before the first screen."""

    store: Store
    brand: Brand


def start() -> None:
    """Runs the app in this page."""
    import flet_js

    opening = asyncio.ensure_future(_open(str(flet_js.documentUrl)))
    ft.run(functools.partial(_show, opening, str(flet_js.documentUrl)))


async def _show(opening: asyncio.Future[OpenedApp], address: str, page: ft.Page) -> None:
    """The app, or in plain words why it cannot be shown; it goes on by itself once another page lets go."""
    gc.freeze()  # what was loaded stays; it was not looked through for waste meanwhile, see `entry.py`
    gc.enable()
    while True:
        try:
            opened = await opening
            break
        except StoreBusy:
            brand = _brand()
            show_notice(page, brand, web.BUSY_TITLE, web.busy(brand.name))
            tell_refused(folder_name(address))
            await asyncio.sleep(RETRY_S)
            opening = asyncio.ensure_future(_open(address))
        except NewerDatabase:
            brand = _brand()
            show_notice(page, brand, web.NEWER_TITLE, web.newer(brand.name))
            ask_for_newer(folder_name(address))
            return
        except AppError as error:
            show_lost(page, _brand(), error)
            tell_refused(folder_name(address))
            return
    await build_app(opened.store, _device, SystemClock(), opened.brand,
                    functools.partial(read_brand_packs, brand_file(), opened.brand))(page)
    tell_shown(folder_name(address))
    await _catch_up()


async def _catch_up() -> None:
    """What the start left for later: every screen but the first."""
    await asyncio.sleep(LATER_S)
    for _ in load_next():
        await asyncio.sleep(BETWEEN_S)


def _device(page: ft.Page, program: str) -> Device:
    import flet_js

    address = str(flet_js.documentUrl)
    place = browser_place(address, folder_name(address), str(getattr(flet_js.args, "offline", "") or ""))
    return open_device(page, program, BlobShelf, place, HostFiles(address))


async def _open(address: str) -> OpenedApp:
    """Raises:
        StorageError, DeviceError: there is no store to be had.
    """
    brand = _brand()
    store = open_store(await mount(folder_name(address)) / FILE_NAME)
    clock = SystemClock()
    copy_of_the_day(store, clock.now().date())
    await take_bundled(store, clock, brand, read_brand_packs(brand_file(), brand))
    return OpenedApp(store, brand)


def _brand() -> Brand:
    path = brand_file()
    if path is None:
        return EVENLOAD
    ready = path.with_name(READY_FILE)
    if ready.is_file():
        return read_ready_brand(ready)
    from app.exchange.brands.brand_file import read_brand  # made by a version that left no ready one

    return read_brand(path)
