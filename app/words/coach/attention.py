"""Words of the attention list: why somebody stands on it, with all the evidence in one line. Knows no Flet."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date

from app.domain.measures.attention_summary import AttentionReason, Course, Flag, PersonSummary
from app.domain.measures.stall import StallKind
from app.domain.model.body import Spot
from app.domain.model.record import CheckIn, Ending, Event, FunctionalCheck, Record, SessionDone
from app.domain.model.thresholds import RATE_DAYS, STALL_DAYS
from app.words.client.checks import NAMES, result_words
from app.words.client.events import event_detail
from app.words.client.today import STOP_CAUSES, day_words
from app.words.signs import sign_words
from app.words.text import count, listed

REASON_WORDS: Mapping[AttentionReason, str] = {
    AttentionReason.SIGN: "A stop",
    AttentionReason.FALL: "A fall",
    AttentionReason.PAIN: "Pain",
    AttentionReason.RISING: "Pain is rising",
    AttentionReason.VERY_HARD: "A very hard session",
    AttentionReason.TOO_MUCH: "Too much again and again",
    AttentionReason.EFFORT: "Harder than meant",
    AttentionReason.SORENESS: "Very achy muscles",
    AttentionReason.ILLNESS: "An illness",
    AttentionReason.CHECK_FELL: "A check went down",
    AttentionReason.WELLBEING: "Low for a while",
    AttentionReason.STOPS_EARLY: "Stops early",
    AttentionReason.SWAPPED: "Changed by hand again and again",
    AttentionReason.DATES: "Dates that cannot be",
    AttentionReason.WEEK_AGAIN: "The same week again",
    AttentionReason.STALLED: "Nothing moves on",
    AttentionReason.TOO_EASY: "Easier than meant",
    AttentionReason.FORTNIGHT: "No session",
    AttentionReason.NOTHING_BACK: "Nothing came back",
    AttentionReason.HALVED: "Half as many sessions",
}
GAVE_WAY = "gave_way"
#: Pains told before the one that is shown beside it.
EARLIER = 3
#: How a session ended, where it was not as planned.
ENDED: Mapping[str, str] = {
    Ending.TOO_MUCH: "the last session ended as too much", Ending.PAIN: "the last session ended with pain",
    Ending.SIGN: "the last session ended with a stop sign",
}
#: What most of the sessions show, and what could be changed.
STALL: Mapping[StallKind, str] = {
    StallKind.PAIN: "something hurt in most of them. Look at what loads that joint before anything else",
    StallKind.TOO_HARD: "most were harder than meant. Ask about sleep, pain and tablets, and make them easier",
    StallKind.CUT_SHORT: "most ended early. A shorter session that is finished moves on",
    StallKind.EASED: "most were eased that day, by how they slept and felt or by a gap. Ask how they are",
    StallKind.UNANSWERED: "before or after most of them something was left unanswered, and nothing is added on "
                          "a guess. Ask what keeps them from answering",
    StallKind.CEILING: "they went well. Raise the ceiling, or write a harder move or a heavier weight",
}


def flag_text(flag: Flag, record: Record | None = None, line: PersonSummary | None = None) -> str:
    """The evidence of one item in plain words, with its numbers and days.

    Args:
        record: the last record that it rests on, which names the spot and the exercises.
        line: the person's recent numbers, for what came before.
    """
    return _EVIDENCE[flag.because](flag, record, line)


def _sign(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    sign = flag.words[0] if flag.words else ""
    told = "a joint that gave way" if sign == GAVE_WAY else _small(STOP_CAUSES.get(sign) or sign_words(sign))
    happened = ("Told at the check-in" if isinstance(record, CheckIn)
                else "Told in the diary" if isinstance(record, Event) else "Stopped")
    spots = [str(h.spot) for h in record.hurts if h.gave_way] if isinstance(record, SessionDone) else []
    where = f" ({listed(spots)})" if sign == GAVE_WAY and spots else ""
    return f"{happened}: {told}{where}, on {day_words(flag.on)}"


def _happened(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    """A fall or an illness: what was told of it, and how often in four weeks."""
    what = (event_detail(record) if isinstance(record, Event) else "") or REASON_WORDS[flag.because]
    often = f", {flag.numbers[0]} in four weeks" if flag.numbers[0] > 1 else ""
    return f"{what.rstrip('.')}; told on {day_words(flag.on)}{often}"


def _pain(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    said = f"{_spot(flag, record)} {flag.numbers[0]} of 10 on {day_words(flag.on)}"
    if flag.course is None or flag.course.low is None:
        before = _pains_before(flag, line)
        said += f", after {', '.join(map(str, before))}" if before else ""
    return f"{said}{_course(flag.course, flag.on)}"


def _rising(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    *before, last = flag.numbers
    told = ", ".join(map(str, before[-EARLIER:]))
    said = f"{_spot(flag, record)} {told}, then {last} of 10 on {day_words(flag.on)}"
    return f"{said}{_rise(flag.course, flag.on)}"


def _course(course: Course | None, on: date) -> str:
    """Everything else that belongs to it: since when, how the last session ended, how hard the last ones were."""
    if course is None:
        return ""
    done = f" at {course.completed} %" if course.completed is not None else ""
    ended = f"; {ENDED[course.ended]}{done}" if course.ended in ENDED else ""
    efforts = listed_in_order(course.efforts)
    hard = f"; effort {efforts} where {course.target} was meant" if len(course.efforts) > 1 else ""
    return f"{_rise(course, on)}{ended}{hard}"


def _rise(course: Course | None, on: date) -> str:
    if course is None or course.low is None or course.low_on is None:
        return ""
    return f", up from {course.low} on {day_words(course.low_on)}, {count((on - course.low_on).days, 'day')} before"


def listed_in_order(numbers: tuple[int, ...]) -> str:
    """`7, 8 and 8`, each as often as it was told."""
    *first, last = (str(n) for n in numbers) if numbers else ("",)
    return f"{', '.join(first)} and {last}" if first else last


def _effort(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    *told, target = flag.numbers
    efforts = listed([str(n) for n in told]) if len(set(told)) > 1 else f"{told[0]} twice"
    return f"Effort {efforts} where {target} was meant, last on {day_words(flag.on)}"


def _very_hard(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    rpe, target = flag.numbers
    meant = f" where {target} was meant" if target else ""
    return f"Effort {rpe} of 10{meant} on {day_words(flag.on)}"


def _too_much(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    ends, of, over, rated = flag.numbers
    told = [f"{ends} of the last {of} {_kind(flag)}sessions ended as too much"] if ends else []
    told += [f"effort {_points(over / rated)} above what was meant, on average over the last {rated}"] \
        if rated and over > 0 else []
    said = "; ".join(told)
    return f"{said[:1].upper()}{said[1:]}, last on {day_words(flag.on)}"


def _kind(flag: Flag) -> str:
    return f"{flag.words[0]} " if flag.words else ""


def _points(mean: float) -> str:
    told = f"{mean:.1f}".removesuffix(".0")
    return f"{told} point" if told == "1" else f"{told} points"


def _soreness(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    return f"Achy muscles {listed_in_order(flag.numbers)} of 10 at the last check-ins, last on {day_words(flag.on)}"


def _wellbeing(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    if flag.words == ("lowest",):
        times, of = flag.numbers
        return (f"Sleep, energy or feeling settled at the lowest in {times} of the last {of} check-ins, last on "
                f"{day_words(flag.on)}")
    return (f"Sleep, energy and feeling settled together {flag.numbers[0]} points lower over the last two weeks than "
            "before")


def _stops_early(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    done = listed_in_order(flag.numbers)
    return f"{done} % done in the last {len(flag.numbers)} {_kind(flag)}sessions, last on {day_words(flag.on)}"


def _check_fell(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    check, how = FunctionalCheck(flag.words[0]), flag.words[1]
    name = f"{NAMES[check]} ({how})" if how in ("left", "right") else NAMES[check]
    if how == "hands":
        return f"{name}: the hands were needed on {day_words(flag.on)}, and not the time before"
    done = {one.stamp.id: one for one in (line.checks if line else ())}
    said = [result_words(done[i]) if i in done else str(n) for i, n in zip(flag.records, flag.numbers, strict=True)]
    return (f"{name}: {said[1]} on {day_words(flag.on)}, after {said[0]} the time before, which is more than it varies "
            "by itself")


def _week_again(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    return (f"The same week begun again {count(flag.numbers[0], 'time')}, since its sessions were much harder than "
            f"meant, last on {day_words(flag.on)}. Write something easier")


def _stalled(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    sessions, _ = flag.numbers
    return (f"No step on since at least {day_words(flag.on)}, in {count(sessions, 'session')} over the last "
            f"{STALL_DAYS // 7} weeks: {STALL[StallKind(flag.words[0])]}")


def _too_easy(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    *told, target = flag.numbers
    return (f"Effort {listed_in_order(tuple(told))} where {target} was meant, all done and nothing hurting, last on "
            f"{day_words(flag.on)}. There is room for more")


def _halved(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    now, before = flag.numbers
    return (f"{count(now, 'session')} in the last two weeks, after {before} in the {RATE_DAYS // 7} weeks before; the "
            f"last on {day_words(flag.on)}")


def _swapped(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    names = record.names if isinstance(record, SessionDone) else {}
    written, chosen = (names.get(i, i.replace("-", " ")) for i in flag.words)
    return f"“{chosen}” instead of “{written}”, {flag.numbers[0]} times, last on {day_words(flag.on)}"


def _dates(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    said = f", one of them {day_words(record.stamp.local)} {record.stamp.local.year}" if record else ""
    return (f"{count(flag.numbers[0], 'record')} with a date that cannot be{said}: kept aside, since "
            f"{day_words(flag.on)}. Have the clock of their device put right")


def _fortnight(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    return f"Last session {day_words(flag.on)}, {count(flag.numbers[0], 'day')} ago"


def _nothing_back(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    heard = "Last return" if line is None or line.last_return else "Known since"
    return f"{heard} {day_words(flag.on)}, {count(flag.numbers[0], 'day')} ago"


_EVIDENCE: Mapping[AttentionReason, Callable[[Flag, Record | None, PersonSummary | None], str]] = {
    AttentionReason.SIGN: _sign, AttentionReason.FALL: _happened, AttentionReason.PAIN: _pain,
    AttentionReason.RISING: _rising, AttentionReason.VERY_HARD: _very_hard, AttentionReason.TOO_MUCH: _too_much,
    AttentionReason.EFFORT: _effort, AttentionReason.SORENESS: _soreness, AttentionReason.ILLNESS: _happened,
    AttentionReason.CHECK_FELL: _check_fell, AttentionReason.WELLBEING: _wellbeing,
    AttentionReason.STOPS_EARLY: _stops_early, AttentionReason.SWAPPED: _swapped, AttentionReason.DATES: _dates,
    AttentionReason.WEEK_AGAIN: _week_again, AttentionReason.STALLED: _stalled, AttentionReason.TOO_EASY: _too_easy,
    AttentionReason.FORTNIGHT: _fortnight, AttentionReason.NOTHING_BACK: _nothing_back, AttentionReason.HALVED: _halved,
}


def _small(words: str) -> str:
    return words[:1].lower() + words[1:]


def _pains_before(flag: Flag, line: PersonSummary | None) -> list[int]:
    told = [t for t in (line.told if line else ()) if t.pain is not None]
    at = next((n for n, t in enumerate(told) if t.record in flag.records), len(told))
    return [t.pain or 0 for t in told[max(0, at - EARLIER):at]]


def _spot(flag: Flag, record: Record | None) -> str:
    """Where, as the flag says, or as the record does."""
    return flag.words[0].capitalize() if flag.words else _spot_of(record)


def _spot_of(record: Record | None) -> str:
    """The spot that hurt most; "Pain" where it is not known."""
    told: dict[Spot, int] = {}
    if isinstance(record, CheckIn):
        told = {**(record.pain or {})}
        for spot, level in (record.morning_after or {}).items():
            told[spot] = max(level, told.get(spot, 0))
    elif isinstance(record, SessionDone):
        told = {**(record.pain or {})}
        for hurt in record.hurts:
            told[hurt.spot] = max(hurt.level, told.get(hurt.spot, 0))
    worst = max(sorted(told), key=lambda s: told[s], default=None)
    return str(worst).capitalize() if worst else "Pain"
