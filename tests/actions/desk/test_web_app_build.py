"""A shell and a folder that somebody tampered with write, and delete, nothing outside the folder of the app."""
from __future__ import annotations

import io
import json
import struct
import zipfile
import zlib
from pathlib import Path

import pytest

from app.actions.desk import brand_apps
from app.actions.desk.web_app_build import make_app, read_shell
from app.cli import main
from app.device.abilities import PickedFile
from app.domain.errors import AppError, ContentError, FileError, TooLarge, UnsafeEntry, WrongValue
from app.exchange.brands.brand_file import BrandFiles, read_brand_files
from app.exchange.brands.web_shell import ABOUT, FORM, LISTING
from app.storage.database import Store
from app.words import brand as words

BRANDS = Path(__file__).resolve().parents[3] / "build" / "brands"
PLAIN = BRANDS / "evenload.toml"
PARTS = {
    ABOUT: json.dumps({"form": FORM}).encode(), "index.html": b"<title>{{name}}</title>",
    "sw.js": b"const PARTS = /*PARTS*/{}; '/*POLICY*/'", "memory.mjs": b"'/*VERSION*/'",
}


def zipped(parts: dict[str, bytes]) -> bytes:
    """As `build/web.py` writes a shell."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts.items():
            archive.writestr(zipfile.ZipInfo(name), data, zipfile.ZIP_DEFLATED)
    return out.getvalue()


def shell(folder: Path, parts: dict[str, bytes]) -> Path:
    """A file of these parts."""
    path = folder / "shell.zip"
    path.write_bytes(zipped(parts))
    return path


@pytest.fixture
def whole() -> BrandFiles:
    """A brand without an icon."""
    return read_brand_files(PLAIN)


def test_a_whole_shell_becomes_an_app(tmp_path: Path, whole: BrandFiles) -> None:
    """With a listing of all that was written, and what a later version lacks is deleted."""
    out = tmp_path / "out"
    make_app(whole, shell(tmp_path, PARTS | {"old.js": b"1"}), out)
    assert (out / "index.html").read_text() == "<title>Evenload</title>" and (out / "old.js").exists()
    made = make_app(whole, shell(tmp_path, PARTS), out)
    assert not (out / "old.js").exists()
    assert made.files == len(json.loads((out / LISTING).read_bytes())) + 1


STRAY = ["../stray.js", "/tmp/evenload-stray.js", "a/../../stray.js", "a\\..\\stray.js", "C:/stray.js", ".hidden",
         "a//b.js", "./a.js", "-a.js", "a/", "é.js", "x" * 201, "INDEX.html"]


@pytest.mark.parametrize("name", STRAY)
def test_a_path_that_leads_elsewhere_is_refused_and_nothing_is_written(
    name: str, tmp_path: Path, store: Store, capsys: pytest.CaptureFixture[str],
) -> None:
    """By the command and at the desk."""
    path = shell(tmp_path, PARTS | {name: b"stray"})
    before = sorted(tmp_path.rglob("*"))
    out = tmp_path / "deep" / "out"
    assert main(["make-app", "--brand", str(PLAIN), "--shell", str(path), "-o", str(out)]) == 2
    assert capsys.readouterr().err.count("\n") == 1
    with pytest.raises(FileError):
        brand_apps.take_files(store, [PickedFile("shell.zip", path.read_bytes())])
    assert sorted(tmp_path.rglob("*")) == before and brand_apps.shell_file(store) is None
    assert not Path("/tmp/evenload-stray.js").exists()


def test_a_link_inside_a_shell_is_refused(tmp_path: Path) -> None:
    """A later entry could be written through it."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for name, data in PARTS.items():
            archive.writestr(zipfile.ZipInfo(name), data)
        link = zipfile.ZipInfo("icons")
        link.create_system, link.external_attr = 3, 0o120777 << 16
        archive.writestr(link, "/tmp")
    (tmp_path / "shell.zip").write_bytes(out.getvalue())
    with pytest.raises(UnsafeEntry):
        read_shell(tmp_path / "shell.zip")


def test_a_shell_is_read_within_its_bounds(tmp_path: Path) -> None:
    """What unpacks to a hundred times its size, or to more than allowed, is refused before it is unpacked."""
    with pytest.raises(TooLarge):
        read_shell(shell(tmp_path, PARTS | {"zeros.bin": bytes(50_000_000)}))


