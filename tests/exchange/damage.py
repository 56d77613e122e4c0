"""Ways to harm a file."""
from __future__ import annotations

from collections.abc import Callable, Coroutine, Iterator
from typing import Any

import pytest

from app.domain.errors import FileError
from tests.exchange.fixed import run

Reader = Callable[[bytes], Coroutine[Any, Any, object]]


def flipped(data: bytes) -> Iterator[bytes]:
    """The file with each byte in turn changed in one bit, a different bit from place to place."""
    for at in range(len(data)):
        yield data[:at] + bytes([data[at] ^ (1 << (at % 8))]) + data[at + 1:]


def cut(data: bytes, step: int = 1) -> Iterator[bytes]:
    """The file cut short at every `step`-th place."""
    return (data[:at] for at in range(0, len(data), step))


def assert_refused(read: Reader, data: bytes, kind: type[FileError] = FileError) -> None:
    """Reading gives a FileError of that kind and nothing else."""
    with pytest.raises(kind):
        run(read(data))
