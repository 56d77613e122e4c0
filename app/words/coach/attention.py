"""Words of the attention list: why somebody stands on it, with all the evidence in one line. Knows no Flet."""
from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
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
    AttentionReason.SIGN: "On hold",
    AttentionReason.FALL: "A fall",
    AttentionReason.PAIN: "Pain",
    AttentionReason.RISING: "Pain going up",
    AttentionReason.VERY_HARD: "A very hard session",
    AttentionReason.TOO_MUCH: "Too much",
    AttentionReason.EFFORT: "Harder than planned",
    AttentionReason.SORENESS: "Very achy muscles",
    AttentionReason.ILLNESS: "An illness",
    AttentionReason.CHECK_FELL: "A lower check result",
    AttentionReason.WELLBEING: "Poor sleep or low energy",
    AttentionReason.STOPS_EARLY: "Often stops early",
    AttentionReason.SWAPPED: "Keeps swapping an exercise",
    AttentionReason.DATES: "Impossible dates",
    AttentionReason.WEEK_AGAIN: "Repeating the same week",
    AttentionReason.STALLED: "Not progressing",
    AttentionReason.TOO_EASY: "Easier than planned",
    AttentionReason.FORTNIGHT: "No recent session",
    AttentionReason.NOTHING_BACK: "No diary received",
    AttentionReason.HALVED: "Half as many sessions",
}
GAVE_WAY = "gave_way"
#: Pains told before the one that is shown beside it.
EARLIER = 3
#: How a session ended, where it was not as planned.
ENDED: Mapping[str, str] = {
    Ending.TOO_MUCH: "the last session was too much", Ending.PAIN: "the last session stopped because of pain",
    Ending.SIGN: "the last session stopped because of a warning sign",
}
#: What most of the sessions show, and what could be changed.
STALL: Mapping[StallKind, str] = {
    StallKind.PAIN: "something hurt in most of them. Look first at what loads that joint",
    StallKind.TOO_HARD: "most were harder than planned. Ask about sleep, pain and tablets, and make them easier",
    StallKind.CUT_SHORT: "most ended early. A shorter session that gets finished counts",
    StallKind.EASED: "most were made easier that day, because of how they slept and felt or a gap. Ask how they are",
    StallKind.UNANSWERED: "something was left unanswered before or after most of them, and nothing gets harder on a "
                          "guess. Ask what makes answering difficult",
    StallKind.CEILING: "they went well. Raise the limit, or write a harder exercise or a heavier weight",
}


def head_words(flag: Flag, too: Sequence[Flag] = ()) -> str:
    """The reason over its line, with what that line tells too: `Pain going up, sessions harder than planned`."""
    because = {other.because for other in too}
    head = REASON_WORDS[AttentionReason.RISING if AttentionReason.RISING in because else flag.because]
    return f"{head}, sessions harder than planned" if because - {AttentionReason.RISING} else head


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
    happened = ("Reported at the check-in" if isinstance(record, CheckIn)
                else "Reported in the diary" if isinstance(record, Event) else "Stopped")
    spots = [str(h.spot) for h in record.hurts if h.gave_way] if isinstance(record, SessionDone) else []
    where = f" ({listed(spots)})" if sign == GAVE_WAY and spots else ""
    return f"{happened}: {told}{where}, on {day_words(flag.on)}"


