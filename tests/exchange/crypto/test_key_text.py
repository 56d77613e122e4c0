"""A coach's key as a line or a link: whole or refused, and never taken for another."""
from __future__ import annotations

import contextlib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.branding.brand import CoachKey
from app.domain.errors import DamagedFile, FileError, NewerFormat, NotOurFile
from app.exchange.crypto.key_text import holds_key, key_from_text, key_line, key_link
from tests.exchange.fixed import COACH

ADDRESS = "https://steps.example/saltmarsh/"
NELL = CoachKey("Nell Harker", bytes(range(32)).hex())
printable = st.text(max_size=120).map(lambda name: " ".join("".join(c for c in name if c.isprintable()).split()))
coaches = st.builds(CoachKey, printable, st.binary(min_size=32, max_size=32).map(bytes.hex))


@given(coaches)
def test_a_key_survives_as_a_line_and_as_a_link(coach: CoachKey) -> None:
    """With the coach's name, whatever is written around them."""
    line, link = key_line(coach), key_link(coach, ADDRESS)
    assert key_from_text(line, "x") == key_from_text(link, "x") == coach
    assert link.startswith(f"{ADDRESS}#/key?") and link.isascii()
    assert key_from_text(f"Hello,\r\nhere it is:\r\n{line}\r\nBest wishes", "x") == coach
    assert key_from_text(f"See {link} please", "x") == coach


@given(coaches, st.data())
def test_a_changed_letter_of_a_key_is_refused_or_is_another_key(coach: CoachKey, draw: st.DataObject) -> None:
    """Never an error of ours; a key that came out otherwise has other matching words."""
    line = key_line(CoachKey("", coach.signing_key))
    at = draw.draw(st.integers(0, len(line) - 1))
    changed = line[:at] + draw.draw(st.characters(exclude_characters=line[at])) + line[at + 1:]
    with contextlib.suppress(FileError):
        found = key_from_text(changed, "x")
        assert found.signing_key != coach.signing_key or changed.split()[:3] == line.split()[:3]


@given(st.text(max_size=300))
def test_ordinary_words_hold_no_key(text: str) -> None:
    """They are said to be none."""
    if not holds_key(text):
        with pytest.raises(NotOurFile):
            key_from_text(text, "x")


@pytest.mark.parametrize(("text", "error"), [
    ("evenload-key", DamagedFile), ("evenload-key 1", DamagedFile), ("evenload-key 1 AAAA Nell", DamagedFile),
    (key_line(NELL)[:-20], DamagedFile), ("evenload-key 2 whatever", NewerFormat), ("", NotOurFile),
    (f"{ADDRESS}#/key?coach=Nell", DamagedFile), (f"{ADDRESS}#/key?key=%00", DamagedFile),
    (key_line(CoachKey("n" * 121, NELL.signing_key)), DamagedFile),
    (key_link(CoachKey("a\x07b", NELL.signing_key), ADDRESS), DamagedFile),
    (key_line(NELL).replace("Hh8=", "Hh9="), DamagedFile),
])
def test_what_is_no_whole_key_is_refused(text: str, error: type[FileError]) -> None:
    """Cut short, of a newer kind, or with a name that cannot be one."""
    with pytest.raises(error):
        key_from_text(text, "This text")


def test_a_wrapped_line_is_still_a_key() -> None:
    """Mail breaks lines at spaces."""
    assert key_from_text(key_line(NELL).replace(" ", "\n", 2), "x") == NELL
    assert key_from_text("> " + key_line(NELL), "x") == NELL


def test_the_example_in_the_specification_reads() -> None:
    """Both forms of it say the same key, that of the example pack."""
    guide = (Path(__file__).parents[3] / "app/exchange/PACK.md").read_text("utf-8")
    example = guide.partition("Example, the key of the pack above:")[2].split("```")[1].strip().splitlines()
    coach = CoachKey("Nell Harker", COACH.signing.public.hex())
    assert [key_from_text(line, "x") for line in example] == [coach, coach]
    assert example == [key_line(coach), key_link(coach, "https://steps.example/app/")]
