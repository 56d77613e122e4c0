"""Inputs changed by chance, from a seed, by what they are made of: bytes, words of a text, values of a JSON."""
from __future__ import annotations

import json
import random
import re
from collections.abc import Callable
from copy import deepcopy
from typing import Any

Change = Callable[[random.Random, bytes], bytes]

#: Words in which readers have failed before: other alphabets, signs that turn the line, numbers without end, formulas.
ODD = (
    "", "0", "-1", "1e999", "NaN", "-0.0", "9" * 400, "true", "null", "[]", "{}", "\"", "'", "\\", "\\u0000", "\x00",
    "\ufeff", "\u202e", "\u200b", "\u0435", "\ud7ff", "１２", "٣", "²", "=1+1", "../..", "/etc/passwd", "C:\\",
    "%2e%2e",
    "#", "?", "&", "://", "\r\n", "\n\n", "\t", "," * 40, ";" * 40, "a." * 300, "[" * 300, "{\"a\":" * 300, "x" * 5_000,
    "9999-12-31", "0001-01-01", "2024-02-30", "1900-02-29", "24:00", "2026-03-02T07:30:00+99:99", "evenload-", "=" * 64,
    "-----BEGIN", "__proto__", "inf", "0x10", "1_000",
)
VALUES: tuple[Any, ...] = (
    None, True, False, 0, -1, 1, 10**30, -(10**30), 1e308, 0.1, "", "x", "x" * 3_000, [], {}, [[]], [None], {"": None},
    "9999-12-31", "0001-01-01", "2026-02-30", "1970-01-01T00:00:00Z", "\u202e", "\x00", "é", [0] * 300, "left knee",
)
#: A value longer than this is not multiplied, or the changes would need the memory and not the reader.
_MANY_OF = 20_000
_WORD = re.compile(r"\w+|[^\w\s]|\s+")


def some_bytes(rng: random.Random, data: bytes) -> bytes:
    """A few bits, bytes or stretches flipped, set, lost, doubled or put elsewhere; or the end cut off."""
    out = bytearray(data)
    for _ in range(rng.choice((1, 1, 2, 5))):
        at, length = rng.randrange(len(out) + 1), rng.choice((1, 1, 2, 4, 16, 64))
        part = bytes(out[at:at + length])
        match rng.randrange(7):
            case 0 if part:
                out[at] ^= 1 << rng.randrange(8)
            case 1:
                out[at:at + length] = rng.choice((b"\x00", b"\xff", b"\x7f", b"\x80")) * len(part)
            case 2:
                del out[at:at + length]
            case 3:
                out[at:at] = part * rng.choice((1, 2, 50))
            case 4:
                out[at:at] = rng.randbytes(length)
            case 5:
                other = rng.randrange(len(out) + 1)
                out[other:other + length] = part
            case _:
                del out[at:]
    return bytes(out)


def some_words(rng: random.Random, data: bytes) -> bytes:
    """Words of a text replaced by odd ones, lost, doubled or exchanged."""
    words = _WORD.findall(data.decode("utf-8", "replace")) or [""]
    for _ in range(rng.choice((1, 1, 2, 4))):
        at, other = rng.randrange(len(words)), rng.randrange(len(words))
        match rng.randrange(4):
            case 0:
                words[at] = rng.choice(ODD)
            case 1:
                words[at] = ""
            case 2:
                words[at] *= rng.choice((2, 30))
            case _:
                words[at], words[other] = words[other], words[at]
    return "".join(words).encode("utf-8", "replace")


def some_values(rng: random.Random, data: bytes) -> bytes:
    """Values of a JSON replaced by others, of its own or odd ones, lost, doubled, or under another key."""
    try:
        whole = json.loads(data)
    except (ValueError, RecursionError):
        return some_words(rng, data)
    for _ in range(rng.choice((1, 1, 2, 4))):
        places = [*_places(whole)]
        if not places:
            break
        parent, key = rng.choice(places)
        match rng.randrange(5):
            case 0 | 1:
                parent[key] = deepcopy(rng.choice(VALUES))
            case 2:
                other, there = rng.choice(places)
                parent[key] = deepcopy(other[there])
            case 3:
                del parent[key]
            case _ if isinstance(parent, list):
                many = rng.choice((1, 20)) if len(json.dumps(parent[key])) < _MANY_OF else 1
                parent.extend(deepcopy(parent[key]) for _ in range(many))
            case _:
                parent[rng.choice(ODD)] = parent.pop(key)
    return json.dumps(whole).encode()


def inside(unwrap: Callable[[bytes], bytes], change: Change, wrap: Callable[[bytes], bytes]) -> Change:
    """A change within what is sealed, signed or packed, and closed again as it should be."""
    def changed(rng: random.Random, data: bytes) -> bytes:
        return wrap(change(rng, unwrap(data)))
    return changed


def _places(value: Any) -> list[tuple[Any, Any]]:
    """Every (container, key) of a JSON value."""
    found: list[tuple[Any, Any]] = []
    waiting = [value]
    while waiting:
        one = waiting.pop()
        keys = list(one) if isinstance(one, dict) else range(len(one)) if isinstance(one, list) else ()
        found.extend((one, key) for key in keys)
        waiting.extend(one[key] for key in keys)
    return found
