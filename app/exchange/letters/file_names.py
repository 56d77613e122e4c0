"""Names of files about a person. A folder of downloads and a messenger show them to anybody, so nobody is named."""
from __future__ import annotations

import hashlib

from app.exchange.crypto.file_kinds import Kind

_MARK = 6


def mark_of(person_id: str) -> str:
    """Six hexadecimal digits that tell one person's files from another's and say nothing else of them."""
    return hashlib.sha256(person_id.encode()).hexdigest()[:_MARK]


def return_name(person_id: str, number: int) -> str:
    """A diary on its way to the coach."""
    return f"diary-{mark_of(person_id)}-{number}{Kind.RETURN.suffix}"


def reply_name(person_id: str, number: int) -> str:
    """A message on its way to a client."""
    return f"message-{mark_of(person_id)}-{number}{Kind.REPLY.suffix}"


def copy_name(person_id: str, ending: str) -> str:
    """A copy of the diary that anybody can read; `ending` as in `.html`."""
    return f"diary-{mark_of(person_id)}{ending}"
