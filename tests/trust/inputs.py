"""Every input that comes from outside: how it is read, whole ones to begin with, and how it is changed.

A new input is joined by one line in `INPUTS`.
"""
from __future__ import annotations

import base64
import io
import json
import shutil
import tempfile
import wave
import zipfile
import zlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from app.actions.desk.web_app_build import read_shell
from app.device.linked_files import HostFiles, address_below, folder_of
from app.domain.branding.brand import CoachKey
from app.domain.errors import AppError, ContentError, DeviceError, FileError, SecretError
from app.domain.figure.build import build_figure
from app.exchange.brands.brand_file import read_brand, read_brand_files
from app.exchange.brands.icons import site_files
from app.exchange.brands.web_shell import ABOUT, LISTING
from app.exchange.crypto import cipher
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.key_text import key_from_text, key_line, key_link
from app.exchange.crypto.passphrase import LEAST_ROUNDS, Stretching, open_copy, stretched_key
from app.exchange.crypto.recovery_words import recovery_words, seed_from_words
from app.exchange.crypto.sealing import open_sealed
from app.exchange.crypto.signing import SIGNED_BYTES
from app.exchange.crypto.text_form import from_text, to_text
from app.exchange.forms.command_inputs import client_from_json, diary_from_json, place_from_json
from app.exchange.forms.content import source_to_json
from app.exchange.forms.load_table import load_rows
from app.exchange.forms.source import read_source, write_source
from app.exchange.letters.replies import read_reply, write_reply
from app.exchange.letters.returns import read_return, write_return
from app.exchange.packs.figure_files import read_figure_source
from app.exchange.packs.pack import build_pack, read_pack
from app.exchange.packs.recorded_lines import read_recording
from tests.exchange.fixed import AROUND, CHECK_IN, CLIENT, COACH, DONE, READERS, REPLY, RETURN, SOURCE, YES, run
from tests.exchange.forgery import LINES_BYTES, forged, sealed_up
from tests.exchange.hostile import letter
from tests.trust.kept_apart import OnDevices
from tests.trust.mutation import Change, inside, some_bytes, some_values, some_words

ROOT, PHRASE = Path(__file__).parents[2], "six words of no sense"
BRANDS, FIGURES = ROOT / "build" / "brands", ROOT / "assets" / "programmes" / "brackwater" / "figures"
BYTES, WORDS, VALUES = (some_bytes,), (some_words, some_words, some_bytes), (some_values, some_values, some_words)


@dataclass(frozen=True)
class Input:
    """Something that is read. `share` of the tries: less where one takes long."""

    read: Callable[[bytes], object]
    seeds: Callable[[], Sequence[bytes]]
    ways: tuple[Change, ...]
    errors: tuple[type[AppError], ...] = (FileError,)
    share: float = 1.0
    kept: Callable[[], str] = str
    """What is kept of it, as text: a refused input leaves it as it was."""


@cache
def _folder() -> Path:
    return Path(tempfile.mkdtemp(prefix="evenload-inputs-"))


def _place(name: str, data: bytes) -> Path:
    """A file of these bytes."""
    path = _folder() / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
    return path


def _returns() -> list[bytes]:
    full = replace(RETURN, records=(CHECK_IN, DONE, YES, *AROUND))
    return [run(write_return(one, client=CLIENT, readers=READERS)) for one in (RETURN, full)]


def _replies() -> list[bytes]:
    return [run(write_reply(REPLY, coach=COACH.signing, readers=(CLIENT.sealing.public,)))]


def _packs() -> list[bytes]:
    return [run(build_pack(SOURCE, coach=COACH, media={"media/a.png": b"\x89PNG"}))]


def _opened(kind: Kind) -> Callable[[bytes], bytes]:
    """The JSON of a letter; of a whole one, since what is changed within is closed again before it is kept."""
    mine = COACH.sealing if kind is Kind.RETURN else CLIENT.sealing

    def unwrap(data: bytes) -> bytes:
        return zlib.decompress(run(open_sealed(data, "file", kind, (mine,))).plain)[SIGNED_BYTES:]
    return unwrap


def _content(data: bytes) -> bytes:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return archive.read("content.json")


def _whole_or(data: bytes, unwrap: Callable[[bytes], bytes], other: bytes) -> bytes:
    """What is inside, or inside of another where a change before left nothing to open."""
    try:
        return unwrap(data)
    except (AppError, ValueError, zlib.error, zipfile.BadZipFile, KeyError, NotImplementedError, EOFError, OSError):
        return other


