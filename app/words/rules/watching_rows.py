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
    f"A session counts from {at.COUNTS_FROM}% done, unless pain or a sign ended it. A week whose strength sessions "
    f"were on average {at.WEEK_OVER} or more harder than planned is repeated before the next; it shows on your list "
    f"from {at.WEEKS_AGAIN} times on.",
    f"After the end its last {at.ROUND_WEEKS} full weeks repeat, and stations still progress in them, until the client "
    "chooses: repeat these, start another programme of yours, or ask you. A lighter week is never repeated where there "
    f"is a full one ({CONLON_2016.short}).",
    f"Stalled: no station got harder for {WEEKS} weeks, with at least {at.STALL_SESSIONS} strength "
    f"sessions in them and {at.STALL_DONE}% of those due (on your list whatever was due, as diaries don’t say). "
    f"The kind is what is true of half of them or more: pain, cut short, made easier; or effort {at.MEAN_OVER} or more "
    "over plan on average: too hard; else the limit, unless the programme went on to a session that is new to them.",
)
PLAIN_WEEKS: tuple[str, ...] = (
    "If a week’s strength sessions were much harder than planned, we repeat that week before the next one.",
    f"When you finish a programme, its last {at.ROUND_WEEKS} full weeks repeat until you choose what comes next.",
    f"If you train steadily and nothing gets harder for {WEEKS} weeks, Today tells you and suggests what to change.",
)

EXACT_LIST: tuple[str, ...] = (
    f"“Needs a call” covers the last {HARM_WINDOW_DAYS} days, and is kept apart from programmes to review and from "
    "people you haven’t heard from. Strength sessions are compared with strength sessions, light ones with light ones. "
    "Call the first person on the list first. All numbers are conventions [P]; none of this changes anyone’s dose.",
)
_NUMBERS: dict[AttentionReason, str] = {
    AttentionReason.SIGN: "training put on hold; one without a go-ahead stays, however old",
    AttentionReason.FALL: "each one reported",
    AttentionReason.PAIN: f"{at.PAIN_CAPS} or more on the last day with any, unless it is agreed as usual",
    AttentionReason.RISING: f"by {at.PAIN_RISE} or more to {at.PAIN_HOLDS} or more, and not in a single jump "
                            f"({SALAFFI_2004.short})",
    AttentionReason.VERY_HARD: f"effort {at.EFFORT_TOP} or more within {at.FORTNIGHT_DAYS} days",
    AttentionReason.TOO_MUCH: f"{at.TOO_MUCH_TIMES} of the last {at.LAST_SESSIONS} were too much, or their effort was "
                              f"{at.MEAN_OVER} or more over plan on average",
    AttentionReason.EFFORT: f"{at.EFFORT_OVER} or more over plan, twice running",
    AttentionReason.SORENESS: f"{at.SORENESS_TOLD} or more in {at.SORENESS_TIMES} of the last {at.SORENESS_OF} "
                              "check-ins",
    AttentionReason.ILLNESS: "each one reported",
    AttentionReason.CHECK_FELL: "by more than such a check normally varies, or they newly need their hands",
    AttentionReason.WELLBEING: f"slept, energy or settled at 1 in {at.FEEL_TIMES} of the last {at.FEEL_OF} check-ins; "
                               f"or their sum {at.FEEL_FALL} lower over {at.FORTNIGHT_DAYS} days than before (median)",
    AttentionReason.STOPS_EARLY: f"less than {at.COUNTS_FROM}% done in {at.EARLY_TIMES} of the last "
                                 f"{at.LAST_SESSIONS}",
    AttentionReason.SWAPPED: f"the same swap {SWAPPED_TIMES} times",
    AttentionReason.DATES: "a record with an impossible date",
    AttentionReason.WEEK_AGAIN: f"a week repeated {at.WEEKS_AGAIN} times or more",
    AttentionReason.STALLED: f"no station got harder for {WEEKS} weeks, with {at.STALL_SESSIONS} strength sessions or "
                             "more in them",
    AttentionReason.TOO_EASY: f"{at.EFFORT_UNDER} or more under plan in {at.EASY_TIMES} of the last {at.EASY_OF} "
                              "clean ones, and nothing that needs a call",
    AttentionReason.FORTNIGHT: f"{at.FORTNIGHT_DAYS} days without a session",
    AttentionReason.NOTHING_BACK: f"{at.NOTHING_BACK_DAYS} days without a diary",
    AttentionReason.HALVED: f"in {at.FORTNIGHT_DAYS} days half as often as in the {at.RATE_DAYS} before, or less, with "
                            f"{at.RATE_MISSED} or more missing",
}
LIST_ROWS: tuple[tuple[str, str], ...] = tuple((REASON_WORDS[reason], _NUMBERS[reason]) for reason in AttentionReason)
PLAIN_LIST: tuple[str, ...] = (
    "From what you send, your coach sees warning signs, falls, illness, pain, sessions that were too much or much too "
    "easy, poor sleep or low energy, a lower check result, and whether your exercises are getting harder. A usual pain "
    "you have agreed doesn’t count.",
    "This doesn’t change your sessions, and nobody watches it all the time.",
)
