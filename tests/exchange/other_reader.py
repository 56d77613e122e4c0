"""A second reader of the formats, written from `PACK.md`, `RETURN.md` and `REPLY.md` on the standard library and
`cryptography`, without any code of the program.

It checks all that the documents say of lines, keys, archives, seals and bounds, and of values as much as shows whether
two readers agree: kinds, ranges, ids and references. An outcome is `ok` or the name of an error.
"""
from __future__ import annotations

import base64
import hashlib
import io
import json
import re
import stat
import struct
import unicodedata
import zipfile
import zlib
from collections.abc import Callable, Mapping
from datetime import datetime
from typing import Any, NoReturn

from cryptography.exceptions import InvalidSignature, InvalidTag
from cryptography.hazmat.primitives import hpke
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey
from cryptography.hazmat.primitives.asymmetric.x25519 import X25519PrivateKey
from cryptography.hazmat.primitives.ciphers.aead import AESGCM

SUITE = hpke.Suite(hpke.KEM.X25519, hpke.KDF.HKDF_SHA256, hpke.AEAD.AES_256_GCM)
Head = Mapping[str, str]


class Refused(Exception):
    """The name of an error."""


def refuse(name: str) -> NoReturn:
    """Ends the reading."""
    raise Refused(name)


def hold(fact: object, name: str = "DamagedFile") -> None:
    """Refuses unless the fact holds."""
    if not fact:
        refuse(name)


def outcome(whole: bytes) -> tuple[str, Any]:
    """What becomes of a vector, and, where it is `ok`, the JSON that it says."""
    head_text, _, data = whole.partition(b"\n\n")
    head = dict(line.split(": ", 1) for line in head_text.decode().splitlines())
    try:
        return "ok", {"pack": _pack, "return": _return, "reply": _reply}[head["kind"]](_file(data), head)
    except Refused as error:
        return str(error), None


# ------------------------------------------------------------------ lines and text form

def _file(data: bytes) -> bytes:
    if data.startswith(b"evenload-"):
        return data
    text = re.sub("[\\s>\u00ad\u200b-\u200f\u2028-\u202f\u2060\ufeff]+", "", data.decode("utf-8", "replace"))
    begin = re.search(r"\[evenload(pack|return|reply)begin\]", text, re.I)
    if begin is None:
        refuse("NotOurFile")
    rest = re.compile(r"([A-Za-z0-9+/]*={0,2})\[evenload(pack|return|reply)end([0-9a-f]{8})\]", re.I).match(
        text, begin.end())
    if rest is None or rest[2].lower() != begin[1].lower():
        refuse("DamagedFile")
    raw = _base64(rest[1].encode(), None)
    hold(hashlib.sha256(raw).hexdigest()[:8] == rest[3].lower())
    return raw


def _base64(text: bytes, length: int | None) -> bytes:
    try:
        raw = base64.b64decode(text, validate=True)
    except ValueError:
        refuse("DamagedFile")
    hold(length is None or (len(raw) == length and base64.b64encode(raw) == text))
    return raw


def _first_line(data: bytes, kind: str) -> bytes:
    found = re.match(rb"evenload-(pack|return|reply) ([1-9][0-9]{0,3})\n", data)
    if found is None:
        refuse("NotOurFile")
    hold(found[2] == b"1", "NewerFormat")
    hold(found[1].decode() == kind, "NotOurFile")
    return found[0]


def _signed(before: bytes, data: bytes) -> tuple[bytes, bytes]:
    """(key, body) once the signature holds."""
    lines = re.match(rb"key ([A-Za-z0-9+/]{43}=)\nsignature ([A-Za-z0-9+/]{86}==)\n", data)
    if lines is None:
        refuse("DamagedFile")
    key, signature, body = _base64(lines[1], 32), _base64(lines[2], 64), data[lines.end():]
    hold(_verifies(key, signature, before + data[:49] + body))
    return key, body


def _verifies(key: bytes, signature: bytes, message: bytes) -> bool:
    try:
        Ed25519PublicKey.from_public_bytes(key).verify(signature, message)
    except (InvalidSignature, ValueError):
        return False
    return True


# ------------------------------------------------------------------ JSON

