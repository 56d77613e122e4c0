"""Words for what is asked after a session, and for the diary. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from app.domain.dosing.way_back import Stop
from app.domain.model.body import Spot
from app.domain.model.level import Level
from app.domain.model.plan import Dose
from app.domain.model.record import CheckIn, Clearance, Ending, How, SessionDone
from app.domain.model.rules import RuleId
from app.domain.model.thresholds import PAIN_CAPS
from app.words.client.today import Pair, day_words
from app.words.reasons import REASONS, reason_text
from app.words.signs import sign_words
from app.words.text import count, listed, spot_words, time_together, time_trained

# ------------------------------------------------------------------ afterwards

#: How well one can talk, 0–10, in our own words. [P]
EFFORT: tuple[str, ...] = (
    "at rest", "barely moving", "could sing", "could chat on and on", "full sentences, breathing a little faster",
    "full sentences, breathing faster", "short sentences", "a short sentence at a time", "a few words",
    "barely a word", "couldn’t go on",
)
HOW_HARD = "How hard was it?"
HOW_HARD_SHORT = "How hard"
HOW_HARD_LED = "How hard was it for {name}?"
HOW_HARD_NOTE = "For the session as a whole, going by how well you could talk."
HOW_HARD_NOTE_LED = "Ask {name}. If there is no answer, go by how well {name} could talk."
HURTS_NOW = "Does anything hurt in a joint now?"
NOTHING_HURTS = "Nothing hurts"
SOMETHING_HURTS = "Something hurts"
HURT_ENDS = ("not at all", "makes me stop now and then", "the worst I can imagine")
WHY_SHORT = "What cut it short?"
NOTE = "Anything you’d like to write down?"
NOTE_HINT = "For the diary, and for the coach if notes are sent."
SAVE, LATER = "Save", "Later"
KEPT = "It’s in the diary."
MEANS = "What it means for next time"
GONE = "This entry isn’t here any more."
TO_TODAY, TO_DIARY = "Back to today", "To the diary"

WHY: Mapping[Ending, str] = {
    Ending.FINISHED: "Enough for today", Ending.INTERRUPTED: "Something came up", Ending.TOO_MUCH: "It was too much",
}
ENDED: Mapping[Ending, str] = {
    Ending.FINISHED: "", Ending.INTERRUPTED: "cut short: something came up", Ending.TOO_MUCH: "cut short: too much",
    Ending.PAIN: "stopped: it hurt", Ending.SIGN: "stopped: a warning sign",
}
LEFT_EARLY = "ended early"
NEXT_TIME = (
    "If all is well in the morning, next time is the whole session.",
    "If all is well in the morning, next time is the whole session.",
    "Next time is the same session, a little gentler.", "Next time is easier: fewer rounds, more rest.",
    "Next time is a light session.",
    "Next time is gentle movement only, without weights.", "Next is a rest day.", "", "",
)


#: How much of the planned work, to the nearest quarter; the last is for all of it.
HOW_MUCH = ("hardly any of the planned work", "about a quarter of the planned work", "about half of the planned work",
            "about three quarters of the planned work", "nearly all of the planned work", "all of the planned work")


def effort_words(level: int | None) -> str:
    """`6: short sentences`; empty for none."""
    return "" if level is None else f"{level}: {EFFORT[level]}"


def short_sentence(done: SessionDone) -> str:
    """`21 minutes; about three quarters of the planned work.`"""
    if not done.completed:
        return f"{time_trained(done).capitalize()}; none of the planned work."
    part = HOW_MUCH[(done.completed + 12) // 25] if done.completed < 100 else HOW_MUCH[-1]
    return f"{time_trained(done).capitalize()}; {part}."


def outlook_lines(dose: Dose, stop: Stop | None, asked: str = "") -> tuple[str, ...]:
    """What comes next, and why."""
    if stop is not None:
        return (stop_line(stop, asked),)
    told = (r for r in dose.reasons if r.rule in REASONS and r.rule is not RuleId.DAYS)
    why = [reason_text(r, asked) for r in told if r.level >= Level.REDUCED]
    return (NEXT_TIME[dose.level] or f"Ask a doctor before {asked + ' trains' if asked else 'you train'} again.", *why)


def stop_line(stop: Stop, asked: str = "") -> str:
    """Whose go-ahead it takes to train again."""
    whose = f"{asked}’s" if asked else "your"
    return {
        "self": "No training until the fever has been gone for two days.",
        "coach": f"No training until {whose} coach gives the go-ahead.",
    }.get(stop.yes_from, "No training until a doctor, nurse or physio gives the go-ahead and you record it here.")


STOP_HEAD = "What to do now"




def pain_stop_lines(number: str, asked: str = "") -> tuple[str, ...]:
    """After pain that has to be looked at, or a joint that gave way."""
    return (f"{'Let ' + asked + ' rest' if asked else 'Rest'}, and have it looked at before any more training.",
            f"If {asked or 'you'} cannot put weight on it, or it is swollen, hot or out of shape, call a doctor today, "
            f"or {number} if it is bad.")


MISTAKE = "The warning sign was pressed by mistake"
MISTAKE_NOTE = "The session will count as cut short, and a note says that the sign was pressed."


def mistake_mark(sign: str) -> str:
    """What is put into the note when a stop sign is taken back, so that nobody misses it."""
    return f"Warning sign pressed by mistake: {sign_words(sign)}."


# ------------------------------------------------------------------ diary

TITLE = "Diary"
EMPTY_HEAD = "Nothing here yet"
EMPTY = "Check-ins and sessions will show here, day by day."
CHECK_IN = "Check-in"
HOW_WAS_IT = "How was it?"
PAIN_HEAD = "Pain, six weeks"
GUIDE = f"Dotted line: from {PAIN_CAPS} up, the session goes easy on that joint."
MINUTES_HEAD = "Minutes of training a week"
NO_MINUTES = "No sessions in the last six weeks."
WEEKS_AGO, TODAY = "6 weeks ago", "today"
STRIP_KEY = "Top: planned. Bottom: done. Low: easier. Dotted: left out. Double bar: stopped."
OLDER = "Show older weeks"
THIS_WEEK, LAST_WEEK = "This week", "Last week"
ENTRY_BACK = "Back to the diary"
CHANGE = "Change the answers"
TAKE_BACK = "Remove this entry"
TAKEN_BACK = "Removed. It no longer counts."
TAKEN_BACK_NEXT = "If it has already been sent, the coach will see the change with the next diary."
UNDO = "Undo"
ASK_FIRST = "Remove it? It will no longer count for the next session."
KEEP = "Keep it"
EASED_HEAD = "What was made easier, and why"
DONE_HEAD = "What was done"
ENTRY_LEAVE = "Leave it as it was"
ONLY_TODAYS = "That day’s session stays as it was; the correction counts from now on."
CHANGED_BY_HAND: Pair = ("Changed by you", "Changed by hand")
JOINTS, MORNING, MUSCLES = "Joints that hurt", "Joints the morning after", "Achy muscles"
MUSCLES_ANSWERS = ("No achy muscles", "Achy muscles")
SLEPT, ENERGY, SETTLED = "Slept", "Energy", "Settled"
ENDS_5: Mapping[str, tuple[str, str]] = {
    SLEPT: ("badly", "well"), ENERGY: ("low", "high"), SETTLED: ("not at all", "very")}
NOT_SAID = "not answered"
NOTHING = "nothing"
NO_SIGNS = "Nothing new or worrying"
HOW_WORDS: Mapping[How, str] = {
    How.FULL: "as planned", How.EASIER: "made easier", How.PART: "in part", How.SKIPPED: "left out",
    How.STOPPED: "stopped",
}


def no_pain(until: date | None) -> str:
    """`No pain reported up to 14 February.`"""
    return f"No pain reported up to {until.day} {until:%B}." if until else "Nothing reported about pain yet."


def week_head(monday: date, today: date) -> str:
    """`This week`, `Last week`, `Week of 16 February`."""
    this = today - timedelta(days=today.weekday())
    if monday == this:
        return THIS_WEEK
    return LAST_WEEK if monday == this - timedelta(days=7) else f"Week of {monday.day} {monday:%B}"


def week_aside(sessions: Sequence[SessionDone]) -> str:
    """`2 sessions, 43 minutes`; empty for none."""
    if not sessions:
        return ""
    return f"{count(len(sessions), 'session')}, {time_together(sessions)}"


def how_was(done: SessionDone) -> str:
    """The question that is still open."""
    return f"{done.name}, {day_words(done.stamp.local)}: how was it?"


def levels(told: Mapping[Spot, int] | None) -> str:
    """`left knee 3 and back 1`; `nothing`; `not answered`."""
    if told is None:
        return NOT_SAID
    some = [f"{spot_words(spot)} {level}" for spot, level in sorted(told.items()) if level]
    return listed(tuple(some)) if some else NOTHING


def check_in_line(told: CheckIn) -> str:
    """One check-in in a line."""
    parts = [listed(tuple(sign_words(s) for s in told.signs))] if told.signs else []
    if told.pain is not None:
        parts.append("no joint hurt" if levels(told.pain) == NOTHING else f"hurt: {levels(told.pain)}")
    if told.soreness and levels(told.soreness) != NOTHING:
        parts.append(f"achy: {levels(told.soreness)}")
    parts += [f"slept {told.slept} out of 5"] if told.slept else []
    return f"{'; '.join(parts) or NOT_SAID}."


def session_line(done: SessionDone) -> str:
    """One session in a line."""
    parts = [time_trained(done), *([LEFT_EARLY] if done.is_left_early else [])]
    parts += [ENDED[done.ending] + (f" ({sign_words(done.sign).lower()})" if done.sign else "")] \
        if ENDED[done.ending] else []
    parts.append(f"effort {done.rpe} out of 10" if done.rpe is not None else "effort not answered")
    parts += [f"hurt: {levels(done.hurt_at)}"] if done.hurt_at else []
    return f"{'; '.join(parts)}."


def clearance_line(told: Clearance, asked: str = "") -> str:
    """One recorded go-ahead."""
    whose = f"{asked}’s" if asked else "your"
    who = {"self": asked or "you", "coach": f"{whose} coach"}.get(told.kind, told.kind)
    return f"{told.who} ({who})" if told.who else who


OTHER = "Also noted"
YES_NOTED = "Go-ahead to train again"


def hows_line(hows: Mapping[How, int]) -> str:
    """`4 as planned`, `3 as planned, 1 left out`."""
    return ", ".join(f"{hows[how]} {HOW_WORDS[how]}" for how in How if hows.get(how))


def by_hand(was: str, now: str, names: Mapping[str, str]) -> str:
    """A change made on the way."""
    return f"{names.get(was, was)} was changed to {names.get(now, now)}."


def week_label(monday: date) -> str:
    """Under a bar: `16 Feb`."""
    return f"{monday.day} {monday:%b}"


def pain_summary(series: Sequence[tuple[Spot, Sequence[int | None]]]) -> str:
    """The chart in a sentence."""
    told = []
    for spot, values in series:
        known = [v for v in values if v is not None]
        told.append(f"{spot_words(spot)} from {known[0]} to {known[-1]}, {max(known)} at most")
    return f"{'; '.join(told).capitalize()}."


def minutes_summary(minutes: Sequence[int]) -> str:
    """The bars in a sentence."""
    busy = [m for m in minutes if m]
    this = f"This week: {count(minutes[-1], 'minute')}."
    return f"{this} In six weeks: {count(sum(minutes), 'minute')} in {count(len(busy), 'week')}."



NOTE_HEAD = "Note"


def of_five(value: int | None) -> str:
    """`4 out of 5`; `not answered`."""
    return NOT_SAID if value is None else f"{value} out of 5"
