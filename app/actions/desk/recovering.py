"""A coach's keys on a new machine: new ones, which clients believe because the recovery key of the sheet signs them."""
from __future__ import annotations

from app.actions.desk.key_locks import KINDS, coach_pair, forget_locked, forget_remembered, is_shut, require_open
from app.actions.desk.publishing import KEY_CHANGE, coach_keys
from app.device.clock import Clock
from app.domain.errors import WrongValue
from app.exchange.crypto import keys as key_pairs
from app.exchange.crypto.keys import CoachKeys, KeyPair
from app.exchange.crypto.recovery_words import seed_from_words
from app.exchange.packs.manifest import key_text, public_keys, signed_key_change
from app.storage import keys, settings
from app.storage.database import Store
from app.storage.keys import COACH


async def recover_keys(store: Store, clock: Clock, words: str) -> CoachKeys:
    """Makes new keys and has the recovery key say so. What people sealed before can be opened here from now on.

    Keys that are locked and not open give way to them, once the words are known to be of their own sheet.

    Raises:
        WrongValue, UnknownName: not the words of one sheet, of another sheet, or keys are here already.
    """
    seed = seed_from_words(words)
    known, shut = coach_keys(store), is_shut(store)
    if known is not None and not shut:
        raise _keys_here()
    signer, opener = await key_pairs.recovery_pairs(seed)
    if known is not None and known.recovery_signing != signer.public:
        raise WrongValue(where="recovery words", value="these words", expected="the words of the sheet of these keys")
    if shut:
        await forget_remembered(store)
    signing, sealing = await key_pairs.new_signing_pair(), await key_pairs.new_sealing_pair()
    made = CoachKeys(signing, sealing, signer.public, opener.public)
    change = await signed_key_change(public_keys(made), signer, int(clock.now().timestamp()))
    # the opener stays here whole: returns on their way are sealed to the lost key and to this one
    kept = (signing, sealing, KeyPair(b"", signer.public), opener)
    with store.begin() as db:
        if shut and is_shut(store):
            forget_locked(db, store)
        if any(keys.keys(db, COACH, kind) for kind in KINDS):  # made in another window meanwhile
            raise _keys_here()
        for kind, pair in zip(KINDS, kept, strict=True):
            keys.keep_keys(db, keys.StoredKeyPair(COACH, kind, pair.private, pair.public, clock.now()))
        settings.save_setting(db, KEY_CHANGE, {
            "by": key_text(change.by), "signature": key_text(change.signature), "epoch": change.epoch})
    return made


def _keys_here() -> WrongValue:
    return WrongValue(where="recovery words", value="these words", expected="a computer without keys of yours")


def opening_keys(store: Store) -> tuple[KeyPair, ...]:
    """Every key here that a return may be sealed to: the coach's own, and after a recovery the sheet's.

    Raises:
        KeysLocked: they are under a passphrase and have to be opened first.
    """
    require_open(store)
    with store.read() as db:
        found = (coach_pair(db, store, kind) for kind in ("sealing", "recovery_sealing"))
        return tuple(KeyPair(pair.private, pair.public) for pair in found if pair is not None and pair.private)
