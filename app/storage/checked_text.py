"""Text that carries its own digest, so that a bit that flipped on the disk is noticed when it is read.

A row that decides must not be believed because it happens to parse: one flipped bit makes a pain of 4 a pain of 0.
A record has its digest in a column; of other rows it is the last key, `~`, of the JSON itself, which a version of the
program that does not know it ignores. Text without one, written by such a version, is read as it is.
"""
from __future__ import annotations

import re
from hashlib import sha256

_DIGITS = 16
_LONGEST = len(',"~":""}') + _DIGITS
_CHECK = re.compile(rb'(,?)"~":"([0-9a-f]{%d})"\}$' % _DIGITS)


class ChangedRow(ValueError):
    """A row is not what was written into it."""


def with_check(text: str) -> str:
    """A JSON object with the digest of itself as its last key."""
    body = text[:-1]
    return f'{body}{"," if len(body) > 1 else ""}"~":"{_digest(text.encode("utf-8"))}"}}'


def without_check(text: str) -> str:
    """The JSON object that `with_check` was given.

    Raises:
        ChangedRow: it is not as it was written.
    """
    data = text.encode("utf-8")
    body, check = parted(data)
    if check and _digest(body) != check:
        raise ChangedRow
    return body.decode("utf-8")


def unchanged(text: str, digest: str) -> str:
    """A text whose digest stands beside it.

    Raises:
        ChangedRow: the two do not agree.
    """
    if not is_unchanged(text.encode("utf-8"), digest.encode("utf-8")):
        raise ChangedRow
    return text


def is_unchanged(data: bytes, digest: bytes | None = None) -> bool:
    """Whether stored bytes agree with the digest beside them, or with the one in them if there is one."""
    if digest is not None:
        return sha256(data).hexdigest().encode("ascii") == digest
    body, check = parted(data)
    return not check or _digest(body) == check


def parted(data: bytes) -> tuple[bytes, str]:
    """The JSON object and the digest it carries; empty where it carries none."""
    found = _CHECK.search(data, max(0, len(data) - _LONGEST))  # a library is long: only its end can hold one
    return (data, "") if found is None else (data[:found.start()] + b"}", found[2].decode("ascii"))


def _digest(data: bytes) -> str:
    return sha256(data).hexdigest()[:_DIGITS]
