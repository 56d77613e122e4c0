"""Kit has one list of ids and one table of words."""
from __future__ import annotations

from app.domain.model.kit import ALWAYS_AT_HAND, KIT, WEIGHTS, is_known
from app.domain.proofreading.finding import Finding
from app.words.client.welcome import KIT as TICKED
from app.words.coach.proofreading import problem_mend, problem_text
from app.words.kit import KIT_WORDS
from app.words.text import kit_sentence
from tests.domain.shipped import shipped


def test_every_id_has_its_words_in_the_order_in_which_it_is_asked() -> None:
    """And no words stand for an id that is not there."""
    assert list(KIT_WORDS) == list(TICKED) == list(KIT)
    assert all(words.needed and words.ticked for words in KIT_WORDS.values())
    assert kit_sentence(["chair", "dumbbell"]) == "kit: a chair and dumbbells"


def test_what_is_a_weight_can_be_owned_and_what_is_in_every_room_is_not_asked() -> None:
    """One id is in one list."""
    assert set(KIT) >= WEIGHTS and not ALWAYS_AT_HAND & set(KIT)


def test_the_shipped_exercises_ask_for_known_kit_alone() -> None:
    """Every one of them."""
    assert {kit for exercise in shipped().exercises for kit in exercise.equipment if not is_known(kit)} == set()


def test_an_unknown_kit_is_told_with_its_name_and_what_there_is() -> None:
    """A clear sentence, one that says what to write, and nothing that keeps a pack back."""
    told = Finding("unknown_kit", "pull", 0, 0, what="pulley")
    assert problem_text(told) == "It needs kit that nobody can tick (pulley)."
    assert problem_mend(told) == "Use one of the equipment words listed in the format." and not told.blocks
