"""Words for a station that stands beyond what was written, or came back to it; true for a leader and a coach too."""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.measures.stall import Stall, StallKind
from app.domain.model.plan import Move, MoveKind, StepReason
from app.words.client.player import weight
from app.words.client.today import day_words
from app.words.text import count

WAITING = "Last time went beyond the plan. Today is as planned or less, and the progress is kept."
MOVED_HEAD = "Progress so far"
WHY: Mapping[StepReason, str] = {
    StepReason.CLEAN: "after two good sessions",
    StepReason.HURT: "because it hurt",
    StepReason.EASED: "because it was made easier",
    StepReason.SKIPPED: "because it was left out",
    StepReason.CUT_SHORT: "because it was cut short",
    StepReason.TOO_HARD: "because the session was harder than planned",
    StepReason.GAP: "because it hasn’t been done for a while",
    StepReason.PAIN: "and no harder today, as it works a joint that hurts",
    StepReason.HELD: "as the coach asked",
    StepReason.UNTOLD: "for a reason we weren’t sent",
}


#: Why nothing has moved on for some weeks, and what could be changed.
STALLED: Mapping[StallKind, str] = {
    StallKind.PAIN: "because something hurt in most of the sessions. Holding back is right; ask the coach or a "
                    "physiotherapist for an exercise that suits better.",
    StallKind.TOO_HARD: "because most of the sessions were harder than planned. An easier session, fewer minutes or "
                        "more rest may help; ask the coach.",
    StallKind.CUT_SHORT: "because most of the sessions ended early. Try choosing fewer minutes: a short session that "
                         "is finished counts.",
    StallKind.EASED: "because most of the sessions were made lighter on the day. Tell the coach how things have been.",
    StallKind.UNANSWERED: "because something was left unanswered before or after most of the sessions, and we don’t "
                          "make anything harder on a guess. Once it is answered, progress carries on.",
    StallKind.CEILING: "although the sessions went well. This may be the top of the programme; ask the coach what "
                       "comes next.",
}


def stalled_line(stall: Stall) -> str:
    """Since when nothing has moved on, why, and what could be changed, in one go."""
    return f"The exercises have stayed the same since {day_words(stall.since)}, {STALLED[stall.kind]}"


def _amount(what: MoveKind, number: int) -> str:
    return count(number, "repetition") if what is MoveKind.REPS else count(number, "second")


def _what(move: Move, names: Mapping[str, str], *, pounds: bool) -> str:
    instead = f"a harder version of “{names.get(move.exercise, move.exercise)}”"
    if move.what is MoveKind.LOAD:
        heavier = f"{weight(move.amount, pounds=pounds)} instead of {weight(move.written, pounds=pounds)}"
        return f"{instead}, with {heavier}" if move.to else heavier
    if move.to:
        return instead
    more = move.amount - move.written
    return f"{_amount(move.what, more)} more, {move.amount} in all"


def move_text(move: Move, names: Mapping[str, str], *, pounds: bool = False) -> str:
    """Why a station is more than was written, or no longer is: `5 seconds more, 35 in all, after two good sessions.`"""
    if move.step == 0:
        return f"Back to the plan, {_amount(move.what, move.amount)}, {WHY[move.because]}."
    said = f"{_what(move, names, pounds=pounds)}, {WHY[move.because]}."
    return said[0].upper() + said[1:]
