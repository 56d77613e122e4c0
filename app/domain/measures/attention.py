"""Who needs the coach's attention: harm first, then what leads nowhere, then silence; never mixed, all with evidence.

Thresholds are the project's conventions [P]: `app/domain/model/thresholds.py`.
"""
from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from app.domain.dosing.events import pause_end
from app.domain.measures import attention_harm as grave
from app.domain.measures import attention_weeks as weeks
from app.domain.measures.attention_harm import SESSION, by_kind
from app.domain.measures.attention_summary import (
    HARM,
    PROGRESS,
    SILENCE,
    AttentionReason,
    Flag,
    PersonSummary,
    RecordSummary,
)
from app.domain.model import thresholds as at
from app.domain.model.misdated import AHEAD

HARM_WINDOW_DAYS = at.FOUR_WEEKS_DAYS
_HARM_WINDOW = timedelta(days=HARM_WINDOW_DAYS)
LATER_DAYS = 3
"""For so long a case is put off where no day was named."""


class AttentionParts(NamedTuple):
    """The list in its parts; each begins with the first call."""

    harm: tuple[Flag, ...]
    progress: tuple[Flag, ...]
    silence: tuple[Flag, ...]


def _paused_until(line: PersonSummary, today: date) -> date:
    """The last day up to which a pause explains their silence, none of it where there was no pause.

    No pause explains more than the longest that there is, whatever it says.
    """
    return max((pause_end(first, last) for first, last in line.pauses if first <= today), default=date.min)


def _heard(line: PersonSummary, today: date) -> date | None:
    back_at = line.last_return.date() if line.last_return else None
    return back_at if back_at and back_at <= today + AHEAD else line.since


def _silence(line: PersonSummary, today: date) -> Iterator[Flag]:
    """During a pause nobody is missed, and after one the days count anew."""
    until = today + AHEAD
    sessions = [t for t in line.told if t.kind == SESSION and t.local <= until]
    heard, back = _heard(line, today), _paused_until(line, today)
    if heard and (today - max(heard, back)).days >= at.NOTHING_BACK_DAYS:
        days = (today - heard).days
        yield Flag(line.person, line.name, AttentionReason.NOTHING_BACK, heard, (), (days,), weight=days)
    elif sessions and (today - max(sessions[-1].local, back)).days >= at.FORTNIGHT_DAYS:
        days = (today - sessions[-1].local).days
        yield Flag(line.person, line.name, AttentionReason.FORTNIGHT, sessions[-1].local, (sessions[-1].record,),
                   (days,), weight=days)
    else:
        yield from _halved(line, [t for t in sessions if t.completed != 0 and not t.aside], today)


def _halved(line: PersonSummary, sessions: Sequence[RecordSummary], today: date) -> Iterator[Flag]:
    """Half as many sessions a week as before, or fewer. Days in a pause, or not heard of yet, do not count."""
    first = today - timedelta(days=at.FORTNIGHT_DAYS - 1)
    lately = [t for t in sessions if t.local >= first]
    from_ = today - _HARM_WINDOW
    earlier = [t for t in sessions if from_ < t.local < first]
    before = len(earlier) + line.sessions_before
    if not lately or before <= len(lately):
        return
    heard = min(today, _heard(line, today) or today)
    known = max(0, (heard - first).days + 1)
    if line.pauses:
        days = [first + timedelta(days=n) for n in range(known)]
        known = sum(not any(a <= day <= pause_end(a, b) for a, b in line.pauses) for day in days)
    # in wholes: sessions expected × the days that the rate is taken from
    expected, done = before * known, len(lately) * at.RATE_DAYS
    if 2 * done <= expected and expected - done >= at.RATE_MISSED * at.RATE_DAYS:
        yield Flag(line.person, line.name, AttentionReason.HALVED, lately[-1].local, (lately[-1].record,),
                   (len(lately), before), weight=before)


def flags_of(line: PersonSummary, today: date) -> tuple[Flag, ...]:
    """Every reason that one person gives, the first call first."""
    from_, until = today - _HARM_WINDOW, today + AHEAD
    recent = [t for t in line.told if t.local > from_]
    aside = [t for t in recent if t.aside or t.local > until]
    dated = [t for t in recent if t not in aside] if aside else recent
    sessions = [t for t in dated if t.kind == SESSION]
    kinds = by_kind(sessions)
    hurting = (*grave.signs(line, recent), *grave.happened(line, recent, AttentionReason.FALL),
               *grave.pain(line, dated), *weeks.too_hard(line, sessions, kinds, today),
               *grave.happened(line, recent, AttentionReason.ILLNESS), *weeks.mornings(line, dated, today),
               *weeks.fallen_checks(line, today), *weeks.stops_early(line, kinds))
    listed = any(f.because is AttentionReason.PAIN for f in hurting)
    found = (*hurting, *weeks.swapped(line, sessions), *grave.misdated(line, aside, pain_is_listed=listed),
             *weeks.leads_nowhere(line, kinds[0], dated, today, hurting), *_silence(line, today))
    return tuple(sorted(found, key=lambda f: _ORDER[f.because])) if len(found) > 1 else found


_ORDER = {because: place for place, because in enumerate(AttentionReason)}


def attention(lines: Sequence[PersonSummary], today: date) -> AttentionParts:
    """The list over everybody: signs, falls, pain by its height and so on; more reasons first; then by name."""
    flags = [f for line in lines for f in flags_of(line, today)]
    reasons = Counter(f.person for f in flags if f.is_harm)
    flags.sort(key=lambda f: (_ORDER[f.because], -f.weight, -reasons[f.person], f.name, f.person))
    return AttentionParts(*(tuple(f for f in flags if f.because in part) for part in (HARM, PROGRESS, SILENCE)))
