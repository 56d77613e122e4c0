"""The browser's own cryptography and the native library: the same bytes, both ways."""
from __future__ import annotations

import random
from pathlib import Path

import pytest

from app.actions.desk import intake, publishing, replying
from app.actions.desk.replying import ReplyDraft
from app.device.clock import ManualClock
from app.domain import errors
from app.exchange.crypto import cipher
from app.exchange.crypto.passphrase import open_copy, seal_copy
from app.resources import resource_dir
from app.storage import people
from app.storage.database import Store, open_store
from tests.browser.lab import Lab, natively
from tests.exchange.make_vectors import FOLDER
from tests.exchange.published import HPKE
from tests.exchange.reading import read_vector

pytestmark = pytest.mark.browser

PHRASE = "lantern gravel oboe unpaid"
#: Bytes travel as hex.
SEAL_AND_SIGN = """
    from app.exchange.crypto import cipher
    plain, info = bytes.fromhex(plain), bytes.fromhex(info)
    seed = bytes.fromhex(seed)
    sealed = await cipher.hpke_seal(bytes.fromhex(reader), plain, info)
    answer = json.dumps([(await cipher.signing_public(seed)).hex(), (await cipher.sealing_public(seed)).hex(),
                         (await cipher.ed25519_sign(seed, plain)).hex(), sealed.hex()])
"""
READ_ALL = """
    from app.exchange.crypto.keys import sealing_pair
    exec(compile(reading, "reading.py", "exec"), globals())
    results = {}
    for name, data in vectors.items():
        results[name] = await read_vector(bytes.fromhex(data))
    answer = json.dumps(results)
"""


def test_a_browser_reads_and_refuses_the_committed_vectors_as_the_native_library_does(lab: Lab) -> None:
    """Each of them gives the same values, or the same error."""
    vectors = {path.stem: path.read_bytes() for path in sorted(FOLDER.glob("*.vector"))}
    assert len(vectors) >= 39
    reading = (Path(__file__).parents[1] / "exchange" / "reading.py").read_text("utf-8")
    told = lab.run(READ_ALL, reading=reading, vectors={name: data.hex() for name, data in vectors.items()})
    assert told == {name: natively(read_vector(data)) for name, data in vectors.items()}
    assert {kind.__name__ for kind in errors.FileError.__subclasses__()} <= set(told.values())


def test_a_browser_gives_the_published_values(lab: Lab) -> None:
    """RFC 8032 test 2; the working group's HPKE vector: its keys, its message opened, and changed by a bit not."""
    told = lab.run("""
        from app.exchange.crypto import cipher
        from app.exchange.crypto.hpke import message_key
        hpke = {name: bytes.fromhex(value) for name, value in hpke.items()}
        seed = bytes.fromhex("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb")
        public, signature = await cipher.signing_public(seed), await cipher.ed25519_sign(seed, b"\\x72")
        from app.exchange.crypto import browser_cipher
        shared = await browser_cipher._x25519(hpke["skRm"], hpke["enc"])
        once = message_key(shared, hpke["enc"], hpke["pkRm"], hpke["info"])
        sealed = await cipher.aes_seal(once.key, once.nonce, hpke["pt"], hpke["aad"])
        opened = await cipher.aes_open(once.key, once.nonce, hpke["ct"], hpke["aad"])
        try:
            await cipher.aes_open(once.key, once.nonce, hpke["ct"], hpke["aad"] + b"1")
            refused = False
        except cipher.Unopened:
            refused = True
        answer = json.dumps({
            "module": cipher.hpke_open.__module__, "public": public.hex(), "signature": signature.hex(),
            "verified": await cipher.ed25519_verify(public, signature, b"\\x72"),
            "changed": await cipher.ed25519_verify(public, signature, b"\\x73"),
            "no key": await cipher.ed25519_verify(b"", signature, b"\\x72"),
            "sealing": (await cipher.sealing_public(hpke["skRm"])).hex(), "ct": sealed.hex(), "pt": opened.hex(),
            "refused": refused})
    """, hpke={name: value.hex() for name, value in HPKE.items()})
    assert told == {
        "module": "app.exchange.crypto.browser_cipher",
        "public": "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "signature": "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
                     "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
        "verified": True, "changed": False, "no key": False,
        "sealing": HPKE["pkRm"].hex(), "ct": HPKE["ct"].hex(), "pt": HPKE["pt"].hex(), "refused": True,
    }


