"""People, packs, keys, settings, marks and replies: kept as given, and what must not be overwritten is not."""
from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from sqlalchemy.exc import IntegrityError

from app.storage import attention_marks, keys, packs, people, replies, settings
from app.storage.database import Store
from app.storage.export import logical_dump
from tests.storage import story

LATER = story.T0 + timedelta(days=1)


def test_people_come_back_by_name(told: Store) -> None:
    """All, or those who train in one place."""
    with told.read() as db:
        assert people.people(db) == (story.INES, story.TOMAS)
        assert people.people(db, people.Trains.HERE) == (story.INES,)
        assert people.people(db, people.Trains.ELSEWHERE) == (story.TOMAS,)
        assert people.person(db, "p-ines") == story.INES
        assert people.person(db, "nobody") is None
        senders = [people.sender(db, one) for one in ("p-ines", "p-tomas")]
        assert [one and one.is_here for one in senders] == [True, False] and people.sender(db, "nobody") is None


def test_saving_somebody_changes_what_is_known_and_nothing_else(told: Store) -> None:
    """Neither keys nor returns nor where they train; and nobody is added by it."""
    with told.begin() as db:
        people.save_person(db, replace(story.TOMAS, name="Tomás B."))
        assert people.person(db, "p-tomas") == replace(story.TOMAS, name="Tomás B.")
        assert people.pinned_keys(db, "p-tomas") == people.PinnedKeys("k1", "k2", story.T0, 1)
        with pytest.raises(KeyError):
            people.save_person(db, replace(story.TOMAS, id="p-new"))
    with pytest.raises(IntegrityError), told.begin() as db:
        people.add_person(db, story.INES, people.Trains.HERE, story.T0)


def test_keys_are_pinned_once(told: Store) -> None:
    """Others that come later are told apart; only a deliberate change replaces them."""
    with told.begin() as db:
        assert people.pin_keys(db, "p-tomas", "x1", "x2").signing == "k1"
        assert people.pinned_keys(db, "p-ines") is None
        assert people.person_by_key(db, "k1") == story.TOMAS
        people.replace_keys(db, "p-tomas", "x1", "x2")
        assert people.person_by_key(db, "k1") is None
        assert people.person_by_key(db, "x1") == story.TOMAS
        with pytest.raises(KeyError):
            people.pin_keys(db, "nobody", "x1", "x2")


def test_an_older_return_does_not_move_the_last_one(told: Store) -> None:
    """They arrive out of order."""
    with told.begin() as db:
        people.note_return(db, "p-tomas", 3, LATER)
        people.note_return(db, "p-tomas", 2, story.T0)
        pinned = people.pinned_keys(db, "p-tomas")
    assert pinned is not None and (pinned.last_number, pinned.last_return) == (3, LATER)


def test_changes_by_hand_are_counted(told: Store) -> None:
    """The latest stands first."""
    with told.begin() as db:
        assert people.count_choice(db, "p-ines", "chair-squat", "half-squat", LATER) == 2
        assert people.count_choice(db, "p-ines", "chair-squat", "wall-sit", story.T0) == 1
        found = people.choices(db, "p-ines")
        assert people.choices(db, "p-tomas") == ()
    assert [(c.chosen, c.times, c.last) for c in found] == [("half-squat", 2, LATER), ("wall-sit", 1, story.T0)]


def test_a_pack_is_kept_once_and_whole(told: Store) -> None:
    """Its content as a value and its bytes as they came."""
    with told.begin() as db:
        before = logical_dump(db)
        packs.keep_pack(db, packs.KeptPack(story.SHA, "c9", story.SOURCE, LATER), b"other bytes")
        assert logical_dump(db) == before
        assert packs.pack(db, story.SHA) == packs.KeptPack(story.SHA, "c0", story.SOURCE, story.T0)
        assert packs.pack_file(db, story.SHA) == b"evenload-pack 1\n..."
        assert packs.pack(db, "cd" * 32) is None and packs.pack_file(db, "cd" * 32) is None


