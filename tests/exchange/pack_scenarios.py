"""More packs, one rule of `PACK.md` each: statements about keys, whom to trust, archives, manifests, content."""
from __future__ import annotations

import hashlib
import io
import json
import stat
import zipfile
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import CoachKeys, KeyPair
from app.exchange.crypto.text_form import to_text
from app.exchange.forms.content import source_to_json
from app.exchange.forms.to_json import to_json
from app.exchange.packs.manifest import MANIFEST, Manifest, listed, public_keys, signed_key_change
from app.exchange.packs.pack import build_pack
from tests.exchange.fixed import COACH, RECOVERY_SIGNING, SOURCE, STRANGER, coach_keys, run
from tests.exchange.forgery import LINES_BYTES, forged, sealed_up
from tests.exchange.scenario import Scenario, flip

P = Kind.PACK
NEW, THIRD = coach_keys(61), coach_keys(71)
OTHER_RECOVERY = CoachKeys(NEW.signing, NEW.sealing, STRANGER.recovery_signing, STRANGER.recovery_sealing)
FIRST, SECOND = 1_790_000_000, 1_800_000_000


def pack(coach: CoachKeys = COACH, by: KeyPair | None = None, epoch: int = 0) -> bytes:
    """The usual pack, with a statement about its keys where somebody makes one."""
    change = run(signed_key_change(public_keys(coach), by, epoch)) if by else None
    return run(build_pack(SOURCE, coach=coach, key_change=change))


def _stated(**change: object) -> bytes:
    """A pack whose statement was changed after it was signed."""
    said = run(signed_key_change(public_keys(NEW), RECOVERY_SIGNING, FIRST))
    return forged(signer=NEW, key_change=replace(said, **change))  # type: ignore[arg-type]


def _content(change: Callable[[dict[str, Any]], object]) -> bytes:
    """A pack whose content was changed before it was signed."""
    table = json.loads(source_to_json(SOURCE))
    change(table)
    return forged(content=to_json(table))


def _exercise(**change: object) -> bytes:
    return _content(lambda table: table["exercises"][0].update(change))


