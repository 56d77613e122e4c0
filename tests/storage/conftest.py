"""A fresh store in a fresh folder."""
from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from app.storage.database import Store, open_store
from tests.storage import story


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """Empty."""
    opened = open_store(tmp_path / "data")
    yield opened
    opened.close()


@pytest.fixture
def told(store: Store) -> Store:
    """With the story in it."""
    with store.begin() as db:
        story.tell(db)
    return store