def _letter_ways(kind: Kind, whole: Callable[[], Sequence[bytes]]) -> tuple[Change, ...]:
    unwrap = _opened(kind)
    first = cache(lambda: unwrap(whole()[0]))
    closed = inside(lambda data: _whole_or(data, unwrap, first()), some_values, lambda json_: letter(json_, kind))
    noise = inside(lambda data: _whole_or(data, unwrap, first()), some_bytes, lambda json_: letter(json_, kind))
    return (some_bytes, closed, closed, closed, noise)


def _pack_ways() -> tuple[Change, ...]:
    whole = cache(lambda: source_to_json(SOURCE))
    signed = inside(lambda data: _whole_or(data, _content, whole()), some_values, lambda json_: forged(content=json_))
    figure = inside(lambda _: whole(), lambda rng, data: some_bytes(rng, b'{"v":"5.7","layers":[]}'),
                    lambda json_: forged(files={"figures/rise.json": json_}))
    archive = inside(lambda data: data[LINES_BYTES:], some_bytes, sealed_up)
    return (some_bytes, archive, signed, signed, signed, figure)


def _texts() -> list[bytes]:
    return [to_text(_returns()[0], Kind.RETURN).encode(), to_text(_replies()[0], Kind.REPLY).encode()]


def _key_texts() -> list[bytes]:
    key = CoachKey("Nell Harker", COACH.signing.public.hex())
    return [key_line(key).encode(), key_link(key, "https://quay.example/app/").encode()]


@cache
def _source() -> Path:
    write_source(SOURCE, _folder() / "source")
    return _folder() / "source"


def _source_file(name: str) -> Input:
    """One file of a readable source, among whole others."""
    def read(data: bytes) -> object:
        path = _source() / name
        whole = path.read_bytes()
        try:
            path.write_bytes(data)
            return read_source(_source())
        finally:
            path.write_bytes(whole)
    return Input(read, lambda: [(_source() / name).read_bytes()], WORDS, (ContentError,))


def _copies() -> list[bytes]:
    """Of the fewest rounds that a reader takes, since all the time would go to them."""
    how = Stretching(bytes(range(16)), LEAST_ROUNDS)
    head = b"evenload-copy 1\npbkdf2-sha256 %d %s\nbody\n" % (how.rounds, base64.b64encode(how.salt))
    return [head + run(cipher.aes_seal(run(stretched_key(PHRASE, how)), bytes(12), b"SQLite format 3", head))]


def _text(read: Callable[[str], object]) -> Callable[[bytes], object]:
    return lambda data: read(data.decode("utf-8", "replace"))


def _brand(data: bytes) -> object:
    for beside in BRANDS.glob("saltmarsh-*.png"):
        if not (_folder() / "brand" / beside.name).exists():
            _place(f"brand/{beside.name}", beside.read_bytes())
    (_folder() / "brand" / "saltmarsh.evenload-pack").touch()
    return read_brand(_place("brand/saltmarsh.toml", data))


def _icon(data: bytes) -> object:
    _place("icons/brand.toml", ICON_BRAND)
    _place("icons/icon.png", data)
    return site_files(read_brand_files(_folder() / "icons" / "brand.toml"))


ICON_BRAND = b'[brand]\nid = "quay"\nname = "Quay"\nshort_name = "Quay"\nicon = "icon.png"\n'


