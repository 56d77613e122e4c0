"""The ZIP inside a pack: same bytes for the same entries, and nothing unpacked that is over a limit."""
from __future__ import annotations

import io
import struct
import zipfile
import zlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import DamagedFile, FileError, TooLarge, UnsafeEntry
from app.exchange.packs import archive
from app.exchange.packs.archive import build_archive, read_archive

FRONT = b"three lines\n"
_names = st.text("abcXYZ019_-.", min_size=1, max_size=8).filter(lambda name: name[0] not in "-.")
entries = st.dictionaries(st.lists(_names, min_size=1, max_size=3).map("/".join),
                          st.binary(max_size=300), max_size=5)


def read(data: bytes) -> dict[str, bytes]:
    return read_archive(data, len(FRONT), "file")


def zipped(*named: tuple[str, bytes]) -> bytes:
    """A ZIP behind the front as another program may write it."""
    out = io.BytesIO()
    out.write(FRONT)
    with zipfile.ZipFile(out, "a", zipfile.ZIP_DEFLATED) as made:
        for name, content in named:
            made.writestr(zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0)), content, zipfile.ZIP_DEFLATED)
    return out.getvalue()


@given(entries)
def test_what_is_built_is_read_and_is_the_same_again(files: dict[str, bytes]) -> None:
    """Deterministic bytes, and an ordinary ZIP to any other program."""
    folded = {name.casefold() for name in files}
    if len(folded) < len(files):
        with pytest.raises(UnsafeEntry):
            build_archive(files, len(FRONT))
        return
    if sum(map(len, files.values())) > 0:
        shuffled = dict(reversed(files.items()))
        data = FRONT + build_archive(files, len(FRONT))
        assert data == FRONT + build_archive(shuffled, len(FRONT))
        assert read(data) == files
        with zipfile.ZipFile(io.BytesIO(data)) as other:
            assert other.testzip() is None and sorted(files) == other.namelist()


@pytest.mark.parametrize("path", [
    "../x", "a/../../x", "/etc/passwd", "C:/x", "a\\b", "..\\x", "a//b", "a/", "./a", ".hidden", "", "a\x00b", "ä",
    "a/.b", "x" * 201, "a b", "~root", "a\n",
])
def test_a_path_that_could_lead_outside_is_refused(path: str) -> None:
    """Reading and building alike."""
    with pytest.raises(FileError) as caught:
        read(zipped((path.replace("\0", "0"), b"x")).replace(b"a0b", b"a\0b"))
    assert type(caught.value) in (UnsafeEntry, DamagedFile)
    with pytest.raises(UnsafeEntry):
        build_archive({path: b"x"}, len(FRONT))


@pytest.mark.filterwarnings("ignore:Duplicate name")
@pytest.mark.parametrize("pair", [("a", "a"), ("a", "A"), ("m/a", "M/a")])
def test_a_name_twice_is_refused_whatever_its_case(pair: tuple[str, str]) -> None:
    """Two programs must not see two different files under one name."""
    with pytest.raises(UnsafeEntry):
        read(zipped((pair[0], b"1"), (pair[1], b"2")))


def test_a_link_is_refused() -> None:
    """Not a regular file."""
    entry = zipfile.ZipInfo("a")
    entry.external_attr = 0o120777 << 16
    with pytest.raises(UnsafeEntry):
        read(_with(entry, b"/etc/passwd"))


def _with(entry: zipfile.ZipInfo, content: bytes) -> bytes:
    out = io.BytesIO()
    out.write(FRONT)
    with zipfile.ZipFile(out, "a", zipfile.ZIP_DEFLATED) as made:
        made.writestr(entry, content)
    return out.getvalue()


def test_an_encrypted_entry_is_refused() -> None:
    """Its flag is enough."""
    data = bytearray(zipped(("a", b"x" * 50)))
    central = data.rindex(b"PK\x01\x02")
    data[central + 8] |= 1
    with pytest.raises(UnsafeEntry):
        read(bytes(data))


def test_extra_fields_comments_and_odd_methods_are_refused() -> None:
    """One way to write it, so that there is one way to read it."""
    extra = zipfile.ZipInfo("a")
    extra.extra = struct.pack("<HH", 0x1234, 0)
    odd = zipfile.ZipInfo("a")
    odd.compress_type = zipfile.ZIP_BZIP2
    comment = zipfile.ZipInfo("a")
    comment.comment = b"hello"
    for entry in (extra, odd, comment):
        with pytest.raises(DamagedFile):
            read(_with(entry, b"x"))


def test_too_many_entries_are_refused_by_their_count() -> None:
    """Before the directory is read."""
    with pytest.raises(TooLarge):
        read(zipped(*((str(n), b"") for n in range(archive.MOST_ENTRIES + 1))))


