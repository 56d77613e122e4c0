"""An ordinary ZIP with deterministic bytes, and a reader that trusts nothing in it.

Read before anything is unpacked: 200 MB as a file and unpacked, 5,000 entries, 100:1 overall, plain relative ASCII
paths, no links, no encryption, no name twice (whatever its case), entries that touch one another without gaps.
"""
from __future__ import annotations

import io
import re
import stat
import struct
import zipfile
import zlib
from collections.abc import Iterator, Mapping

from app.domain.errors import DamagedFile, TooLarge, UnsafeEntry

MOST_BYTES = 200 * 1000 * 1000
MOST_ENTRIES = 5000
MOST_RATIO = 100
#: What is read as JSON is far smaller than the rest, since each byte of it may become a hundred in memory.
MOST_CONTENT, MOST_MANIFEST, MOST_FIGURE = 16_000_000, 2_000_000, 4_000_000
_LONGEST_NAME = 200
#: One path inside a pack: ASCII letters, digits, `.`, `-`, `_`, parts joined by `/`, none beginning with `.` or `-`.
_SAFE_PATH = re.compile(r"[A-Za-z0-9_][A-Za-z0-9._-]*(/[A-Za-z0-9_][A-Za-z0-9._-]*)*")
_EPOCH = (1980, 1, 1, 0, 0, 0)
_FILE_MODE = (stat.S_IFREG | 0o644) << 16
_END = struct.Struct("<4s4H2LH")
_LOCAL_BYTES, _CENTRAL_BYTES = 30, 46
_METHODS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
_UNREADABLE = (zipfile.BadZipFile, zipfile.LargeZipFile, zlib.error, struct.error, NotImplementedError, EOFError,
               OSError, RuntimeError, ValueError, IndexError, KeyError)


def build_archive(entries: Mapping[str, bytes], before: int) -> bytes:
    """A ZIP of the entries in the order of their names, deflated, every timestamp the first of January 1980.

    `before` is how many bytes will stand in front of it, so that its offsets count from the file's first byte.
    The same entries give the same bytes with the same zlib.

    Raises:
        UnsafeEntry, TooLarge: what the reader would refuse.
    """
    out = io.BytesIO()
    out.write(bytes(before))
    _check_names("", tuple(entries))
    with zipfile.ZipFile(out, "a", zipfile.ZIP_DEFLATED) as archive:
        for path in sorted(entries):
            archive.writestr(_entry(path), entries[path], zipfile.ZIP_DEFLATED, 6)
    data = out.getvalue()
    check_size(data, "")
    for path, content in entries.items():
        check_entry_size(path, len(content), "")
    _check_unpacked("", sum(map(len, entries.values())), len(data))
    return data[before:]


def read_archive(data: bytes, before: int, name: str) -> dict[str, bytes]:
    """Every entry by path. `data` is the whole file, whose first `before` bytes are not the archive's.

    Raises:
        TooLarge: over a limit.
        UnsafeEntry: a path, link or repetition that is not allowed.
        DamagedFile: anything else that is not an archive as we write it.
    """
    check_size(data, name)
    _check_end(data, before, name)
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            listed = archive.infolist()
            _check_entries(listed, len(data), name)
            _check_layout(archive, listed, before, name)
            return dict(_unpacked(archive, listed, name))
    except _UNREADABLE as error:
        raise DamagedFile(name=name, why="archive") from error


class PackShelf:
    """Single entries of an archive that was read whole once before, without unpacking the others."""

    def __init__(self, data: bytes) -> None:
        self._archive = zipfile.ZipFile(io.BytesIO(data))

    def read(self, path: str) -> bytes | None:
        """That entry, or None where there is none."""
        try:
            return self._archive.read(path)
        except KeyError:
            return None


def is_safe_path(path: str) -> bool:
    """Whether an archive may hold a file of that path."""
    return len(path) <= _LONGEST_NAME and _SAFE_PATH.fullmatch(path) is not None


def check_size(data: bytes, name: str) -> None:
    """Whether the file as a whole is within its limit.

    Raises:
        TooLarge: it is not.
    """
    if len(data) > MOST_BYTES:
        raise TooLarge(name=name, limit=MOST_BYTES, found=len(data))