@pytest.mark.parametrize("length", [0, 1, 47, 4096, 200_000])
@pytest.mark.whole(keep=3)
def test_what_one_seals_and_signs_the_other_opens_and_verifies(lab: Lab, length: int) -> None:
    """Both ways and at any length; the keys of one seed are the same, and so is its signature."""
    chance = random.Random(length)
    plain, info, seed = chance.randbytes(length), chance.randbytes(length % 90), chance.randbytes(32)
    reader = natively(cipher.sealing_public(seed))
    signing, sealing, signature, sealed = lab.run(SEAL_AND_SIGN, plain=plain.hex(), info=info.hex(), seed=seed.hex(),
                                                  reader=reader.hex())
    assert (bytes.fromhex(signing), bytes.fromhex(sealing)) == (natively(cipher.signing_public(seed)), reader)
    assert bytes.fromhex(signature) == natively(cipher.ed25519_sign(seed, plain))
    assert natively(cipher.hpke_open(seed, bytes.fromhex(sealed), info)) == plain
    native = natively(cipher.hpke_seal(reader, plain, info))
    opened, refused = lab.run("""
        from app.exchange.crypto import cipher
        seed, info, sealed = (bytes.fromhex(text) for text in (seed, info, sealed))
        refused = 0
        for wrong in (sealed[:-1], sealed[:40], b"", bytes(32) + sealed[32:], sealed[:-1] + bytes([sealed[-1] ^ 1])):
            try:
                await cipher.hpke_open(seed, wrong, info)
            except cipher.Unopened:
                refused += 1
        answer = json.dumps([(await cipher.hpke_open(seed, sealed, info)).hex(), refused])
    """, seed=seed.hex(), info=info.hex(), sealed=native.hex())
    assert (bytes.fromhex(opened), refused) == (plain, 5)


def test_a_return_made_in_the_browser_opens_at_the_native_desk_and_its_reply_in_the_browser(
    lab: Lab, tmp_path: Path, clock: ManualClock,
) -> None:
    """The whole way: programme out, a check-in in the browser, its return taken in here, the reply read there."""
    desk = open_store(tmp_path / "desk")
    built = natively(publishing.build(desk, clock, resource_dir("assets") / "programmes" / "brackwater"))
    assert built.data is not None
    made = lab.run("""
        from dataclasses import replace
        from datetime import datetime
        from app.actions import people
        from app.actions.files import programmes, sending
        from app.actions.training import check_in
        from app.device.clock import ManualClock
        from app.domain.model.client import Client
        from app.domain.model.person import Person
        from app.storage.database import Store, open_store
        store, clock = open_store("sqlite://"), ManualClock(datetime.fromisoformat(now))
        person = people.register(store, clock, Person("", "Tomas Verrey", body=Client(), screened=clock.now().date()))
        opened = await programmes.open_pack(store, clock, "p", bytes.fromhex(pack))
        person = programmes.accept_pack(store, clock, person.id, opened)
        told = check_in.with_signs(check_in.blank_check_in(clock, person.id), ())
        check_in.save_check_in(store, clock, replace(told, pain={}, soreness={}, slept=4, energy=4, calm=4))
        made = await sending.make_return(store, clock, person.id)
        answer = json.dumps({"person": person.id, "words": opened.words, "data": made.data.hex(), "text": made.text})
    """, pack=built.data.hex(), now=clock.now().isoformat())
    assert tuple(made["words"]) == publishing.matching_words(desk)
    taken = natively(_taken(desk, clock, bytes.fromhex(made["data"])))
    again = natively(_taken(desk, clock, made["text"].encode()))
    assert (taken.error, taken.new, again.error, again.same) == (None, 1, None, 1)
    with desk.read() as db:
        assert people.person(db, made["person"]) is not None
    written = natively(replying.write(desk, clock, made["person"], ReplyDraft("Well begun.")))
    assert lab.run("""
        from app.actions.files.messages import receive
        got = [await receive(store, clock, person.id, data, "m") for data in (bytes.fromhex(reply), text.encode())]
        answer = json.dumps([[one.message.text, one.known] for one in got])
    """, reply=written.data.hex(), text=written.text) == [["Well begun.", False], ["Well begun.", True]]
    desk.close()


async def _taken(desk: Store, clock: ManualClock, data: bytes) -> intake.Taken:
    got = [one async for one in intake.taking(desk, clock, [("return", data)])]
    return got[0]


def test_a_copy_that_one_seals_under_a_passphrase_the_other_opens(lab: Lab) -> None:
    """Both ways; another passphrase opens nothing."""
    told = lab.run("""
        from app.domain.errors import WrongPassphrase
        from app.exchange.crypto.passphrase import open_copy, seal_copy
        opened = await open_copy(bytes.fromhex(native), "copy", phrase)
        try:
            await open_copy(bytes.fromhex(native), "copy", phrase + "!")
            refused = False
        except WrongPassphrase:
            refused = True
        answer = json.dumps({"sealed": (await seal_copy(opened, phrase)).hex(), "opened": opened.hex(),
                             "refused": refused})
    """, native=natively(seal_copy(b"records", PHRASE)).hex(), phrase=PHRASE)
    assert told["opened"] == b"records".hex() and told["refused"]
    assert natively(open_copy(bytes.fromhex(told["sealed"]), "copy", PHRASE)) == b"records"
