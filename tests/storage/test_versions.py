"""Stores that earlier versions wrote open, and hold what was put into them. Files: `versions/`, see `write_version`."""
from __future__ import annotations

import gzip
from pathlib import Path

import pytest
from sqlalchemy import text

from app.domain.model.record import CheckIn, Clearance, SessionDone
from app.storage import attention_marks, journal, keys, packs, people, records, replies, settings
from app.storage.bench import drafts, published, shelf
from app.storage.copies import copies
from app.storage.database import Store, open_store
from app.storage.schema import LINEAGE
from tests.storage import story
from tests.storage.write_version import VERSIONS

SHIPPED = sorted(VERSIONS.glob("*.db.gz"))


def _opened(shipped: Path, tmp_path: Path) -> Store:
    path = tmp_path / "evenload.db"
    path.write_bytes(gzip.decompress(shipped.read_bytes()))
    return open_store(path)


def test_every_version_has_its_file() -> None:
    """A version without one could break unseen."""
    assert [p.name.removesuffix(".db.gz") for p in SHIPPED] == list(LINEAGE.revisions)


@pytest.mark.parametrize("shipped", SHIPPED, ids=lambda p: p.name)
def test_a_store_of_that_version_opens_with_all_that_was_in_it(shipped: Path, tmp_path: Path) -> None:
    """As the same values that today's program would make, with a copy aside if it had to be upgraded."""
    store = _opened(shipped, tmp_path)
    with store.read() as db:
        assert db.execute(text("select version_num from alembic_version")).scalar() == LINEAGE.head
        assert people.people(db) == (story.INES, story.TOMAS)
        assert records.records(db, "p-ines", CheckIn) == (story.check_in("i1", "p-ines"),)
        assert records.records(db, "p-ines", SessionDone) == (story.session_done("s1", "p-ines"),)
        assert [c.who for c in records.records(db, "p-ines", Clearance)] == ["Dr Lind"]
        assert packs.pack(db, story.SHA) == packs.KeptPack(story.SHA, "c0", story.SOURCE, story.T0)
        assert packs.pinned_coaches(db) == (story.COACH,)
        assert keys.keys(db, "p-ines", "signing") == story.KEYS
        assert settings.setting(db, "theme") == {"dark": True}
        assert list(attention_marks.marks(db).values()) == [story.MARK]
        assert replies.replies(db, "p-tomas", replies.Direction.SENT) == (story.REPLY,)
        run = journal.running(db, "p-ines")
        assert run is not None and run.plan == story.PLAN and len(run.entries) == 1
    assert bool(copies(tmp_path / "evenload.db")) == (shipped != SHIPPED[-1])


@pytest.mark.parametrize("shipped", SHIPPED, ids=lambda p: p.name)
def test_a_store_of_that_version_takes_new_records(shipped: Path, tmp_path: Path) -> None:
    """And the same return once more changes nothing."""
    store = _opened(shipped, tmp_path)
    again = [story.session_done("s2", "p-tomas"), story.check_in("i2", "p-tomas")]
    with store.begin() as db:
        before = records.all_records(db, "p-tomas")
        assert records.merge_records(db, again).new == ()
        assert records.all_records(db, "p-tomas") == before
        after = records.save_record(db, story.check_in("i7", "p-ines", 3))
        assert records.latest(db, "p-ines", CheckIn) == after


@pytest.mark.parametrize("shipped", SHIPPED, ids=lambda p: p.name)
def test_what_stands_beside_the_records_of_that_version_is_what_they_say(shipped: Path, tmp_path: Path) -> None:
    """So that the desk sees over weeks also what was told before the upgrade."""
    store = _opened(shipped, tmp_path)
    with store.begin() as db:
        assert records.mend_columns(db, 1_000) == 0


def test_a_store_of_the_newest_version_holds_what_a_coach_wrote(tmp_path: Path) -> None:
    """The shelf with its files, a draft with its act, and what was handed out."""
    with _opened(SHIPPED[-1], tmp_path).read() as db:
        assert shelf.shelved(db, "harbour") == (story.SHELVED,)
        assert shelf.shelf_files(db, "harbour") == {"media/stand.png": b"\x89PNG"}
        kept = drafts.draft(db, "harbour", shelf.ShelfKind.SESSION, "short")
        assert kept is not None and kept.history == story.draft()[0].history and kept.revision == 1
        assert published.published_versions(db, "harbour") == (story.VERSION,)
