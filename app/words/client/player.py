"""Every sentence of the player: before, during and when it stands still. Knows no Flet."""
from __future__ import annotations

from collections.abc import Sequence

from app.domain.model.plan import ChangeStage, Part, Step, StepKind, StepSide
from app.domain.model.record import Ending
from app.words.client.today import Pair
from app.words.positions import change_words
from app.words.text import count, listed

GRAMS_TO_POUND = 453.59237

# ------------------------------------------------------------------ before

BEFORE = "Before you begin"
START = "Start"
NOT_NOW = "Not now"


def before_lead(name: str) -> str:
    """What is about to start."""
    return f"{name}: look around, then start."


# ------------------------------------------------------------------ under way

PAUSE = "Pause"
GO_ON = "Carry on"
BACK = "Back"
SKIP = "Skip"
HURTS = "That hurts"
#: The button of the warning signs: short, as it stands in a small box.
STOP_SIGNS = "Stop signs"
END = "End the session"
END_SHORT = "End"
LONGER_REST = "15 seconds more"
LONGER_REST_SHORT = "+15 seconds"
EASIER = "Easier:"
EASIER_KEY = "Easier"
NO_EASIER = "Smaller and slower is easier."
UNDO = "Undo"
CHANGE_SIDES = "Change sides"
TAKE_CARE = "Take care:"
PAUSED = "Paused"
LAST_ONE = "That was the last one."
KEYS = ("Keys: Space pauses, left goes back, right skips, up adds rest, down means ready, E makes it easier, H is "
        "“That hurts”.")
WHEN_LYING, I_LIE = "Press when lying down. No hurry.", "I’m lying down"
WHEN_DOWN, WHEN_UP = "Press when down. No hurry.", "Press when standing. No hurry."
I_AM_DOWN, I_AM_UP = "I’m down", "I’m standing"

_KINDS = {
    StepKind.WORK: "Work", StepKind.HOLD: "Hold", StepKind.REST: "Rest", StepKind.ROUND_REST: "Rest",
    StepKind.SETUP: "Get ready",
}
CHANGING = "changing sides"
SIDES = {StepSide.LEFT: "Left", StepSide.RIGHT: "Right"}


def kind_word(step: Step) -> str:
    """The one word over the count."""
    return change_words(step)[0] if step.kind is StepKind.CHANGE else _KINDS[step.kind]


def wait_words(step: Step) -> tuple[str, str]:
    """At the end of getting down or up: what is waited for, and the press that says so."""
    if step.stage is ChangeStage.LIE:
        return WHEN_LYING, I_LIE
    return (WHEN_UP, I_AM_UP) if step.to_floor is False or step.stage is ChangeStage.UP else (WHEN_DOWN, I_AM_DOWN)


def side_word(step: Step) -> str:
    """The side in a tag; empty for both at once. Before the work it says that it comes next."""
    word = SIDES.get(step.side) if step.side else None
    if word is None:
        return ""
    return word if step.is_effort else side_next(word)


def side_next(word: str) -> str:
    """`Left next`."""
    return f"{word} next"


def where_word(step: Step, rounds: int) -> str:
    """The part of the session, or `round 2 of 3`."""
    if step.part is Part.WARM_UP:
        return "warm-up"
    if step.part is Part.COOL_DOWN:
        return "cool-down"
    return f"round {step.round} of {rounds}" if step.round and rounds > 1 else ""