def _json(body: bytes, most: int, lists: tuple[str, ...]) -> dict[str, Any]:
    """The table, within its bounds."""
    hold(_marks(body) <= most, "TooLarge")
    flat = re.sub(rb'"(?:[^"\\]|\\.)*"', b"", body)
    depth = 0
    for mark in re.findall(rb"[\[\]{}]", flat):
        depth += 1 if mark in b"[{" else -1
        hold(depth <= 33)
    try:
        pairs: list[tuple[str, Any]] = json.loads(body, object_pairs_hook=list, parse_constant=_no_constant)
        table: Any = json.loads(body)
    except ValueError:
        refuse("DamagedFile")
    hold(isinstance(table, dict) and len({key for key, _ in pairs}) == len(pairs))
    for name in lists:
        for entry in table.get(name, ()):
            hold(_marks(json.dumps(entry, separators=(",", ":"), ensure_ascii=False).encode()) <= 200_000, "TooLarge")
    return dict(table)


def _no_constant(_: str) -> NoReturn:
    raise ValueError


def _marks(text: bytes) -> int:
    return sum(text.count(mark) for mark in (b",", b":", b"[", b"{"))


def _whole(value: object, least: int, most: int) -> None:
    hold(type(value) is int and least <= value <= most)


def _text(value: object, most: int, least: int = 0) -> None:
    hold(isinstance(value, str) and least <= len(value) <= most
         and not any((c < " " and c not in "\n\t") or c == "\x7f" for c in value))


def _matches(value: object, pattern: str) -> None:
    hold(isinstance(value, str) and re.fullmatch(pattern, value))


def _instant(value: object) -> None:
    hold(isinstance(value, str) and value.endswith("Z"))
    try:
        datetime.fromisoformat(str(value))
    except ValueError:
        refuse("DamagedFile")


# ------------------------------------------------------------------ packs

def _pack(data: bytes, head: Head) -> Any:
    first = _first_line(data, "pack")
    signer, _ = _signed(first, data[len(first):])
    files = _archive(data)
    hold({"manifest.json", "content.json"} <= files.keys())
    about = _json(files.pop("manifest.json"), 1_000_000, ())
    listed = [{"name": n, "size": len(files[n]), "sha256": hashlib.sha256(files[n]).hexdigest()} for n in sorted(files)]
    hold([{k: e[k] for k in ("name", "size", "sha256")} for e in about["entries"]] == listed)
    for path in files.keys() - {"content.json"}:
        hold(path.startswith(("figures/", "media/", "voice/")), "UnsafeEntry")
    keys = {name: _base64(about["keys"][name].encode(), 32) for name in
            ("recovery_sealing", "recovery_signing", "sealing", "signing")}
    hold(keys["signing"] == signer)
    _whole(about["rule_table"], 1, 1000)
    change = about.get("key_change")
    if change is not None:
        _statement(change, keys)
    content = _json(files["content.json"], 1_000_000, ("exercises", "sessions", "programmes"))
    _check_content(content)
    source = content["source"]
    hold((source["coach"], source.get("language", "en")) == (about["coach"], about["language"]))
    if "now" in head:
        hold(_trust(keys, change, head) == head["trust"])
    return content


def _archive(data: bytes) -> dict[str, bytes]:
    try:
        mark, disk, start_disk, here, count, size, at, comment = struct.unpack("<4s4H2LH", data[-22:])
        hold(mark == b"PK\x05\x06" and (disk, start_disk, comment, here) == (0, 0, 0, count)
             and at + size + 22 == len(data))
        with zipfile.ZipFile(io.BytesIO(data)) as opened:
            entries = opened.infolist()
            _entries(entries, len(data))
            place = 164
            for entry in sorted(entries, key=lambda e: e.header_offset):
                hold(entry.header_offset == place)
                place += 30 + len(entry.orig_filename) + entry.compress_size
            hold(place == at)
            return {entry.filename: opened.read(entry) for entry in entries}
    except (zipfile.BadZipFile, zlib.error, struct.error, NotImplementedError, EOFError, ValueError, OSError):
        refuse("DamagedFile")


def _entries(entries: list[zipfile.ZipInfo], packed: int) -> None:
    seen: set[str] = set()
    for entry in entries:
        path, mode = entry.orig_filename, stat.S_IFMT(entry.external_attr >> 16)
        part = "[A-Za-z0-9_][A-Za-z0-9._-]*"
        hold(len(path) <= 200 and re.fullmatch(f"{part}(/{part})*", path) and path.casefold() not in seen
             and not entry.flag_bits & 1 and mode in (0, stat.S_IFREG), "UnsafeEntry")
        seen.add(path.casefold())
    hold(sum(e.file_size for e in entries) <= min(200_000_000, 100 * packed), "TooLarge")
    for entry in entries:
        limit = {"content.json": 16_000_000, "manifest.json": 2_000_000}.get(
            entry.filename, 4_000_000 if entry.filename.startswith("figures/") else 200_000_000)
        hold(entry.file_size <= limit, "TooLarge")
    hold(all(e.compress_type in (0, 8) and not e.extra and not e.comment for e in entries))


