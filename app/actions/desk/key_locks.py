"""The coach's private keys under a passphrase: locked, opened for as long as the program runs, and taken out again.

While they are locked the file holds none of them. Nobody signs, answers or reads what people send without them;
everything that is here already can be read.
"""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from app.device.password_store import drop_secret, has_password_store, keep_secret, kept_secret
from app.domain.errors import KeysLocked, SheetFirst, WrongKeyPassphrase
from app.exchange.crypto.key_lock import SealedKeys, open_keys, seal_keys
from app.storage import keys, settings
from app.storage.database import Connection, Store
from app.storage.erasing import sweep_after_erasing
from app.storage.keys import COACH

#: Settings: the sealed keys; the recovery secret, hex, while the sheet is not on paper; and the name under which this
#: computer's password store keeps the passphrase.
LOCK, SECRET, REMEMBERED = "coach_key_lock", "coach_recovery_secret", "coach_key_lock_remembered"
KINDS = ("signing", "sealing", "recovery_signing", "recovery_sealing")


def is_locked(store: Store) -> bool:
    """Whether a passphrase was set, open or not."""
    return _sealed(store) is not None


def is_shut(store: Store) -> bool:
    """Whether the keys are locked and have not been opened since the program began."""
    return is_locked(store) and not store.opened_keys


def coach_pair(db: Connection, store: Store, kind: str) -> keys.StoredKeyPair | None:
    """A pair of the coach, with its private half where that is open; None: there is no such pair."""
    pair = keys.keys(db, COACH, kind)
    if pair is None or pair.private:
        return pair
    return replace(pair, private=store.opened_keys.get(kind, b""))


def require_open(store: Store) -> None:
    """Before anything that takes a private key.

    Raises:
        KeysLocked: they have to be opened first.
    """
    if is_shut(store):
        raise KeysLocked()


async def lock_keys(store: Store, passphrase: str) -> None:
    """Takes the private keys out of the file, its journal and its copies. They stay open until the program ends.

    Raises:
        EasyPassphrase: it would be guessed.
        SheetFirst: the recovery sheet, the only way back from a forgotten passphrase, is not on paper.
        KeysLocked: they are locked already.
    """
    with store.read() as db:
        if settings.setting(db, SECRET):
            raise SheetFirst()
        private = _private(db)
    require_open(store)
    kept = await seal_keys(private | store.opened_keys, passphrase)
    with store.begin() as db:
        settings.save_setting(db, LOCK, kept.as_json())
        _put(db, dict.fromkeys(private, b""))
    store.opened_keys |= private
    sweep_after_erasing(store)


async def unlock_keys(store: Store, passphrase: str) -> None:
    """Opens them for as long as the program runs. Nothing where they are not locked.

    Raises:
        WrongKeyPassphrase: they stay as they are.
    """
    if sealed := _sealed(store):
        store.opened_keys |= await open_keys(sealed, passphrase)


def can_remember() -> bool:
    """Whether this computer has a password store that could keep the passphrase."""
    return has_password_store()


def is_remembered(store: Store) -> bool:
    """Whether its password store was asked to keep the passphrase."""
    with store.read() as db:
        return settings.setting(db, REMEMBERED) is not None


async def remember_passphrase(store: Store, passphrase: str) -> bool:
    """Has the computer's password store keep the passphrase; False: there is none, or it refused.

    Raises:
        WrongKeyPassphrase: it opens nothing here, so that nothing is kept.
    """
    await unlock_keys(store, passphrase)
    with store.read() as db:
        pair = keys.keys(db, COACH, "signing")
    name = f"keys of {pair.public.hex()[:16]}" if pair else ""
    if not is_locked(store) or not await keep_secret(name, passphrase):
        return False
    with store.begin() as db:
        settings.save_setting(db, REMEMBERED, name)
    return True


async def unlock_remembered(store: Store) -> bool:
    """Opens the keys with what the password store keeps; False: it gave nothing, or another passphrase."""
    with store.read() as db:
        name = settings.setting(db, REMEMBERED)
    passphrase = await kept_secret(str(name)) if name else None
    if passphrase is None:
        return False
    try:
        await unlock_keys(store, passphrase)
    except WrongKeyPassphrase:
        return False
    return True


async def forget_remembered(store: Store) -> None:
    """Has the password store forget it; afterwards it is typed again."""
    with store.read() as db:
        name = settings.setting(db, REMEMBERED)
    if name:
        await drop_secret(str(name))
        with store.begin() as db:
            settings.forget_setting(db, REMEMBERED)


def shut_keys(store: Store) -> None:
    """Forgets what was opened."""
    store.opened_keys.clear()


async def remove_lock(store: Store, passphrase: str) -> None:
    """Puts the private keys back into the file.

    Raises:
        WrongKeyPassphrase: they stay as they are.
    """
    sealed = _sealed(store)
    if sealed is None:
        return
    opened = await open_keys(sealed, passphrase)
    await forget_remembered(store)
    with store.begin() as db:
        _put(db, opened)
        settings.forget_setting(db, LOCK)
    store.opened_keys.clear()


def forget_locked(db: Connection, store: Store) -> None:
    """Drops keys that nobody can open any more, so that new ones can be made from the recovery sheet."""
    settings.forget_setting(db, LOCK)
    settings.forget_setting(db, REMEMBERED)
    keys.forget_keys(db, COACH)
    store.opened_keys.clear()


def _sealed(store: Store) -> SealedKeys | None:
    with store.read() as db:
        kept = settings.setting(db, LOCK)
    return None if kept is None else SealedKeys.from_json(kept)


def _private(db: Connection) -> dict[str, bytes]:
    pairs = [keys.keys(db, COACH, kind) for kind in KINDS]
    return {pair.kind: pair.private for pair in pairs if pair is not None and pair.private}


def _put(db: Connection, private: Mapping[str, bytes]) -> None:
    for kind, key in private.items():
        pair = keys.keys(db, COACH, kind)
        if pair is not None:
            keys.replace_keys(db, replace(pair, private=key))
