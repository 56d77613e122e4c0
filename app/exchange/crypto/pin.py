"""A PIN: what is kept of one, whether one fits, and how long a wrong one keeps everybody waiting.

Nothing is sealed under it. Four digits are found out by trying wherever the file can be copied, whatever they are
stretched by; here they hold back a press on a shared device, and no more is said of them.
"""
from __future__ import annotations

import base64
import hmac
import itertools
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import timedelta
from typing import Any

from app.domain.errors import EasyPin
from app.exchange.crypto.passphrase import Stretching, new_stretching, stretched_key

#: Digits.
LEAST, MOST = 4, 8
#: So many wrong ones are free; after each further one there is a wait, each twice the one before, up to the longest.
FREE_TRIES = 4
FIRST_WAIT, LONGEST_WAIT = timedelta(minutes=1), timedelta(minutes=16)
#: From asking to do without a forgotten one until it may be removed: its owner sees it before that.
ASKED_BEFORE = timedelta(hours=24)


@dataclass(frozen=True)
class KeptPin:
    """What a PIN is known by."""

    how: Stretching = field(repr=False)
    key: bytes = field(repr=False)

    def as_json(self) -> dict[str, Any]:
        """For a setting."""
        return self.how.as_json() | {"key": base64.b64encode(self.key).decode()}

    @classmethod
    def from_json(cls, kept: Mapping[str, Any]) -> KeptPin:
        """The same from a setting."""
        return cls(Stretching.from_json(kept), base64.b64decode(kept["key"]))


async def kept_pin(pin: str) -> KeptPin:
    """What is kept of a new one.

    Raises:
        EasyPin: no four to eight digits, or all the same, or counting up or down.
    """
    _require_pin(pin)
    how = new_stretching()
    return KeptPin(how, await stretched_key(pin, how))


async def fits(kept: KeptPin, pin: str) -> bool:
    """Whether it is the one."""
    return hmac.compare_digest(kept.key, await stretched_key(pin, kept.how))


def wait_after(wrong: int) -> timedelta:
    """How long nothing is tried once so many in a row were wrong."""
    if wrong <= FREE_TRIES:
        return timedelta(0)
    doubled = min(wrong - FREE_TRIES - 1, 10)
    return min(FIRST_WAIT * int(2 ** doubled), LONGEST_WAIT)


def _require_pin(pin: str) -> None:
    said = pin.strip()
    plain = said.isascii() and said.isdigit() and LEAST <= len(said) <= MOST
    steps = {int(b) - int(a) for a, b in itertools.pairwise(said)} if plain else set()
    if not plain or steps in ({0}, {1}, {-1}):
        raise EasyPin(least=LEAST, most=MOST)
