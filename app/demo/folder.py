"""A fresh folder for the demo, so that it can never touch anybody's records."""
from __future__ import annotations

import tempfile
from pathlib import Path

from app.domain.errors import WrongValue


def demo_folder(chosen: str | None) -> Path:
    """A new folder, or the one that was chosen if it is new or empty.

    Raises:
        WrongValue: the chosen folder holds something.
    """
    if chosen is None:
        return Path(tempfile.mkdtemp(prefix="evenload-demo-"))
    folder = Path(chosen).expanduser()
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise WrongValue(where=str(folder), value="something", expected="a new or an empty folder for the demo")
    folder.mkdir(parents=True, exist_ok=True)
    return folder
