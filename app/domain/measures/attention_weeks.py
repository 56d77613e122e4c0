"""What shows over some weeks only: too much, too little, low mornings, a check that fell, and what leads nowhere.

Effort and completion compare strength with strength, and light with light. The numbers, and why:
`app/domain/model/thresholds.py`. [P]
"""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from statistics import median

from app.domain.checks.functional_checks import Change, change, counted, previous
from app.domain.measures.attention_harm import CHECK_IN, harmful
from app.domain.measures.attention_summary import AttentionReason, Flag, PersonSummary, RecordSummary
from app.domain.measures.stall import SessionInBrief, stall_of
from app.domain.model import thresholds as at
from app.domain.model.record import Ending

#: Strength sessions, then the light ones: each kind is compared with its own.
Kinds = tuple[Sequence[RecordSummary], Sequence[RecordSummary]]
SWAPPED_TIMES = 3
"""Changes of one exercise by hand from which the programme is worth a look."""
_FORTNIGHT = timedelta(days=at.FORTNIGHT_DAYS)


def _flag(line: PersonSummary, because: AttentionReason, rests_on: Sequence[RecordSummary], numbers: tuple[int, ...],
          weight: int = 0, words: tuple[str, ...] = ()) -> Flag:
    return Flag(line.person, line.name, because, rests_on[-1].local, tuple(t.record for t in rests_on), numbers, words,
                weight)


# ------------------------------------------------------------------ effort, and what was done

def too_hard(line: PersonSummary, told: Sequence[RecordSummary], kinds: Kinds, today: date) -> Iterator[Flag]:
    """One as hard as can be; too much again and again; two running much harder than meant."""
    as_hard = [t for t in told if (t.rpe or 0) >= at.EFFORT_TOP and (today - t.local).days < at.FORTNIGHT_DAYS]
    if as_hard:
        yield _flag(line, AttentionReason.VERY_HARD, as_hard[-1:], (as_hard[-1].rpe or 0, as_hard[-1].target_rpe or 0),
                    as_hard[-1].rpe or 0)
    strength, light = kinds
    for look in (_too_much, _two_running):
        if found := look(line, strength) or look(line, light):
            yield found


def _kind_of(sessions: Sequence[RecordSummary]) -> tuple[str]:
    return ("light" if sessions[-1].strength is False else "strength",)


def _two_running(line: PersonSummary, sessions: Sequence[RecordSummary]) -> Flag | None:
    rated = [t for t in sessions if t.over is not None][-2:]
    over = [t.over or 0 for t in rated]
    if len(rated) < 2 or min(over) < at.EFFORT_OVER:
        return None
    return _flag(line, AttentionReason.EFFORT, rated, (*(t.rpe or 0 for t in rated), rated[-1].target_rpe or 0),
                 sum(over))


def _too_much(line: PersonSummary, sessions: Sequence[RecordSummary]) -> Flag | None:
    last = sessions[-at.LAST_SESSIONS:]
    ends = len([t for t in last if t.ending == Ending.TOO_MUCH])
    over = [n for t in last if (n := t.over) is not None]
    mean_is_over = len(over) == at.LAST_SESSIONS and sum(over) >= at.MEAN_OVER * len(over)
    if ends < at.TOO_MUCH_TIMES and not mean_is_over:
        return None
    return _flag(line, AttentionReason.TOO_MUCH, last, (ends, len(last), sum(over), len(over)), sum(over),
                 _kind_of(last))


def stops_early(line: PersonSummary, kinds: Kinds) -> Iterator[Flag]:
    """Most of the last sessions of a kind ended long before their end, for whatever reason."""
    strength, light = kinds
    if found := _early(line, strength) or _early(line, light):
        yield found


def _early(line: PersonSummary, sessions: Sequence[RecordSummary]) -> Flag | None:
    last = [t for t in sessions if t.completed is not None][-at.LAST_SESSIONS:]
    early = [t for t in last if (t.completed or 0) < at.COUNTS_FROM]
    if len(early) < at.EARLY_TIMES:
        return None
    return _flag(line, AttentionReason.STOPS_EARLY, last, tuple(t.completed or 0 for t in last), len(early),
                 _kind_of(last))


def swapped(line: PersonSummary, told: Sequence[RecordSummary]) -> Iterator[Flag]:
    """The same exercise changed by hand into the same other one, again and again."""
    seen: dict[tuple[str, str], list[RecordSummary]] = {}
    for t in told:
        for change_ in dict.fromkeys(t.by_hand) if t.by_hand else ():
            seen.setdefault(change_, []).append(t)
    for change_, times in sorted(seen.items()):
        if len(times) >= SWAPPED_TIMES:
            yield _flag(line, AttentionReason.SWAPPED, times, (len(times),), len(times), change_)


# ------------------------------------------------------------------ mornings and checks

