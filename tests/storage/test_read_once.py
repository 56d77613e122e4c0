"""What was read out of a store once is kept with it: bounded, forgotten with what was erased, freed with the store."""
from __future__ import annotations

import gc
import weakref
from datetime import UTC, datetime
from pathlib import Path

from app.storage import packs
from app.storage.database import open_store, replace_store
from app.storage.erasing import sweep_after_erasing
from app.storage.packs import KeptPack
from app.storage.read_once import ReadOnce
from tests.exchange.fixed import SOURCE


def test_a_value_is_read_once_and_the_one_used_longest_ago_goes_first() -> None:
    """Two of each kind; one kind does not push out another."""
    kept, read = ReadOnce(), []

    def value(key: str) -> str:
        def reading() -> str:
            read.append(key)
            return key.upper()
        return kept.value("word", key, reading, most=2)

    assert [value(key) for key in ("a", "b", "a", "c", "a", "b")] == ["A", "B", "A", "C", "A", "B"]
    assert read == ["a", "b", "c", "b"]
    assert kept.value("number", "a", lambda: 1, most=1) == 1
    assert value("b") == "B" and len(read) == 4


def test_what_was_not_found_is_asked_for_again() -> None:
    """It may have come meanwhile."""
    kept = ReadOnce()
    assert kept.value("word", "a", lambda: None, most=2) is None
    assert kept.value("word", "a", lambda: "here", most=2) == "here"


def test_erasing_replacing_and_closing_forget_it(tmp_path: Path) -> None:
    """So nothing is shown that is no longer kept."""
    store = open_store(tmp_path / "data")
    copy = open_store(tmp_path / "copy")
    copy.close()
    data = (tmp_path / "copy/evenload.db").read_bytes()

    def end() -> None:
        sweep_after_erasing(store)

    for forgets in (end, lambda: replace_store(store, data), store.close):
        store.read_once.value("word", "a", lambda: "before", most=2)
        forgets()
        assert store.read_once.value("word", "a", lambda: "after", most=2) == "after"
        store.read_once.forget()


def test_a_programme_is_the_same_object_until_the_store_is_closed(tmp_path: Path) -> None:
    """And is freed with it, as are two stores of one file each for itself."""
    store, other = open_store(tmp_path / "data"), open_store(tmp_path / "data")
    with store.begin() as db:
        packs.keep_pack(db, KeptPack("ab" * 32, "key", SOURCE, datetime(2026, 3, 2, tzinfo=UTC)), b"bytes")
    with store.read() as db, other.read() as second:
        found, again = packs.newest_pack(db, "key"), packs.pack(db, "ab" * 32)
        elsewhere = packs.newest_pack(second, "key")
    assert found is not None and again is not None and elsewhere is not None
    assert found.source is again.source
    assert found.source is not elsewhere.source and found.source == elsewhere.source
    freed = weakref.ref(found.source)
    store.close()
    del found, again, store
    gc.collect()
    assert freed() is None
    other.close()
