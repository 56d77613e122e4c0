"""A folder behind a plain static host on this machine: nothing but files, at any path, and a list of what was asked."""
from __future__ import annotations

import contextlib
import socket
import threading
from collections.abc import Mapping
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from types import TracebackType
from typing import Any

TYPES = {".html": "text/html", ".js": "text/javascript", ".mjs": "text/javascript", ".json": "application/json",
         ".wasm": "application/wasm", ".png": "image/png", ".wav": "audio/wav", ".css": "text/css"}


class StaticSite:
    """Serves one folder or several, each at its own path such as `/` or `/studio-a/`, until it is stopped.

    `extra` are files laid over each of them.
    """

    def __init__(self, folders: Mapping[str, Path], extra: Mapping[str, bytes] | None = None) -> None:
        self.folders, self.extra = dict(folders), dict(extra or {})
        self.asked: list[str] = []
        self._server = _Host(("127.0.0.1", 0), _handler(self))
        self._server.daemon_threads = True
        threading.Thread(target=self._server.serve_forever, daemon=True).start()

    @property
    def address(self) -> str:
        """Of the host, with a slash at its end."""
        return f"http://127.0.0.1:{self._server.server_port}/"

    def found(self, path: str) -> bytes | None:
        """The file at a path; the longest folder that fits counts."""
        for prefix in sorted(self.folders, key=len, reverse=True):
            if path.startswith(prefix):
                name = path.removeprefix(prefix) or "index.html"
                place = self.folders[prefix] / name
                if name in self.extra:
                    return self.extra[name]
                return place.read_bytes() if ".." not in name and place.is_file() else None
        return None

    def stop(self) -> None:
        """No more answers, as if the machine were gone: what a browser holds open is cut too."""
        self._server.shutdown()
        self._server.cut()
        self._server.server_close()

    def __enter__(self) -> StaticSite:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None,
                 trace: TracebackType | None) -> None:
        self.stop()


class _Host(ThreadingHTTPServer):
    """Remembers what is connected, since browsers keep connections for the next request."""

    def __init__(self, address: tuple[str, int], handler: type[BaseHTTPRequestHandler]) -> None:
        super().__init__(address, handler)
        self._open: set[socket.socket] = set()

    def process_request(self, request: Any, client_address: Any) -> None:
        self._open.add(request)
        super().process_request(request, client_address)

    def shutdown_request(self, request: Any) -> None:
        self._open.discard(request)
        super().shutdown_request(request)

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser may be killed while it asks."""

    def cut(self) -> None:
        """Ends every connection."""
        for one in list(self._open):
            with contextlib.suppress(OSError):
                one.shutdown(socket.SHUT_RDWR)


def _handler(site: StaticSite) -> type[BaseHTTPRequestHandler]:
    class Handler(BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"

        def do_GET(self) -> None:
            path = self.path.split("?")[0]
            site.asked.append(path)
            data = site.found(path)
            self.send_response(404 if data is None else 200)
            self.send_header("content-type", TYPES.get(Path(path).suffix or ".html", "application/octet-stream"))
            self.send_header("content-length", str(len(data or b"")))
            self.send_header("cache-control", "no-cache")
            self.end_headers()
            if self.command != "HEAD":
                self.wfile.write(data or b"")

        do_HEAD = do_GET

        def log_message(self, *_: Any) -> None:
            """Nothing is printed."""

    return Handler
