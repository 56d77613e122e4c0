"""Tracks as the browser's own blobs: made in the page's worker, fetched by its player, with nothing sent anywhere."""
from __future__ import annotations

from typing import Any

from app.domain.sound.audio_track import CueTrack, write_track


class _Parts:
    """A file to write to that hands each block to the browser, so that a track never lies in Python's memory whole."""

    def __init__(self) -> None:
        from js import Array
        from pyodide.ffi import to_js

        self.array: Any = Array.new()
        self._to_js = to_js

    def write(self, data: bytes) -> int:
        self.array.push(self._to_js(bytes(data)))
        return len(data)


class BlobShelf:
    """One page's tracks. The one before stays, since the player may still be reading it."""

    def __init__(self) -> None:
        self._kept: list[str] = []

    async def keep(self, track: CueTrack, since: int) -> str:
        """A whole new one for each version: it takes well under a rest."""
        import js
        from pyodide.ffi import to_js

        parts = _Parts()
        write_track(track, parts)  # type: ignore[arg-type]
        kind = to_js({"type": "audio/wav"}, dict_converter=js.Object.fromEntries)
        self._kept.append(str(js.URL.createObjectURL(js.Blob.new(parts.array, kind))))
        for old in self._kept[:-2]:
            self._revoke(old)
        return self._kept[-1]

    def drop(self) -> None:
        for address in list(self._kept):
            self._revoke(address)

    def _revoke(self, address: str) -> None:
        import js

        js.URL.revokeObjectURL(address)
        self._kept.remove(address)