def _statement(change: dict[str, Any], keys: Mapping[str, bytes]) -> None:
    lines = "".join(f"{name} {base64.b64encode(keys[name]).decode()}\n" for name in sorted(keys))
    top = "evenload-key-change 1\n"
    if "epoch" in change:
        _whole(change["epoch"], 1, 9_999_999_999)
        top = f"evenload-key-change 2\nepoch {change['epoch']}\n"
    by, signature = _base64(change["by"].encode(), 32), _base64(change["signature"].encode(), 64)
    hold(_verifies(by, signature, (top + lines).encode()))


def _trust(keys: Mapping[str, bytes], change: dict[str, Any] | None, head: Head) -> str:
    hold(keys["signing"].hex() != head.get("retired"), "RetiredKey")
    if "pinned" not in head:
        return "first_sight"
    signing, recovery, epoch = head["pinned"].split()
    same_recovery = keys["recovery_signing"].hex() == recovery
    if keys["signing"].hex() == signing and same_recovery:
        return "known"
    by = base64.b64decode(change["by"]).hex() if change else ""
    said = int(change.get("epoch", 0)) if change else 0
    if by == recovery:
        hold(int(epoch) < said <= int(head["now"]) + 86_400 if said else int(epoch) == 0, "OlderKeys")
        return "changed"
    hold(by == signing and same_recovery, "UntrustedSigner")
    return "changed"


def _check_content(table: dict[str, Any]) -> None:
    source = table["source"]
    _text(source["coach"], 120, 1)
    unseen = ("Cc", "Cf", "Mn", "Me", "Cs", "Co", "Cn")
    hold(any(not c.isspace() and unicodedata.category(c) not in unseen for c in source["coach"]))
    hold(not re.search("[\u0080-\u009f\u202a-\u202e\u2066-\u2069]", source["coach"]))
    _whole(source["version"], 1, 1_000_000)
    ids: dict[str, set[str]] = {}
    for name in ("exercises", "sessions", "programmes"):
        hold(isinstance(table[name], list) and len(table[name]) <= 2000)
        hold(all(isinstance(entry, dict) for entry in table[name]))
        ids[name] = {e["id"] for e in table[name]}
        hold(len(ids[name]) == len(table[name]))
    for exercise in table["exercises"]:
        _text(exercise["name"], 120, 1)
        hold(len(exercise["demand"]) >= 16 and all(type(d) is int and 0 <= d <= 3 for d in exercise["demand"].values()))
        counted = exercise.get("mode", "reps") == "reps"
        hold(("seconds_per_rep" in exercise, "hold_s" in exercise) == (counted, not counted))
        hold(not counted or 0.3 <= exercise["seconds_per_rep"] <= 30)
        hold(all(isinstance(e, str) for e in exercise.get("equipment", ())))
        hold(all(o["to"] in ids["exercises"] for key in ("easier", "harder", "swaps") for o in exercise.get(key, ())))
    for session in table["sessions"]:
        hold(all(item["exercise"] in ids["exercises"] for block in session["block"] for item in block["item"]))
    for programme in table["programmes"]:
        hold(all(one in ids["sessions"] for week in programme["week"] for one in week["sessions"]))


# ------------------------------------------------------------------ letters

def _letter(data: bytes, head: Head, kind: str, most_json: int, most_values: int, lists: tuple[str, ...]
            ) -> tuple[bytes, dict[str, Any]]:
    first = _first_line(data, kind)
    at, sealed = len(first), dict[str, bytes]()
    while line := re.compile(rb"reader ([0-9a-f]{32}) ([A-Za-z0-9+/]{107}=)\n").match(data, at):
        hold(line[1].decode() not in sealed and len(sealed) < 8)
        sealed[line[1].decode()] = _base64(line[2], 80)
        at = line.end()
    hold(sealed and data.startswith(b"body\n", at))
    at += 5
    header = first + b"".join(f"reader {one}\n".encode() for one in sealed)
    private = X25519PrivateKey.from_private_bytes(bytes.fromhex(head["opens-with"]))
    mine = hashlib.sha256(private.public_key().public_bytes_raw()).hexdigest()[:32]
    hold(mine in sealed, "WrongRecipient")
    try:
        key = SUITE.decrypt(sealed[mine], private, info=header)
        packed = AESGCM(key).decrypt(bytes(12), data[at:], data[:at])
    except (InvalidTag, ValueError):
        refuse("DamagedFile")
    signer, body = _signed(header, _unpacked(packed, most_json))
    hold(len(body) <= most_json, "TooLarge")
    return signer, _json(body, most_values, lists)


