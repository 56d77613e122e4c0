"""Sound tracks say what somebody trains; they are their owner's alone."""
from __future__ import annotations

import asyncio
import os
import stat
from pathlib import Path

import pytest

from app.device.track_folder import FolderShelf, swept
from app.domain.sound.audio_track import CueTrack


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps its rights elsewhere")
def test_tracks_and_their_folder_are_the_owners_alone(tmp_path: Path) -> None:
    """Each version of one, also in a folder that an earlier start left open to all."""
    folder = tmp_path / "tracks"
    folder.mkdir(mode=0o755)
    folder.chmod(0o755)
    shelf = FolderShelf(swept(folder), "tracks")
    for since in (0, 100):
        asyncio.run(shelf.keep(CueTrack(16_000, ()), since))
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    assert [stat.S_IMODE(p.stat().st_mode) for p in folder.iterdir()] == [0o600, 0o600]
