"""A TOML file is read within a second and in a few levels, or refused in a sentence."""
from __future__ import annotations

import time
from pathlib import Path

import pytest

from app.domain.errors import UnreadableSource
from app.exchange.forms.source import HEAD, read_source
from app.exchange.forms.toml_file import MOST_DEEP, read_toml

HOSTILE = {
    "dotted key": ".".join(["a"] * 2_000) + " = 1",
    "dotted key, 80 kB": ".".join(["a"] * 40_000) + " = 1",
    "dotted and quoted": " . ".join(['"a b"'] * 2_000) + " = 1",
    "dotted head": "[" + ".".join(["a"] * 20_000) + "]",
    "dotted inline": "a = {" + ".".join(["b"] * 20_000) + " = 1}",
    "lists in lists": "a = " + "[" * 300 + "]" * 300,
    "lists without end": "a = " + "[" * 40_000,
    "tables in tables": "a = " + "{a = " * 200 + "1" + "}" * 200,
    "one long word": "a" * 200_000,
    "quotes": '"' * 100_000,
    "too large": "#" * 1_000_001,
    "no UTF-8": "\udcff",
}


@pytest.mark.parametrize("kind", HOSTILE)
def test_a_hostile_file_is_refused_at_once(kind: str, tmp_path: Path) -> None:
    """In our own words and within a second, also where a whole source is read."""
    (tmp_path / HEAD).write_bytes(HOSTILE[kind].encode("utf-8", "surrogateescape"))
    begun = time.process_time()
    for read in (lambda: read_toml(tmp_path / HEAD, HEAD), lambda: read_source(tmp_path)):
        with pytest.raises(UnreadableSource):
            read()
    assert time.process_time() - begun < 1


def test_what_a_person_writes_is_read(tmp_path: Path) -> None:
    """Dots in a sentence, dots in a row, and as many tables within one another as are allowed."""
    path = tmp_path / "a.toml"
    name = ".".join("abcdefghijklmno")
    path.write_text(f'cue = "Slow. Calm. Breathe. ……… ................ 1.2.3 www.a.b.c"\n{name} = 1\n', "utf-8")
    assert read_toml(path, "a.toml")["cue"].startswith("Slow")
    assert name.count(".") + 2 == MOST_DEEP
