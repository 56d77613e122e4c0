"""A computer's password store (Keychain, Credential Manager, Secret Service), through `keyring`.

Installed with `pip install evenload[keystore]`. Without it, on a phone, in a browser, or where the system has no such
store, there is none, and nothing is kept anywhere else instead.
"""
from __future__ import annotations

import asyncio
import importlib
from types import ModuleType

from app.device.desktop import is_desktop

SERVICE = "Evenload"
#: Back ends of `keyring` below this keep nothing.
_KEEPS = 1
#: Somebody may have to open the system's store first, s.
PATIENCE_S = 60.0


def has_password_store() -> bool:
    """Whether secrets can be kept there."""
    return _library() is not None


async def keep_secret(name: str, secret: str) -> bool:
    """Whether it is kept now; False where there is no store or it refuses."""
    library = _library()
    if library is None:
        return False
    return await _asked(library, "set_password", SERVICE, name, secret) is not _REFUSED


async def kept_secret(name: str) -> str | None:
    """What was kept under that name; None where there is nothing, no store, or it refuses."""
    library = _library()
    found = None if library is None else await _asked(library, "get_password", SERVICE, name)
    return found if isinstance(found, str) else None


async def drop_secret(name: str) -> bool:
    """Whether nothing is kept under that name any more."""
    library = _library()
    if library is None or await kept_secret(name) is None:
        return library is not None
    return await _asked(library, "delete_password", SERVICE, name) is not _REFUSED


_REFUSED = object()


async def _asked(library: ModuleType, act: str, *what: str) -> object:
    """Its answer. It blocks until the system's own question is answered, so it runs in a thread."""
    try:
        async with asyncio.timeout(PATIENCE_S):
            return await asyncio.to_thread(getattr(library, act), *what)
    except Exception:  # every back end has errors of its own, and each means the same: not kept, or not given
        return _REFUSED


def _library() -> ModuleType | None:
    if not is_desktop():
        return None
    try:
        library = importlib.import_module("keyring")
        return library if library.get_keyring().priority >= _KEEPS else None
    except Exception:  # not installed, or its back end cannot even be asked
        return None
