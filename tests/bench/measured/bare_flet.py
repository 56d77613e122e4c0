"""A bare Flet app with one text on its page, behind the server that Flet itself uses: python -m measured.bare_flet PORT

Prints its address.
"""
from __future__ import annotations

import sys

import flet as ft
import flet_web.fastapi
import uvicorn

WORDS = "Nothing but this"


def main(page: ft.Page) -> None:
    """The page."""
    page.add(ft.Text(WORDS))


class Bare(uvicorn.Server):
    """Says when it answers."""

    async def startup(self, sockets: object = None) -> None:
        """Prints the address."""
        await super().startup()
        print(f"http://127.0.0.1:{self.config.port}/", flush=True)


if __name__ == "__main__":
    site = flet_web.fastapi.app(main, no_cdn=True)
    Bare(uvicorn.Config(site, host="127.0.0.1", port=int(sys.argv[1]), log_level="warning")).run()
