"""Start, pressed on today's card, begins one session and no second one."""
from __future__ import annotations

from app.ui.shell.session_lead import StartPressed


def test_a_press_is_taken_up_once() -> None:
    """An address that is opened later, or again, begins nothing."""
    start = StartPressed()
    assert not start.taken()
    start.press()
    assert start.taken() and not start.taken()
