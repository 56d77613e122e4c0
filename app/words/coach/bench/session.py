"""Words of the page on which a coach writes a session, and of the list of sessions. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta

from app.domain.bench.fix import Fix, FixKind
from app.domain.bench.sheet_edits import Measure
from app.domain.model.exercise import Exercise, Sides
from app.domain.model.session import BlockKind
from app.words.parts import minutes
from app.words.text import count

# ------------------------------------------------------------------ the list

TITLE = "Sessions"
LEAD = "Open one to change it. Clients get what you have written when you next hand it out, and not before."
EMPTY_HEAD = "Nothing to write on yet"
EMPTY = ("Begin with the exercises, sessions and programmes that come with the app. They become yours to change; what "
         "comes with the app stays as it is.")
YOUR_NAME = "Your name, as clients read it"
TAKE_OVER = "Begin with these"
NO_NAME = "Write your name first."
NEW_NAME = "Name of a new session"
NEW = "Write a new session"
NO_NEW_NAME = "Give the new session a name first."
CHANGED = "changed since it was handed out"
NOTHING_WRITTEN = "nothing written yet"


def listed(total_ms: int, exercises: int, *, changed: bool) -> str:
    """What stands under the name of a session."""
    said = f"{minutes(round(total_ms / 60_000))}, {count(exercises, 'exercise')}" if total_ms else NOTHING_WRITTEN
    return f"{said}; {CHANGED}" if changed else said


# ------------------------------------------------------------------ the page

BACK = "Sessions"
BACK_NAME = "Back to the sessions"
NAME = "Name of the session"
NO_CHANGES = "No changes yet"
NOT_YET_KEPT = "Keeping…"
UNDO, REDO = "Undo", "Redo"
NOTHING_TO_UNDO, NOTHING_TO_REDO = "Nothing to undo", "Nothing to redo"
KINDS: Mapping[BlockKind, str] = {
    BlockKind.WARM_UP: "Warm-up", BlockKind.CIRCUIT: "Circuit", BlockKind.STRAIGHT_SETS: "Sets in a row",
    BlockKind.HOLDS: "Holds", BlockKind.COOL_DOWN: "Cool-down",
}
SIDES: Mapping[Sides, str] = {Sides.BOTH: "", Sides.EACH: "each side", Sides.ALTERNATING: "sides in turn"}
UNITS: Mapping[Measure, str] = {Measure.SECONDS: "s", Measure.TIMES: "times", Measure.HELD: "s held"}
COUNTED: Mapping[Measure, str] = {
    Measure.SECONDS: "seconds", Measure.TIMES: "repetitions", Measure.HELD: "seconds held",
}
ROUNDS, AFTER_EACH, REST = "Rounds", "after each", "rest"
BLOCK_FIELDS: Mapping[str, str] = {
    "rounds": "rounds", "rest_s": "rest between exercises", "round_rest_s": "rest after a round",
}
EMPTY_BLOCK = "Nothing in it yet."
UP, DOWN, SECOND, TAKE_OUT = "Up", "Down", "Second one", "Take out"
MAY_GO = "May go when time is short"


def kept_at(time: str) -> str:
    """When the draft was kept last: 10:42."""
    return f"Draft kept {time}"


def act_on(act: str, what: str) -> str:
    """A button's name, where several have its word: `Up: March on the spot`."""
    return f"{act}: {what}"


def field_of(name: str, what: str) -> str:
    """A field's name: `March on the spot: seconds`."""
    return f"{name}: {what}"


def line_name(name: str, which: int) -> str:
    """An exercise on the card, with its number where it stands there more than once."""
    return name if which == 1 else f"{name} ({which})"


def opened(name: str) -> str:
    """What a line's name is, as a button."""
    return f"Open: {name}"


def count_in(what: str) -> str:
    """The press that counts a line the other way: `Count in repetitions`."""
    return f"Count in {what}"


def local_time(instant: datetime, offset_min: int) -> str:
    """`10:42`, where the coach is."""
    return f"{instant + timedelta(minutes=offset_min):%H:%M}"


def between(least: int, most: int) -> str:
    """Under a number that cannot be."""
    return f"{least} to {most}"


def clock_length(ms: int) -> str:
    """`4:35`."""
    seconds = round(ms / 1000)
    return f"{seconds // 60}:{seconds % 60:02}"


# ------------------------------------------------------------------ acts, as Undo names them

def amount_act(name: str, before: int, after: int) -> str:
    """Another amount."""
    return f"“{name}” {before} to {after}"


def rest_act(name: str) -> str:
    """Another rest after a line."""
    return f"rest after “{name}”"


