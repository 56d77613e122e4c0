"""The English of the United States: whole words, in their case, and nothing else of a sentence."""
from __future__ import annotations

import re

import pytest

from app.words.english import AMERICAN, american, is_american
from tests.words.test_terms import sentences

LEFT = re.compile(r"(?<![\w-])(" + "|".join(map(re.escape, AMERICAN)) + r")(?![\w-])", re.IGNORECASE)


@pytest.mark.parametrize(("said", "meant"), [
    ("A kitchen worktop, or two worktops", "A kitchen counter, or two counters"),
    ("Worktop", "Counter"), ("WORKTOP", "COUNTER"),
    ("A doctor, nurse or physio", "A doctor, nurse or physical therapist"),
    ("Ms Field, physiotherapist", "Ms Field, physical therapist"),
    ("Such as in plaster, or after a stroke.", "Such as in a cast, or after a stroke."),
    ("Train while your Parkinson’s tablets are working.", "Train while your Parkinson’s pills are working."),
    ("1.5 metres; 3 kilometres", "1.5 meters; 3 kilometres"),
    ("programmed", "programmed"), ("A fortnight of rest", "Two weeks of rest"), ("", ""),
])
def test_a_sentence_is_put_word_by_word(said: str, meant: str) -> None:
    """Whole words alone; a capital stays one."""
    assert american(said) == meant


def test_every_sentence_of_the_program_is_put_once_and_for_all() -> None:
    """Nothing of the table is left in any of them, and putting one again changes nothing."""
    put = {one.said: american(one.said) for one in sentences()}
    assert sum(said != meant for said, meant in put.items()) > 100
    assert not [meant for meant in put.values() if LEFT.search(meant) or american(meant) != meant]


def test_every_line_of_the_table_is_said_somewhere() -> None:
    """What nobody reads any more is taken out of it; the singular or the plural of a word will do."""
    everything = "\n".join(one.said for one in sentences()).lower()
    stems = {said.removesuffix("s") for said in AMERICAN}
    unsaid = [one for one in stems if not re.search(rf"(?<![\w-]){re.escape(one)}s?(?![\w-])", everything)]
    assert not unsaid


@pytest.mark.parametrize("country", ["United States", "the United States of America", "USA", "U.S.", " us ", "America"])
def test_the_states_are_known_by_what_people_write(country: str) -> None:
    """Nobody is asked for a code."""
    assert is_american(country)


@pytest.mark.parametrize("country", ["", "United Kingdom", "Australia", "Latin America", "Austria", "Brackwater, US"])
def test_everywhere_else_is_left_as_it_was_written(country: str) -> None:
    """British English is what it is written in."""
    assert not is_american(country)
