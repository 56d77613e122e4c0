"""The people screen."""
from __future__ import annotations

import flet as ft

from app.ui.shell import Shell


@ft.component
def PeopleScreen(shell: Shell) -> ft.Control:
    """To come."""
    return shell.card().page([shell.card().title("people")])
