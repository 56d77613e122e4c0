"""The send screen."""
from __future__ import annotations

import flet as ft

from app.ui.shell import Shell


@ft.component
def SendScreen(shell: Shell) -> ft.Control:
    """To come."""
    return shell.card().page([shell.card().title("send")])
