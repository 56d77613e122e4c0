"""More returns and replies, one rule of `RETURN.md` and `REPLY.md` each."""
from __future__ import annotations

import zlib
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any

from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import key_id
from app.exchange.crypto.sealing import header_of, seal
from app.exchange.crypto.signing import signed
from app.exchange.crypto.text_form import to_text
from app.exchange.forms.to_json import to_json
from app.exchange.letters.replies import ReplyContent, write_reply
from app.exchange.letters.returns import write_return
from tests.exchange.fixed import (
    CHECK_IN,
    CLIENT,
    COACH,
    OTHER_CLIENT,
    READERS,
    REPLY,
    RETURN,
    STRANGER,
    coach_keys,
    run,
)
from tests.exchange.forgery import inside
from tests.exchange.scenario import Scenario, flip

R, A = Kind.RETURN, Kind.REPLY
TO_CLIENT = (CLIENT.sealing.public,)


def a_return(**change: Any) -> bytes:
    """The usual return, changed as a writer may."""
    return run(write_return(replace(RETURN, **change), client=CLIENT, readers=READERS))


def letter(body: bytes, kind: Kind = R, pack: Callable[[bytes], bytes] = zlib.compress,
           change: Callable[[bytes], bytes] = lambda plain: plain) -> bytes:
    """A letter with any JSON; `change` is made after it was signed."""
    writer, readers = (CLIENT.signing, READERS) if kind is R else (COACH.signing, TO_CLIENT)
    header = header_of(kind, [key_id(reader) for reader in readers])
    return run(seal(pack(change(run(signed(header, body, writer)))), readers, kind))


def _returned(change: Callable[[dict[str, Any]], object], *, whole: bool = False) -> bytes:
    """A return of a check-in, or of the three usual records, whose JSON was changed before it was signed."""
    table = inside(a_return(**({} if whole else {"records": (CHECK_IN,)})))
    change(table)
    return letter(to_json(table))


def _record(**change: object) -> bytes:
    return _returned(lambda table: table["records"][0].update(change))


def _stamp(**change: object) -> bytes:
    return _returned(lambda table: table["records"][0]["stamp"].update(change))


def _gap_in_plan(table: dict[str, Any]) -> None:
    done = next(r for r in table["records"] if r["record"] == "session_done")
    done["plan"]["steps"][0]["start_ms"] = 5


def _lines(data: bytes, change: Callable[[list[bytes]], list[bytes]]) -> bytes:
    """The reader lines changed."""
    first, *rest = data.split(b"\n", 4)
    return b"\n".join([first, *change(rest[:3]), *rest[3:]])


def reply(content: ReplyContent = REPLY) -> bytes:
    """A reply as a coach writes it."""
    return run(write_reply(content, coach=COACH.signing, readers=TO_CLIENT))


def _replied(**change: object) -> bytes:
    """A reply whose JSON was changed before it was signed."""
    table = {"person": "ada", "number": 1, "made_utc": "2026-03-02T07:30:00Z", "message": REPLY.message}
    return letter(to_json({**table, **change}), A)


def S(kind: Kind, name: str, expect: str, about: str, make: Callable[[], bytes]) -> Scenario:
    """A letter."""
    return Scenario(f"{kind.value}-{name}", kind, expect, about, make)


