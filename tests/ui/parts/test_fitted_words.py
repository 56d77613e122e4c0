"""Words are set so that no word is cut: reckoned widths are at least the real ones, and the largest size is taken."""
from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont

from app.exchange.forms.source import read_source
from app.resources import resource_dir
from app.ui.parts.fitted_words import Fitted, em, fitted, lines_of
from app.words.client import lead, pauses
from app.words.client import player as says
from tests.browser.prepared import SOURCE

WORDS = st.lists(st.text("abcdeilmnorstuw-", min_size=1, max_size=12), min_size=1, max_size=14).map(" ".join)
FACES = (says.PAUSE, says.HURTS, says.STOP_SIGNS, says.LONGER_REST_SHORT, pauses.READY_NOW, says.NO_EASIER,
         says.CHANGE_SIDES.upper(), "GET READY", "WORK", "REST", "HOLD", "PAUSED", *lead.WATCH_ALWAYS)


@pytest.mark.parametrize(("cut", "heavy"), [("800", True), ("600", False)])
def test_no_word_of_the_library_is_wider_than_reckoned(cut: str, heavy: bool) -> None:
    """In the heaviest cut and in the one for names and cues, for every word that the player shows."""
    font = ImageFont.truetype(str(resource_dir("assets") / "fonts" / f"Card-{cut}.ttf"), 1000)
    lines = [line for e in read_source(SOURCE).library().values()
             for line in (e.name, *e.cues.set_up, *e.cues.action, e.cues.breath, *e.cues.safety)]
    words = {word for line in (*lines, *FACES) for word in line.replace("-", "- ").split()}
    assert {word: font.getlength(word) for word in words if font.getlength(word) > 1000 * em(word, heavy=heavy)} == {}
    assert {line: font.getlength(line) for line in lines if font.getlength(line) > 1000 * em(line, heavy=heavy)} == {}


@given(WORDS, st.floats(60, 700), st.floats(14, 60), st.floats(10, 30), st.integers(1, 4))
def test_no_word_is_cut_and_more_lines_come_only_where_it_can_be_no_smaller(
        words: str, width: float, largest: float, smallest: float, most: int) -> None:
    """The widest word fits; past the most lines stands only what is at its smallest."""
    found = fitted(words, width, largest, smallest, most)
    assert all(em(word) * found.size <= width for word in words.replace("-", "- ").split())
    assert found.size <= largest and found.lines == lines_of(words, found.size, width)
    assert found.lines <= most or found.size <= smallest


def test_lines_break_between_words_and_after_hyphens() -> None:
    """As the client breaks them."""
    assert lines_of("hip-wide", 10, em("hip-") * 10 + 1) == 2
    assert lines_of("one two", 10, em("one two") * 10 + 1) == 1
    assert Fitted(20, 3).height == pytest.approx(71.6)
