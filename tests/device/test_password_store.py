"""The computer's password store: kept, given and forgotten; absent or refusing it is simply not there."""
from __future__ import annotations

import asyncio
import sys

import pytest

from app.device import password_store as store
from tests.device.stand_in_keyring import put_in


def test_a_secret_is_kept_given_back_and_forgotten(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each under its own name."""
    put_in(monkeypatch)
    assert store.has_password_store() and asyncio.run(store.kept_secret("one")) is None
    assert asyncio.run(store.keep_secret("one", "kettle")) and asyncio.run(store.kept_secret("one")) == "kettle"
    assert asyncio.run(store.kept_secret("other")) is None
    assert asyncio.run(store.drop_secret("one")) and asyncio.run(store.kept_secret("one")) is None
    assert asyncio.run(store.drop_secret("one"))


def test_one_that_refuses_keeps_nothing_and_gives_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """And nobody sees its error."""
    behind = put_in(monkeypatch)
    behind.refuses = True
    assert not asyncio.run(store.keep_secret("one", "kettle"))
    assert asyncio.run(store.kept_secret("one")) is None and behind.kept == {}


def test_without_the_library_or_with_a_back_end_that_keeps_nothing_there_is_none(monkeypatch: pytest.MonkeyPatch
                                                                                  ) -> None:
    """Nor on a phone."""
    behind = put_in(monkeypatch)
    behind.priority = 0
    assert not store.has_password_store() and not asyncio.run(store.keep_secret("one", "kettle"))
    behind.priority = 5
    monkeypatch.setattr("app.device.password_store.is_desktop", lambda: False)
    assert not store.has_password_store()
    monkeypatch.setattr("app.device.password_store.is_desktop", lambda: True)
    monkeypatch.setitem(sys.modules, "keyring", None)
    assert not store.has_password_store() and not asyncio.run(store.drop_secret("one"))


def test_one_that_is_never_opened_is_not_waited_for_for_ever(monkeypatch: pytest.MonkeyPatch) -> None:
    """The system's own question may stand unseen."""
    behind = put_in(monkeypatch)
    monkeypatch.setattr(store, "PATIENCE_S", 0.0)
    assert not asyncio.run(store.keep_secret("one", "kettle"))
    assert behind is not None
