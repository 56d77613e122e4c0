"""The seam behind which cryptography happens: everything above it sees bytes and awaits.

Natively it is the `cryptography` library, in a browser the browser's own; both give and take the same bytes. The
browser's is asynchronous, so these are coroutines everywhere. Keys are raw, 32 bytes each.
"""
from __future__ import annotations

import sys

from app.exchange.crypto.cipher_terms import HPKE_BYTES, KEY_BYTES, SIGNATURE_BYTES, Unopened, random_bytes

if sys.platform == "emscripten":
    from app.exchange.crypto.browser_cipher import (
        aes_open,
        aes_seal,
        ed25519_sign,
        ed25519_verify,
        hpke_open,
        hpke_seal,
        sealing_public,
        signing_public,
        stretched,
    )
else:
    from app.exchange.crypto.native_cipher import (
        aes_open,
        aes_seal,
        ed25519_sign,
        ed25519_verify,
        hpke_open,
        hpke_seal,
        sealing_public,
        signing_public,
        stretched,
    )

__all__ = [
    "HPKE_BYTES", "KEY_BYTES", "SIGNATURE_BYTES", "Unopened", "aes_open", "aes_seal", "ed25519_sign", "ed25519_verify",
    "hpke_open", "hpke_seal", "random_bytes", "sealing_public", "signing_public", "stretched",
]