def _happened(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    """A fall or an illness: what was told of it, and how often in four weeks."""
    what = (event_detail(record) if isinstance(record, Event) else "") or REASON_WORDS[flag.because]
    often = f", {flag.numbers[0]} in four weeks" if flag.numbers[0] > 1 else ""
    return f"{what.rstrip('.')}; reported on {day_words(flag.on)}{often}"


def _pain(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    said = f"{_spot(flag, record)} {flag.numbers[0]} out of 10 on {day_words(flag.on)}"
    if flag.course is None or flag.course.low is None:
        before = _pains_before(flag, line)
        said += f" (before that {', '.join(map(str, before))})" if before else ""
    return f"{said}{_course(flag.course, flag.on)}"


def _rising(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    *before, last = flag.numbers
    told = ", ".join(map(str, before[-EARLIER:]))
    said = f"{_spot(flag, record)} {told}, then {last} out of 10 on {day_words(flag.on)}"
    return f"{said}{_rise(flag.course, flag.on)}"


def _course(course: Course | None, on: date) -> str:
    """Everything else that belongs to it: since when, how the last session ended, how hard the last ones were."""
    if course is None:
        return ""
    done = f", {course.completed}% done" if course.completed is not None else ""
    ended = f"; {ENDED[course.ended]}{done}" if course.ended in ENDED else ""
    efforts = listed_in_order(course.efforts)
    hard = ""
    if len(course.efforts) > 1:
        hard = f"; the last sessions {_felt(efforts, course.target)}"
    return f"{_rise(course, on)}{ended}{hard}"


def _rise(course: Course | None, on: date) -> str:
    if course is None or course.low is None or course.low_on is None:
        return ""
    return f", up from {course.low} on {day_words(course.low_on)}, {count((on - course.low_on).days, 'day')} earlier"


def listed_in_order(numbers: tuple[int, ...]) -> str:
    """`7, 8 and 8`, each as often as it was reported."""
    *first, last = (str(n) for n in numbers) if numbers else ("",)
    return f"{', '.join(first)} and {last}" if first else last


def _felt(efforts: str, target: int | None) -> str:
    """`felt like 7, 8 and 8 out of 10, and the plan was 5`; the plan is left out where it is not known."""
    return f"felt like {efforts} out of 10" + (f", and the plan was {target}" if target else "")


def _effort(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    *told, target = flag.numbers
    efforts = listed_in_order(tuple(told)) if len(set(told)) > 1 else f"{told[0]} and {told[0]}"
    return f"Sessions {_felt(efforts, target)}; the last on {day_words(flag.on)}"


def _very_hard(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    rpe, target = flag.numbers
    return f"A session on {day_words(flag.on)} {_felt(str(rpe), target)}"


def _too_much(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    ends, of, over, rated = flag.numbers
    told = [f"{ends} of the last {of} {_kind(flag)}sessions {'was' if ends == 1 else 'were'} too much"] if ends else []
    told += [f"on average the last {rated} felt {_points(over / rated)} harder than "
             "planned"] if rated and over > 0 else []
    said = "; ".join(told)
    return f"{said[:1].upper()}{said[1:]}; the last on {day_words(flag.on)}"


def _kind(flag: Flag) -> str:
    return f"{flag.words[0]} " if flag.words else ""


def _points(mean: float) -> str:
    told = f"{mean:.1f}".removesuffix(".0")
    return f"{told} point" if told == "1" else f"{told} points"


def _soreness(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    return f"Achy muscles {listed_in_order(flag.numbers)} out of 10 at check-ins, the last on {day_words(flag.on)}"


def _wellbeing(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    if flag.words == ("lowest",):
        times, of = flag.numbers
        return (f"Sleep, energy or feeling settled at its lowest in {times} of the last {of} check-ins, the last on "
                f"{day_words(flag.on)}")
    return (f"Sleep, energy and feeling settled together {flag.numbers[0]} points lower over the last two weeks than "
            "before")


def _stops_early(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    done = listed_in_order(flag.numbers)
    return (
        f"{done}% of the plan done in the last {len(flag.numbers)} {_kind(flag)}sessions; the last on "
        f"{day_words(flag.on)}"
    )


def _check_fell(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    check, how = FunctionalCheck(flag.words[0]), flag.words[1]
    name = f"{NAMES[check]} ({how})" if how in ("left", "right") else NAMES[check]
    if how == "hands":
        return f"{name}: needed their hands on {day_words(flag.on)}, but not the time before"
    done = {one.stamp.id: one for one in (line.checks if line else ())}
    said = [result_words(done[i]) if i in done else str(n) for i, n in zip(flag.records, flag.numbers, strict=True)]
    return (f"{name}: {said[1]} on {day_words(flag.on)}, {said[0]} the time before; that is more than it normally "
            "varies")


def _week_again(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    return (f"The same week repeated {count(flag.numbers[0], 'time')}, because its sessions were much harder than "
            f"planned; the last on {day_words(flag.on)}. Write something easier")


def _stalled(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    sessions, _ = flag.numbers
    return (f"No exercise has got harder since at least {day_words(flag.on)}, over {count(sessions, 'session')} in "
            f"{STALL_DAYS // 7} weeks: {STALL[StallKind(flag.words[0])]}")


def _too_easy(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    *told, target = flag.numbers
    return (f"Sessions {_felt(listed_in_order(tuple(told)), target)}; all done, nothing hurting, the last on "
            f"{day_words(flag.on)}. There is room for more")


def _halved(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    now, before = flag.numbers
    return (f"{count(now, 'session')} in the last two weeks, {before} in the {RATE_DAYS // 7} weeks before; the "
            f"last on {day_words(flag.on)}")


def _swapped(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    names = record.names if isinstance(record, SessionDone) else {}
    written, chosen = (names.get(i, i.replace("-", " ")) for i in flag.words)
    return f"“{chosen}” instead of “{written}”, {flag.numbers[0]} times; the last on {day_words(flag.on)}"


def _dates(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    said = f", one of them {day_words(record.stamp.local)} {record.stamp.local.year}" if record else ""
    return (f"{count(flag.numbers[0], 'record')} with an impossible date{said}: kept aside since "
            f"{day_words(flag.on)}. Ask them to correct the clock on their device")


def _fortnight(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    return f"Last session {day_words(flag.on)}, {count(flag.numbers[0], 'day')} ago"


def _nothing_back(flag: Flag, record: Record | None, line: PersonSummary | None) -> str:
    heard = "Last diary" if line is None or line.last_return else "First heard of on"
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
