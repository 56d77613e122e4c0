"""Who needs the coach's attention: harm first, silence after, never mixed, each with its evidence.

Thresholds are the project's conventions [P]; a change of 2 points of pain is meaningful (SALAFFI_2004).
"""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from app.domain.dosing.events import pause_end
from app.domain.model import thresholds as at
from app.domain.model.misdated import AHEAD
from app.domain.model.record import Event, SessionDone
from app.domain.model.record_kinds import KIND_OF

HARM_WINDOW_DAYS = at.FOUR_WEEKS_DAYS
LATER_DAYS = 3
"""For so long a case is put off where no day was named."""
SWAPPED_TIMES = 3
"""Changes of one exercise by hand from which the programme is worth a look."""


class AttentionReason(StrEnum):
    """Why somebody is on the list."""

    SIGN = "sign"
    FALL = "fall"
    PAIN = "pain"
    RISING = "rising"
    EFFORT = "effort"
    ILLNESS = "illness"
    SWAPPED = "swapped"
    DATES = "dates"
    FORTNIGHT = "fortnight"
    NOTHING_BACK = "nothing_back"


HARM: tuple[AttentionReason, ...] = (AttentionReason.SIGN, AttentionReason.FALL, AttentionReason.PAIN,
                                     AttentionReason.RISING, AttentionReason.EFFORT, AttentionReason.ILLNESS,
                                     AttentionReason.SWAPPED, AttentionReason.DATES)


@dataclass(frozen=True)
class RecordSummary:
    """The few numbers of one record that the list needs. `kind`: check_in, session or event."""

    record: str
    kind: str
    local: date
    pain: int | None = None
    rpe: int | None = None
    target_rpe: int | None = None
    completed: int | None = None
    sign: str = ""
    by_hand: tuple[tuple[str, str], ...] = ()
    what: str = ""
    """Of an event: its kind."""
    aside: bool = False
    """Its date cannot be. It may show harm, and hides none: nothing takes it for what was told last."""


@dataclass(frozen=True)
class PersonSummary:
    """One person's recent records, oldest first, and when something last came back."""

    person: str
    name: str
    told: tuple[RecordSummary, ...]
    last_return: datetime | None = None
    since: date | None = None
    """When the coach first heard of them."""
    pauses: tuple[tuple[date, date], ...] = ()
    """(first day, last day) of every pause that they told."""
    open_stop: RecordSummary | None = None
    """A stop from before these records that nobody has answered."""


@dataclass(frozen=True)
class Flag:
    """One reason with its evidence: records, their days and their numbers. `weight` orders within a part."""

    person: str
    name: str
    because: AttentionReason
    on: date
    records: tuple[str, ...]
    numbers: tuple[int, ...] = ()
    words: tuple[str, ...] = ()
    weight: int = 0

    @property
    def is_harm(self) -> bool:
        """Whether it belongs to the first part."""
        return self.because in HARM

    @property
    def key(self) -> str:
        """The same evidence has the same key, so that "seen" stays seen."""
        return f"{self.because}:{self.records[-1] if self.records else self.on.isoformat()}"


def _sign(line: PersonSummary, told: Sequence[RecordSummary]) -> Iterator[Flag]:
    signed = [t for t in (line.open_stop, *told) if t is not None and t.sign]
    if signed:
        t = signed[-1]
        yield Flag(line.person, line.name, AttentionReason.SIGN, t.local, (t.record,), words=(t.sign,), weight=100)


def _happened(line: PersonSummary, told: Sequence[RecordSummary], what: AttentionReason) -> Iterator[Flag]:
    """The last fall or illness, unless a stop on the list tells of it already."""
    found = [t for t in told if t.kind == KIND_OF[Event].kept and t.what == what]
    signed = [t for t in told if t.sign]
    if found and found[-1].record != (signed[-1].record if signed else ""):
        yield Flag(line.person, line.name, what, found[-1].local, (found[-1].record,), (len(found),), weight=len(found))


def _pain(line: PersonSummary, told: Sequence[RecordSummary]) -> Iterator[Flag]:
    pains = [t for t in told if t.pain is not None]
    if not pains:
        return
    last = pains[-1]
    # a morning of 5 counts also where the session after it went with 2
    worst = max((p for p in pains if p.local == last.local), key=lambda p: p.pain or 0)
    if (worst.pain or 0) >= at.PAIN_CAPS:
        yield Flag(line.person, line.name, AttentionReason.PAIN, worst.local, (worst.record,), (worst.pain or 0,),
                   weight=worst.pain or 0)
    elif len(pains) >= 3 and (last.pain or 0) >= at.PAIN_HOLDS:
        low = min(p.pain or 0 for p in pains[:-1])
        if (last.pain or 0) - low >= at.PAIN_RISE and (pains[-2].pain or 0) > low:
            yield Flag(line.person, line.name, AttentionReason.RISING, last.local, tuple(p.record for p in pains),
                       tuple(p.pain or 0 for p in pains), weight=(last.pain or 0) - low)