def block_act(kind: BlockKind, what: str) -> str:
    """Another number of a block."""
    return f"{KINDS[kind]}, {what}"


def moved_act(name: str, *, down: bool) -> str:
    """Carried one place."""
    return f"“{name}” {'down' if down else 'up'}"


def taken_out_act(name: str) -> str:
    """Taken out."""
    return f"“{name}” taken out"


def second_act(name: str) -> str:
    """A second one below."""
    return f"“{name}” a second time"


def added_act(name: str) -> str:
    """Written into the session."""
    return f"“{name}” added"


def instead_act(name: str, before: str) -> str:
    """Another exercise in its place."""
    return f"“{name}” instead of “{before}”"


def measure_act(name: str, measure: Measure) -> str:
    """Counted another way."""
    return f"“{name}” in {COUNTED[measure]}"


def may_go_act(name: str, *, may: bool) -> str:
    """Whether it may be left out."""
    return f"“{name}” {'may' if may else 'may not'} go"


RENAMED = "another name"


def undone(words: str) -> str:
    """Announced after Undo."""
    return f"Undone: {words}"


def redone(words: str) -> str:
    """Announced after Redo."""
    return f"Done again: {words}"


def placed(name: str, place: int, of: int, kind: BlockKind) -> str:
    """Announced after a line was carried: `Hip lift, number 3 of 6 in the circuit`."""
    return f"{name}, number {place} of {of} in the {KINDS[kind].lower()}"


# ------------------------------------------------------------------ the writing line

WRITE_HINT = "chair stand 8x /30"
ENTER = "Enter"
ADD = "Add"
NOT_FOUND = "No exercise has words that begin so."


def write_after(name: str) -> str:
    """The writing line's label, below a line."""
    return f"Write the next exercise, after “{name}”"


def write_at_end(kind: BlockKind) -> str:
    """The same at the end of a block."""
    return f"Write the next exercise, at the end of the {KINDS[kind].lower()}"


def amounts_read(measure: Measure | None, amount: int, rest_s: int | None) -> str:
    """What was understood behind the words."""
    said = [f"{amount} {UNITS[measure]}"] if measure and amount else []
    said += [f"rest {rest_s} s"] if rest_s is not None else []
    return ", ".join(said)


# ------------------------------------------------------------------ checks

CHECKS_CLEAR = "No problems found"
CHECKS_CLEAR_WHY = "Nothing in this session that an experienced coach would object to."
SHOW = "Show"


def checks_head(number: int) -> str:
    """Above them."""
    return f"{count(number, 'thing')} to check"


def against(value: int, limit: int) -> str:
    """The two numbers of an objection."""
    return f"{value}, where {limit} is the limit."


def show_name(number: int) -> str:
    """The button that leads to the line."""
    return f"Show {number} on the card"


def fix_name(number: int, words: str) -> str:
    """The button of a fix."""
    return f"Fix {number}: {words}"


def fix_words(fix: Fix, library: Mapping[str, Exercise]) -> str:
    """What a fix does, as a button and as Undo say it."""
    name = library[fix.exercise].name if fix.exercise in library else ""
    return {
        FixKind.HOLD: f"Hold {fix.amount} s", FixKind.WORK: f"Give it {fix.amount} s",
        FixKind.TIMES: f"Make it {fix.amount} times", FixKind.ROUNDS: f"Make it {count(fix.amount, 'round')}",
        FixKind.NO_REASON: "Take the reason away", FixKind.LONGER: f"{fix.amount} s more for each exercise in it",
        FixKind.ADD: f"Add “{name}”", FixKind.PLACE: f"Make “{name}” number {fix.amount}",
        FixKind.BEFORE_ROUNDS: "Put it before the rounds", FixKind.EASIER: f"Take “{name}” instead",
        FixKind.LENGTH: f"Say {minutes(fix.amount)}",
    }[fix.kind]


def easier(name: str) -> str:
    """A button of an opened line."""
    return f"Easier: {name}"


def harder(name: str) -> str:
    """The other way."""
    return f"Harder: {name}"


# ------------------------------------------------------------------ what could not be kept

CHANGED_ELSEWHERE = "This session was changed meanwhile in another window."
BOTH_ARE_THERE = "Nothing was overwritten: that one is kept, and what you wrote here is still on this page."
GO_ON_WITH_THAT = "Go on with that one"
KEEP_MINE = "Keep mine as a second session"
NOT_KEPT = "Not kept yet. Your words are still here."
TRY_AGAIN = "Try again"


def second_name(name: str) -> str:
    """What the second of two is called."""
    return f"{name}, second version"
