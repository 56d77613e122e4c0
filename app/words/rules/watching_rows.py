"""The weeks of a programme, the stall and the coach's list, in both wordings. Knows no Flet."""
from __future__ import annotations

from app.domain.measures.attention import HARM_WINDOW_DAYS
from app.domain.measures.attention_summary import AttentionReason
from app.domain.measures.attention_weeks import SWAPPED_TIMES
from app.domain.model import thresholds as at
from app.domain.model.references import CONLON_2016, SALAFFI_2004
from app.words.coach.attention import REASON_WORDS

WEEKS = at.STALL_DAYS // 7

EXACT_WEEKS: tuple[str, ...] = (
    f"A session counts from {at.COUNTS_FROM} % done, unless pain or a sign ended it. A week whose strength sessions "
    f"were on average {at.WEEK_OVER} or more harder than meant is done once more before the next; you hear of it from "
    f"{at.WEEKS_AGAIN} times on.",
    f"After the end its last {at.ROUND_WEEKS} full weeks go round, and stations move on in them, until the client "
    "chooses: these again, another programme of yours, or you asked. A lighter week never goes round where there is a "
    f"full one ({CONLON_2016.short}).",
    f"Stalled: no station stood higher than before for {WEEKS} weeks, with at least {at.STALL_SESSIONS} strength "
    f"sessions in them and {at.STALL_DONE} % of those due (you are told whatever was due, since returns do not say). "
    f"The kind is what holds in half of them or more: pain, cut short, eased; or effort {at.MEAN_OVER} or more over "
    "target on average: too hard; else the ceiling, unless the programme went on to a session that is new to them.",
)
PLAIN_WEEKS: tuple[str, ...] = (
    "A week whose strength sessions were much harder than they were meant to be is done once more before the next.",
    f"When a programme is through, its last {at.ROUND_WEEKS} full weeks come round again until you choose what comes "
    "next.",
    f"If you train steadily and nothing moves on for {WEEKS} weeks, Today says so, with what could be changed.",
)

EXACT_LIST: tuple[str, ...] = (
    f"Harm is looked for in the last {HARM_WINDOW_DAYS} days, and stands apart from what leads nowhere and from "
    "silence. Strength sessions are compared with strength sessions, light ones with light ones. The first line is "
    "the first call. All numbers are conventions [P]; none of this changes anybody’s dose.",
)
_NUMBERS: dict[AttentionReason, str] = {
    AttentionReason.SIGN: "a stop; one that nobody has answered stays, however old",
    AttentionReason.FALL: "each one that is told",
    AttentionReason.PAIN: f"{at.PAIN_CAPS} or more on the last day that told of any, unless it is agreed as usual",
    AttentionReason.RISING: f"by {at.PAIN_RISE} or more to {at.PAIN_HOLDS} or more, and not in one leap "
                            f"({SALAFFI_2004.short})",
    AttentionReason.VERY_HARD: f"effort {at.EFFORT_TOP} or more within {at.FORTNIGHT_DAYS} days",
    AttentionReason.TOO_MUCH: f"{at.TOO_MUCH_TIMES} of the last {at.LAST_SESSIONS} ended as too much, or their effort "
                              f"was {at.MEAN_OVER} or more over target on average",
    AttentionReason.EFFORT: f"{at.EFFORT_OVER} or more over target, twice running",
    AttentionReason.SORENESS: f"{at.SORENESS_TOLD} or more in {at.SORENESS_TIMES} of the last {at.SORENESS_OF} "
                              "check-ins",
    AttentionReason.ILLNESS: "each one that is told",
    AttentionReason.CHECK_FELL: "by more than such a check varies by itself, or the hands are newly needed",
    AttentionReason.WELLBEING: f"slept, energy or settled at 1 in {at.FEEL_TIMES} of the last {at.FEEL_OF} check-ins; "
                               f"or their sum {at.FEEL_FALL} lower over {at.FORTNIGHT_DAYS} days than before (median)",
    AttentionReason.STOPS_EARLY: f"less than {at.COUNTS_FROM} % done in {at.EARLY_TIMES} of the last "
                                 f"{at.LAST_SESSIONS}",
    AttentionReason.SWAPPED: f"the same change {SWAPPED_TIMES} times",
    AttentionReason.DATES: "a record with a date that cannot be",
    AttentionReason.WEEK_AGAIN: f"a week begun again {at.WEEKS_AGAIN} times or more",
    AttentionReason.STALLED: f"no station moved on for {WEEKS} weeks, with {at.STALL_SESSIONS} strength sessions or "
                             "more in them",
    AttentionReason.TOO_EASY: f"{at.EFFORT_UNDER} or more under target in {at.EASY_TIMES} of the last {at.EASY_OF} "
                              "clean ones, with no harm beside it",
    AttentionReason.FORTNIGHT: f"{at.FORTNIGHT_DAYS} days without a session",
    AttentionReason.NOTHING_BACK: f"{at.NOTHING_BACK_DAYS} days without a return",
    AttentionReason.HALVED: f"in {at.FORTNIGHT_DAYS} days half as often as in the {at.RATE_DAYS} before, or less, with "
                            f"{at.RATE_MISSED} or more missing",
}
LIST_ROWS: tuple[tuple[str, str], ...] = tuple((REASON_WORDS[reason], _NUMBERS[reason]) for reason in AttentionReason)
PLAIN_LIST: tuple[str, ...] = (
    "From what you send, your coach sees stops, falls, illness, pain, sessions that were too much or much too easy, "
    "low mornings, a check that went down, and whether anything moves on. An agreed usual pain is not told as harm.",
    "It changes nothing by itself, and nobody watches it all the time.",
)
