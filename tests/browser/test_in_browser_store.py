"""The store on the browser's private files: as on a disk, one page at a time, and nothing lost."""
from __future__ import annotations

import base64
import gzip
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from app.storage.schema import LINEAGE
from tests.browser.lab import BrokeThere, Lab
from tests.browser.static_site import StaticSite
from tests.sampling import examples
from tests.storage import story
from tests.storage.write_version import VERSIONS

pytestmark = pytest.mark.browser

MOUNT = """
    from pathlib import Path
    from app.device.private_files import mount
    where = await mount(folder, Path("/at") / folder, wait_s=wait_s)
    answer = json.dumps(str(where))
"""
#: Random makings, writings, cuttings, renamings and deletings, in step with a dictionary.
WORK = """
    import os, random
    chance, model = random.Random(seed), {name: (where / name).read_bytes() for name in os.listdir(where)}
    names = [f"file-{n}" for n in range(6)]
    for turn in range(120):
        name, other = chance.choice(names), chance.choice(names)
        act = chance.choice(["write", "write", "append", "cut", "rename", "delete", "patch"])
        if act == "write":
            data = chance.randbytes(chance.choice([0, 1, 4096, 70_000]))
            (where / name).write_bytes(data); model[name] = data
        elif name not in model:
            try:
                (where / name).rename(where / other) if act == "rename" else os.stat(where / name)
                raise AssertionError(name)
            except FileNotFoundError:
                continue
        elif act == "append":
            with open(where / name, "ab") as file: file.write(b"more")
            model[name] += b"more"
        elif act == "cut":
            size = chance.randrange(0, len(model[name]) + 10)
            os.truncate(where / name, size); model[name] = model[name][:size].ljust(size, bytes(1))
        elif act == "patch":
            at = chance.randrange(0, len(model[name]) + 1)
            with open(where / name, "r+b") as file: file.seek(at); file.write(b"patched")
            model[name] = model[name][:at] + b"patched" + model[name][at + 7:]
        elif act == "rename":
            (where / name).replace(where / other); model[other] = model.pop(name)
        else:
            (where / name).unlink(); del model[name]
        assert {n: (where / n).read_bytes() for n in os.listdir(where)} == model, (turn, act, name, other)
        assert all((where / n).stat().st_size == len(data) for n, data in model.items())
"""
READ = """
    import hashlib, os
    answer = json.dumps({name: hashlib.sha256((where / name).read_bytes()).hexdigest() for name in os.listdir(where)})
"""


def _mounted(browser: Browser, site: StaticSite, folder: str, wait_s: float = 2.0) -> Lab:
    lab = Lab(browser, site.address)
    lab.run(MOUNT, folder=folder, wait_s=wait_s)
    return lab


def test_files_behave_as_on_a_disk_and_are_there_the_next_time(browser: Browser, lab_site: StaticSite) -> None:
    """Any order of making, writing, cutting, renaming over and deleting; the next page finds the same."""
    context = browser.new_context()
    lab = Lab(context, lab_site.address)
    lab.run(MOUNT, folder="any", wait_s=2.0)
    for seed in range(examples(3, 60)):
        lab.run(WORK, seed=seed)
    before = lab.run(READ)
    lab.page.reload()
    lab.run(MOUNT, folder="any", wait_s=5.0)
    assert lab.run(READ) == before and before
    context.close()


def test_two_folders_of_one_host_are_two_stores(browser: Browser, lab_site: StaticSite) -> None:
    """What one studio keeps another never sees, and both may be open at once."""
    context = browser.new_context()
    first, second = Lab(context, lab_site.address), Lab(context, lab_site.address)
    first.run(MOUNT, folder="evenload_a", wait_s=0.5)
    second.run(MOUNT, folder="evenload_b", wait_s=0.5)
    first.run("(where / 'mine').write_bytes(b'1')")
    assert (list(first.run(READ)), list(second.run(READ))) == (["mine"], [])
    context.close()


def test_a_second_page_is_refused_and_has_its_turn_once_the_first_is_gone(
    browser: Browser, lab_site: StaticSite,
) -> None:
    """StoreBusy and nothing else; afterwards everything is there."""
    context = browser.new_context()
    first, second = Lab(context, lab_site.address), Lab(context, lab_site.address)
    first.run(MOUNT, folder="one", wait_s=0.5)
    first.run("(where / 'kept').write_bytes(b'1')")
    with pytest.raises(BrokeThere, match="StoreBusy"):
        second.run(MOUNT, folder="one", wait_s=0.5)
    first.close()
    second.run(MOUNT, folder="one", wait_s=5.0)
    assert list(second.run(READ)) == ["kept"]
    context.close()


