"""A few files that lie over those of another app: the icons and the manifest of a brand."""
from __future__ import annotations

import mimetypes
from collections.abc import Mapping

from app.serving.gate import App, Receive, Scope, Send


class Overlay:
    """An ASGI app around another one. `files`: bytes by path from the root, such as `icons/icon-192.png`."""

    def __init__(self, app: App, files: Mapping[str, bytes]) -> None:
        self._app = app
        self._files = {f"/{name}": data for name, data in files.items()}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        data = self._files.get(scope.get("path", "")) if scope["type"] == "http" else None
        if data is None:
            await self._app(scope, receive, send)
            return
        kind = mimetypes.guess_type(scope["path"])[0] or "application/octet-stream"
        headers = [(b"content-type", kind.encode()), (b"content-length", b"%d" % len(data))]
        await send({"type": "http.response.start", "status": 200, "headers": headers})
        await send({"type": "http.response.body", "body": b"" if scope["method"] == "HEAD" else data})
