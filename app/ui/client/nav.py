"""Where somebody who trains can go."""
from __future__ import annotations

from app.ui.parts import Destination, Nav
from app.ui.shell.shell import Shell, safe
from app.words.client import today


def client_nav(shell: Shell, chosen: str) -> Nav:
    """The bar of a phone holds what is used daily; beside a wide page there is room for the settings too."""
    places = [Destination(key, words) for key, words in today.NAVIGATION.items()]
    if shell.card().is_wide:
        places.append(Destination("settings", today.SETTINGS))
    return Nav(tuple(places), chosen, safe(shell, lambda key: shell.go(f"/{key}")), shell.brand.name)
