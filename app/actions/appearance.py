"""How the app shows itself on this device: light or dark, in which English, and whether a screen reader is told all."""
from __future__ import annotations

from enum import StrEnum

from app.actions.people import current_person
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


class English(StrEnum):
    """Whose English the app is read in."""

    OF_THE_COUNTRY = ""
    """As the country says that the person wrote; British where there is none."""
    BRITISH = "british"
    AMERICAN = "american"


ENGLISH = "english"
"""Name of the setting."""


def english(store: Store) -> English:
    """What was chosen on this device."""
    with store.read() as db:
        return English(settings.setting(db, ENGLISH, English.OF_THE_COUNTRY.value))


def choose_english(store: Store, chosen: English) -> None:
    """From now on."""
    with store.begin() as db:
        settings.save_setting(db, ENGLISH, chosen.value)


def is_american(store: Store) -> bool:
    """Whether sentences are to be read in the English of the United States."""
    chosen = english(store)
    if chosen is not English.OF_THE_COUNTRY:
        return chosen is English.AMERICAN
    person = current_person(store)
    if person is None or not person.country:
        return False
    from app.words.english import is_american as names_the_states

    return names_the_states(person.country)
