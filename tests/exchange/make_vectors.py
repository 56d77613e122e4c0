"""Writes the test vectors: one scenario a file, with what a reader must make of it.

    python -m tests.exchange.make_vectors            those that are missing
    python -m tests.exchange.make_vectors --again    all of them

A vector is a few lines of text, an empty line, then the file itself, byte for byte. The keys are fixed
(`fixed.py`). Packs come out the same each time; sealed files cannot, since each has a random key, so those that
exist are kept. Expected outcomes are `ok` or the name of an error in `app/domain/errors.py`.
"""
from __future__ import annotations

import json
import sys
import zlib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import key_id
from app.exchange.crypto.sealing import header_of, seal
from app.exchange.crypto.signing import signed
from app.exchange.crypto.text_form import to_text
from app.exchange.forms.content import source_to_json
from app.exchange.forms.to_json import to_json
from app.exchange.letters.replies import write_reply
from app.exchange.letters.returns import write_return
from app.exchange.packs.manifest import public_keys, signed_key_change
from app.exchange.packs.pack import build_pack
from tests.exchange import forgery
from tests.exchange.fixed import (
    AROUND,
    CHECK_IN,
    CLIENT,
    COACH,
    OTHER_CLIENT,
    READERS,
    RECOVERY_SIGNING,
    REPLY,
    RETURN,
    SOURCE,
    STRANGER,
    coach_keys,
    run,
)
from tests.exchange.forgery import forged, inside
from tests.exchange.letter_scenarios import LETTERS
from tests.exchange.pack_scenarios import PACKS
from tests.exchange.scenario import Scenario, flip

FOLDER = Path(__file__).parent / "vectors"


def _pack() -> bytes:
    return run(build_pack(SOURCE, coach=COACH))


def _changed_keys() -> bytes:
    new = coach_keys(61)
    change = run(signed_key_change(public_keys(new), RECOVERY_SIGNING))
    return run(build_pack(SOURCE, coach=new, key_change=change))


def _later_pack() -> bytes:
    table = json.loads(source_to_json(SOURCE))
    table["colour"] = table["exercises"][0]["tide"] = "blue"
    return forged(content=to_json(table))


def _huge() -> bytes:
    """Three entries that state 3.5 GB each and hold next to nothing."""
    out = forgery.zipped({"media/0": b"", "media/1": b"", "media/2": b""})
    size = (3_500_000_000).to_bytes(4, "little")
    for mark, at in ((b"PK\x03\x04", 22), (b"PK\x01\x02", 24)):
        parts = out.split(mark)
        out = mark.join([parts[0], *(p[:at - 4] + size + p[at:] for p in parts[1:])])
    return forgery.sealed_up(out)


def _return(readers: tuple[bytes, ...] = READERS) -> bytes:
    return run(write_return(RETURN, client=CLIENT, readers=readers))


def _written_by_hand(body: bytes, readers: tuple[bytes, ...] = READERS, header: bytes | None = None) -> bytes:
    bound = header if header is not None else header_of(Kind.RETURN, [key_id(reader) for reader in readers])
    return run(seal(zlib.compress(run(signed(bound, body, CLIENT.signing))), readers, Kind.RETURN))


def _pain_of_eleven() -> bytes:
    return _changed_return(lambda table: table["records"][0].update(pain={"left knee": 11}))


def _later_record() -> bytes:
    return _changed_return(lambda table: table["records"].append({"record": "walk_test", "seconds": 8}))


def _changed_return(change: Callable[..., object]) -> bytes:
    table = inside(run(write_return(replace(RETURN, records=(CHECK_IN,)), client=CLIENT, readers=READERS)))
    change(table)
    return _written_by_hand(to_json(table))


def _reply() -> bytes:
    return run(write_reply(REPLY, coach=COACH.signing, readers=(CLIENT.sealing.public,)))


