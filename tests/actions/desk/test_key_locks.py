"""The coach's keys under a passphrase: in no file, nothing signed or read without them, and a way back."""
from __future__ import annotations

import asyncio
from pathlib import Path

import pytest

from app.actions.desk import intake, publishing, replying
from app.actions.desk.key_locks import (
    can_remember,
    forget_remembered,
    is_locked,
    is_remembered,
    is_shut,
    lock_keys,
    remember_passphrase,
    remove_lock,
    shut_keys,
    unlock_keys,
    unlock_remembered,
)
from app.actions.desk.recovering import recover_keys
from app.actions.desk.replying import ReplyDraft
from app.actions.files import sending
from app.domain.errors import EasyPassphrase, KeysLocked, SheetFirst, WrongKeyPassphrase, WrongValue
from app.exchange.crypto.recovery_words import recovery_words
from app.resources import resource_dir
from app.storage.database import open_store
from app.storage.export import logical_dump
from tests.actions.at_home import Home
from tests.device.stand_in_keyring import put_in

SOURCE = resource_dir("assets") / "programmes" / "brackwater"
PASSPHRASE = "kettle plum ladder north"


def private_keys(home: Home) -> list[bytes]:
    """What has to be in no file from then on."""
    known = publishing.coach_keys(home.desk)
    assert known is not None and known.signing.private and known.sealing.private
    return [known.signing.private, known.sealing.private]


def locked(home: Home) -> str:
    """The desk with its sheet on paper and its keys locked; the words of the sheet."""
    words = " ".join(publishing.recovery_sheet(home.desk) or ())
    publishing.confirm_sheet(home.desk)
    asyncio.run(lock_keys(home.desk, PASSPHRASE))
    return words


def everything(home: Home) -> str:
    """What the desk holds."""
    with home.desk.read() as db:
        return logical_dump(db)


def files_of(home: Home) -> list[Path]:
    """Everything on disk that belongs to the desk."""
    assert home.desk.path is not None
    return [path for path in home.desk.path.parent.rglob("*") if path.is_file()]


def test_no_file_holds_them_any_more(at_home: Home) -> None:
    """Neither the records nor their journal nor the copies of former days, and they go on working until the end."""
    keys = private_keys(at_home)
    assert any(key in path.read_bytes() for path in files_of(at_home) for key in keys), "they were there"
    locked(at_home)
    assert is_locked(at_home.desk) and not is_shut(at_home.desk)
    for path in files_of(at_home):
        held = path.read_bytes()
        assert not any(key in held for key in keys), path.name
    assert private_keys(at_home) == keys
    assert asyncio.run(publishing.build(at_home.desk, at_home.clock, SOURCE)).data


def test_shut_nothing_is_signed_answered_or_read_and_nothing_changes(at_home: Home) -> None:
    """What is here can be read; the words to read out and the public key as well."""
    at_home.answer()
    made = asyncio.run(sending.make_return(at_home.store, at_home.clock, at_home.person.id))
    words = publishing.matching_words(at_home.desk)
    taken, = asyncio.run(intake.take_in(at_home.desk, at_home.clock, [(made.name, made.data)]))
    assert taken.person is not None
    locked(at_home)
    shut_keys(at_home.desk)
    before = everything(at_home)
    draft = ReplyDraft("Well done.")
    for act in (publishing.build(at_home.desk, at_home.clock, SOURCE),
                intake.take_in(at_home.desk, at_home.clock, [(made.name, made.data)]),
                replying.write(at_home.desk, at_home.clock, taken.person.id, draft),
                publishing.ensure_coach_keys(at_home.desk, at_home.clock)):
        with pytest.raises(KeysLocked):
            asyncio.run(act)  # type: ignore[arg-type]
    assert everything(at_home) == before
    assert publishing.matching_words(at_home.desk) == words


def test_they_open_with_the_passphrase_alone_and_for_as_long_as_the_program_runs(at_home: Home) -> None:
    """Another store on the same file, which is another start, asks again."""
    keys = private_keys(at_home)
    locked(at_home)
    assert at_home.desk.path is not None
    again = open_store(at_home.desk.path)
    try:
        assert is_shut(again)
        with pytest.raises(WrongKeyPassphrase):
            asyncio.run(unlock_keys(again, "kettle plum ladder south"))
        assert is_shut(again)
        asyncio.run(unlock_keys(again, PASSPHRASE))
        known = publishing.coach_keys(again)
        assert known is not None and [known.signing.private, known.sealing.private] == keys
    finally:
        again.close()


def test_the_sheet_comes_first_and_an_easy_passphrase_locks_nothing(at_home: Home) -> None:
    """Refused, and everything stays."""
    before = everything(at_home)
    with pytest.raises(SheetFirst):
        asyncio.run(lock_keys(at_home.desk, PASSPHRASE))
    publishing.confirm_sheet(at_home.desk)
    with pytest.raises(EasyPassphrase):
        asyncio.run(lock_keys(at_home.desk, "easy"))
    assert not is_locked(at_home.desk) and private_keys(at_home)
    assert before != everything(at_home), "the sheet's secret went"