def _unpacked(packed: bytes, most_json: int) -> bytes:
    most, stream = min(most_json + 150, max(1024 * 1024, 200 * len(packed))), zlib.decompressobj()
    try:
        plain = stream.decompress(packed, most + 1)
    except zlib.error:
        refuse("DamagedFile")
    hold(len(plain) <= most, "TooLarge")
    hold(stream.eof and not stream.unused_data)
    return plain


def _return(data: bytes, head: Head) -> Any:
    _, table = _letter(data, head, "return", 32 * 1024 * 1024, 4_000_000, ("records",))
    _whole(table["number"], 1, 10_000_000)
    _whole(table.get("reply_number", 0), 0, 1_000_000)
    _instant(table["made_utc"])
    known = {"check_in", "session_done", "clearance", "check_done", "event"}
    later = {"check_done": ("check", {"chair_stand", "one_leg", "walk", "chair_stand_high", "one_leg_held",
                                      "walk_4m"}),
             "event": ("kind", {"fall", "illness", "medicine", "activity", "goal", "pause"})}
    seen: set[tuple[str, int]] = set()
    for record in table["records"]:
        kind = record["record"]
        if kind not in known or (kind in later and record.get(later[kind][0]) not in later[kind][1]):
            continue
        stamp = record["stamp"]
        _matches(stamp["id"], "[A-Za-z0-9._:-]{1,64}")
        _instant(stamp["utc"])
        _whole(stamp["offset_min"], -900, 900)
        _whole(stamp.get("revision", 1), 1, 1_000_000)
        place = stamp["id"], stamp.get("revision", 1)
        hold(stamp["person"] == table["person"]["id"] and place not in seen)
        seen.add(place)
        _CHECKS.get(kind, lambda _: None)(record)
    return table


def _check_in(record: dict[str, Any]) -> None:
    hold(set(record.get("symptoms") or ()) <= {"fever", "head_cold", "emergency", "stop_and_ask"})
    for told in ("pain", "soreness", "morning_after"):
        for spot, level in (record.get(told) or {}).items():
            _whole(level, 0, 10)
            _matches(spot, "((left|right) )?(ankle|back|calf|elbow|foot|hand|hip|knee|neck|ribs|shoulder|thigh|wrist)")
    if record.get("slept") is not None:
        _whole(record["slept"], 1, 5)
    _text(record.get("note", ""), 4000)


def _session_done(record: dict[str, Any]) -> None:
    at = 0
    for step in record["plan"]["steps"]:
        hold(step["start_ms"] == at)
        at += step["length_ms"]


_CHECKS: Mapping[str, Callable[[dict[str, Any]], None]] = {"check_in": _check_in, "session_done": _session_done}
AXES = frozenset({
    "wrist_weight_bearing", "overhead_shoulder", "shoulder_load", "elbow_load", "grip", "neck_load",
    "loaded_spinal_flexion", "loaded_twist", "deep_hip_flexion", "deep_knee_flexion", "kneeling", "ankle_load",
    "single_leg_balance", "impact", "floor_transfer", "head_below_heart", "spinal_rounding", "spinal_extension",
    "bearing_down", "hard_hold", "head_turning", "turning_round", "unheld_balance", "leg_crossing",
})


def _reply(data: bytes, head: Head) -> Any:
    signer, table = _letter(data, head, "reply", 1024 * 1024, 100_000, ())
    _whole(table["number"], 1, 10_000_000)
    _instant(table["made_utc"])
    _text(table.get("message", ""), 4000)
    for axis, cap in (table.get("limits") or {}).items():
        hold(axis in AXES)
        _whole(cap, 0, 3)
    yes = table.get("clearance")
    if yes is not None:
        _text(yes["who"], 120, 1)
        _matches(yes["kind"], "[a-z][a-z ,'-]{0,59}")
    hold(signer.hex() == head["coach"], "UntrustedSigner")
    return table
