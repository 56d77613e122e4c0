"""How the app shows itself on this device: light or dark, and whether a screen reader is told everything."""
from __future__ import annotations

from app.storage import settings
from app.storage.database import Store

THEME = "theme"
"""Name of the setting."""


def theme_mode(store: Store) -> str:
    """`light`, `dark` or `system`; empty where nobody has chosen."""
    with store.read() as db:
        return str(settings.setting(db, THEME, ""))


def choose_theme_mode(store: Store, mode: str) -> None:
    """From now on."""
    with store.begin() as db:
        settings.save_setting(db, THEME, mode)


READ_ALOUD = "read_aloud"
"""Name of the setting."""


def is_read_aloud(store: Store) -> bool:
    """Whether somebody has said that a screen reader is used here."""
    with store.read() as db:
        return bool(settings.setting(db, READ_ALOUD, False))


def choose_read_aloud(store: Store, wanted: bool) -> None:
    """From now on; who shows the page has it told."""
    with store.begin() as db:
        settings.save_setting(db, READ_ALOUD, wanted)