@pytest.mark.parametrize("shipped", sorted(VERSIONS.glob("*.db.gz")), ids=lambda p: p.name)
def test_a_store_of_an_earlier_version_is_upgraded_there(lab: Lab, shipped: Path) -> None:
    """With a copy of the old one aside, the rows kept, sound afterwards, and upgraded once."""
    lab.run(MOUNT, folder=f"old-{shipped.name}", wait_s=2.0)
    data = base64.b64encode(gzip.decompress(shipped.read_bytes())).decode()
    told = lab.run("""
        import base64
        from app.storage import people
        from app.storage.copies import copies
        from app.storage.database import open_store
        path = where / "evenload.db"
        path.write_bytes(base64.b64decode(data))
        found = []
        for turn in range(2):
            store = open_store(path)
            with store.read() as db:
                found.append([db.exec_driver_sql("select version_num from alembic_version").scalar(),
                              [p.name for p in people.people(db)], len(copies(path)),
                              db.exec_driver_sql("PRAGMA integrity_check").scalar(),
                              db.exec_driver_sql("PRAGMA journal_mode").scalar()])
            store.close()
        answer = json.dumps(found)
    """, data=data)
    is_old = not shipped.name.startswith(LINEAGE.head)
    assert told == [[LINEAGE.head, [story.INES.name, story.TOMAS.name], int(is_old), "ok", "truncate"]] * 2


def test_a_newer_store_is_refused_untouched_and_a_damaged_one_set_aside(lab: Lab) -> None:
    """As on a disk: the newer one byte for byte as it was; the damaged one named, and the good copy put back."""
    lab.run(MOUNT, folder="odd", wait_s=2.0)
    assert lab.run("""
        import hashlib
        from app.domain.errors import DamagedDatabase, NewerDatabase
        from app.storage import settings
        from app.storage.copies import keep_copy, last_good_copy, restore_copy
        from app.storage.database import open_store
        path, found = where / "evenload.db", []
        store = open_store(path)
        with store.begin() as db: settings.save_setting(db, "x", 1)
        with store.begin() as db: db.exec_driver_sql("update alembic_version set version_num = '9999'")
        store.close()
        before = hashlib.sha256(path.read_bytes()).hexdigest()
        try: open_store(path)
        except NewerDatabase as error: found.append(["newer", hashlib.sha256(path.read_bytes()).hexdigest() == before])
        path.unlink()
        store = open_store(path)
        with store.begin() as db: settings.save_setting(db, "x", 2)
        store.close()
        keep_copy(path, "0001")
        with open(path, "r+b") as file: file.seek(4096); file.write(b"\\xff" * 9000)
        try: open_store(path)
        except DamagedDatabase as error: found.append(["damaged", error.what["kept"].rpartition("/")[2]])
        restore_copy(path, last_good_copy(path))
        with open_store(path).read() as db: found.append(["restored", settings.setting(db, "x")])
        answer = json.dumps(found)
    """) == [["newer", True], ["damaged", "evenload.db.damaged-1"], ["restored", 2]]


def test_a_full_device_is_said_and_loses_nothing(browser: Browser, lab_site: StaticSite) -> None:
    """NoRoom for what no longer fits; what was kept is there, sound, and taken up again once there is room."""
    context = browser.new_context()
    lab = Lab(context, lab_site.address)
    lab.run(MOUNT, folder="full", wait_s=2.0)
    lab.run("""
        from app.domain.errors import NoRoom
        from app.storage import settings
        from app.storage.database import open_store
        store = open_store(where / "evenload.db")
        with store.begin() as db: settings.save_setting(db, "first", 1)
    """)
    origin = lab_site.address.rstrip("/")
    cdp = context.new_cdp_session(lab.page)
    cdp.send("Storage.overrideQuotaForOrigin", {"origin": origin, "quotaSize": 300_000})
    fill = """
        refused = 0
        for turn in range(40):
            try:
                with store.begin() as db: settings.save_setting(db, f"large-{turn}", "x" * 100_000)
            except NoRoom: refused += 1
        with store.read() as db:
            sound = db.exec_driver_sql("PRAGMA integrity_check").scalar()
            first = settings.setting(db, "first")
        answer = json.dumps([refused > 0, sound, first])
    """
    assert lab.run(fill) == [True, "ok", 1]
    cdp.send("Storage.overrideQuotaForOrigin", {"origin": origin})
    assert lab.run("""
        with store.begin() as db: settings.save_setting(db, "later", 2)
        with store.read() as db: answer = json.dumps([settings.setting(db, "first"), settings.setting(db, "later")])
    """) == [1, 2]
    context.close()


def test_the_journal_is_on_the_disk_before_the_store_is_changed(lab: Lab) -> None:
    """Three flushes for each commit: the journal, the store, the journal's end."""
    assert lab.run("""
        import pyodide_js, store_files, time
        from pathlib import Path
        from app.storage import settings
        from app.storage.database import open_store
        held = await store_files.mount(pyodide_js.FS, "/at/flushes", "flushes")
        store = open_store(Path("/at/flushes/evenload.db"))
        with store.begin() as db: settings.save_setting(db, "x", 0)
        before = held.flushes()
        for turn in range(20):
            with store.begin() as db: settings.save_setting(db, "x", turn + 1)
        answer = json.dumps((held.flushes() - before) / 20)
    """) == 3
