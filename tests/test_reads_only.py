"""Who may not write does not, and nothing keeps a store beyond its end."""
from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.reads_only import writers, writes
from tests.test_layers import ROOT, imports, modules, plant


@pytest.mark.parametrize("room_", ["ui", "words"])
def test_a_room_that_only_reads_changes_nothing_that_is_kept(room_: str) -> None:
    """It begins no transaction, sends no SQL, and names no function of `app.storage` that writes."""
    known = writers(ROOT)
    assert [found for path in sorted((ROOT / "app" / room_).rglob("*.py")) for found in writes(path, known)] == []


def test_what_writes_in_storage_is_told_from_what_reads() -> None:
    """By following the calls down to statements and files; none that is used for reading is taken for the other."""
    known = writers(ROOT)
    assert {"save_record", "take_back", "merge_records"} <= known["app.storage.records"]
    assert {"append_event", "beat", "start_run", "end_run"} <= known["app.storage.journal"]
    assert {"save_person", "pin_keys", "count_choice", "forget_choice"} <= known["app.storage.people"]
    assert {"open_store", "replace_store"} <= known["app.storage.database"]
    assert known["app.storage.settings"] == {"save_setting", "forget_setting"}
    assert {"erase_person", "erase_everything", "sweep_after_erasing"} <= known["app.storage.erasing"]
    assert not known["app.storage.export"] and not known["app.storage.checked_text"]
    assert not known["app.storage.people"] & {"person", "people", "desk_people", "choices", "pinned_keys"}
    assert not known["app.storage.records"] & {"record", "records", "latest", "all_records"}
    assert not known["app.storage.packs"] & {"pack", "newest_pack", "packs", "pack_file", "pinned_coaches"}


@pytest.mark.parametrize("lines", [
    "def go(store):\n    with store.begin() as db:\n        pass",
    "def go(tools):\n    return tools.store.begin",
    "from app.storage import records\n\ndef go(db, r):\n    records.save_record(db, r)",
    "from app.storage import people as kept\nact = kept.save_person",
    "from app.storage.settings import save_setting",
    "from app.storage.settings import save_setting as keep",
    "import app.storage.journal\n\ndef go(db):\n    app.storage.journal.end_run(db, 'r')",
    "import app.storage.journal as j\n\ndef go(db):\n    j.beat(db, 'r', None)",
    "from app.storage.erasing import sweep_after_erasing",
    "from app.storage import copies\n\ndef go(path):\n    copies.restore_copy(path, path)",
    "def go(store):\n    with store.read() as db:\n        db.execute('delete from record')",
    "def go(store):\n    store.engine.dispose()",
])
def test_a_planted_write_is_found(lines: str, tmp_path: Path) -> None:
    """One each, however it is written."""
    plant(tmp_path, "app/ui/desk.py", lines)
    assert len(list(writes(tmp_path / "app/ui/desk.py", writers(ROOT)))) == 1


@pytest.mark.parametrize("lines", [
    "from app.storage import records as r\n\ndef go(at):\n    with at.read() as db:\n        r.all_records(db, 1)",
    "from app.storage.people import Trains, person\nfrom app.storage.database import Store",
    "from app.actions.people import choose_role\n\ndef go(store):\n    choose_role(store, None)",
])
def test_a_read_is_no_write(lines: str, tmp_path: Path) -> None:
    """Or else the rule would be no rule."""
    plant(tmp_path, "app/ui/desk.py", lines)
    assert list(writes(tmp_path / "app/ui/desk.py", writers(ROOT))) == []


def cached_on(path: Path) -> Iterator[str]:
    """Functions that are cached by `functools` and are handed something that ends: a store, a connection, a page."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            cached = any("cache" in ast.unparse(one) for one in node.decorator_list)
            handed = {ast.unparse(one.annotation) for one in node.args.args if one.annotation}
            if cached and handed & {"Store", "Connection", "Shell", "Tools", "Device", "ft.Page"}:
                yield f"{path.stem}.{node.name}"


def test_no_cache_of_functools_holds_a_store() -> None:
    """It would outlive what was erased, and the store itself. In actions there is none at all: see `ReadOnce`."""
    assert [found for _, path in modules(ROOT) for found in cached_on(path)] == []
    for path in (ROOT / "app/actions").rglob("*.py"):
        taken = set(imports(path.stem, path))
        assert not taken & {"functools", "functools.cache", "functools.lru_cache"}, path


def test_a_planted_cache_over_a_store_is_found(tmp_path: Path) -> None:
    """With and without arguments of its own."""
    for cache in ("lru_cache(maxsize=2)", "cache", "functools.lru_cache"):
        place = tmp_path / "planted.py"
        place.write_text(f"@{cache}\ndef shelf(store: Store, pack: str) -> None: ...\n", "utf-8")
        assert list(cached_on(place)) == ["planted.shelf"]