def check_entry_size(path: str, size: int, name: str) -> None:
    """Whether what is read as JSON is within its limit.

    Raises:
        TooLarge: it is not.
    """
    limits = {"content.json": MOST_CONTENT, "manifest.json": MOST_MANIFEST}
    limit = limits.get(path, MOST_FIGURE if path.startswith("figures/") else MOST_BYTES)
    if size > limit:
        raise TooLarge(name=name, limit=limit, found=size)


def _entry(path: str) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(path, _EPOCH)
    entry.create_system, entry.external_attr, entry.compress_type = 3, _FILE_MODE, zipfile.ZIP_DEFLATED
    return entry


def _check_end(data: bytes, before: int, name: str) -> None:
    """The end record stands at the very end, and the directory it names is no larger than its entries may need."""
    if len(data) < before + _END.size:
        raise DamagedFile(name=name, why="archive cut short")
    mark, disk, start_disk, here, count, directory, at, comment = _END.unpack_from(data, len(data) - _END.size)
    if mark != b"PK\x05\x06" or comment or disk or start_disk or here != count:
        raise DamagedFile(name=name, why="archive end")
    if count > MOST_ENTRIES:
        raise TooLarge(name=name, limit=MOST_ENTRIES, found=count)
    if at + directory + _END.size != len(data) or not before <= at:
        raise DamagedFile(name=name, why="archive directory")
    if directory > MOST_ENTRIES * (_CENTRAL_BYTES + _LONGEST_NAME):
        raise TooLarge(name=name, limit=MOST_ENTRIES, found=directory // _CENTRAL_BYTES)


def _check_entries(listed: list[zipfile.ZipInfo], packed: int, name: str) -> None:
    """Names, kinds and stated sizes, before anything is unpacked."""
    if len(listed) > MOST_ENTRIES:
        raise TooLarge(name=name, limit=MOST_ENTRIES, found=len(listed))
    _check_names(name, tuple(entry.orig_filename for entry in listed))
    for entry in listed:
        mode = entry.external_attr >> 16
        if entry.flag_bits & 0x1 or (stat.S_IFMT(mode) not in (0, stat.S_IFREG)) or entry.is_dir():
            raise UnsafeEntry(name=name, entry=entry.orig_filename)
    _check_unpacked(name, sum(entry.file_size for entry in listed), packed)
    for entry in listed:
        check_entry_size(entry.orig_filename, entry.file_size, name)
    if any(entry.compress_type not in _METHODS or entry.extra or entry.comment for entry in listed):
        raise DamagedFile(name=name, why="archive method")


def _check_names(name: str, paths: tuple[str, ...]) -> None:
    seen: set[str] = set()
    for path in paths:
        if not is_safe_path(path) or path.casefold() in seen:
            raise UnsafeEntry(name=name, entry=path)
        seen.add(path.casefold())


def _check_unpacked(name: str, unpacked: int, packed: int) -> None:
    limit = min(MOST_BYTES, packed * MOST_RATIO)
    if unpacked > limit:
        raise TooLarge(name=name, limit=limit, found=unpacked)


def _check_layout(archive: zipfile.ZipFile, listed: list[zipfile.ZipInfo], before: int, name: str) -> None:
    """Entries begin right after the lines, touch one another and end where the directory begins."""
    at = before
    for entry in sorted(listed, key=lambda one: one.header_offset):
        if entry.header_offset != at:
            raise DamagedFile(name=name, why="archive layout")
        at += _LOCAL_BYTES + len(entry.orig_filename) + entry.compress_size
    if at != archive.start_dir:
        raise DamagedFile(name=name, why="archive layout")


def _unpacked(archive: zipfile.ZipFile, listed: list[zipfile.ZipInfo], name: str) -> Iterator[tuple[str, bytes]]:
    """Each entry, read no further than one byte past its stated size."""
    for entry in listed:
        with archive.open(entry) as stream:
            content = stream.read(entry.file_size + 1)
            if len(content) != entry.file_size or stream.read(1):
                raise DamagedFile(name=name, why="archive entry size")
        yield entry.orig_filename, content