def mornings(line: PersonSummary, told: Sequence[RecordSummary], today: date) -> Iterator[Flag]:
    """Muscles very achy again and again; sleep, energy and settled low for long, or lower than before."""
    answered = [t for t in told if t.kind == CHECK_IN]
    sore = [t for t in answered if t.soreness is not None][-at.SORENESS_OF:]
    high = [t for t in sore if (t.soreness or 0) >= at.SORENESS_TOLD]
    if len(high) >= at.SORENESS_TIMES:
        yield _flag(line, AttentionReason.SORENESS, high, tuple(t.soreness or 0 for t in high),
                    max(t.soreness or 0 for t in high))
    felt = [t for t in answered if t.slept is not None or t.energy is not None or t.calm is not None][-at.FEEL_OF:]
    lowest = [t for t in felt if 1 in (t.slept, t.energy, t.calm)]
    if len(lowest) >= at.FEEL_TIMES:
        yield _flag(line, AttentionReason.WELLBEING, lowest, (len(lowest), len(felt)), len(lowest), ("lowest",))
        return
    now, fell = _fallen_mood(answered, today - _FORTNIGHT)
    if fell >= at.FEEL_FALL:
        yield _flag(line, AttentionReason.WELLBEING, now, (fell,), fell, ("fell",))


def _fallen_mood(answered: Sequence[RecordSummary], until: date) -> tuple[Sequence[RecordSummary], int]:
    """Those after a day in which all three were told, and by how many points their middle one lies under the earlier.

    It takes three of each; before that nothing has fallen.
    """
    whole = [t for t in answered if t.slept is not None and t.energy is not None and t.calm is not None]
    now, earlier = [t for t in whole if t.local > until], [t for t in whole if t.local <= until]
    if min(len(now), len(earlier)) < 3:
        return (), 0
    points, before = [_points(t) for t in now], [_points(t) for t in earlier]
    # most people's lie close together: no middle is further apart than the ends
    return now, int(median(before) - median(points)) if max(before) - min(points) >= at.FEEL_FALL else 0


def _points(told: RecordSummary) -> int:
    return (told.slept or 0) + (told.energy or 0) + (told.calm or 0)


def fallen_checks(line: PersonSummary, today: date) -> Iterator[Flag]:
    """A functional check lower than the one before by more than it varies by itself, or now with the hands."""
    for one in {(done.check, done.side): done for done in line.checks}.values():
        before = previous(line.checks, one)
        if before is None or (today - one.stamp.local).days >= at.FOUR_WEEKS_DAYS or one.stamp.local > today:
            continue
        hands = one.hands_used and not before.hands_used
        if hands or change(before, one, line.conditions) is Change.LESS:
            yield Flag(line.person, line.name, AttentionReason.CHECK_FELL, one.stamp.local,
                       (before.stamp.id, one.stamp.id), (counted(before) or 0, counted(one) or 0),
                       (one.check.value, "hands" if hands else one.side))


# ------------------------------------------------------------------ what leads nowhere

def leads_nowhere(line: PersonSummary, strength: Sequence[RecordSummary], told: Sequence[RecordSummary], today: date,
                  hurting: Sequence[Flag]) -> Iterator[Flag]:
    """A week that goes on repeating; three weeks without a step on; and, where nothing is wrong, much too easy.

    Whoever was stopped is called about that: that nothing gets harder meanwhile is no news.
    """
    if not strength:
        return
    last = strength[-1:]
    if last[0].week_again >= at.WEEKS_AGAIN:
        yield _flag(line, AttentionReason.WEEK_AGAIN, last, (last[0].week_again,), last[0].week_again)
    found = stall_of(_in_brief(strength, told), today) if len(strength) >= at.STALL_SESSIONS else None
    if found and all(f.because is not AttentionReason.SIGN for f in hurting):
        days = (today - found.since).days
        yield Flag(line.person, line.name, AttentionReason.STALLED, found.since, (last[0].record,),
                   (found.sessions, days), (found.kind.value,), days)
    if hurting:
        return
    clean = [t for t in strength if _is_clean(line, t)][-at.EASY_OF:]
    easy = [t for t in clean if (t.over or 0) <= -at.EFFORT_UNDER]
    if len(easy) >= at.EASY_TIMES and clean[-1:] == last:
        yield _flag(line, AttentionReason.TOO_EASY, easy, (*(t.rpe or 0 for t in easy), easy[-1].target_rpe or 0))


def _is_clean(line: PersonSummary, told: RecordSummary) -> bool:
    done = (told.completed or 0) >= at.WHOLE_FROM and told.ending in ("", Ending.FINISHED)
    return done and told.over is not None and told.pain is not None and harmful(line, told)[1] < at.PAIN_HOLDS


def _in_brief(strength: Sequence[RecordSummary], told: Sequence[RecordSummary]) -> list[SessionInBrief]:
    whole = {t.local for t in told if t.kind == CHECK_IN
             and None not in (t.slept, t.energy, t.calm, t.soreness, t.pain)}
    return [_brief(t, told_all=t.local in whole and t.rpe is not None) for t in strength]


def _brief(told: RecordSummary, *, told_all: bool) -> SessionInBrief:
    early = (told.completed or 0) < at.WHOLE_FROM or told.ending not in ("", Ending.FINISHED)
    hurts = (told.pain or 0) >= at.PAIN_HOLDS
    return SessionInBrief(told.local, told.completed or 0, told.over, hurts, early, told.steps, told.session,
                          unanswered=not told_all)