def _wav(rate: int, channels: int, width: int = 2) -> bytes:
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(width)
        file.setframerate(rate)
        file.writeframes(bytes(range(256)) * (rate * channels * width // 1024))
    return out.getvalue()


def _shells() -> list[bytes]:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name in ("index.html", "sw.js", ABOUT, LISTING):
            archive.writestr(zipfile.ZipInfo(name), json.dumps({"of": name}))
    return [out.getvalue()]


def _figures() -> list[bytes]:
    """The first figure of each of two files."""
    found = [json.loads(path.read_bytes()) for path in sorted(FIGURES.glob("*.json"))[:2]]
    listed = [one if isinstance(one, list) else one.get("figures") or one["moves"] for one in found]
    return [json.dumps(figures[:1]).encode() for figures in listed]


def _figure(data: bytes) -> object:
    folder = _place("poses/figures/one.json", data).parents[1]
    source = read_figure_source(folder)
    return [build_figure(source.table(one), source.places[one]) for one in source.tables]


def _link(text: str) -> object:
    host = HostFiles("https://quay.example/app/#/today")
    return address_below(folder_of("https://quay.example/app/"), host.name_in(text.strip()))


CLIENT_FILE = (b'{"spare":{"left knee":1},"conditions":["osteoporosis"],"usual_pain":{"left knee":{"level":3,'
               b'"agreed_with":"physiotherapist","until":"2026-09-01"}},"weights_kg":[1,2.5],"alone":true}')
DIARY_FILE = (b'{"symptoms":[],"pain":{"left knee":4},"soreness":{"hip":2},"slept":3,"energy":4,"calm":4,'
              b'"last":{"days_ago":2,"rpe":6,"target_rpe":5,"completed":1.0},"fall":{"days_ago":3,"hurt":true}}')
PLACE_FILE = b'{"name":"Hall","kit":["chair","wall"],"floor":true,"noise":false,"space":"large"}'
TABLE = (b"date,minutes,rpe\n2026-02-02,30,5\n2026-02-04,25.5,6\n2026-02-09,40,4\n",
         b"rpe,minutes,date\r\n5,30,2026-02-02\r\n")

DEVICES = OnDevices()

INPUTS: dict[str, Input] = {
    "pack": Input(lambda data: run(read_pack(data, "file")), _packs, _pack_ways()),
    "return": Input(lambda data: run(read_return(data, "file", private_keys=(COACH.sealing,))), _returns,
                    _letter_ways(Kind.RETURN, _returns)),
    "reply": Input(lambda data: run(read_reply(data, "file", private_keys=(CLIENT.sealing,),
                                               coach_keys=(COACH.signing.public,))),
                   _replies, _letter_ways(Kind.REPLY, _replies)),
    "return at the desk": Input(DEVICES.take_return, _returns, _letter_ways(Kind.RETURN, _returns), (AppError,), 0.2,
                                DEVICES.desk_dump),
    "reply on the phone": Input(DEVICES.take_reply, _replies, _letter_ways(Kind.REPLY, _replies), (AppError,), 0.2,
                                DEVICES.phone_dump),
    "pack on the phone": Input(DEVICES.take_pack, _packs, _pack_ways(), (AppError,), 0.2, DEVICES.phone_dump),
    "text form": Input(_text(from_text), _texts, WORDS),
    "key text": Input(_text(lambda text: key_from_text(text, "text")), _key_texts, WORDS),
    "recovery words": Input(_text(seed_from_words), lambda: [" ".join(recovery_words(bytes(32))).encode()], WORDS,
                            (ContentError,)),
    "sealed copy": Input(lambda data: run(open_copy(data, "file", PHRASE)), _copies, BYTES,
                         (FileError, SecretError), 0.01),
    "source.toml": _source_file("source.toml"),
    "exercises in TOML": _source_file("exercises/0001-rise.toml"),
    "a session in TOML": _source_file("sessions/0001-short.toml"),
    "a programme in TOML": _source_file("programmes/0001-month.toml"),
    "CSV": Input(lambda data: load_rows(data, "table"), lambda: TABLE, WORDS, (ContentError,)),
    "client file": Input(_text(client_from_json), lambda: [CLIENT_FILE], VALUES, (ContentError,)),
    "place file": Input(_text(place_from_json), lambda: [PLACE_FILE], VALUES, (ContentError,)),
    "diary file": Input(_text(diary_from_json), lambda: [DIARY_FILE], VALUES, (ContentError,)),
    "brand": Input(_brand, lambda: [(BRANDS / "saltmarsh.toml").read_bytes()], WORDS, (ContentError, FileError)),
    "icon": Input(_icon, lambda: [(BRANDS / "saltmarsh-icon.png").read_bytes()], BYTES, (ContentError, FileError),
                  0.02),
    "shell": Input(lambda data: read_shell(_place("shell.zip", data)), _shells, BYTES, (ContentError, FileError)),
    "WAV": Input(lambda data: read_recording(data, "voice"), lambda: [_wav(16_000, 1), _wav(44_100, 2), _wav(8_000, 1)],
                 BYTES, (ContentError,)),
    "figure": Input(_figure, _figures, VALUES, (ContentError,), 0.1),
    "link": Input(_text(_link), lambda: [b"https://quay.example/app/#/get?file=packs/six%20weeks.evenload-pack"],
                  WORDS, (DeviceError,)),
}


def tidy() -> None:
    """Takes away the files that were read."""
    shutil.rmtree(_folder(), ignore_errors=True)
    _folder.cache_clear()
    _source.cache_clear()
