"""The four places of the client's side, below or at the side of every page that is not a session."""
from __future__ import annotations

from app import text_client as words
from app.ui.parts import Destination, Nav
from app.ui.shell import Shell


def client_nav(shell: Shell, chosen: str) -> Nav:
    """Where one can go; `chosen` is one of the keys of `text_client.NAVIGATION`."""
    places = tuple(Destination(key, name) for key, name in words.NAVIGATION.items())
    return Nav(places, chosen, lambda key: shell.go(f"/{key}"), words.BRAND)
