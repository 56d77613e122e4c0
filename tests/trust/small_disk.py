"""A real small disk: a file system of its own in a file, and what fills it up but for a few blocks."""
from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

SIZE_MIB = 48
BLOCK = 4096
"""Of the file system, bytes. With smaller ones the memory that SQLite shares between processes is mapped over holes."""
#: Within so many free blocks a cut is tried: the largest undertaking writes about as much.
MOST_FREE = 40


@contextmanager
def small_disk(beside: Path) -> Iterator[Path | None]:
    """An empty ext4 file system, mounted for as long as it is needed; None where this machine or user cannot mount one.

    Args:
        beside: a folder for the image and the place where it is mounted.
    """
    image, place = beside / "disk.img", beside / "disk"
    if not _made(image, place):
        yield None
        return
    try:
        inner = place / "data"
        inner.mkdir()
        yield inner
    finally:
        subprocess.run(["umount", "--lazy", str(place)], check=True)
        image.unlink()


def _made(image: Path, place: Path) -> bool:
    if not shutil.which("mkfs.ext4") or not shutil.which("mount"):
        return False
    with image.open("wb") as file:
        file.truncate(SIZE_MIB << 20)
    place.mkdir()
    commands = (["mkfs.ext4", "-q", "-F", "-b", str(BLOCK), "-m", "0", str(image)],
                ["mount", "-o", "loop", str(image), str(place)])
    return all(subprocess.run(command, capture_output=True).returncode == 0 for command in commands)


@contextmanager
def filled(place: Path, free: int) -> Iterator[None]:
    """The disk of `place` with that many blocks of 4 KiB left, and with its room again afterwards."""
    ballast = place / "ballast"
    seen = os.statvfs(place)
    taken = seen.f_bavail * seen.f_frsize - free * BLOCK
    try:
        with ballast.open("wb") as file:
            if taken > 0:
                os.posix_fallocate(file.fileno(), 0, taken)
        yield
    finally:
        ballast.unlink()
