"""Copies of a store: one a day, never of a damaged one, never half of one, and put back without any loss."""
from __future__ import annotations

import os
import subprocess
import sys
from datetime import UTC, date, datetime

import pytest

from app.domain.errors import DamagedDatabase
from app.storage import settings
from app.storage.copies import copies, is_whole, keep_copy, last_good_copy, restore_copy
from app.storage.database import Store, copy_of_the_day, open_store
from app.storage.erasing import sweep_after_erasing
from tests.storage.story import dump, file_of, half


def test_three_copies_stay_and_a_damaged_store_does_not_push_them_out(told: Store) -> None:
    """The oldest go first."""
    path = file_of(told)
    for _ in range(5):
        keep_copy(path, "0001")
    names = [p.name for p in copies(path)]
    assert names == [f"evenload.db.copy-0001-{n}" for n in (3, 4, 5)]
    told.close()
    path.write_bytes(half(path.read_bytes()))
    with pytest.raises(DamagedDatabase):
        keep_copy(path, "0001")
    assert [p.name for p in copies(path)] == names


def test_a_damaged_copy_is_not_offered(told: Store) -> None:
    """The one before it is."""
    path = file_of(told)
    first, second = keep_copy(path, "0001"), keep_copy(path, "0001")
    second.write_bytes(half(second.read_bytes()))
    assert last_good_copy(path) == first
    first.unlink()
    assert last_good_copy(path) is None
    with pytest.raises(DamagedDatabase):
        restore_copy(path, second)
    assert path.exists()


def test_a_copy_holds_what_was_only_in_the_journal_yet(told: Store) -> None:
    """Also while the store is in use, and it is one file."""
    copy = keep_copy(file_of(told), "0001")
    assert is_whole(copy)
    assert dump(open_store(copy)) == dump(told)


def test_a_copy_that_was_cut_off_counts_for_nothing(told: Store) -> None:
    """A process that ends in the middle leaves no copy; what it left is taken away by the next one, and by erasing."""
    path = file_of(told)
    code = ("import os, pathlib, sys\nfrom app.storage import copies\n"
            "copies._copy = lambda old, new: (new.write_bytes(old.read_bytes()[:4096]), os._exit(9))\n"
            "copies.keep_copy(pathlib.Path(sys.argv[1]), '0001')")

    def cut_off() -> None:
        assert subprocess.run([sys.executable, "-c", code, str(path)], check=False).returncode == 9
        assert (path.parent / "evenload.db.copying").stat().st_size == 4096

    cut_off()
    assert copies(path) == () and last_good_copy(path) is None
    assert copy_of_the_day(told, datetime.now(UTC).date()) is not None and last_good_copy(path) is not None
    assert not (path.parent / "evenload.db.copying").exists()
    cut_off()
    sweep_after_erasing(told)
    assert not (path.parent / "evenload.db.copying").exists() and len(copies(path)) == 1


def test_putting_a_copy_back_keeps_what_was_there(told: Store) -> None:
    """Under a name that is returned."""
    path = file_of(told)
    copy, before = keep_copy(path, "0001"), dump(told)
    with told.begin() as db:
        settings.save_setting(db, "since", 1)
    since = dump(told)
    told.close()
    aside = restore_copy(path, copy)
    assert aside is not None and aside.name == "evenload.db.replaced-1"
    assert dump(open_store(path)) == before
    assert dump(open_store(aside)) == since


def test_one_copy_a_day(told: Store) -> None:
    """The first time on a day, and not again until the next."""
    first = copy_of_the_day(told, date(2026, 3, 2))
    assert first is not None
    then = datetime(2026, 3, 2, 12, tzinfo=UTC).timestamp()
    os.utime(first, (then, then))
    assert copy_of_the_day(told, date(2026, 3, 2)) is None
    far = datetime(2031, 5, 4, 12, tzinfo=UTC).timestamp()
    os.utime(first, (far, far))
    assert copy_of_the_day(told, date(2026, 3, 2)) is not None  # a wrong clock's copy keeps none away
    assert copy_of_the_day(told, date(2026, 3, 3)) is not None
