"""Words for today's amount in seconds, repetitions and rounds. Knows no Flet."""
from __future__ import annotations

from app.domain.compile.dose_diff import AmountEased, CountedAmount, eased_amounts
from app.domain.model.level import Level
from app.domain.model.plan import Dose, Timeline
from app.domain.model.session import Session
from app.words.text import LEVEL_WORDS, count, listed

FULL = 100
#: One amount by itself, and how much several different ones lose or gain.
ALIKE = {
    CountedAmount.ROUNDS: "{now} instead of {written}",
    CountedAmount.WORK: "{now} of work instead of {written}",
    CountedAmount.HOLD: "holds of {now} instead of {written}",
    CountedAmount.REPS: "{now} instead of {written}",
    CountedAmount.REST: "{now} of rest instead of {written}",
}
UNLIKE = {
    CountedAmount.ROUNDS: "{by} fewer",
    CountedAmount.WORK: "each work interval {by} shorter",
    CountedAmount.HOLD: "each hold {by} shorter",
    CountedAmount.REPS: "{by} fewer each time",
    CountedAmount.REST: "each rest {by} longer",
}
SHORT = {
    CountedAmount.ROUNDS: "fewer rounds", CountedAmount.WORK: "shorter work", CountedAmount.HOLD: "shorter holds",
    CountedAmount.REPS: "fewer repetitions", CountedAmount.REST: "longer rests",
}
SHORTER, GENTLER = "Shorter today", "Same session, gentler"
#: Nothing was eased, and yet it is not the whole session, since something is left out.
PARTLY = "What suits today"
UNITS = {CountedAmount.ROUNDS: "round", CountedAmount.REPS: "repetition"}


def eased_words(eased: AmountEased) -> str:
    """`30 seconds of work instead of 40`, `each rest 5 to 10 seconds longer`."""
    unit = UNITS.get(eased.what, "second")
    if len(eased.pairs) == 1:
        written, now = eased.pairs[0]
        return ALIKE[eased.what].format(now=count(now, unit), written=written)
    steps = sorted({abs(now - written) for written, now in eased.pairs})
    by = count(steps[0], unit) if len(steps) == 1 else f"{steps[0]} to {count(steps[-1], unit)}"
    return UNLIKE[eased.what].format(by=by)


def amount_sentence(dose: Dose, session: Session, left_out: int = 0) -> str:
    """Today's amount in whole numbers: `Easier today: 2 rounds instead of 3, 30 seconds of work instead of 40.`

    Args:
        left_out: how many of its exercises are left out.
    """
    if not dose.allows_session:
        return f"{LEVEL_WORDS[dose.level]}."
    parts = [eased_words(eased) for eased in eased_amounts(session, dose)]
    if 0 < dose.load < FULL and any(block.is_main and item.load_g for block, item in session.items()):
        parts.append(f"weights up to {dose.load}% of the plan")
    if not parts:
        return f"{PARTLY}, without {count(left_out, 'exercise')}." if left_out else f"{LEVEL_WORDS[dose.level]}."
    return f"{_head(dose, session)}: {listed(parts)}."


def _head(dose: Dose, session: Session) -> str:
    """Fewer rounds are less; with all of them, shorter work and longer rests may even take longer."""
    fewer = any(eased.what is CountedAmount.ROUNDS for eased in eased_amounts(session, dose))
    if dose.level <= Level.HOLD:
        return SHORTER if fewer else LEVEL_WORDS[dose.level]
    return LEVEL_WORDS[dose.level] if fewer or dose.level > Level.REDUCED else GENTLER


def day_sentence(timeline: Timeline, session: Session) -> str:
    """What is different today, in a line: `Same session, gentler: shorter work, longer rests (31 min), 1 swapped.`"""
    dose = timeline.dose
    if not dose.allows_session:
        return f"{LEVEL_WORDS[dose.level]}."
    kinds = [SHORT[eased.what] for eased in eased_amounts(session, dose)]
    kinds += ["lighter weights"] if 0 < dose.load < FULL else []
    how = f": {', '.join(dict.fromkeys(kinds))}" if kinds else ""
    head = PARTLY if timeline.left_out and dose.level <= Level.HOLD and not kinds else _head(dose, session)
    told = [f"{head}{how} ({round(timeline.total_ms / 60_000)} min)"]
    told += [f"{len(timeline.substitutions)} swapped"] if timeline.substitutions else []
    told += [f"{len(timeline.left_out)} left out"] if timeline.left_out else []
    return f"{', '.join(told)}."