def _raw_content(change: Callable[[bytes], bytes], pad: int = 0) -> bytes:
    noise = b"".join(hashlib.sha256(bytes([n % 256, n // 256])).digest() for n in range(pad // 32))
    return forged(content=change(source_to_json(SOURCE)), files={"media/noise": noise} if pad else None)


def _zip(write: Callable[[zipfile.ZipFile, dict[str, bytes]], object]) -> bytes:
    """A signed pack whose ZIP is written by hand; the manifest is honest."""
    files = {"content.json": source_to_json(SOURCE), "media/x": b"x"}
    about = Manifest(SOURCE.coach, public_keys(COACH), 1, SOURCE.language, listed(files))
    out = io.BytesIO()
    out.write(bytes(LINES_BYTES))
    with zipfile.ZipFile(out, "a", zipfile.ZIP_DEFLATED) as made:
        write(made, {**files, MANIFEST: about.to_json()})
    return sealed_up(out.getvalue()[LINES_BYTES:])


def _each(method: int = zipfile.ZIP_DEFLATED, **about: Any) -> Callable[[zipfile.ZipFile, dict[str, bytes]], None]:
    """Writes every entry, the medium with something odd about it."""
    def write(made: zipfile.ZipFile, files: dict[str, bytes]) -> None:
        for name, content in files.items():
            entry = zipfile.ZipInfo(name)
            if name == "media/x":
                for key, value in about.items():
                    setattr(entry, key, value)
            made.writestr(entry, content, method if name == "media/x" else zipfile.ZIP_DEFLATED)
    return write


def _gap(inside: bytes) -> bytes:
    """Bytes between two entries that no directory names, all offsets true."""
    out = io.BytesIO(bytes(LINES_BYTES) + inside)
    with zipfile.ZipFile(out) as made:
        entries, start = made.infolist(), made.start_dir
    body, directory = out.getvalue()[:start], b""
    at = entries[1].header_offset
    body = body[:at] + b"GAP!" + body[at:]
    whole = out.getvalue()
    here = start
    for entry in entries:
        size = 46 + len(entry.filename)
        line = whole[here:here + size]
        offset = entry.header_offset + (4 if entry.header_offset >= at else 0)
        directory += line[:42] + offset.to_bytes(4, "little") + line[46:]
        here += size
    end = whole[here:]
    return body[LINES_BYTES:] + directory + end[:16] + len(body).to_bytes(4, "little") + end[20:]


def _gap_at_the_end(inside: bytes) -> bytes:
    """Bytes between the last entry and the directory, the end record true."""
    with zipfile.ZipFile(io.BytesIO(bytes(LINES_BYTES) + inside)) as made:
        start = made.start_dir - LINES_BYTES
    return inside[:start] + b"GAP!" + inside[start:-6] + (start + 4 + LINES_BYTES).to_bytes(4, "little") + inside[-2:]


def _crc(inside: bytes) -> bytes:
    """The checksum of the last entry, in the directory and before the entry, one bit off."""
    last, entry = inside.rindex(b"PK\x01\x02") + 16, inside.rindex(b"PK\x03\x04") + 14
    return flip(flip(inside, last), entry)


def _resigned(change: Callable[[bytes], bytes]) -> bytes:
    """The archive changed, then signed anew."""
    return sealed_up(change(_zip(_each())[LINES_BYTES:]))


def _trust(pinned: CoachKeys | None = COACH, epoch: int = 0, now: int = SECOND, retired: CoachKeys | None = None,
           **more: str) -> dict[str, str]:
    """Head lines: what a reader has pinned, its clock, and a key that was replaced."""
    head = {"now": str(now), **more}
    if pinned:
        head["pinned"] = f"{pinned.signing.public.hex()} {pinned.recovery_signing.hex()} {epoch}"
    return head | ({"retired": retired.signing.public.hex()} if retired else {})


def S(name: str, expect: str, about: str, make: Callable[[], bytes], more: dict[str, str] | None = None) -> Scenario:
    """A pack."""
    return Scenario(f"pack-{name}", P, expect, about, make, more or {})


KEYS = (
    S("key-change-dated", "ok", "new keys, named by the recovery key with an epoch",
      lambda: pack(NEW, RECOVERY_SIGNING, FIRST)),
    S("key-change-epoch-changed", "DamagedFile", "another epoch than was signed", lambda: _stated(epoch=SECOND)),
    S("key-change-epoch-taken-out", "DamagedFile", "the epoch is missing", lambda: _stated(epoch=0)),
    S("key-change-epoch-too-high", "DamagedFile", "an epoch beyond the year 2286", lambda: _stated(epoch=10**10)),
    S("key-change-by-another", "DamagedFile", "it names another key than the one that signed it",
      lambda: _stated(by=STRANGER.signing.public)),
    S("key-change-signature-changed", "DamagedFile", "one bit of its signature",
      lambda: _stated(signature=bytes(64))),
    S("key-change-of-other-keys", "DamagedFile", "it is about the keys of another pack",
      lambda: forged(signer=THIRD, key_change=run(signed_key_change(public_keys(NEW), RECOVERY_SIGNING, FIRST)))),
    S("trust-first-sight", "ok", "nothing is pinned: the words are to be compared", pack,
      _trust(None, trust="first_sight")),
    S("trust-known", "ok", "the pinned keys", pack, _trust(trust="known")),
    S("trust-by-recovery", "ok", "new keys, named by the pinned recovery key",
      lambda: pack(NEW, RECOVERY_SIGNING, FIRST), _trust(trust="changed")),
    S("trust-by-old-key", "ok", "new keys, named by the pinned signing key", lambda: pack(NEW, COACH.signing, FIRST),
      _trust(trust="changed")),
    S("trust-undated", "ok", "a statement of the first form where none with an epoch was believed",
      lambda: pack(NEW, RECOVERY_SIGNING), _trust(trust="changed")),
    S("trust-again", "ok", "the statement goes along with the next pack", lambda: pack(NEW, RECOVERY_SIGNING, FIRST),
      _trust(NEW, FIRST, trust="known")),
    S("trust-newer", "ok", "a second change of keys", lambda: pack(THIRD, RECOVERY_SIGNING, SECOND),
      _trust(NEW, FIRST, trust="changed")),
    S("trust-new-recovery", "ok", "a new recovery key, named by the old one",
      lambda: pack(OTHER_RECOVERY, RECOVERY_SIGNING, FIRST), _trust(trust="changed")),
    S("trust-replayed", "OlderKeys", "an earlier statement once more", lambda: pack(NEW, RECOVERY_SIGNING, FIRST),
      _trust(THIRD, SECOND)),
    S("trust-same-epoch", "OlderKeys", "a statement of the same second", lambda: pack(NEW, RECOVERY_SIGNING, SECOND),
      _trust(THIRD, SECOND)),
    S("trust-undated-after-dated", "OlderKeys", "a statement of the first form after one with an epoch",
      lambda: pack(NEW, RECOVERY_SIGNING), _trust(THIRD, SECOND)),
    S("trust-day-to-come", "OlderKeys", "made two days after the reader's clock",
      lambda: pack(NEW, RECOVERY_SIGNING, SECOND), _trust(now=SECOND - 2 * 86_400)),
    S("trust-tomorrow", "ok", "made a day after the reader's clock", lambda: pack(NEW, RECOVERY_SIGNING, SECOND),
      _trust(now=SECOND - 86_400, trust="changed")),
    S("trust-retired", "RetiredKey", "signed by a key that was replaced", lambda: pack(NEW),
      _trust(THIRD, SECOND, retired=NEW)),
    S("trust-retired-again", "RetiredKey", "a replaced key with a newer statement",
      lambda: pack(NEW, RECOVERY_SIGNING, SECOND + 5), _trust(THIRD, SECOND, now=SECOND + 9, retired=NEW)),
    S("trust-stranger", "UntrustedSigner", "other keys and no statement", lambda: pack(STRANGER), _trust()),
    S("trust-by-stranger", "UntrustedSigner", "new keys, named by somebody else",
      lambda: pack(NEW, STRANGER.signing, FIRST), _trust()),
    S("trust-by-itself", "UntrustedSigner", "new keys, named by themselves", lambda: pack(NEW, NEW.signing, FIRST),
      _trust()),
    S("trust-recovery-by-old-key", "UntrustedSigner", "a new recovery key, named by the signing key alone",
      lambda: pack(OTHER_RECOVERY, COACH.signing, FIRST), _trust()),
)

LINES = (
    S("empty", "NotOurFile", "no byte", lambda: b""),
    S("first-line-alone", "DamagedFile", "nothing behind the first line", lambda: b"evenload-pack 1\n"),
    S("version-zero", "NotOurFile", "version 0", lambda: pack().replace(b"pack 1\n", b"pack 0\n", 1)),
    S("version-with-zero", "NotOurFile", "version 01", lambda: pack().replace(b"pack 1\n", b"pack 01\n", 1)),
    S("version-of-five-digits", "NotOurFile", "version 10000", lambda: pack().replace(b"pack 1\n", b"pack 10000\n", 1)),
    S("no-signature", "DamagedFile", "the signature line is missing", lambda: pack()[:65] + pack()[164:]),
    S("signed-by-another", "DamagedFile", "another key in the key line",
      lambda: pack()[:16] + pack(STRANGER)[16:65] + pack()[65:]),
    S("two-spaces", "DamagedFile", "two spaces in the key line", lambda: pack().replace(b"key ", b"key  ", 1)),
    S("text", "ok", "the text form", lambda: to_text(pack(), P).encode()),
    S("text-checksum", "DamagedFile", "another checksum in the end line",
      lambda: to_text(pack(), P).replace("[evenload pack end ", "[evenload pack end 0").replace("0]", "]").encode()),
)

ARCHIVES = (
    S("stored", "ok", "an entry that is stored and not deflated", lambda: _zip(_each(zipfile.ZIP_STORED))),
    S("bzip2", "DamagedFile", "another method", lambda: _zip(_each(zipfile.ZIP_BZIP2))),
    S("entry-comment", "DamagedFile", "an entry with a comment", lambda: _zip(_each(comment=b"hello"))),
    S("extra-field", "DamagedFile", "an entry with an extra field",
      lambda: _zip(_each(extra=b"\x99\x99\x02\x00ab"))),
    S("archive-comment", "DamagedFile", "a comment of the archive",
      lambda: _zip(lambda made, files: (_each()(made, files), setattr(made, "comment", b"hello")))),
    S("link", "UnsafeEntry", "a symbolic link", lambda: _zip(_each(external_attr=(stat.S_IFLNK | 0o777) << 16,
                                                                   create_system=3))),
    S("device", "UnsafeEntry", "a device", lambda: _zip(_each(external_attr=(stat.S_IFCHR | 0o600) << 16,
                                                              create_system=3))),
    S("gap", "DamagedFile", "four bytes between two entries", lambda: _resigned(_gap)),
    S("gap-before-directory", "DamagedFile", "four bytes between the last entry and the directory",
      lambda: _resigned(_gap_at_the_end)),
    S("wrong-crc", "DamagedFile", "a wrong checksum of an entry", lambda: _resigned(_crc)),
    S("no-archive", "DamagedFile", "lines and no archive", lambda: sealed_up(b"")),
    S("folder", "UnsafeEntry", "a folder", lambda: forged(unlisted={"media/": b""})),
    S("hidden-path", "UnsafeEntry", "media/.x", lambda: forged(files={"media/.x": b"x"})),
    S("outside-folders", "UnsafeEntry", "notes/x", lambda: forged(files={"notes/x": b"x"})),
    S("long-path", "UnsafeEntry", "a path of 201 characters", lambda: forged(files={"media/" + "x" * 195: b"x"})),
    S("foreign-path", "UnsafeEntry", "media/ä", lambda: forged(files={"media/ä": b"x"})),
)

MANIFESTS = (
    S("size-differs", "DamagedFile", "a size that is not the entry's", lambda: forged(entries=tuple(
        replace(e, size=e.size + 1) for e in listed({"content.json": source_to_json(SOURCE)})))),
    S("hash-differs", "DamagedFile", "a hash that is not the entry's", lambda: forged(entries=tuple(
        replace(e, sha256="ab" * 32) for e in listed({"content.json": source_to_json(SOURCE)})))),
    S("entries-out-of-order", "DamagedFile", "entries in another order", lambda: forged(
        files={"media/x": b"x"}, entries=listed({"content.json": source_to_json(SOURCE), "media/x": b"x"})[::-1])),
    S("other-coach", "DamagedFile", "another coach in the manifest", lambda: forged(coach="Nell Barker")),
    S("other-language", "DamagedFile", "another language in the manifest", lambda: forged(language="de")),
    S("rule-table-zero", "DamagedFile", "rule table 0", lambda: forged(rule_table=0)),
)

CONTENT = (
    S("blank-coach", "DamagedFile", "a coach's name of one blank", lambda: forged(replace(SOURCE, coach=" "))),
    S("unseen-coach", "DamagedFile", "a coach's name of what is invisible",
      lambda: forged(replace(SOURCE, coach="\u200b\u2060"))),
    S("control-coach", "DamagedFile", "a control character of the upper set in the coach's name",
      lambda: forged(replace(SOURCE, coach="Nell\x9bHarker"))),
    S("turned-coach", "DamagedFile", "a coach's name that turns round",
      lambda: forged(replace(SOURCE, coach="\u202eNell Harker"))),
    S("control-in-text", "DamagedFile", "a control character in a name", lambda: _exercise(name="Stand\x07up")),
    S("id-twice", "DamagedFile", "two exercises of one id",
      lambda: _content(lambda t: t["exercises"].append(t["exercises"][0]))),
    S("number-as-text", "DamagedFile", "a number written as text",
      lambda: _content(lambda t: t["source"].update(version="3"))),
    S("version-out-of-bounds", "DamagedFile", "version 0", lambda: _content(lambda t: t["source"].update(version=0))),
    S("demand-missing", "DamagedFile", "one of the sixteen demands is not stated",
      lambda: _content(lambda t: t["exercises"][0]["demand"].pop("grip"))),
    S("demand-of-four", "DamagedFile", "a demand of 4",
      lambda: _content(lambda t: t["exercises"][0]["demand"].update(grip=4))),
    S("reps-and-hold", "DamagedFile", "counted and held at once", lambda: _exercise(hold_s=20)),
    S("no-number", "DamagedFile", "NaN for a number",
      lambda: _raw_content(lambda c: c.replace(b'"seconds_per_rep":3.5', b'"seconds_per_rep":NaN'))),
    S("unknown-session", "DamagedFile", "a programme of a session that is not there",
      lambda: _content(lambda t: t["sessions"].clear())),
    S("too-many-sessions", "DamagedFile", "2,001 sessions", lambda: _raw_content(
        lambda c: c.replace(b'"sessions":[{"block"', b'"sessions":[' + b"0," * 2_000 + b'{"block"'))),
    S("key-twice", "DamagedFile", "a key of the table twice",
      lambda: _raw_content(lambda c: c[:-1] + b',"sessions":[]}')),
    S("too-deep", "DamagedFile", "40 brackets deep under an unknown key",
      lambda: _raw_content(lambda c: c[:-1] + b',"tide":' + b"[" * 40 + b"]" * 40 + b"}")),
    S("too-many-values", "TooLarge", "an exercise of more than 200,000 values", lambda: _raw_content(
        lambda c: c.replace(b'"equipment":["chair"]', b'"equipment":[' + b"0," * 200_000 + b'"chair"]'), 10_000)),
    S("json-cut", "DamagedFile", "content without its last bracket", lambda: _raw_content(lambda c: c[:-1])),
)
PACKS = (*KEYS, *LINES, *ARCHIVES, *MANIFESTS, *CONTENT)
