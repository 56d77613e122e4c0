"""A copy of everything, saved and put back."""
from __future__ import annotations

from pathlib import Path

import pytest

from app.actions.backup import asks_passphrase, backup_of, opened_backup, put_back, sealed_backup_of
from app.device.clock import ManualClock
from app.domain.errors import (
    DamagedDatabase,
    EasyPassphrase,
    NewerDatabase,
    NotOurFile,
    PassphraseNeeded,
    WrongPassphrase,
)
from app.storage import settings
from app.storage.database import Store, open_store
from tests.exchange.fixed import run


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


PHRASE = "lantern gravel oboe unpaid"


def test_a_sealed_copy_asks_for_its_passphrase_and_comes_back(tmp_path: Path, clock: ManualClock) -> None:
    """Nothing of the diary can be read in it; another passphrase or none changes nothing."""
    here, there = open_store(tmp_path / "here"), open_store(tmp_path / "there")
    with here.begin() as db:
        settings.save_setting(db, "x", 1)
        settings.save_setting(db, "note", "knee after the stairs")
    name, data = run(sealed_backup_of(here, clock, PHRASE))
    assert name == "evenload-2026-03-02.evenload-copy"
    assert asks_passphrase(data) and b"knee after the stairs" not in data
    _set(there, 2)
    for phrase, error in ((None, PassphraseNeeded), ("another one entirely", WrongPassphrase)):
        with pytest.raises(error):
            run(opened_backup(name, data, phrase))
    with pytest.raises(NotOurFile):
        put_back(there, name, data)
    assert _value(there) == 2
    put_back(there, name, run(opened_backup(name, data, PHRASE)))
    assert _value(there) == 1


def test_a_copy_that_is_not_sealed_needs_none(tmp_path: Path, clock: ManualClock) -> None:
    """And an easy passphrase makes no copy."""
    store = open_store(tmp_path / "here")
    _set(store, 1)
    name, data = backup_of(store, clock)
    assert not asks_passphrase(data) and run(opened_backup(name, data, None)) == data
    with pytest.raises(EasyPassphrase):
        run(sealed_backup_of(store, clock, "12345"))
