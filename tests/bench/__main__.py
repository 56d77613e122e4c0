"""Prints every table."""
from __future__ import annotations

from tests.bench.compiling import measure

if __name__ == "__main__":
    for name, value in measure().items():
        print(f"{name:20} {value:12.2f}")
