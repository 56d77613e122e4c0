"""A coach's computer is lost: the words of the recovery sheet bring back what people sent, and the coach's name."""
from __future__ import annotations

import asyncio
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from app.actions.desk import intake, publishing, replying
from app.actions.desk.recovering import recover_keys
from app.actions.desk.replying import ReplyDraft
from app.actions.files import messages, programmes, sending
from app.actions.files.programmes import TrustStep
from app.domain.errors import UntrustedSigner, WrongValue
from app.exchange.crypto.recovery_words import recovery_words
from app.exchange.forms.source import read_source, write_source
from app.resources import resource_dir
from app.storage.database import Store, open_store
from app.storage.export import logical_dump
from tests.actions.at_home import Home

SOURCE = resource_dir("assets") / "programmes" / "brackwater"


@pytest.fixture
def new_desk(tmp_path: Path) -> Iterator[Store]:
    """A new computer."""
    store = open_store(tmp_path / "new")
    yield store
    store.close()


def sheet(home: Home) -> str:
    """The words as they stand on paper."""
    words = publishing.recovery_sheet(home.desk)
    assert words is not None
    return " ".join(words)


def next_version(folder: Path) -> Path:
    """The same programme, one version on."""
    source = read_source(SOURCE)
    write_source(replace(source, version=source.version + 1), folder)
    return folder


def test_a_return_sealed_before_is_read_on_the_new_computer(at_home: Home, new_desk: Store) -> None:
    """It was sealed to the lost key and to the one on paper."""
    at_home.answer()
    made = asyncio.run(sending.make_return(at_home.store, at_home.clock, at_home.person.id))
    blind, = asyncio.run(intake.take_in(new_desk, at_home.clock, [(made.name, made.data)]))
    assert blind.error is not None
    asyncio.run(recover_keys(new_desk, at_home.clock, sheet(at_home)))
    taken, = asyncio.run(intake.take_in(new_desk, at_home.clock, [(made.name, made.data)]))
    assert taken.error is None and taken.person is not None and taken.person.name == at_home.person.name


def test_clients_take_the_new_keys_over_with_the_next_programme(
    at_home: Home, new_desk: Store, tmp_path: Path
) -> None:
    """Once the words are found the same; from then on returns and messages go by the new keys."""
    asyncio.run(recover_keys(new_desk, at_home.clock, sheet(at_home)))
    built = asyncio.run(publishing.build(new_desk, at_home.clock, next_version(tmp_path / "source")))
    assert built.data is not None
    opened = asyncio.run(programmes.open_pack(at_home.store, at_home.clock, built.name, built.data))
    assert opened.standing is TrustStep.RENEWED
    followed = programmes.accept_pack(at_home.store, at_home.clock, at_home.person.id, opened)
    assert followed.coach_key == publishing.coach_keys(new_desk).signing.public.hex()  # type: ignore[union-attr]
    made = asyncio.run(sending.make_return(at_home.store, at_home.clock, at_home.person.id))
    assert asyncio.run(intake.take_in(new_desk, at_home.clock, [(made.name, made.data)]))[0].error is None
    answer = asyncio.run(replying.write(new_desk, at_home.clock, at_home.person.id, ReplyDraft("It is me again.")))
    got = asyncio.run(messages.receive(at_home.store, at_home.clock, at_home.person.id, answer.data, "a file"))
    assert got.message.text == "It is me again."


def test_a_stranger_with_other_words_is_not_believed(at_home: Home, new_desk: Store, tmp_path: Path) -> None:
    """Their sheet is as good as ours, and is not the coach's."""
    asyncio.run(recover_keys(new_desk, at_home.clock, " ".join(recovery_words(bytes(range(32))))))
    built = asyncio.run(publishing.build(new_desk, at_home.clock, next_version(tmp_path / "source")))
    assert built.data is not None
    opened = None
    try:
        opened = asyncio.run(programmes.open_pack(at_home.store, at_home.clock, built.name, built.data))
    except UntrustedSigner:
        return
    assert opened.standing is TrustStep.COMPARE


def test_keys_that_are_here_are_never_replaced_and_wrong_words_change_nothing(
    at_home: Home, new_desk: Store
) -> None:
    """A slip of the pen is noticed; whoever has keys keeps them."""
    words = sheet(at_home)
    with new_desk.read() as db:
        before = logical_dump(db)
    with pytest.raises(WrongValue):
        asyncio.run(recover_keys(new_desk, at_home.clock, " ".join(words.split()[1:])))
    with new_desk.read() as db:
        assert logical_dump(db) == before
    known = publishing.coach_keys(at_home.desk)
    with pytest.raises(WrongValue):
        asyncio.run(recover_keys(at_home.desk, at_home.clock, words))
    assert publishing.coach_keys(at_home.desk) == known


def test_numbers_of_messages_go_on_after_a_recovery(at_home: Home, new_desk: Store, tmp_path: Path) -> None:
    """A return tells how far they were; before one came, they begin at 1 under the new key."""
    first = asyncio.run(sending.make_return(at_home.store, at_home.clock, at_home.person.id))
    asyncio.run(intake.take_in(at_home.desk, at_home.clock, [(first.name, first.data)]))
    for words in ("One.", "Two.", "Three."):
        sent = asyncio.run(replying.write(at_home.desk, at_home.clock, at_home.person.id, ReplyDraft(words)))
    asyncio.run(messages.receive(at_home.store, at_home.clock, at_home.person.id, sent.data, "a file"))
    asyncio.run(recover_keys(new_desk, at_home.clock, sheet(at_home)))
    built = asyncio.run(publishing.build(new_desk, at_home.clock, next_version(tmp_path / "source")))
    assert built.data is not None
    opened = asyncio.run(programmes.open_pack(at_home.store, at_home.clock, built.name, built.data))
    programmes.accept_pack(at_home.store, at_home.clock, at_home.person.id, opened)
    asyncio.run(intake.take_in(new_desk, at_home.clock, [(first.name, first.data)]))
    early = asyncio.run(replying.write(new_desk, at_home.clock, at_home.person.id, ReplyDraft("It is me.")))
    then = asyncio.run(sending.make_return(at_home.store, at_home.clock, at_home.person.id))
    asyncio.run(intake.take_in(new_desk, at_home.clock, [(then.name, then.data)]))
    late = asyncio.run(replying.write(new_desk, at_home.clock, at_home.person.id, ReplyDraft("And more.")))
    assert (sent.number, early.number, late.number) == (3, 1, 4)
