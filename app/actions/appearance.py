"""Light or dark, as chosen on this device."""
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
