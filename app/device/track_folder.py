"""Tracks as files in a folder that the program's own server hands out, each under a name that nobody can guess."""
from __future__ import annotations

import asyncio
import contextlib
import os
import secrets
import shutil
from pathlib import Path

from app.domain.sound.audio_track import CueTrack, write_rest, write_track
from app.domain.sound.wav import BYTES, HEADER_BYTES, wav_header

COPIED_AT_ONCE = 1 << 20


class FolderShelf:
    """One page's files. `address` stands before a file's name where the client looks for it."""

    def __init__(self, folder: Path, address: str) -> None:
        self._folder = folder
        self._address = address
        self._kept: list[Path] = []

    async def keep(self, track: CueTrack, since: int) -> str:
        """A file of its own for each version, since the client may still be reading the one before."""
        path = self._folder / f"{secrets.token_urlsafe(16)}.wav"
        before = self._kept[-1] if self._kept and since else None
        self._kept.append(path)
        await asyncio.to_thread(_write, track, path, before, since)
        for old in self._kept[:-2]:
            self._remove(old)
        return f"{self._address}/{path.name}"

    def drop(self) -> None:
        for path in list(self._kept):
            self._remove(path)

    def _remove(self, path: Path) -> None:
        with contextlib.suppress(OSError):  # Windows keeps a file that is being read; the next start sweeps
            path.unlink(missing_ok=True)
            self._kept.remove(path)


def swept(folder: Path) -> Path:
    """The folder, there, empty, and its owner's alone. Only who holds the data directory may ask for this."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    if os.name != "nt":
        folder.chmod(0o700)
    return folder


def _write(track: CueTrack, path: Path, before: Path | None, since: int) -> None:
    """The whole track; or what sounded before up to sample `since`, and from there on the track."""
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    with open(path, "xb", opener=lambda name, flags: os.open(name, flags, 0o600)) as out:
        if before is None:
            write_track(track, out)
            return
        out.write(wav_header(track.length))
        with before.open("rb") as old:
            old.seek(HEADER_BYTES)
            left = since * BYTES
            while left and (block := old.read(min(left, COPIED_AT_ONCE))):
                out.write(block)
                left -= len(block)
        write_rest(track, out, since - left // BYTES)