def _effort(line: PersonSummary, told: Sequence[RecordSummary]) -> Iterator[Flag]:
    rated = [t for t in told if t.rpe is not None and t.target_rpe is not None][-2:]
    over = [(t.rpe or 0) - (t.target_rpe or 0) for t in rated]
    if len(rated) == 2 and min(over) >= at.EFFORT_OVER:
        yield Flag(line.person, line.name, AttentionReason.EFFORT, rated[-1].local, tuple(t.record for t in rated),
                   (*(t.rpe or 0 for t in rated), rated[-1].target_rpe or 0), weight=sum(over))


def _swapped(line: PersonSummary, told: Sequence[RecordSummary]) -> Iterator[Flag]:
    seen: dict[tuple[str, str], list[RecordSummary]] = {}
    for t in told:
        for change in dict.fromkeys(t.by_hand):
            seen.setdefault(change, []).append(t)
    for change, times in sorted(seen.items()):
        if len(times) >= SWAPPED_TIMES:
            yield Flag(line.person, line.name, AttentionReason.SWAPPED, times[-1].local, tuple(t.record for t in times),
                       (len(times),), change, len(times))


def _misdated(line: PersonSummary, aside: Sequence[RecordSummary], pain_is_listed: bool) -> Iterator[Flag]:
    """Pain that was told with a date that cannot be, unless pain is on the list; and that there are such dates."""
    pains = [t for t in aside if (t.pain or 0) >= at.PAIN_CAPS]
    if pains and not pain_is_listed:
        worst = max(pains, key=lambda t: t.pain or 0)
        yield Flag(line.person, line.name, AttentionReason.PAIN, worst.local, (worst.record,), (worst.pain or 0,),
                   weight=worst.pain or 0)
    if aside:
        yield Flag(line.person, line.name, AttentionReason.DATES, aside[-1].local, (aside[-1].record,), (len(aside),),
                   weight=len(aside))


def _paused_until(line: PersonSummary, today: date) -> date:
    """The last day up to which a pause explains their silence, none of it where there was no pause.

    No pause explains more than the longest that there is, whatever it says.
    """
    return max((pause_end(first, last) for first, last in line.pauses if first <= today), default=date.min)


def _silence(line: PersonSummary, today: date) -> Iterator[Flag]:
    """During a pause nobody is missed, and after one the days count anew."""
    sessions = [t for t in line.told if t.kind == KIND_OF[SessionDone].kept and t.local <= today + AHEAD]
    back_at = line.last_return.date() if line.last_return else None
    heard = back_at if back_at and back_at <= today + AHEAD else line.since
    back = _paused_until(line, today)
    if heard and (today - max(heard, back)).days >= at.NOTHING_BACK_DAYS:
        days = (today - heard).days
        yield Flag(line.person, line.name, AttentionReason.NOTHING_BACK, heard, (), (days,), weight=days)
    elif sessions and (today - max(sessions[-1].local, back)).days >= at.FORTNIGHT_DAYS:
        days = (today - sessions[-1].local).days
        yield Flag(line.person, line.name, AttentionReason.FORTNIGHT, sessions[-1].local, (sessions[-1].record,),
                   (days,),
                   weight=days)


def flags_of(line: PersonSummary, today: date) -> tuple[Flag, ...]:
    """Every reason that one person gives, harm first."""
    recent = [t for t in line.told if (today - t.local).days < HARM_WINDOW_DAYS]
    aside = [t for t in recent if t.aside or t.local > today + AHEAD]
    dated = [t for t in recent if t not in aside]
    sessions, pain = [t for t in dated if t.kind == KIND_OF[SessionDone].kept], tuple(_pain(line, dated))
    found = [*_sign(line, recent), *_happened(line, recent, AttentionReason.FALL), *pain,
             *_effort(line, sessions), *_happened(line, recent, AttentionReason.ILLNESS), *_swapped(line, sessions),
             *_misdated(line, aside, any(f.because is AttentionReason.PAIN for f in pain)), *_silence(line, today)]
    return tuple(found)


def attention(lines: Sequence[PersonSummary], today: date) -> tuple[tuple[Flag, ...], tuple[Flag, ...]]:
    """(harm, silence) over everybody; the heaviest first: signs, then pain, then effort, ties by name."""
    flags = [f for line in lines for f in flags_of(line, today)]
    order = {because: at for at, because in enumerate(AttentionReason)}
    flags.sort(key=lambda f: (order[f.because], -f.weight, f.name, f.person))
    return tuple(f for f in flags if f.is_harm), tuple(f for f in flags if not f.is_harm)
