"""All that lies beyond this machine, as a browser sees it: a proxy that lets nothing by and notes who was wanted."""
from __future__ import annotations

import re
import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from types import TracebackType
from typing import Any

#: What a browser of this make asks of its maker about fields that are written in, whatever page they are on.
ITS_OWN = re.compile(r"^content-autofill\.googleapis\.com:443$")


class Beyond:
    """A browser context that is given this as its proxy asks here for every other machine, whatever part of it asks."""

    def __init__(self) -> None:
        self._asked: list[str] = []
        self._server = ThreadingHTTPServer(("127.0.0.1", 0), _handler(self._asked))
        self._server.daemon_threads = True
        threading.Thread(target=self._server.serve_forever, daemon=True).start()

    @property
    def address(self) -> str:
        """Of the proxy."""
        return f"http://127.0.0.1:{self._server.server_port}"

    @property
    def wanted(self) -> list[str]:
        """Whom pages and workers asked for."""
        return [one for one in self._asked if not ITS_OWN.search(one)]

    def __enter__(self) -> Beyond:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None,
                 trace: TracebackType | None) -> None:
        self._server.shutdown()
        self._server.server_close()


def _handler(asked: list[str]) -> type[BaseHTTPRequestHandler]:
    class Handler(BaseHTTPRequestHandler):
        def refuse(self) -> None:
            asked.append(self.path)
            self.send_error(502)

        do_GET = do_HEAD = do_POST = do_PUT = do_OPTIONS = do_CONNECT = refuse

        def log_message(self, *_: Any) -> None:
            """Nothing is printed."""

    return Handler
