"""What happens around the sessions: which next question a fall or an illness asks, pauses, and goals looked at again.

Nothing here diagnoses; the stops are those of the project's list, `README.md` beside this.
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from app.domain.model.client import Client, Condition
from app.domain.model.diary import Symptom
from app.domain.model.person import Person
from app.domain.model.record import Event, EventKind, Record
from app.domain.model.thresholds import FLARE_ASKED_DAYS

#: Questions after a fall, by id; `rose` is the one whose "no" is the grave answer.
HEAD, THINNERS, HURTS, ROSE = "head", "thinners", "hurts", "rose"
FALL_QUESTIONS = (HEAD, THINNERS, HURTS, ROSE)
FEVER = "fever"
#: What stopped somebody after a fall: a knock to the head is an emergency sign, the rest is to be asked about first.
FALL_HEAD, FALL = "fall_head", "fall"
GOAL_REVIEW = timedelta(weeks=4)
#: What became of a goal.
SET, KEPT, REACHED, CHANGED = "set", "kept", "reached", "changed"
LONGEST_PAUSE = timedelta(weeks=8)


def stop_after_fall(answers: Mapping[str, bool]) -> str:
    """What stops somebody after a fall; empty: nothing does. A question without its answer is never taken for good."""
    if answers.get(HEAD):
        return FALL_HEAD
    well = answers.get(HEAD) is False and answers.get(THINNERS) is False and answers.get(HURTS) is False
    return "" if well and answers.get(ROSE) else FALL


def stop_after_illness(answers: Mapping[str, bool]) -> str:
    """A fever, now or within two days, stops; so does one that nobody was asked about."""
    return "" if answers.get(FEVER) is False else Symptom.FEVER.value


def events_of(records: Sequence[Record], *kinds: EventKind) -> tuple[Event, ...]:
    """Events that were not taken back, oldest first; of these kinds, or of all."""
    kept = (r for r in records if isinstance(r, Event) and not r.stamp.deleted)
    return tuple(sorted((r for r in kept if not kinds or r.kind in kinds), key=lambda r: (r.stamp.utc, r.stamp.id)))


def asks_flare(client: Client, records: Sequence[Record], today: date) -> bool:
    """Whether feeling worse a day or two after a session matters: after an illness, or in treatment for cancer."""
    ill = [event.until or event.since or event.stamp.local for event in events_of(records, EventKind.ILLNESS)]
    lately = any(0 <= (today - day).days < FLARE_ASKED_DAYS for day in ill)
    return lately or Condition.CANCER_TREATMENT in client.conditions


# ------------------------------------------------------------------ pauses

def pause_end(first: date, last: date) -> date:
    """The last day of a pause, which is never longer than the longest that can be told."""
    return last if last - first < LONGEST_PAUSE else first + LONGEST_PAUSE - timedelta(days=1)


def covers(event: Event, day: date) -> bool:
    """Whether a pause holds on that day."""
    first = event.since or event.stamp.local
    return event.kind is EventKind.PAUSE and event.until is not None and first <= day <= pause_end(first, event.until)


def pause_on(records: Sequence[Record], day: date) -> Event | None:
    """The pause that holds on that day, the one told last; or None."""
    found = [event for event in events_of(records, EventKind.PAUSE) if covers(event, day)]
    return found[-1] if found else None


def pause_ahead(records: Sequence[Record], day: date) -> Event | None:
    """The next pause that begins after that day, or None."""
    later = [e for e in events_of(records, EventKind.PAUSE) if (e.since or e.stamp.local) > day and e.until]
    return min(later, key=lambda e: e.since or e.stamp.local, default=None)


# ------------------------------------------------------------------ goals

def goal_review_due(person: Person, records: Sequence[Record], today: date) -> bool:
    """Whether four weeks have passed since the goals were written, or last looked at."""
    if not person.goals.strip():
        return False
    looked = [event.stamp.local for event in events_of(records, EventKind.GOAL)]
    since = looked[-1] if looked else person.started
    return since is not None and today - since >= GOAL_REVIEW