def test_a_bomb_is_refused_by_what_it_states() -> None:
    """Ten gigabytes of zeros in three entries, each honest about its size."""
    data = bomb(3, 3_500_000_000)
    assert len(data) < 20_000_000
    with pytest.raises(TooLarge) as caught:
        read(data)
    assert caught.value.what["found"] == 10_500_000_000


def test_a_bomb_that_lies_is_read_no_further_than_it_states() -> None:
    """Ten gigabytes that call themselves a hundred bytes."""
    with pytest.raises(DamagedFile):
        read(bomb(1, 10_500_000_000, stated=100))


def zeros(size: int) -> bytes:
    """A deflate stream of so many zeros, made from one block said again and again."""
    piece = 50_000_000
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    block = packer.compress(bytes(piece)) + packer.flush(zlib.Z_FULL_FLUSH)
    rest = zlib.compressobj(9, zlib.DEFLATED, -15)
    return block * (size // piece) + rest.compress(bytes(size % piece)) + rest.flush()


def bomb(count: int, size: int, stated: int | None = None, front: bytes = FRONT) -> bytes:
    """A ZIP written by hand whose entries unpack to `size` zeros and say `stated`."""
    body, stated = zeros(size), size if stated is None else stated
    local, central = b"", b""
    for number in range(count):
        name = f"media/{number}".encode()
        head = struct.pack("<HHHHHLLLHH", 20, 0, 8, 0, 33, 0, len(body), stated, len(name), 0)
        at = len(front) + len(local)
        local += b"PK\x03\x04" + head + name + body
        central += b"PK\x01\x02\x14\x03" + head + struct.pack("<HHHLL", 0, 0, 0, 0o100644 << 16, at) + name
    end = struct.pack("<4s4H2LH", b"PK\x05\x06", 0, 0, count, count, len(central), len(front) + len(local), 0)
    return front + local + central + end


def test_a_ratio_over_a_hundred_is_refused() -> None:
    """Also for a small file, and by the builder too."""
    with pytest.raises(TooLarge):
        read(zipped(("a", bytes(1_000_000))))
    with pytest.raises(TooLarge):
        build_archive({"a": bytes(1_000_000)}, len(FRONT))


def test_gaps_overlaps_and_bytes_behind_the_end_are_refused() -> None:
    """Every byte belongs to an entry or to the directory."""
    data = zipped(("a", b"1" * 40), ("b", b"2" * 40))
    at = len(FRONT)
    for harmed in (data[:at] + b"x" + data[at:], data + b"x", b"x" + data, data[:at] + data[at + 1:]):
        with pytest.raises(DamagedFile):
            read(harmed)


def test_a_gap_that_the_offsets_know_of_is_refused() -> None:
    """Nothing hides between two entries, nor before the first."""
    for gap_at in (0, 1):
        out = io.BytesIO()
        out.write(FRONT)
        with zipfile.ZipFile(out, "a") as made:
            for number in range(2):
                if number == gap_at:
                    out.write(b"hidden")
                    made.start_dir = out.tell()
                made.writestr(str(number), b"x")
        with zipfile.ZipFile(io.BytesIO(out.getvalue())) as opened:
            assert opened.testzip() is None, "an ordinary program sees nothing wrong"
        with pytest.raises(DamagedFile):
            read(out.getvalue())


def test_two_entries_over_the_same_bytes_are_refused() -> None:
    """One compressed text must not be counted twice."""
    data = zipped(("a", b"x" * 50))
    start, end = data.index(b"PK\x01\x02"), data.index(b"PK\x05\x06")
    central = data[start:end]
    twice = central + central[:-1] + b"b"
    count = struct.pack("<4s4H2LH", b"PK\x05\x06", 0, 0, 2, 2, len(twice), start, 0)
    with pytest.raises(DamagedFile):
        read(data[:start] + twice + count)


@given(st.binary(max_size=200))
def test_noise_is_damaged(noise: bytes) -> None:
    """Whatever stands there, it is an error of ours."""
    good = FRONT + build_archive({"a": b"content"}, len(FRONT))
    for data in (noise, FRONT + noise, FRONT + noise + good[-22:], good[:-22] + noise + good[-22:]):
        if data != good:
            with pytest.raises(FileError):
                read(data)


def test_any_flipped_byte_is_refused_or_harmless() -> None:
    """No error but ours; what still reads, reads as the same entries (the signature covers the rest)."""
    good = FRONT + build_archive({"a": b"content" * 9, "m/b": b"more"}, len(FRONT))
    for at in range(len(FRONT), len(good)):
        for bit in range(8):
            harmed = good[:at] + bytes([good[at] ^ (1 << bit)]) + good[at + 1:]
            try:
                found = read(harmed)
            except FileError:
                continue
            assert sorted(found.values()) == [b"content" * 9, b"more"]
