"""Writes the story as a store file of the version that this program writes: `python -m tests.storage.write_version`.

Run it once when a version of the tables is finished, and never again for that version: the file stands for
what people have on their phones.
"""
from __future__ import annotations

import gzip
import sys
import tempfile
from pathlib import Path

from app.storage.copies import keep_copy
from app.storage.database import open_store
from app.storage.schema import LINEAGE
from tests.storage import story

VERSIONS = Path(__file__).parent / "versions"


def main() -> int:
    """0 when the file was written, 1 when one of that version is there already."""
    target = VERSIONS / f"{LINEAGE.head}.db.gz"
    if target.exists():
        print(f"{target.name} is there already and stays as it is")
        return 1
    with tempfile.TemporaryDirectory() as folder:
        store = open_store(Path(folder) / "data")
        with store.begin() as db:
            story.tell(db)
        path = store.path
        store.close()
        if path is None:
            raise RuntimeError("the store is not a file")
        copy = keep_copy(path, LINEAGE.head)
        target.write_bytes(gzip.compress(copy.read_bytes(), mtime=0))
    print(f"{target.name}: {target.stat().st_size} bytes")
    return 0


if __name__ == "__main__":
    sys.exit(main())
