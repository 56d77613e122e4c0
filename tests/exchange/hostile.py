"""Files that ask for far more than they are: small to carry, truly signed and sealed, and large once they are read.

    python -m tests.exchange.hostile FILE KIND        reads one, and prints its outcome, seconds and megabytes
"""
from __future__ import annotations

import asyncio
import hashlib
import json
import sys
import time
import zlib
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, NamedTuple

from app.domain.errors import FileError
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import key_id
from app.exchange.crypto.sealing import header_of, seal
from app.exchange.crypto.signing import signed
from app.exchange.forms.content import source_to_json
from app.exchange.forms.to_json import to_json
from app.exchange.letters.replies import read_reply
from app.exchange.letters.returns import read_return, write_return
from app.exchange.packs.pack import read_pack
from tests.exchange.fixed import CHECK_IN, CLIENT, COACH, DONE, READERS, RETURN, SOURCE, run
from tests.exchange.forgery import forged, inside

OK = "ok"


class Hostile(NamedTuple):
    """A file, of which kind, and what must become of it."""

    kind: Kind
    expect: str
    make: Callable[[], bytes]


def _noise(count: int) -> str:
    """Text that packs no further than to its half, so that what stands beside it seems to be worth its size."""
    return "".join(hashlib.sha256(str(n).encode()).hexdigest() for n in range(count // 64))


def letter(body: bytes, kind: Kind = Kind.RETURN) -> bytes:
    """A letter with any JSON, signed and sealed as it should be."""
    writer, readers = (CLIENT.signing, READERS) if kind is Kind.RETURN else (COACH.signing, (CLIENT.sealing.public,))
    header = header_of(kind, [key_id(reader) for reader in readers])
    return run(seal(zlib.compress(run(signed(header, body, writer)), 9), readers, kind))


def _changed(change: Callable[[dict[str, Any]], object], pad: int = 0) -> bytes:
    """A return with something changed, and so many characters of noise under a key that nobody knows."""
    table = inside(run(write_return(replace(RETURN, records=(CHECK_IN, DONE)), client=CLIENT, readers=READERS)))
    change(table)
    return letter(to_json({**table, "noise": _noise(pad)}))


def _record(change: Callable[[dict[str, Any]], object], pad: int = 0) -> bytes:
    return _changed(lambda table: change(table["records"][0]), pad)


def _taken_back(count: int) -> Callable[[dict[str, Any]], object]:
    def change(table: dict[str, Any]) -> None:
        stamp = {**table["records"][0]["stamp"], "deleted": True}
        table["records"] = [{"record": "check_in", "stamp": {**stamp, "id": f"c{n}"}} for n in range(count)]
    return change


def _nested(depth: int) -> bytes:
    """A return whose unknown key holds brackets, so deep."""
    table = inside(run(write_return(RETURN, client=CLIENT, readers=READERS)))
    return letter(to_json({**table, "tide": "HERE"}).replace(b'"HERE"', b"[" * depth + b"]" * depth))


def _nested_record(depth: int) -> bytes:
    table = inside(run(write_return(RETURN, client=CLIENT, readers=READERS)))
    table["records"][0]["pain"] = "HERE"
    return letter(to_json(table).replace(b'"HERE"', b'{"left knee":' * depth + b"1" + b"}" * depth))


def _pack(content: bytes, files: Mapping[str, bytes] | None = None) -> bytes:
    """A pack with any content, and a medium that makes it large enough to be believed."""
    return forged(content=content, files={"media/noise": bytes.fromhex(_noise(6_000_000)), **(files or {})})


def _content(**more: Any) -> bytes:
    return to_json({**json.loads(source_to_json(SOURCE)), **more})


R, A, P = Kind.RETURN, Kind.REPLY, Kind.PACK
FILES: Mapping[str, Hostile] = {
    "two million symptoms": Hostile(R, "TooLarge", lambda: _record(lambda r: r.update(symptoms=["x"] * 2_000_000))),
    "two million symptoms, padded": Hostile(
        R, "TooLarge", lambda: _record(lambda r: r.update(symptoms=["x"] * 2_000_000), 400_000)),
    "as many wrong symptoms as one record may hold": Hostile(
        R, "DamagedFile", lambda: _record(lambda r: r.update(symptoms=["x"] * 190_000), 200_000)),
    "wrong regions by the hundred thousand": Hostile(
        R, "DamagedFile", lambda: _record(lambda r: r.update(pain={f"k{n}": 1 for n in range(90_000)}), 200_000)),
    "millions of values that nobody knows": Hostile(
        R, OK, lambda: _changed(lambda t: t.update(tide=[[]] * 1_900_000), 400_000)),
    "more values than any diary": Hostile(
        R, "TooLarge", lambda: _changed(lambda t: t.update(tide=[0] * 4_100_000), 400_000)),
    "unknown keys in a record": Hostile(
        R, OK, lambda: _record(lambda r: r.update(tide=[[]] * 90_000), 200_000)),
    "a record of an unknown kind, as large as may be": Hostile(
        R, OK, lambda: _changed(lambda t: t["records"].append({"record": "tide", "x": [[]] * 90_000}), 200_000)),
    "fifty thousand records": Hostile(R, OK, lambda: _changed(_taken_back(50_000))),
    "fifty thousand and one": Hostile(R, "DamagedFile", lambda: _changed(_taken_back(50_001))),
    "one note of thirty megabytes": Hostile(
        R, "DamagedFile", lambda: _record(lambda r: r.update(note="n" * 30_000_000), 800_000)),
    "nothing but blanks": Hostile(R, "TooLarge", lambda: letter(b" " * 33_554_000)),
    "brackets a million deep": Hostile(R, "DamagedFile", lambda: _nested(400_000)),
    "a record of a thousand brackets": Hostile(R, "DamagedFile", lambda: _nested_record(1_000)),
    "a reply of two megabytes": Hostile(A, "TooLarge", lambda: letter(
        to_json({"person": "ada", "number": 1, "made_utc": "2026-03-02T07:30:00Z", "message": _noise(2_000_000)}), A)),
    "a reply of a hundred thousand limits": Hostile(A, "TooLarge", lambda: letter(to_json({
        "person": "ada", "number": 1, "made_utc": "2026-03-02T07:30:00Z",
        "limits": {f"a{n}": 1 for n in range(60_000)}}), A)),
    "content of seventeen megabytes": Hostile(P, "TooLarge", lambda: _pack(_content(tide="n" * 17_000_000))),
    "content of millions of values": Hostile(P, "TooLarge", lambda: _pack(_content(tide=[0] * 7_000_000))),
    "an exercise of millions of cues": Hostile(
        P, "TooLarge", lambda: _pack(_content(exercises=[{"cues": {"set_up": [0] * 900_000}}]))),
    "an exercise of wrong cues": Hostile(
        P, "DamagedFile", lambda: _pack(_content(exercises=[{"cues": {"set_up": [0] * 190_000}}]))),
    "two thousand and one sessions": Hostile(P, "DamagedFile", lambda: _pack(_content(sessions=[{}] * 2_001))),
    "content of brackets": Hostile(P, "DamagedFile", lambda: _pack(b"[" * 400_000)),
    "a figure of five megabytes": Hostile(
        P, "TooLarge", lambda: _pack(_content(), {"figures/rise.json": b" " * 5_000_000})),
    "a manifest of three megabytes": Hostile(P, "TooLarge", lambda: forged(
        files={"media/noise": bytes.fromhex(_noise(200_000))}, coach="n" * 3_000_000)),
}


async def _read(data: bytes, kind: Kind) -> None:
    if kind is Kind.RETURN:
        await read_return(data, "file", private_keys=(COACH.sealing,))
    elif kind is Kind.REPLY:
        await read_reply(data, "file", private_keys=(CLIENT.sealing,), coach_keys=(COACH.signing.public,))
    else:
        await read_pack(data, "file")


def main(path: str, kind: str) -> None:
    """Outcome, seconds, and megabytes beyond what the program takes before it reads."""
    data = Path(path).read_bytes()
    before, began, outcome = _most_kib(), time.perf_counter(), OK
    try:
        asyncio.run(_read(data, Kind(kind)))
    except FileError as error:
        outcome = type(error).__name__
    took = time.perf_counter() - began
    print(outcome, f"{took:.2f}", (_most_kib() - before) // 1024)


def _most_kib() -> int:
    """The most memory that this process has had; the kernel's other count takes a parent's along."""
    status = Path("/proc/self/status")
    if status.exists():
        return next(int(line.split()[1]) for line in status.read_text().splitlines() if line.startswith("VmHWM"))
    import resource
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss


if __name__ == "__main__":
    main(*sys.argv[1:])
