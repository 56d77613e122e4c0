"""The three files that travel, told apart by their first line."""
from __future__ import annotations

import re
from enum import StrEnum

from app.domain.errors import NewerFormat, NotOurFile

#: The major version that this program writes, and the newest that it reads.
MAJOR = 1
_FIRST_LINE = re.compile(rb"evenload-(pack|return|reply) ([1-9][0-9]{0,3})\n")


class Kind(StrEnum):
    """What a file is for."""

    PACK = "pack"
    RETURN = "return"
    REPLY = "reply"

    @property
    def suffix(self) -> str:
        """The file name's ending."""
        return f".evenload-{self.value}"

    @property
    def first_line(self) -> bytes:
        """The first line of a file of this kind as written by this program."""
        return f"evenload-{self.value} {MAJOR}\n".encode()


def kind_of(data: bytes, name: str) -> Kind:
    """The kind that the first line states.

    Raises:
        NotOurFile: no such line.
        NewerFormat: a newer major version.
    """
    found = _FIRST_LINE.match(data)
    if found is None:
        raise NotOurFile(name=name)
    if int(found[2]) > MAJOR:
        raise NewerFormat(name=name, found=int(found[2]), known=MAJOR)
    return Kind(found[1].decode())


def require_kind(data: bytes, name: str, kind: Kind) -> bytes:
    """What follows the first line of a file of that kind.

    Raises:
        NotOurFile: another kind, or none of ours.
        NewerFormat: a newer major version.
    """
    found = kind_of(data, name)
    if found is not kind:
        raise NotOurFile(name=name, found=found.value)
    return data[len(kind.first_line):]
