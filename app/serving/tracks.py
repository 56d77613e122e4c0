"""Hands out the sound tracks of running sessions beside the app; the gate stands before both."""
from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial
from pathlib import Path

from starlette.responses import FileResponse, Response

from app.data_folder import TRACKS
from app.device.track_folder import FolderShelf
from app.serving.gate import App, Receive, Scope, Send

#: Within the data directory, and before a track's name in its address.
FOLDER = TRACKS
PATH = re.compile(rf"/{FOLDER}/([A-Za-z0-9_-]{{16,64}}\.wav)")


def shelf_in(data_dir: Path) -> Callable[[], FolderShelf]:
    """What makes a page's place for tracks, where `Tracks` hands them out."""
    return partial(FolderShelf, data_dir / FOLDER, FOLDER)


class Tracks:
    """An ASGI app around another one. Files are read as they are asked for, also in parts."""

    def __init__(self, app: App, folder: Path) -> None:
        self._app = app
        self._folder = folder

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        found = PATH.fullmatch(scope["path"]) if scope["type"] == "http" else None
        if found is None:
            await self._app(scope, receive, send)
            return
        try:
            await FileResponse(self._folder / found[1], media_type="audio/wav")(scope, receive, send)
        except RuntimeError:  # so it says that there is no such file, before it has said anything
            await Response(status_code=404)(scope, receive, send)
