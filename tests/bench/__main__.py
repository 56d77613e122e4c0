"""Prints every table."""
from __future__ import annotations

from tests.bench import compiling, cue_track

TABLES = {"compiling": compiling.measure, "cue track": cue_track.measure}

if __name__ == "__main__":
    for title, measure in TABLES.items():
        print(title)
        for name, value in measure().items():
            print(f"  {name:20} {value:12.2f}")
