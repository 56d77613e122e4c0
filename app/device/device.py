"""The device behind a page."""
from __future__ import annotations

from collections.abc import Callable

import flet as ft

from app.device.abilities import Device, Missing
from app.device.files import FletFiles
from app.device.haptics import FletHaptics
from app.device.linked_files import GivenFiles, Linked
from app.device.notices import PlyerNotices
from app.device.page_tree import FletPageTree
from app.device.screen_awake import FletAwake
from app.device.sound import FletSounds
from app.device.speech import PageSpeech, PlyerSpeech
from app.device.store_place import StorePlace, native_place
from app.device.track import FletTrack, TrackShelf

__all__ = ["Device", "open_device"]

HELD_AS = "device"


def open_device(page: ft.Page, program: str = "Evenload", shelf: Callable[[], TrackShelf] | None = None,
                place: StorePlace | None = None, linked: Linked | None = None) -> Device:
    """What the machine of this page may offer. Call it once per page, from `main`: a second call gives the same.

    `shelf` makes the place for this page's sound tracks; without it sessions are told by single tones.
    `linked` has the files that a link may name; without it there are none.

    The page's session holds it, since Flet drops a service that nobody refers to and may lose the session with it.
    """
    held = page.session.store.get(HELD_AS)
    if isinstance(held, Device):
        return held
    missing, where = Missing(), place or native_place()
    speech = PageSpeech(missing, where) if where.in_browser else PlyerSpeech(missing)
    device = Device(FletSounds(missing), FletHaptics(missing), speech, FletAwake(missing),
                    PlyerNotices(missing, program), FletFiles(missing), missing,
                    FletTrack(missing, shelf() if shelf else None), FletPageTree(missing), where,
                    linked or GivenFiles())
    page.session.store.set(HELD_AS, device)
    return device
