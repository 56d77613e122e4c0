"""How to reach somebody is found in what they wrote, and nothing is taken for a number that is none."""
from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.words.contacts import phone_address, ways_in
from tests.sampling import examples


@pytest.mark.parametrize(("written", "found"), [
    ("odile@brackwater.example", ["mailto:odile@brackwater.example"]),
    ("Tilde, 06 1234 5678", ["tel:0612345678"]),
    ("+44 20 7946 0018 or odile@brackwater.example.", ["tel:+442079460018", "mailto:odile@brackwater.example"]),
    ("Ragna, 555 0102", ["tel:5550102"]),
    ("Col next door", []), ("Flat 12, 14 Quay Street", []), ("born 1957", []), ("", []), ("a@b", []),
])
def test_numbers_and_addresses_are_found(written: str, found: list[str]) -> None:
    """In their order; a house number, a year and half an address are none."""
    assert [way.address for way in ways_in(written)] == found


@settings(max_examples=examples(30, 500))
@given(st.text(max_size=60))
def test_whatever_was_written_is_read_and_what_is_found_stands_in_it(written: str) -> None:
    """No text is refused, and no way is invented."""
    for way in ways_in(written):
        assert way.words in written and way.address.partition(":")[0] in ("tel", "mailto")


def test_an_emergency_number_is_dialled_as_it_is() -> None:
    """However short."""
    assert phone_address("999") == "tel:999" and phone_address("+1 911") == "tel:+1911"
