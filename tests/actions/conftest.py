"""A fresh store for each test."""
from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from app.device.clock import ManualClock
from app.storage.database import Store, open_store
from tests.actions.at_home import Home, home


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """A store in a folder of its own."""
    opened = open_store(tmp_path / "data")
    yield opened
    opened.close()


@pytest.fixture
def at_home(tmp_path: Path, clock: ManualClock) -> Iterator[Home]:
    """Somebody who follows a coach's programme, and that coach's desk."""
    made = home(tmp_path, clock)
    yield made
    made.store.close()
    made.desk.close()