def count_words(left_ms: int) -> str:
    """Seconds left as figures: `28`, from 100 s on `1:40`."""
    seconds = -(-left_ms // 1000)
    return str(seconds) if seconds < 100 else f"{seconds // 60}:{seconds % 60:02d}"


def weight(load_g: int, *, pounds: bool) -> str:
    """`4 kg`, `2.5 kg`, `9 lb`."""
    value = load_g / GRAMS_TO_POUND if pounds else load_g / 1000
    return f"{value:.1f}".rstrip("0").rstrip(".") + (" lb" if pounds else " kg")


def amount(step: Step, *, pounds: bool) -> str:
    """`8 times, changing sides, 4 kg`; empty where time alone counts."""
    parts = [count(step.reps, "time")] if step.reps else []
    parts += [CHANGING] if step.side is StepSide.ALTERNATING else []
    parts += [weight(step.load_g, pounds=pounds)] if step.load_g else []
    return ", ".join(parts)


def next_line(name: str, step: Step, *, resting: bool) -> str:
    """What comes after what is shown: `Next: the wall push, left`."""
    side = SIDES.get(step.side) if step.side else None
    return f"{'Then' if resting else 'Next'}: {name}{f', {side.lower()}' if side else ''}"


def then(name: str) -> str:
    """What is done once one is down or up: `Then: Hip lift`."""
    return f"Then: {name}"


def care(line: str) -> str:
    """A cue of safety: `Take care: Keep your back long.`"""
    return f"{TAKE_CARE} {line}"


def easier_option(name: str) -> str:
    """`Easier: Hip lift on the bed`."""
    return f"{EASIER} {name}"


def count_left(figures: str) -> str:
    """The count, for whoever asks: "28 left"."""
    return f"{figures} left"


def spoken_next(name: str, line: str) -> str:
    """What a voice says in a rest."""
    return f"Next: {name}. {line}".strip()


def spoken_change(step: Step, name: str) -> str:
    """What a voice says as a change of position begins; with what comes then, where that was not said yet."""
    line = change_words(step)[1]
    return f"{line} {then(name)}." if name else line


def whose(name: str) -> str:
    """Whose session it is, for who leads it."""
    return f"{name}’s session"


def eased(now: str) -> str:
    """After the easier option was taken."""
    return f"From now on: {now}."


def undo_eased(was: str) -> str:
    """The way back from it."""
    return f"Undo: {was} again"


# ------------------------------------------------------------------ asked and ended

CAME_BACK = "Welcome back"
END_HERE = "End it here"
NO_STORE = "We can’t save this just now."
NO_STORE_NEXT = "You can carry on. Free up some space on this device; it tries again every second."
OVER = "The session is over."
KEEP_IT = "Keep it"
TO_QUESTIONS = "How was it?"


def asking(name: str, minute: int) -> str:
    """Where it stood."""
    return f"“{name}” was at minute {minute}."


ASKING_OK: Pair = (
    "Carry on only if you feel as well as before. If you have cooled down, move about a little first.",
    "Carry on only if {name} feels as well as before. If {name} has cooled down, move about a little together first.",
)


def go_on_from(minute: int) -> str:
    """The main act after a gap."""
    return f"Carry on from minute {minute}"


END_WHY = "Ending here. What is the reason?"
END_KEPT = "What you have done so far is saved, whatever the reason."
BACK_TO_SESSION = "Back to the session"
#: Reasons in the order shown, each with a note.
END_REASONS: tuple[tuple[Ending, str, str], ...] = (
    (Ending.FINISHED, "Enough for today", "No need to make up for the rest."),
    (Ending.INTERRUPTED, "Something came up", "The door, the phone, a visit. It doesn’t count as too much."),
    (Ending.TOO_MUCH, "It was too much", "The next session will be lighter."),
)
END_HURTS, END_SIGN = "Something hurts", "A warning sign"

SIGNS_LEAD = "Do you notice any of these? Press it. The session ends, and what you have done is saved."
NONE_FIT = "None of these: back to the session"


def call(number: str) -> str:
    """The number, big."""
    return f"Call {number}"


def contact(who: str) -> str:
    """Whom else to ring."""
    return f"Then phone {who}."


def ring(who: str) -> str:
    """Whom to ring where no number to call stands before it."""
    return f"You can phone {who}."


# ------------------------------------------------------------------ led by somebody

AMISS_LEAD = "What do you see?"
#: (sign or empty, words, note): what a leader may see, and what it is taken for.
AMISS: tuple[tuple[str, str, str], ...] = (
    ("confusion", "Suddenly confused, or does not know where they are", "This may be an emergency: call for help now."),
    ("weakness_face_speech", "Face droops, an arm is weak, or words are slurred",
     "This may be an emergency: call for help now."),
    ("dizziness", "Dizzy, pale or unsteady, and it is new", "Help them sit down. Tell a doctor today."),
    ("", "Tired, low or not keen, but clear-headed", "Then leave it today. It doesn’t count as too much."),
)

# ------------------------------------------------------------------ that hurts

SIT_DOWN = "Sit down first"
SIT_DOWN_HOW = "Everything is paused. Take your time: put any weights down and sit."
I_SIT = "I’m sitting"
REST_THERE = "Rest where you are"
REST_THERE_HOW = "Everything is paused. Put any weights down, and stay down until you feel able to answer."
I_REST = "I’m resting"
WHERE = "Where does it hurt?"
HOW_ENDS = ("not at all", "makes me stop now and then", "the worst I can imagine")
GAVE_WAY = "Did a joint give way or lock?"
TELL = "Done"
BY_MISTAKE = "Nothing hurts: I pressed it by mistake"
CHANGED = "What changes now"
NOTHING_LEFT = "There is nothing left in this session that would go easy on it."


def spared(where: str, asked: str = "") -> str:
    """What happens with the spot for the rest of it."""
    side, _, part = where.partition(" ")
    other = {"left": "right", "right": "left"}.get(side)
    both = f", and on the {other} {'ones' if part == 'ribs' else 'one'} too" if other else ""
    return f"The rest of this session goes easy on {asked + '’s' if asked else 'your'} {where}{both}."


def noted(where: str, asked: str = "") -> str:
    """Where nothing else had to change."""
    return f"We’ve noted {asked + '’s' if asked else 'your'} {where}. Nothing else in this session puts load on it."


def becomes(was: str, now: str) -> str:
    """One exercise replaced."""
    return f"“{now}” instead of “{was}”."


def left_out(names: Sequence[str]) -> str:
    """Exercises that are not done any more."""
    return f"Left out: {listed(tuple(names))}."


IF_IT_GROWS = "If it gets worse or spreads, press “That hurts” again, or end the session."
