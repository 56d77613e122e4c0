"""Two people on one device: what is asked of one never holds anything of the other, also where ids are the same."""
from __future__ import annotations

from dataclasses import replace
from typing import get_args

import pytest

from app.domain.model.record import Record
from app.storage import evidence, journal, keys, people, records, replies, review_summaries
from app.storage.database import Store
from tests.storage import story

HER, HIM = "p-ines", "p-tomas"


@pytest.fixture
def both(told: Store) -> Store:
    """The story, with records of the same ids and a running session for each."""
    with told.begin() as db:
        for record_id in ("i1", "s1"):
            hers = records.record(db, HER, record_id)
            assert hers is not None
            records.save_record(db, replace(hers, stamp=replace(hers.stamp, person=HIM)))
        at = journal.SavedPosition(0, story.T0, 0)
        journal.start_run(db, "r2", HIM, story.PLAN, story.SHA, {"place": "Garage"}, at)
        people.count_choice(db, HIM, "chair-squat", "wall-sit", story.T0)
        keys.keep_keys(db, replace(story.KEYS, owner=HIM, public=b"\x05" * 32))
    return told


@pytest.mark.parametrize(("asked", "other"), [(HER, HIM), (HIM, HER)])
def test_whatever_is_asked_of_one_holds_nothing_of_the_other(asked: str, other: str, both: Store) -> None:
    """Records of every kind, the last ones, the running session, choices, messages, keys, and what the desk lists."""
    with both.read() as db:
        found: list[object] = [*records.all_records(db, asked)]
        assert found
        for kind in get_args(Record):
            found += [*records.records(db, asked, kind), records.latest(db, asked, kind)]
        found += [journal.running(db, asked), people.person(db, asked), keys.keys(db, asked, "signing")]
        found += [*people.choices(db, asked), *review_summaries.summaries(db, asked)]
        found += [*evidence.told_in_full(db, [(asked, "s1"), (asked, "i2")])]
        for direction in replies.Direction:
            found += [*replies.replies(db, asked, direction)]
    assert other not in repr(found) and asked in repr(found)
    run = journal.Run
    assert [one.about["place"] for one in found if isinstance(one, run)] == ["Home" if asked == HER else "Garage"]
