"""Erasing is over once the action returns, and not only at the next start."""
from __future__ import annotations

from pathlib import Path

import pytest

from app.actions.erasing import erase, erase_device
from app.storage import settings
from app.storage.copies import keep_copy
from app.storage.database import Store, open_store
from app.storage.export import logical_dump
from tests.storage import story


@pytest.fixture
def told(tmp_path: Path) -> Store:
    """The story, with a copy of it and a store that was set aside."""
    store = open_store(tmp_path / "data")
    with store.begin() as db:
        story.tell(db)
        settings.save_setting(db, "reminder:p-ines", {"at": "p-ines at 9"})
        settings.save_setting(db, "person", "p-ines")
    assert store.path is not None
    keep_copy(store.path, "0002").rename(store.path.with_name("evenload.db.replaced-1"))
    keep_copy(store.path, "0002")
    return store


def holding(store: Store, words: bytes) -> list[str]:
    """Files beside the store, and itself, in which these bytes stand."""
    assert store.path is not None
    return [p.name for p in store.path.parent.rglob("*") if p.is_file() and words in p.read_bytes()]


def test_a_person_is_in_no_file_when_the_action_returns(told: Store) -> None:
    """Nobody has to start the app again for it."""
    assert len(holding(told, b"p-ines")) >= 3
    erase(told, "p-ines")
    assert holding(told, b"p-ines") == []
    assert holding(told, b"p-tomas")


def test_nobody_is_in_any_file_when_everything_was_erased(told: Store) -> None:
    """And the store is usable and empty."""
    erase_device(told)
    assert holding(told, b"p-ines") == holding(told, b"p-tomas") == []
    with told.read() as db:
        assert logical_dump(db) == ""