def test_another_passphrase_takes_the_place_of_the_first(at_home: Home) -> None:
    """While they are open; the first opens nothing then."""
    keys = private_keys(at_home)
    locked(at_home)
    asyncio.run(lock_keys(at_home.desk, "a quite different one"))
    shut_keys(at_home.desk)
    with pytest.raises(WrongKeyPassphrase):
        asyncio.run(unlock_keys(at_home.desk, PASSPHRASE))
    asyncio.run(unlock_keys(at_home.desk, "a quite different one"))
    assert private_keys(at_home) == keys


def test_doing_without_puts_them_back_and_needs_the_passphrase(at_home: Home) -> None:
    """A wrong one leaves everything as it is."""
    keys = private_keys(at_home)
    locked(at_home)
    with pytest.raises(WrongKeyPassphrase):
        asyncio.run(remove_lock(at_home.desk, "kettle plum ladder south"))
    assert is_locked(at_home.desk)
    asyncio.run(remove_lock(at_home.desk, PASSPHRASE))
    assert not is_locked(at_home.desk) and private_keys(at_home) == keys


def test_a_forgotten_passphrase_has_the_sheet_as_its_way_back(at_home: Home) -> None:
    """Only its own, and only while they are shut; clients believe the new keys by the sheet's signature."""
    at_home.answer()
    made = asyncio.run(sending.make_return(at_home.store, at_home.clock, at_home.person.id))
    old = publishing.matching_words(at_home.desk)
    words = locked(at_home)
    with pytest.raises(WrongValue):
        asyncio.run(recover_keys(at_home.desk, at_home.clock, words))
    shut_keys(at_home.desk)
    with pytest.raises(WrongValue):
        asyncio.run(recover_keys(at_home.desk, at_home.clock, " ".join(recovery_words(bytes(range(32))))))
    assert publishing.matching_words(at_home.desk) == old and is_shut(at_home.desk)
    asyncio.run(recover_keys(at_home.desk, at_home.clock, words))
    assert publishing.matching_words(at_home.desk) != old and not is_locked(at_home.desk)
    taken, = asyncio.run(intake.take_in(at_home.desk, at_home.clock, [(made.name, made.data)]))
    assert taken.error is None and publishing.key_change(at_home.desk) is not None


# ------------------------------------------------------------------ remembered by the computer

def test_the_computer_remembers_the_passphrase_and_opens_the_keys_with_it(at_home: Home, monkeypatch: pytest.MonkeyPatch
                                                                          ) -> None:
    """Until it is told to forget it; the records themselves hold nothing that opens."""
    locked(at_home)
    assert not can_remember() and not asyncio.run(remember_passphrase(at_home.desk, PASSPHRASE))
    behind = put_in(monkeypatch)
    assert can_remember() and asyncio.run(remember_passphrase(at_home.desk, PASSPHRASE)) and is_remembered(at_home.desk)
    assert PASSPHRASE not in everything(at_home) and list(behind.kept.values()) == [PASSPHRASE]
    shut_keys(at_home.desk)
    assert is_shut(at_home.desk) and asyncio.run(unlock_remembered(at_home.desk)) and not is_shut(at_home.desk)
    asyncio.run(forget_remembered(at_home.desk))
    shut_keys(at_home.desk)
    assert behind.kept == {} and not asyncio.run(unlock_remembered(at_home.desk)) and is_shut(at_home.desk)


def test_a_wrong_passphrase_is_not_remembered_and_one_that_was_changed_opens_nothing(
    at_home: Home, monkeypatch: pytest.MonkeyPatch,
) -> None:
    """And a store that refuses is no store."""
    locked(at_home)
    behind = put_in(monkeypatch)
    with pytest.raises(WrongKeyPassphrase):
        asyncio.run(remember_passphrase(at_home.desk, "kettle plum ladder south"))
    assert behind.kept == {} and not is_remembered(at_home.desk)
    behind.refuses = True
    assert not asyncio.run(remember_passphrase(at_home.desk, PASSPHRASE)) and not is_remembered(at_home.desk)
    behind.refuses = False
    asyncio.run(remember_passphrase(at_home.desk, PASSPHRASE))
    behind.kept = dict.fromkeys(behind.kept, "kettle plum ladder south")
    shut_keys(at_home.desk)
    assert not asyncio.run(unlock_remembered(at_home.desk)) and is_shut(at_home.desk)


def test_without_the_lock_nothing_is_remembered_any_more(at_home: Home, monkeypatch: pytest.MonkeyPatch) -> None:
    """Taken away with the passphrase, or with the recovery sheet."""
    sheet = locked(at_home)
    behind = put_in(monkeypatch)
    asyncio.run(remember_passphrase(at_home.desk, PASSPHRASE))
    asyncio.run(remove_lock(at_home.desk, PASSPHRASE))
    assert behind.kept == {} and not is_remembered(at_home.desk)
    asyncio.run(lock_keys(at_home.desk, PASSPHRASE))
    asyncio.run(remember_passphrase(at_home.desk, PASSPHRASE))
    shut_keys(at_home.desk)
    asyncio.run(recover_keys(at_home.desk, at_home.clock, sheet))
    assert behind.kept == {} and not is_remembered(at_home.desk)
