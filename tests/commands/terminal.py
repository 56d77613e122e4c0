"""Standing in for what a command is connected to."""
from __future__ import annotations

import io


class Terminal(io.StringIO):
    """A standard error at which somebody looks."""

    def isatty(self) -> bool:
        """It is one."""
        return True

    def lines(self) -> list[str]:
        """What stood there one after the other, without what only wiped it."""
        return [line.strip() for line in self.getvalue().split("\r") if line.strip()]


class Bytes(io.TextIOWrapper):
    """A standard input or output whose bytes can be seen."""

    def __init__(self, data: bytes = b"") -> None:
        self.raw_bytes = io.BytesIO(data)
        super().__init__(self.raw_bytes, "utf-8")