_MANY = [*READERS, *(coach_keys(n).sealing.public for n in (101, 103, 105, 107, 109, 111))]
SEALS = (
    S(R, "no-reader", "DamagedFile", "no reader line", lambda: _lines(a_return(), lambda _: [])),
    S(R, "reader-twice", "DamagedFile", "one reader line twice", lambda: _lines(a_return(), lambda r: [r[0], *r])),
    S(R, "nine-readers", "DamagedFile", "nine reader lines", lambda: _lines(
        run(seal(b"", _MANY[:8], R)), lambda r: [b"reader " + b"0" * 32 + r[0][39:], *r])),
    S(R, "readers-swapped", "DamagedFile", "two reader lines change places",
      lambda: _lines(a_return(), lambda r: [r[1], r[0], r[2]])),
    S(R, "reader-upper-case", "DamagedFile", "a key id in capitals",
      lambda: _lines(a_return(), lambda r: [r[0][:39].upper().replace(b"READER", b"reader") + r[0][39:], *r[1:]])),
    S(R, "loose-base64", "DamagedFile", "a sealed key written another way",
      lambda: _lines(a_return(), lambda r: [flip(r[0], len(r[0]) - 2), *r[1:]])),
    S(R, "sealed-key-changed", "DamagedFile", "one bit of a sealed key",
      lambda: _lines(a_return(), lambda r: [r[0][:80] + (b"B" if r[0][80:81] == b"A" else b"A") + r[0][81:], *r[1:]])),
    S(R, "no-body", "DamagedFile", "nothing behind the body line", lambda: a_return().split(b"body\n")[0] + b"body\n"),
    S(R, "crlf", "NotOurFile", "the first line ends in CR LF", lambda: a_return().replace(b" 1\n", b" 1\r\n", 1)),
    S(R, "named-reply", "NotOurFile", "a reply where a return was asked for", reply),
    S(A, "named-return", "NotOurFile", "a return where a reply was asked for", a_return),
    S(R, "stream-behind", "DamagedFile", "a byte behind the compressed text",
      lambda: letter(to_json(inside(a_return())), pack=lambda plain: zlib.compress(plain) + b"x")),
    S(R, "stream-cut", "DamagedFile", "a compressed text without its checksum",
      lambda: letter(to_json(inside(a_return())), pack=lambda plain: zlib.compress(plain)[:-4])),
    S(R, "stream-of-nothing", "DamagedFile", "no compressed text", lambda: letter(b"{}", pack=lambda _: b"")),
    S(R, "signature-changed", "DamagedFile", "one bit of the signature",
      lambda: letter(to_json(inside(a_return())), change=lambda p: flip(p, 70))),
    S(R, "signed-by-another", "DamagedFile", "another key in the key line", lambda: letter(
        to_json(inside(a_return())), change=lambda p: run(signed(b"", b"", STRANGER.signing))[:49] + p[49:])),
    S(R, "json-changed", "DamagedFile", "one letter of what was signed",
      lambda: letter(to_json(inside(a_return())), change=lambda p: p.replace(b'"ada"', b'"adb"'))),
)
SIZES = (
    S(R, "ratio", "TooLarge", "two megabytes in two kilobytes", lambda: letter(b" " * 2_000_000)),
    S(R, "too-many-values", "TooLarge", "a record of more than 200,000 values",
      lambda: _record(symptoms=["x"] * 200_001)),
    S(R, "too-deep", "DamagedFile", "40 brackets deep under an unknown key", lambda: letter(to_json(
        {**inside(a_return()), "tide": 0}).replace(b'"tide":0', b'"tide":' + b"[" * 40 + b"]" * 40))),
    S(A, "too-large", "TooLarge", "more than a megabyte", lambda: _replied(message="n" * 1_048_576)),
    S(A, "too-many-values", "TooLarge", "more than 100,000 values", lambda: _replied(tide=[0] * 100_001)),
)
VALUES = (
    S(R, "unknown-keys", "ok", "keys that came later, at every height", lambda: _returned(
        lambda t: (t.update(tide=[1]), t["records"][0].update(tide={"a": 1}), t["person"].update(tide="x")))),
    S(R, "later-check", "ok", "a functional check that came later is counted, not read", lambda: _returned(
        lambda t: t["records"].append({"record": "check_done", "check": "hop", "stamp": t["records"][0]["stamp"]}))),
    S(R, "later-event", "ok", "a kind of event that came later is counted, not read", lambda: _returned(
        lambda t: t["records"].append({"record": "event", "kind": "sail", "stamp": t["records"][0]["stamp"]}))),
    S(R, "reply-number", "ok", "it tells how far the coach's messages are", lambda: a_return(reply_number=7)),
    S(R, "reply-number-too-high", "DamagedFile", "a number of messages that nobody reaches",
      lambda: _returned(lambda t: t.update(reply_number=1_000_001))),
    S(R, "far-date", "ok", "a check-in of the year 2031: whole, and kept aside by who takes it in", lambda: a_return(
        records=(replace(CHECK_IN, stamp=replace(CHECK_IN.stamp, utc=datetime(2031, 5, 4, 7, tzinfo=UTC),
                                                 local=date(2031, 5, 4))),))),
    S(R, "record-twice", "DamagedFile", "one revision of one record twice",
      lambda: _returned(lambda t: t["records"].append(t["records"][0]))),
    S(R, "another-person", "DamagedFile", "a record of somebody else", lambda: _stamp(person="bo")),
    S(R, "local-instant", "DamagedFile", "an instant without its Z", lambda: _stamp(utc="2026-03-02T07:30:00")),
    S(R, "far-offset", "DamagedFile", "an offset of 901 minutes", lambda: _stamp(offset_min=901)),
    S(R, "revision-zero", "DamagedFile", "revision 0", lambda: _stamp(revision=0)),
    S(R, "bad-id", "DamagedFile", "a blank in an id", lambda: _stamp(id="c 1")),
    S(R, "unknown-region", "DamagedFile", "pain in a region that there is not", lambda: _record(pain={"left tail": 4})),
    S(R, "slept-six", "DamagedFile", "sleep of 6", lambda: _record(slept=6)),
    S(R, "control-in-note", "DamagedFile", "a control character in a note", lambda: _record(note="a\x07b")),
    S(R, "long-note", "DamagedFile", "a note of 4,001 characters", lambda: _record(note="n" * 4_001)),
    S(R, "steps-apart", "DamagedFile", "steps of a plan that do not touch",
      lambda: _returned(_gap_in_plan, whole=True)),
    S(R, "no-table", "DamagedFile", "a list and no table", lambda: letter(b"[]")),
    S(R, "key-twice", "DamagedFile", "a key of the table twice",
      lambda: letter(to_json(inside(a_return()))[:-1] + b',"number":2}')),
    S(R, "json-behind", "DamagedFile", "a second table behind the first",
      lambda: letter(to_json(inside(a_return())) + b"{}")),
    S(R, "text-narrow", "ok", "the text form in lines of 64, in capitals", lambda: "\n".join(
        line[at:at + 64].replace("[evenload return", "[EVENLOAD RETURN") for line in to_text(a_return(), R).splitlines()
        for at in range(0, len(line), 64)).encode()),
    S(R, "text-checksum", "DamagedFile", "a text form whose checksum differs",
      lambda: to_text(a_return(), R).replace("return end ", "return end 00000000]\n[").encode()),
    S(R, "text-another-end", "DamagedFile", "a text form that ends as another kind",
      lambda: to_text(a_return(), R).replace("return end", "reply end").encode()),
)
REPLIES = (
    S(A, "limits-lifted", "ok", "empty tables: all earlier limits are taken back",
      lambda: reply(replace(REPLY, spare={}, limits={}))),
    S(A, "held", "ok", "exercises that stay as they are", lambda: reply(replace(REPLY, held=frozenset({"rise"})))),
    S(A, "words-alone", "ok", "nothing but words", lambda: _replied()),
    S(A, "unknown-keys", "ok", "keys that came later", lambda: _replied(tide=[1])),
    S(A, "newer", "NewerFormat", "a newer major version", lambda: reply().replace(b" 1\n", b" 2\n", 1)),
    S(A, "for-another", "WrongRecipient", "sealed to another client", lambda: run(
        write_reply(REPLY, coach=COACH.signing, readers=(OTHER_CLIENT.sealing.public,)))),
    S(A, "cut", "DamagedFile", "the last byte is missing", lambda: reply()[:-1]),
    S(A, "number-zero", "DamagedFile", "number 0", lambda: _replied(number=0)),
    S(A, "number-too-high", "DamagedFile", "number 10,000,001", lambda: _replied(number=10_000_001)),
    S(A, "limit-of-four", "DamagedFile", "a limit of 4", lambda: _replied(limits={"grip": 4})),
    S(A, "unknown-axis", "DamagedFile", "a limit on an axis that there is not", lambda: _replied(limits={"tide": 1})),
    S(A, "yes-of-nobody", "DamagedFile", "a yes without a name",
      lambda: _replied(clearance={"answers": "c-1", "who": "", "kind": "doctor"})),
    S(A, "yes-of-no-kind", "DamagedFile", "a yes whose profession is written in figures",
      lambda: _replied(clearance={"answers": "c-1", "who": "Dr Moss", "kind": "7"})),
    S(A, "text", "ok", "the text form", lambda: to_text(reply(), A).encode()),
)
LETTERS = (*SEALS, *SIZES, *VALUES, *REPLIES)
