"""Something that can wait, behind its name: a line that opens and closes at a press."""
from __future__ import annotations

from collections.abc import Callable, Sequence

import flet as ft

from app.ui.shell.shell import Shell, safe
from app.words.client import today


@ft.component
def Folded(shell: Shell, head: str, line: str, draw: Callable[[], Sequence[ft.Control]], at_first: bool = False
           ) -> ft.Control:
    """Its head and what can be said of it in a line; `draw` gives the rest once it is opened, or `at_first`."""
    c = shell.card()
    is_open, set_open = ft.use_state(at_first)
    row = c.row(head, line, safe(shell, lambda _: set_open(not is_open)), name=head,
                trailing=today.CLOSE_FOLD if is_open else today.OPEN_FOLD,
                icon=ft.Icons.EXPAND_LESS_SHARP if is_open else ft.Icons.EXPAND_MORE_SHARP)
    return c.stack([row, *(draw() if is_open else [])])
