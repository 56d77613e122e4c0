"""What lies on the disk is its owner's: every file and folder that the program makes, looked at after real use."""
from __future__ import annotations

import os
import stat
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest

from app.actions.backup import backup_of, put_back
from app.actions.desk import publishing
from app.actions.files import sending
from app.cli import main
from app.data_folder import TRACKS
from app.device.clock import ManualClock
from app.device.track_folder import FolderShelf, swept
from app.domain.sound.audio_track import CueTrack
from app.resources import resource_dir
from app.storage.copies import keep_copy
from app.storage.database import copy_of_the_day, open_store
from app.storage.schema import LINEAGE
from tests.exchange.fixed import run
from tests.storage import story

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="rights of files say nothing there")


def open_to_others(folder: Path) -> list[str]:
    """Files and folders that anybody but the owner may read, write or enter."""
    found = [folder, *folder.rglob("*")]
    return [str(p.relative_to(folder.parent)) for p in found if stat.S_IMODE(p.stat().st_mode) & 0o077]


def test_the_store_its_keys_copies_and_tracks_are_the_owners_alone(tmp_path: Path) -> None:
    """Also where the user's own mask would leave files open to all."""
    before = os.umask(0o000)
    try:
        data, clock = tmp_path / "data", ManualClock(datetime(2026, 3, 2, 9, tzinfo=UTC))
        store = open_store(data)
        with store.begin() as db:
            story.tell(db)
        run(sending.ensure_client_keys(store, clock, "p-ines"))
        run(publishing.ensure_coach_keys(store, clock))
        copy_of_the_day(store, clock.now().date())
        assert store.path is not None
        keep_copy(store.path, LINEAGE.head)
        name, copy = backup_of(store, clock)
        put_back(store, name, copy)
        run(FolderShelf(swept(data / TRACKS), "/tracks").keep(CueTrack(100, ()), 0))
        assert {p.name.partition("-")[0] for p in data.iterdir()} >= {"evenload.db", "evenload.db.copy"}
        assert any((data / TRACKS).iterdir())
        assert open_to_others(data) == []
        store.close()
    finally:
        os.umask(before)


def test_what_a_command_writes_for_its_owner_is_the_owners_alone(tmp_path: Path) -> None:
    """A backup, sealed or not; a programme is for others and may be read."""
    data, copy, sealed, pack = (tmp_path / n for n in ("data", "copy.db", "c.evenload-copy", "p.evenload-pack"))
    phrase = tmp_path / "phrase"
    phrase.write_text("lantern gravel oboe unpaid", "utf-8")
    before = os.umask(0o000)
    try:
        source = resource_dir("assets") / "programmes" / "brackwater"
        assert main(["--data", str(data), "pack", str(source), "-o", str(pack), "--no-voice"]) == 0
        assert main(["--data", str(data), "backup", "-o", str(copy)]) == 0
        assert main(["--data", str(data), "backup", "-o", str(sealed), "--passphrase-file", str(phrase)]) == 0
    finally:
        os.umask(before)
    assert [stat.S_IMODE(p.stat().st_mode) for p in (copy, sealed, pack)] == [0o600, 0o600, 0o644]
    assert open_to_others(data) == []


def test_a_file_that_is_open_to_others_is_found(tmp_path: Path) -> None:
    """Or else the look would find nothing anywhere."""
    folder = tmp_path / "data"
    folder.mkdir(mode=0o700)
    (folder / "a").touch()
    (folder / "a").chmod(0o640)
    assert open_to_others(folder) == ["data/a"]
