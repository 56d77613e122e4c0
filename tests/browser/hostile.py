"""Files that must not get in: python -m tests.browser.hostile FOLDER. In a process of its own, as `prepared` is."""
from __future__ import annotations

import asyncio
import subprocess
import sys
import tempfile
from pathlib import Path

from app.actions.files import sending
from app.actions.people import current_person
from app.device.clock import SystemClock
from app.storage.database import open_store
from tests.browser.prepared import ready_client
from tests.browser.server import ROOT
from tests.exchange.forgery import forged, zipped
from tests.exchange.forgery import sealed_up as signed_whatever_it_is

#: More than a file may hold once unpacked, in few bytes.
MUCH = 300_000_000
PACKS = ("changed", "cut", "upward", "swollen", "no-pack")


def hostile(folder: Path) -> Path:
    """Writes them, from outside."""
    subprocess.run([sys.executable, "-m", "tests.browser.hostile", str(folder)], cwd=ROOT, check=True)
    return folder


def packs() -> dict[str, bytes]:
    """A sound programme file, harmed in several ways."""
    sound = forged()
    middle = len(sound) // 2
    return {
        "changed": sound[:middle] + bytes([sound[middle] ^ 1]) + sound[middle + 1:],
        "cut": sound[:middle],
        "upward": forged(unlisted={"../x": b"outside"}),
        "swollen": signed_whatever_it_is(zipped({"media/silence.wav": bytes(MUCH)})),
        "no-pack": b"A letter, and no programme.",
    }


def foreign_return() -> bytes:
    """A return that is sealed to another coach than whoever opens it."""
    with tempfile.TemporaryDirectory() as folder:
        store = open_store(Path(folder))
        ready_client(store)
        person = current_person(store)
        assert person
        made = asyncio.run(sending.make_return(store, SystemClock(), person.id))
        store.close()
    return made.data


def main() -> None:
    """Writes one file for each."""
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    made = packs()
    assert tuple(made) == PACKS
    for name, data in made.items():
        (folder / f"{name}.evenload-pack").write_bytes(data)
    (folder / "foreign.evenload-return").write_bytes(foreign_return())


if __name__ == "__main__":
    main()
