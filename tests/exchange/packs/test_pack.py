"""A pack: verified whole or refused whole."""
from __future__ import annotations

import base64
import io
import subprocess
import zipfile
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from shutil import which

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.errors import ContentError, DamagedFile, FileError, NewerFormat, NotOurFile, TooLarge, UnsafeEntry
from app.domain.model.source import Source
from app.exchange.forms.content import source_to_json
from app.exchange.forms.source import read_source
from app.exchange.packs import archive
from app.exchange.packs.manifest import KeyChange, PackEntry, public_keys, signed_key_change
from app.exchange.packs.pack import Pack, build_pack, read_pack
from tests.exchange import forgery
from tests.exchange.damage import assert_refused, cut, flipped
from tests.exchange.fixed import COACH, RECOVERY_SIGNING, SOURCE, STRANGER, run
from tests.exchange.forgery import forged
from tests.exchange.packs.test_archive import bomb
from tests.generators import sources
from tests.sampling import examples

MEDIA = {"media/rise.png": b"picture", "voice/en/rise.opus": b"voice"}


async def _read(data: bytes) -> Pack:
    return await read_pack(data, "file")


def _pack(source: Source = SOURCE) -> bytes:
    return run(build_pack(source, coach=COACH, media=MEDIA))


@given(sources())
def test_what_a_coach_packs_a_client_reads(source: Source) -> None:
    """The source comes out as it went in, with the keys to answer with."""
    pack = run(_read(_pack(source)))
    assert (pack.source, pack.coach, dict(pack.media)) == (source, source.coach, MEDIA)
    assert pack.signing_key == COACH.signing.public and pack.sealing_key == COACH.sealing.public
    assert pack.recovery_signing_key == RECOVERY_SIGNING.public


def test_the_same_work_gives_the_same_bytes() -> None:
    """So that two people can compare what they hold."""
    assert _pack() == _pack() and run(_read(_pack())).sha256 == run(_read(_pack())).sha256


def test_any_zip_program_opens_a_pack(tmp_path: Path) -> None:
    """The lines before the archive are in nobody's way."""
    with zipfile.ZipFile(io.BytesIO(_pack())) as opened:
        assert opened.testzip() is None
        assert set(opened.namelist()) == {"content.json", "manifest.json", *MEDIA}
    if unzip := which("unzip"):
        (tmp_path / "x.evenload-pack").write_bytes(_pack())
        assert subprocess.run([unzip, "-t", str(tmp_path / "x.evenload-pack")], capture_output=True).returncode == 0


def test_any_flipped_byte_is_refused() -> None:
    """Anywhere: in the three lines, in the archive, in its directory."""
    for harmed in flipped(_pack()):
        assert_refused(_read, harmed)


def test_any_cut_and_anything_behind_the_end_is_refused() -> None:
    """Nothing but the whole file will do."""
    data = _pack()
    for harmed in (*cut(data), data + b"\0", data + b"\n", data + data, b"\n" + data, b"\xef\xbb\xbf" + data):
        assert_refused(_read, harmed)


@given(st.data())
def test_any_harm_to_a_larger_pack_is_refused(data: st.DataObject) -> None:
    """Bytes replaced, taken out, put in or swapped, in a pack of a whole programme."""
    harmed = bytearray(_large())
    at = data.draw(st.integers(0, len(harmed) - 1))
    match data.draw(st.sampled_from(("replace", "remove", "insert", "swap"))):
        case "replace":
            harmed[at] ^= data.draw(st.integers(1, 255))
        case "remove":
            del harmed[at:at + data.draw(st.integers(1, 500))]
        case "insert":
            harmed[at:at] = data.draw(st.binary(min_size=1, max_size=20))
        case _:
            other = data.draw(st.integers(0, len(harmed) - 1))
            harmed[at], harmed[other] = harmed[other], harmed[at]
    if bytes(harmed) != _large():
        assert_refused(_read, bytes(harmed))


_kept: list[bytes] = []


def _large() -> bytes:
    if not _kept:
        demos = Path(__file__).parents[3] / "assets/programmes"
        _kept.append(_pack(read_source(next(p.parent for p in sorted(demos.glob("*/source.toml"))))))
    return _kept[0]


def test_line_endings_and_base64_are_exact() -> None:
    """There is one way to write the three lines."""
    first, key, signature, rest = _pack().split(b"\n", 3)
    raw = base64.b64decode(key[4:])
    loose = key[:-2] + bytes([key[-2] + 1]) + b"="
    assert base64.b64decode(loose[4:]) == raw, "the same key, written another way"
    slack = signature[:-3] + bytes([signature[-3] + 1]) + b"=="
    assert base64.b64decode(slack[10:]) == base64.b64decode(signature[10:]), "the same signature"
    for lines in ([first + b"\r", key, signature], [first, key + b"\r", signature], [first, key, signature + b"\r"],
                  [first, key + b" ", signature], [first, loose, signature], [first, key, slack],
                  [first, key[:-1], signature],
                  [first, b"key  " + key[4:], signature], [first, signature, key], [first, key, b"x: y", signature]):
        assert_refused(_read, b"\n".join([*lines, rest]))


