"""A copy of everything, saved and put back."""
from __future__ import annotations

from pathlib import Path

import pytest

from app.actions.backup import backup_of, put_back
from app.device.clock import ManualClock
from app.domain.errors import DamagedDatabase, NewerDatabase, NotOurFile
from app.storage import settings
from app.storage.database import Store, open_store


def _set(store: Store, value: int) -> None:
    with store.begin() as db:
        settings.save_setting(db, "x", value)


def _value(store: Store) -> int:
    with store.read() as db:
        return int(settings.setting(db, "x"))


def test_a_copy_goes_to_another_device_and_comes_back(tmp_path: Path, clock: ManualClock) -> None:
    """All of it is there again, the store goes on being used, and what made way is set aside."""
    here, there = open_store(tmp_path / "here"), open_store(tmp_path / "there")
    _set(here, 1)
    name, data = backup_of(here, clock)
    assert name == "evenload-2026-03-02.db"
    for store in (here, there):
        _set(store, 2)
        put_back(store, name, data)
        assert _value(store) == 1
        _set(store, 3)
        assert _value(store) == 3 and store.path is not None
        assert len(list(store.path.parent.glob("*.replaced-*"))) >= 1
        assert not list(store.path.parent.glob("*.incoming"))


def test_what_is_no_copy_is_refused_and_nothing_changes(tmp_path: Path, clock: ManualClock) -> None:
    """Another file, a damaged one, one of a newer version: each said, the store as it was."""
    store, newer = open_store(tmp_path / "here"), open_store(tmp_path / "newer")
    _set(store, 1)
    name, data = backup_of(store, clock)
    with newer.begin() as db:
        db.exec_driver_sql("update alembic_version set version_num = '9999'")
    from_newer = backup_of(newer, clock)[1]
    for harmed, error in ((b"%PDF", NotOurFile), (data[:4096] + b"\xff" * (len(data) - 4096), DamagedDatabase),
                          (from_newer, NewerDatabase)):
        with pytest.raises(error):
            put_back(store, name, harmed)
        assert _value(store) == 1 and store.path is not None
        assert not list(store.path.parent.glob("*.replaced-*"))
