"""A session that is over becomes a record with the time that was trained."""
from __future__ import annotations

from app.domain.model.trained_time import trained_s
from app.storage import records
from tests.actions.at_home import Home


def test_a_session_that_was_skipped_through_adds_no_minutes(at_home: Home) -> None:
    """It stands at the end of its plan, and nobody trained."""
    done = at_home.done()
    assert done.took_s > 600
    assert trained_s(done) == done.active_s == 0
    with at_home.store.read() as db:
        assert records.record(db, at_home.person.id, done.stamp.id) == done
