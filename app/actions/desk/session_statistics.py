"""What the statistics of a session need beside its record: the exercises of the coach's sources, and a body weight."""
from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from app.actions.desk.publishing import source_folders
from app.domain.errors import ContentError, WrongValue
from app.domain.measures.energy import LEAST_KG, MOST_KG
from app.domain.model.exercise import Exercise
from app.exchange.forms.source import read_source
from app.storage import settings
from app.storage.database import Store


def known_exercises(store: Store) -> Mapping[str, Exercise]:
    """Exercises by id of every source that can be read; the coach's own before those that came along."""
    known: dict[str, Exercise] = {}
    for folder in source_folders(store):
        known = {**_exercises(store, folder), **known}
    return known


def _newest(folder: Path) -> int:
    return max((path.stat().st_mtime_ns for path in folder.rglob("*.toml")), default=0)


def _exercises(store: Store, folder: Path) -> Mapping[str, Exercise]:
    """Read again only when a file of it has changed: a large source takes a moment."""
    key = (folder, _newest(folder))
    return store.read_once.value("exercises", key, lambda: _readable(folder), most=8)


def _readable(folder: Path) -> Mapping[str, Exercise]:
    try:
        return read_source(folder).library()
    except ContentError:
        return {}


# ------------------------------------------------------------------ energy, only while a weight is kept

def body_weight(store: Store, person_id: str) -> int | None:
    """Their weight, kg; None: energy is switched off."""
    with store.read() as db:
        kept = settings.setting(db, _name(person_id))
    return None if kept is None else int(kept)


def keep_body_weight(store: Store, person_id: str, words: str) -> None:
    """Switches energy on for somebody.

    Raises:
        WrongValue: no whole number of kilograms, or none that a body has.
    """
    told = words.strip()
    kg = int(told) if told.isdecimal() and len(told) < 5 else 0
    if not LEAST_KG <= kg <= MOST_KG:
        raise WrongValue(where="weight", value=told, expected=f"a whole number from {LEAST_KG} to {MOST_KG}")
    with store.begin() as db:
        settings.save_setting(db, _name(person_id), kg)


def forget_body_weight(store: Store, person_id: str) -> None:
    """Switches it off again; the weight is kept nowhere."""
    with store.begin() as db:
        settings.forget_setting(db, _name(person_id))


def _name(person_id: str) -> str:
    """Settings that end so go when the person is erased."""
    return f"weight_kg:{person_id}"