def test_the_newest_pack_of_a_coach(told: Store) -> None:
    """By version, not by the day it came; another coach's lies beside it."""
    def keep(sha: str, coach_key: str, version: int) -> None:
        source = replace(story.SOURCE, version=version)
        packs.keep_pack(db, packs.KeptPack(sha * 32, coach_key, source, LATER), b"")

    with told.begin() as db:
        keep("01", "c0", 2)
        keep("02", "c9", 8)
        newest, other = packs.newest_pack(db, "c0"), packs.newest_pack(db, "c9")
        assert newest is not None and newest.sha256 == story.SHA
        assert other is not None and other.source.version == 8
        assert packs.newest_pack(db, "c5") is None
        assert [(p.coach_key, p.version) for p in packs.packs(db)] == [("c0", 3), ("c0", 2), ("c9", 8)]


def test_a_coach_is_pinned_once(told: Store) -> None:
    """Whoever comes with the same signing key and other keys changes nothing."""
    with told.begin() as db:
        assert packs.pin_coach(db, replace(story.COACH, sealing_key="evil")) == story.COACH
        packs.confirm_words(db, "c0")
        assert packs.pinned_coach(db, "c0") == replace(story.COACH, words_confirmed=True)
        other = replace(story.COACH, signing_key="c9", name="Abel")
        assert packs.pin_coach(db, other) == other
        assert [c.name for c in packs.pinned_coaches(db)] == ["Abel", "Marit Voss"]
        assert packs.pinned_coach(db, "c5") is None


def test_private_keys_are_never_overwritten_by_accident(told: Store) -> None:
    """Nor printed."""
    fresh = replace(story.KEYS, private=b"\x09" * 32)
    with told.begin() as db:
        assert keys.keep_keys(db, fresh) == story.KEYS
        assert keys.keys(db, "p-ines", "signing") == story.KEYS
        assert keys.keys(db, keys.COACH, "signing") is None
        assert (keys.keys_of_kind(db, "signing"), keys.keys_of_kind(db, "sealing")) == ((story.KEYS,), ())
        keys.replace_keys(db, fresh)
        assert keys.keys(db, "p-ines", "signing") == fresh
    assert "\\x09" not in repr(fresh)


def test_settings_are_any_json(told: Store) -> None:
    """None is a value too, and not the same as never set."""
    with told.begin() as db:
        assert settings.setting(db, "theme") == {"dark": True}
        settings.save_setting(db, "theme", None)
        assert settings.setting(db, "theme", "otherwise") is None
        settings.save_setting(db, "names", ["é", 1.5, None])
        assert settings.settings(db) == {"names": ["é", 1.5, None], "theme": None}
        settings.forget_setting(db, "theme")
        assert settings.setting(db, "theme", "otherwise") == "otherwise"


def test_a_mark_replaces_the_one_on_the_same_item(told: Store) -> None:
    """And is known by person, reason and evidence."""
    called = replace(story.MARK, state=attention_marks.MarkState.CALLED, until=None, utc=LATER)
    with told.begin() as db:
        assert attention_marks.marks(db) == {("p-tomas", "pain", "s2"): story.MARK}
        attention_marks.save_mark(db, called)
        attention_marks.save_mark(db, replace(called, evidence="s3"))
        assert attention_marks.marks(db)["p-tomas", "pain", "s2"] == called
        attention_marks.remove_mark(db, "p-tomas", "pain", "s2")
        assert list(attention_marks.marks(db)) == [("p-tomas", "pain", "s3")]


def test_replies_are_numbered_for_each_person_and_way(told: Store) -> None:
    """One that came twice is kept once."""
    came = replies.Reply("p-ines", replies.Direction.RECEIVED, 4, {"message": "Well done"}, story.T0)
    with told.begin() as db:
        assert (replies.next_number(db, "p-tomas"), replies.next_number(db, "p-ines")) == (2, 1)
        assert replies.keep_reply(db, came) == came
        assert replies.keep_reply(db, replace(came, content={"message": "forged"})) == came
        assert replies.next_number(db, "p-ines") == 1
        assert replies.replies(db, "p-ines", replies.Direction.RECEIVED) == (came,)
        assert replies.replies(db, "p-tomas", replies.Direction.SENT) == (story.REPLY,)