BROKEN: dict[str, dict[str, bytes]] = {
    "no form": PARTS | {ABOUT: b"{}"}, "a list": PARTS | {ABOUT: b"[]"},
    "a word for a form": PARTS | {ABOUT: b'{"form": "x"}'},
    "a newer form": PARTS | {ABOUT: b'{"form": 99}'}, "deep": PARTS | {ABOUT: b"[" * 100_000},
    "no page": {k: v for k, v in PARTS.items() if k != "index.html"}, "no UTF-8": PARTS | {"index.html": b"\xff"},
    "an unknown place": PARTS | {"index.html": b"{{nobody}}"}, "no UTF-8 in a script": PARTS | {"sw.js": b"\xff"},
    "no places": PARTS | {"sw.js": b""}, "no version": PARTS | {"memory.mjs": b""},
    "no form in UTF-8": PARTS | {ABOUT: b"\xff"}, "a file for a folder": PARTS | {"a": b"1", "a/b": b"2"},
}


@pytest.mark.parametrize("kind", BROKEN)
def test_a_broken_shell_is_one_sentence(kind: str, tmp_path: Path, whole: BrandFiles) -> None:
    """And no exception of Python's own."""
    with pytest.raises(AppError):
        make_app(whole, shell(tmp_path, BROKEN[kind]), tmp_path / "out")


@pytest.mark.parametrize("data", [b"", b"PK", b"PK\x03\x04", b"no zip", zipped(PARTS)[:-30], zipped({"a": b""})])
def test_what_is_no_shell_is_refused(data: bytes, tmp_path: Path) -> None:
    """A cut one too."""
    (tmp_path / "shell.zip").write_bytes(data)
    with pytest.raises((ContentError, FileError)):
        read_shell(tmp_path / "shell.zip")


@pytest.mark.parametrize("listed", [["../kept.txt"], ["/etc/hostname"], ["linked/kept.txt"], ["a/../../kept.txt"]])
def test_a_listing_that_was_tampered_with_deletes_nothing_elsewhere(
    listed: list[str], tmp_path: Path, whole: BrandFiles,
) -> None:
    """Neither by dots nor by an absolute path nor by way of a link."""
    kept, out, other = tmp_path / "kept.txt", tmp_path / "out", tmp_path / "other"
    kept.write_text("theirs")
    other.mkdir()
    (other / "kept.txt").write_text("theirs")
    make_app(whole, shell(tmp_path, PARTS), out)
    (out / "linked").symlink_to(other)
    (out / LISTING).write_text(json.dumps(dict.fromkeys(listed, "0")))
    make_app(whole, shell(tmp_path, PARTS), out)
    assert kept.exists() and (other / "kept.txt").exists() and Path("/etc/hostname").exists()


@pytest.mark.parametrize("words_", ["[1]", '[["a"]]', "3", "null", "[" * 100_000, '"a"', "{"])
def test_a_listing_that_is_none_makes_the_folder_somebody_elses(words_: str, tmp_path: Path, whole: BrandFiles) -> None:
    """Nothing is written into it."""
    out = tmp_path / "out"
    out.mkdir()
    (out / LISTING).write_text(words_)
    with pytest.raises(WrongValue):
        make_app(whole, shell(tmp_path, PARTS), out)


def test_nothing_is_written_through_a_link(tmp_path: Path, whole: BrandFiles) -> None:
    """That somebody put into the folder."""
    out, other = tmp_path / "out", tmp_path / "other"
    make_app(whole, shell(tmp_path, PARTS), out)
    other.mkdir()
    (out / "extra").symlink_to(other)
    with pytest.raises(WrongValue):
        make_app(whole, shell(tmp_path, PARTS | {"extra/a.js": b"1"}), out)
    assert not list(other.iterdir())


def huge_icon(side: int) -> bytes:
    """The head of a PNG of that size, and hardly anything in it."""
    def part(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">L", len(data)) + kind + data + struct.pack(">L", zlib.crc32(kind + data))

    head = struct.pack(">LLBBBBB", side, side, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + part(b"IHDR", head) + part(b"IDAT", zlib.compress(b"")) + part(b"IEND", b"")


@pytest.mark.parametrize("side", [4_097, 20_000, 2**31 - 1])
def test_a_huge_icon_is_refused_before_it_is_drawn(side: int, tmp_path: Path) -> None:
    """By the size that it states."""
    (tmp_path / "brand.toml").write_text(
        (BRANDS / "saltmarsh.toml").read_text("utf-8").replace("saltmarsh-icon.png", "icon.png"), "utf-8")
    for name in ("saltmarsh-picture.png", "saltmarsh.evenload-pack"):
        (tmp_path / name).write_bytes((BRANDS / name).read_bytes())
    (tmp_path / "icon.png").write_bytes(huge_icon(side))
    with pytest.raises(WrongValue):
        read_brand_files(tmp_path / "brand.toml")


def test_both_ways_of_making_an_app_say_that_one_host_is_one_cupboard() -> None:
    """Naming keeps records apart by accident, not by force."""
    for said in (words.made("Studio", "out", 3, 1_000_000), words.app_made("Studio", "out", 1_000_000)):
        assert "its own host name" in said
