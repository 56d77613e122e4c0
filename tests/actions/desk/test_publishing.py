"""The coach's keys, the recovery sheet, and building a programme."""
from __future__ import annotations

import asyncio
import shutil
from pathlib import Path

import pytest

from app.actions.desk import publishing
from app.device.clock import ManualClock
from app.domain.errors import UnknownName, WrongValue
from app.exchange.crypto.keys import recovery_pairs
from app.exchange.crypto.recovery_words import WORD_COUNT, recovery_words, seed_from_words
from app.exchange.packs.pack import read_pack
from app.resources import resource_dir
from app.storage.database import Store
from app.storage.export import logical_dump

SOURCE = resource_dir("assets") / "programmes" / "brackwater"


def test_keys_are_made_once(store: Store, clock: ManualClock) -> None:
    """Asking again gives the same keys, and so do two who ask at the same time."""
    async def both() -> None:
        one, two = await asyncio.gather(*(publishing.ensure_coach_keys(store, clock) for _ in range(2)))
        assert one == two == await publishing.ensure_coach_keys(store, clock) == publishing.coach_keys(store)
    assert publishing.coach_keys(store) is None
    asyncio.run(both())
    assert len(publishing.matching_words(store)) == 5


def test_the_sheet_gives_the_recovery_keys_back(store: Store, clock: ManualClock) -> None:
    """Until it is confirmed the words can be shown, and they lead to the recovery keys of the packs."""
    known = asyncio.run(publishing.ensure_coach_keys(store, clock))
    words = publishing.recovery_sheet(store)
    assert words is not None and len(words) == WORD_COUNT
    signing, sealing = asyncio.run(recovery_pairs(seed_from_words(" ".join(words))))
    assert (signing.public, sealing.public) == (known.recovery_signing, known.recovery_sealing)


def test_a_confirmed_sheet_leaves_nothing_behind(store: Store, clock: ManualClock) -> None:
    """Neither a row, nor the file, its journal or a copy still holds the secret; the keys stay."""
    asyncio.run(publishing.ensure_coach_keys(store, clock))
    words = publishing.recovery_sheet(store)
    assert words is not None and store.path is not None
    secret = seed_from_words(" ".join(words)).hex().encode()
    assert any(secret in path.read_bytes() for path in store.path.parent.rglob("*") if path.is_file())
    publishing.confirm_sheet(store)
    assert publishing.recovery_sheet(store) is None
    assert publishing.coach_keys(store) is not None
    assert not any(secret in path.read_bytes() for path in store.path.parent.rglob("*") if path.is_file())


def test_a_wrong_word_is_noticed() -> None:
    """Another count, an unknown word, two words swapped: each is refused."""
    words = list(recovery_words(bytes(range(32))))
    assert seed_from_words("1. " + ",\n".join(words).upper()) == bytes(range(32))
    with pytest.raises(WrongValue):
        seed_from_words(" ".join(words[:-1]))
    with pytest.raises(UnknownName):
        seed_from_words(" ".join([*words[:-1], "qqqq"]))
    with pytest.raises(WrongValue):
        seed_from_words(" ".join([words[1], words[0], *words[2:]]))


def test_a_source_is_built_and_signed(store: Store, clock: ManualClock) -> None:
    """The pack reads back whole, is signed with the coach's key, and says the same twice."""
    built = asyncio.run(publishing.build(store, clock, SOURCE))
    assert built.data is not None
    pack = asyncio.run(read_pack(built.data, built.name))
    known = publishing.coach_keys(store)
    assert known is not None and pack.signing_key == known.signing.public
    assert pack.source == built.source
    assert asyncio.run(publishing.build(store, clock, SOURCE)).data == built.data
    assert publishing.published_version(store, built.source.id) == built.source.version
    assert publishing.coach_name(store) == built.source.coach


def test_what_could_hurt_is_not_signed(store: Store, clock: ManualClock, tmp_path: Path) -> None:
    """An easier option that asks more blocks: the problem is told, and neither bytes nor keys are made."""
    folder = tmp_path / "harmful"
    shutil.copytree(SOURCE, folder)
    stance = folder / "exercises" / "balance.toml"
    stance.write_text(stance.read_text().replace("single_leg_balance = 3", "single_leg_balance = 0", 1))
    before = _dumped(store)
    built = asyncio.run(publishing.build(store, clock, folder))
    assert built.data is None
    assert [p.rule for p in built.problems if p.blocks and p.where == "single-leg-stance"]
    assert _dumped(store) == before


def test_sources_are_found_beside_the_store(store: Store, tmp_path: Path) -> None:
    """The coach's own come first, then those that came along."""
    own = publishing.own_sources(store)
    assert own is not None
    shutil.copytree(SOURCE, own / "mine")
    assert publishing.source_folders(store) == (own / "mine", SOURCE)
    assert publishing.open_source(own / "mine").source.id == "brackwater"


def _dumped(store: Store) -> str:
    with store.read() as db:
        return logical_dump(db)
