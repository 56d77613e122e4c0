"""A step in words and in print: the word over its count, what is waited for, and how its band is printed."""
from __future__ import annotations

from app.domain.model.plan import Part, Step, StepKind, StepSide
from app.domain.player.player_state import PlayerState, Status
from app.ui.client.player.live_session import Live
from app.ui.parts.count_panel import Phase
from app.words.client import pauses
from app.words.client import player as says

ONE_SIDED = frozenset({StepSide.LEFT, StepSide.RIGHT})


def waiting_words(step: Step) -> tuple[str, str]:
    """What is waited for, and the tap that tells it."""
    if step.is_effort:
        return pauses.COUNTING_WAITS, pauses.DONE_COUNTING
    if step.kind is not StepKind.CHANGE:
        return pauses.ALL_RIGHT_WAITS, pauses.ALL_RIGHT
    return says.wait_words(step)


def word_of(state: PlayerState) -> str:
    """The one word over the count."""
    if state.status is Status.PAUSED:
        return says.PAUSED
    return says.CHANGE_SIDES if turns_round(state) else says.kind_word(state.step)


def word_now(live: Live) -> str:
    """The same of the session under way."""
    return word_of(live.now.state)


def turns_round(state: PlayerState) -> bool:
    """Whether this rest or set-up lies between the left and the right of one exercise."""
    coming = state.next_effort()
    if state.step.is_effort or state.step.kind is StepKind.CHANGE or coming is None:
        return False
    before = next((s for s in reversed(state.steps[:state.index]) if s.is_effort), None)
    return before is not None and before.exercise == coming.exercise and {before.side, coming.side} == ONE_SIDED


def phase_now(live: Live) -> Phase:
    """How the band is printed."""
    waits = live.status in (Status.PAUSED, Status.WAITING)
    return Phase.WAIT if waits else phase_of(live.now.state.step)


def phase_of(step: Step) -> Phase:
    """The same of a step that runs."""
    if step.is_effort:
        return Phase.WORK
    return Phase.REST if step.kind in (StepKind.REST, StepKind.ROUND_REST) else Phase.SETUP


def rounds_of(state: PlayerState) -> int:
    """Rounds of the main part."""
    return max((s.round or 1 for s in state.steps if s.part is Part.MAIN), default=1)
