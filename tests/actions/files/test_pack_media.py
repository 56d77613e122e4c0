"""A figure comes out of the programme file that was taken in, the one that the exercise names or its own."""
from __future__ import annotations

import asyncio
import hashlib
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from app.actions import backup, erasing
from app.actions.files.figure_body import choose_body, chosen_body, coachs_body
from app.actions.files.pack_media import pack_shelf, photo_of, picture_of
from app.actions.training.today import today
from app.domain.model.figure_body import FigureBody
from app.exchange.packs.pack import build_pack
from app.storage import packs
from app.storage.database import Store
from app.storage.packs import KeptPack
from tests.actions.at_home import Home
from tests.exchange.fixed import COACH, SOURCE


def test_every_exercise_of_the_pack_has_its_picture(at_home: Home) -> None:
    """Animation, start and turn, and what a player must know."""
    card = today(at_home.store, at_home.clock, at_home.person.id)
    assert card.pack is not None
    for exercise in list(card.library.values())[::20]:
        found = picture_of(at_home.store, card.pack.sha256, exercise)
        assert found is not None
        assert found.id == exercise.id
        assert found.round_ms > 0
        assert found.works
        assert found.start.startswith("<svg")
        assert found.turn.startswith("<svg")
        assert picture_of(at_home.store, card.pack.sha256, exercise) is found, "it is read once"


def test_a_picture_of_the_coach_s_own_comes_as_it_is(store: Store) -> None:
    """In place of a figure; None where the exercise names none or the pack holds none of that name."""
    exercise = replace(SOURCE.exercises[0], figure="media/step.jpg")
    data = asyncio.run(build_pack(SOURCE, coach=COACH, media={"media/step.jpg": b"picture"}))
    mark = hashlib.sha256(data).hexdigest()
    with store.begin() as db:
        packs.keep_pack(db, KeptPack(mark, "key", SOURCE, datetime(2026, 3, 2, tzinfo=UTC)), data)
    assert photo_of(store, mark, exercise) == b"picture"
    assert picture_of(store, mark, exercise) is None
    assert photo_of(store, mark, replace(exercise, figure="media/other.jpg")) is None
    assert photo_of(store, mark, replace(exercise, figure="")) is None


@pytest.mark.parametrize("body", FigureBody)
def test_the_coach_names_who_moves_and_the_client_may_choose_another(body: FigureBody, store: Store) -> None:
    """In the pack; what was chosen here holds for every pack until it is taken back."""
    source = replace(SOURCE, body=body)
    data = asyncio.run(build_pack(source, coach=COACH))
    mark = hashlib.sha256(data).hexdigest()
    with store.begin() as db:
        packs.keep_pack(db, KeptPack(mark, "key", source, datetime(2026, 3, 2, tzinfo=UTC)), data)
    assert coachs_body(store, mark) is body and chosen_body(store) is None
    for chosen in (*FigureBody, None):
        choose_body(store, chosen)
        assert chosen_body(store) is chosen and coachs_body(store, mark) is body
    assert coachs_body(store, "0" * 64) is FigureBody.SILVER


def test_an_exercise_may_name_another_figure(at_home: Home) -> None:
    """And has none where the pack has none of that name, or where there is no such pack."""
    card = today(at_home.store, at_home.clock, at_home.person.id)
    assert card.pack is not None
    exercise = card.library["sit-to-stand"]
    other = picture_of(at_home.store, card.pack.sha256, replace(exercise, id="mine", figure="goblet-squat"))
    assert other is not None
    assert other.id == "goblet-squat"
    assert picture_of(at_home.store, card.pack.sha256, replace(exercise, id="mine")) is None
    assert picture_of(at_home.store, "0" * 64, exercise) is None


def test_after_everything_was_erased_no_picture_is_left_and_a_copy_brings_it_back(at_home: Home) -> None:
    """What was shown before is in no memory; what was asked for in vain is found once it is here."""
    store = at_home.store
    card = today(store, at_home.clock, at_home.person.id)
    assert card.pack is not None
    exercise = card.library["sit-to-stand"]
    seen = picture_of(store, card.pack.sha256, exercise)
    name, copy = backup.backup_of(store, at_home.clock)
    erasing.erase_device(store)
    assert picture_of(store, card.pack.sha256, exercise) is None
    assert pack_shelf(store, card.pack.sha256) is None
    backup.put_back(store, name, copy)
    again = picture_of(store, card.pack.sha256, exercise)
    assert seen is not None and again is not None
    assert again is not seen and again.lottie == seen.lottie
