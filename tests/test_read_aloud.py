"""What is read aloud: every text within a value, and no id or bare number."""
from __future__ import annotations

from dataclasses import dataclass

from tests.read_aloud import library, sentences


@dataclass(frozen=True)
class _Told:
    head: str
    rows: tuple[object, ...]


def test_texts_are_found_wherever_they_stand() -> None:
    """In a tuple, in a mapping's values, in a record."""
    told = _Told("Rest now", ("sit-to-stand", 12, "3:20", {"k": "Sit tall", "n": None}, ["Breathe out."]))
    assert list(sentences(told)) == ["Rest now", "Sit tall", "Breathe out."]


def test_all_that_the_coach_wrote_is_read() -> None:
    """A name and a cue of each exercise among it."""
    said = dict(library())
    assert len(said) > 40 and all(said.values())
    assert any("Stand up from a chair" in one for one in said.values())