S, P, R, A = Scenario, Kind.PACK, Kind.RETURN, Kind.REPLY
SCENARIOS = (
    S("pack-ok", P, "ok", "the smallest useful pack", _pack),
    S("pack-media", P, "ok", "with a picture and a voice clip", lambda: run(build_pack(
        SOURCE, coach=COACH, media={"media/rise.png": b"picture", "voice/rise.opus": b"voice"}))),
    S("pack-key-change", P, "ok", "new keys, named by the recovery key", _changed_keys),
    S("pack-later-keys", P, "ok", "keys of a later minor version are ignored", _later_pack),
    S("pack-newer", P, "NewerFormat", "a newer major version",
      lambda: forgery.sealed_up(b"", first=b"evenload-pack 2\n")),
    S("pack-crlf", P, "NotOurFile", "the first line ends in CR LF", lambda: _pack().replace(b" 1\n", b" 1\r\n", 1)),
    S("pack-plain-zip", P, "NotOurFile", "a ZIP without the three lines", lambda: _pack()[forgery.LINES_BYTES:]),
    S("pack-key-line-changed", P, "DamagedFile", "one bit of the key line", lambda: flip(_pack(), 30)),
    S("pack-signature-changed", P, "DamagedFile", "one bit of the signature line", lambda: flip(_pack(), 90)),
    S("pack-archive-changed", P, "DamagedFile", "one bit behind the lines", lambda: flip(_pack(), 400)),
    S("pack-cut", P, "DamagedFile", "the last byte is missing", lambda: _pack()[:-1]),
    S("pack-trailing", P, "DamagedFile", "one byte too many", lambda: _pack() + b"\n"),
    S("pack-loose-base64", P, "DamagedFile", "the signature written another way", lambda: _loose(_pack())),
    S("pack-parent-path", P, "UnsafeEntry", "../x, truly signed", lambda: forged(files={"../x": b"x"})),
    S("pack-absolute-path", P, "UnsafeEntry", "/x, truly signed", lambda: forged(files={"/x": b"x"})),
    S("pack-drive-path", P, "UnsafeEntry", "C:/x, truly signed", lambda: forged(files={"C:/x": b"x"})),
    S("pack-backslash", P, "UnsafeEntry", "media\\x, truly signed", lambda: forged(files={"media\\x": b"x"})),
    S("pack-two-cases", P, "UnsafeEntry", "media/a and media/A",
      lambda: forged(files={"media/a": b"1", "media/A": b"2"})),
    S("pack-huge", P, "TooLarge", "three entries that state 3.5 GB each", _huge),
    S("pack-ratio", P, "TooLarge", "over 100:1", lambda: forged(files={"media/zeros": bytes(2_000_000)})),
    S("pack-unlisted", P, "DamagedFile", "a file that the manifest does not list",
      lambda: forged(unlisted={"media/x": b"x"})),
    S("pack-no-manifest", P, "DamagedFile", "content alone",
      lambda: forgery.sealed_up(forgery.zipped({"content.json": source_to_json(SOURCE)}))),
    S("pack-other-keys", P, "DamagedFile", "the manifest names keys that did not sign",
      lambda: forged(keys=public_keys(STRANGER))),
    S("pack-dangling", P, "DamagedFile", "an easier option that is not in the pack",
      lambda: forged(content=source_to_json(SOURCE).replace(b'"to":"perch"', b'"to":"porch"'))),
    S("return-ok", R, "ok", "a check-in, a session and a yes", _return),
    S("return-text", R, "ok", "the same in its text form, quoted and wrapped",
      lambda: ("Hello!\n" + "".join(f"> {line}\r\n" for line in to_text(_return(), R).splitlines())).encode()),
    S("return-around", R, "ok", "checks and what happened around the sessions", lambda: run(
        write_return(replace(RETURN, records=AROUND), client=CLIENT, readers=READERS))),
    S("return-later-record", R, "ok", "a kind of record that came later is counted, not read", _later_record),
    S("return-for-another", R, "WrongRecipient", "sealed to another coach",
      lambda: _return((STRANGER.sealing.public, OTHER_CLIENT.sealing.public))),
    S("return-newer", R, "NewerFormat", "a newer major version", lambda: _return().replace(b" 1\n", b" 2\n", 1)),
    S("return-body-changed", R, "DamagedFile", "one bit of the body", lambda: flip(_return(), len(_return()) - 40)),
    S("return-reader-taken-out", R, "DamagedFile", "one reader line is missing",
      lambda: b"\n".join(line for at, line in enumerate(_return().split(b"\n", 4)) if at != 2)),
    S("return-cut", R, "DamagedFile", "the last byte is missing", lambda: _return()[:-1]),
    S("return-text-cut", R, "DamagedFile", "the text form without its end",
      lambda: to_text(_return(), R)[:-30].encode()),
    S("return-handed-on", R, "DamagedFile", "signed for other readers than it is sealed to", lambda: _written_by_hand(
        b"{}", header=header_of(R, [key_id(STRANGER.sealing.public)]))),
    S("return-pain-11", R, "DamagedFile", "pain of 11, truly signed and sealed", _pain_of_eleven),
    S("return-bomb", R, "TooLarge", "unpacks to more than 64 MB",
      lambda: run(seal(zlib.compress(bytes(64 * 1024 * 1024 + 1), 9), READERS, R))),
    S("reply-ok", A, "ok", "a message, a limit, a swap and a yes", _reply),
    S("reply-stranger", A, "UntrustedSigner", "signed by somebody who is not the coach", lambda: run(
        write_reply(REPLY, coach=STRANGER.signing, readers=(CLIENT.sealing.public,)))),
    *PACKS, *LETTERS,
)


def _loose(data: bytes) -> bytes:
    """The last letter of the signature before its `==` carries four bits that mean nothing: one of them set."""
    return flip(data, data.index(b"==\n") - 1)


def vector(scenario: Scenario) -> bytes:
    """The vector's bytes."""
    keys = {
        Kind.PACK: {},
        Kind.RETURN: {"opens-with": COACH.sealing.private.hex()},
        Kind.REPLY: {"opens-with": CLIENT.sealing.private.hex(), "coach": COACH.signing.public.hex()},
    }[scenario.kind]
    head = {"kind": scenario.kind.value, "expect": scenario.expect, "about": scenario.about, **keys, **scenario.more}
    return "".join(f"{key}: {value}\n" for key, value in head.items()).encode() + b"\n" + scenario.make()


def main(again: str = "") -> None:
    """Writes them."""
    FOLDER.mkdir(exist_ok=True)
    for scenario in SCENARIOS:
        path = FOLDER / f"{scenario.name}.vector"
        if again == "--again" or not path.exists():
            path.write_bytes(vector(scenario))


if __name__ == "__main__":
    main(*sys.argv[1:])
