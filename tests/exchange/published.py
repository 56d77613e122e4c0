"""Published values of the cryptography that the formats stand on."""
from __future__ import annotations

from collections.abc import Mapping

#: The vector of the CFRG's HPKE test-vectors.json for mode 0, KEM 0x0020, KDF 0x0001, AEAD 0x0002: the first message,
#: and two secrets of 32 bytes that are exported.
HPKE: Mapping[str, bytes] = {name: bytes.fromhex(value) for name, value in {
    "info": "4f6465206f6e2061204772656369616e2055726e",
    "ikmR": "dac33b0e9db1b59dbbea58d59a14e7b5896e9bdf98fad6891e99d1686492b9ee",
    "ikmE": "2cd7c601cefb3d42a62b04b7a9041494c06c7843818e0ce28a8f704ae7ab20f9",
    "skRm": "497b4502664cfea5d5af0b39934dac72242a74f8480451e1aee7d6a53320333d",
    "skEm": "179d4b53b6365c45b600c4163b61d95cbc2f4d9e36f1695558dce265ab8bab11",
    "pkRm": "430f4b9859665145a6b1ba274024487bd66f03a2dd577d7753c68d7d7d00c00c",
    "enc": "6c93e09869df3402d7bf231bf540fadd35cd56be14f97178f0954db94b7fc256",
    "key": "f50b0609186798729ed0564b36ef2ef8044f1f9d05636874d1f46c819c7a669f",
    "base_nonce": "151d9929e2449747889bc923",
    "aad": "436f756e742d30",
    "pt": "4265617574792069732074727574682c20747275746820626561757479",
    "ct": "e5d84cd531cfb583096e7cfa9641bd3079cf3a91cda813c52deb5f512be9931980a41de125a925cdad859d5b7a",
    "exported": "ded6cffafaea6b812cbf3e241e88332adbc077aca81512914213810ee291770a",
    "exported for TestContext": "7c5ded445732c14fe09727d29b4251c0fd38455fe8440571e687f0886aac94d2",
}.items()}
