"""Where the app runs, as far as it bears on what is kept: this machine's own disk, or a browser's storage.

Only a page knows some of it; `page.js` tells the worker over a channel of the same name.
"""
from __future__ import annotations

import sys
from dataclasses import dataclass
from datetime import datetime
from typing import Any


@dataclass
class StorePlace:
    """What is known so far. In a browser, more is told a moment after the start."""

    in_browser: bool = False
    is_kept: bool = False
    """The browser has agreed not to delete the store by itself."""
    on_home_screen: bool = False
    """Opened as an installed app and not in a browser's tab."""
    offline_start: datetime | None = None
    """When a start without a network was last seen to succeed on this device; None: not tried yet."""
    newer_waits: bool = False
    """A newer version is downloaded; it is used from the next start on."""
    uses_bytes: int = 0
    """What the browser keeps for this host, as it reckons it; 0: not known."""
    asks_to_keep: bool = False
    """Asked to keep the store, this browser would ask the person; others decide by themselves."""
    has_voice: bool = False
    """The browser has a voice that needs no network."""
    folder: str = ""
    """Of the app within this browser, as `private_files.folder_name` gives it."""


def native_place() -> StorePlace:
    """A program of its own on this machine."""
    return StorePlace()


def browser_place(address: str, folder: str, offline: str) -> StorePlace:
    """The page at an address; `offline` is the instant handed over at the start, ISO text, or empty."""
    place = StorePlace(in_browser=True, offline_start=_instant(offline), folder=folder)
    if sys.platform == "emscripten":
        _listen(place, folder)
    return place


def told(place: StorePlace, message: Any) -> None:
    """Takes over what the page says."""
    place.is_kept = bool(message.get("kept", place.is_kept))
    place.on_home_screen = bool(message.get("home", place.on_home_screen))
    place.offline_start = _instant(message.get("offline", "")) or place.offline_start
    place.newer_waits = bool(message.get("newer", place.newer_waits))
    place.uses_bytes = int(message.get("uses", place.uses_bytes))
    place.asks_to_keep = bool(message.get("asks", place.asks_to_keep))
    place.has_voice = bool(message.get("voice", place.has_voice))


def tell_shown(folder: str) -> None:
    """Tells the page that the first screen stands, upon which it notes a start without a network."""
    _say(folder, "shown")


def tell_refused(folder: str) -> None:
    """Tells the page that Python stands, though it shows why there is no first screen."""
    _say(folder, "refused")


def ask_to_keep(place: StorePlace) -> None:
    """Has the page ask the browser not to delete the store by itself, which some put to the person; call it on a press.

    What the browser says is told to the place a moment later.
    """
    _say(place.folder, "keep")


def ask_for_newer(folder: str) -> None:
    """Has the page start again with the newer version, once that is downloaded. Call it where nothing else runs."""
    _say(folder, "newer wanted")


def tell_voice(folder: str, words: str) -> None:
    """Has the page speak or be silent; see `build/web/voice.js`."""
    _post(f"voice:{folder}", words)


def _say(folder: str, word: str) -> None:
    _post(f"page:{folder}", word)


def _post(name: str, words: str) -> None:
    if sys.platform == "emscripten":
        import js

        channel = js.BroadcastChannel.new(name)
        channel.postMessage(words)
        channel.close()


def _listen(place: StorePlace, folder: str) -> None:
    import js
    from pyodide.ffi import create_proxy

    def heard(event: Any) -> None:
        if not isinstance(event.data, str):  # words are for pages
            told(place, event.data.to_py())

    channel = js.BroadcastChannel.new(f"page:{folder}")
    channel.onmessage = create_proxy(heard)
    channel.postMessage("tell")


def _instant(text: str) -> datetime | None:
    try:
        return datetime.fromisoformat(text)
    except ValueError:
        return None