def test_a_newer_major_version_is_said_and_another_kind_is_not_ours() -> None:
    """The first line decides before anything else is looked at."""
    assert_refused(_read, forgery.sealed_up(b"", first=b"evenload-pack 2\n"), NewerFormat)
    assert_refused(_read, b"evenload-pack 2\nwhatever", NewerFormat)
    for other in (b"", b"PK\x03\x04", b"evenload-return 1\n", b"evenload-pack 1", b"evenload-pack one\n"):
        assert_refused(_read, other, NotOurFile)


REFUSED: dict[str, tuple[Callable[[], bytes], type[FileError]]] = {
    "a parent path": (lambda: forged(files={"../x": b"x"}), UnsafeEntry),
    "a parent path inside media": (lambda: forged(files={"media/../../x": b"x"}), UnsafeEntry),
    "a path of another folder": (lambda: forged(files={"programs/x": b"x"}), UnsafeEntry),
    "an unlisted file": (lambda: forged(unlisted={"media/x": b"x"}), DamagedFile),
    "a listed file that is missing": (lambda: forged(entries=(PackEntry("media/x", 1, "ab" * 32),)), DamagedFile),
    "no manifest": (lambda: forgery.sealed_up(forgery.zipped({"content.json": source_to_json(SOURCE)})), DamagedFile),
    "an empty archive": (lambda: forgery.sealed_up(forgery.zipped({})), DamagedFile),
    "no archive": (lambda: forgery.sealed_up(b""), DamagedFile),
    "content that is no JSON": (lambda: forged(content=b"{"), DamagedFile),
    "content too deep": (lambda: forged(content=b"[" * 20_000), DamagedFile),
    "content without sense": (lambda: forged(content=b'{"source":{}}'), DamagedFile),
    "content of half characters": (lambda: forged(content=source_to_json(SOURCE).replace(b"Nell", b"\\ud800")),
                                   DamagedFile),
    "a dangling name": (lambda: forged(content=source_to_json(SOURCE).replace(b'"to":"perch"', b'"to":"porch"')),
                        DamagedFile),
    "keys of somebody else": (lambda: forged(keys=public_keys(STRANGER)), DamagedFile),
    "a name of somebody else": (lambda: forged(coach="Somebody"), DamagedFile),
    "a change of keys that nobody signed": (lambda: forged(key_change=KeyChange(bytes(32), bytes(64))), DamagedFile),
    "a change signed for other keys": (
        lambda: forged(key_change=run(signed_key_change(public_keys(STRANGER), RECOVERY_SIGNING))), DamagedFile),
    "ten gigabytes of zeros": (
        lambda: forgery.sealed_up(bomb(3, 3_500_000_000, front=bytes(forgery.LINES_BYTES))[forgery.LINES_BYTES:]),
        TooLarge),
    "ten gigabytes that say a hundred bytes": (
        lambda: forgery.sealed_up(bomb(1, 10_500_000_000, 100, bytes(forgery.LINES_BYTES))[forgery.LINES_BYTES:]),
        DamagedFile),
}


@pytest.mark.parametrize("case", REFUSED, ids=str)
def test_a_true_signature_does_not_excuse(case: str) -> None:
    """Each is refused by a signed file's content alone, with its own error."""
    made, kind = REFUSED[case]
    with pytest.raises(FileError) as caught:
        run(_read(made()))
    assert type(caught.value) is kind and caught.value.what["name"] == "file"


def test_the_forger_can_also_make_a_pack_that_is_read() -> None:
    """So each refusal above has the one reason that it names."""
    assert run(_read(forged(files={"media/x": b"x"}))).source == SOURCE


def test_a_file_over_the_limit_is_refused_by_its_size() -> None:
    """Before its signature is computed."""
    assert_refused(_read, b"evenload-pack 1\n" + bytes(archive.MOST_BYTES), TooLarge)


def test_nothing_is_packed_that_a_reader_would_refuse() -> None:
    """A mistake shows at the coach's, not at the client's."""
    with pytest.raises(ContentError):
        run(build_pack(replace(SOURCE, version=0), coach=COACH))
    with pytest.raises(UnsafeEntry):
        run(build_pack(SOURCE, coach=COACH, media={"media/a b.png": b""}))
    with pytest.raises(UnsafeEntry):
        run(build_pack(SOURCE, coach=COACH, media={"elsewhere/a.png": b""}))
    with pytest.raises(TooLarge):
        run(build_pack(SOURCE, coach=COACH, media={"media/a.bin": bytes(10_000_000)}))


@settings(max_examples=examples(30, 2000))
@given(st.binary(max_size=400))
def test_noise_is_a_file_error(noise: bytes) -> None:
    """Signed or not."""
    for data in (noise, b"evenload-pack 1\n" + noise, forgery.sealed_up(noise)):
        assert_refused(_read, data)
