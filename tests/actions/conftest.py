"""A fresh store for each test."""
from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from app.storage.database import Store, open_store


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """A store in a folder of its own."""
    opened = open_store(tmp_path / "data")
    yield opened
    opened.close()
