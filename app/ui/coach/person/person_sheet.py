"""Everything that one person's page shows, read at once."""
from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.domain.dosing.way_back import Stop, check_ins_of, sessions_of, way_back
from app.domain.model.misdated import AHEAD, is_misdated
from app.domain.model.person import Person
from app.domain.model.record import CheckIn, Record, SessionDone
from app.storage import people, records, replies
from app.storage.people import PinnedKeys
from app.storage.replies import Direction, Reply
from app.ui.shell.shell import Shell


@dataclass(frozen=True)
class Sheet:
    """One person as the coach knows them today."""

    person: Person
    day: date
    records: tuple[Record, ...]
    sent: tuple[Reply, ...]
    pinned: PinnedKeys | None

    @property
    def sessions(self) -> tuple[SessionDone, ...]:
        """The latest first, without those whose dates cannot be."""
        return sessions_of(self._dated)[::-1]

    @property
    def check_ins(self) -> tuple[CheckIn, ...]:
        """The latest first, likewise."""
        return check_ins_of(self._dated)[::-1]

    @property
    def _dated(self) -> tuple[Record, ...]:
        return tuple(r for r in self.records if not is_misdated(r.stamp, self.day))

    @property
    def stop(self) -> Stop | None:
        """A stop that waits for a yes."""
        return way_back(self.records, self.day + AHEAD).stop

    @property
    def yes_sent(self) -> Reply | None:
        """The message with a yes to that stop, where one was sent."""
        stop = self.stop
        asked = (r for r in reversed(self.sent) if stop and r.content.get("clearance", {}).get("answers") == stop.id)
        return next(asked, None)


def person_sheet(shell: Shell, person_id: str) -> Sheet | None:
    """The person of that id; None if the desk knows nobody of it."""
    with shell.store.read() as db:
        person = people.person(db, person_id)
        if person is None:
            return None
        return Sheet(person, shell.clock.local(shell.clock.now()).day, records.all_records(db, person_id),
                     replies.replies(db, person_id, Direction.SENT), people.pinned_keys(db, person_id))
