"""What the player's card says at a moment: the word, the side, the name, one cue of several, and the taps."""
from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from app.actions.training.playing import Playing
from app.domain.model.exercise import Exercise
from app.domain.model.plan import Step, StepKind, StepSide
from app.domain.player.player_state import PlayerState, Status
from app.domain.player.repetition_count import repetition
from app.ui.client.player.room.measures import WordsToFit
from app.ui.client.player.step_words import ONE_SIDED, rounds_of, waiting_words, word_of
from app.words.client import lead, pauses
from app.words.client import player as says
from app.words.positions import change_words

CUE_MS = 8_000
"""A cue stands at least so long."""


class Tap(Enum):
    """What may be pressed beside Pause and "That hurts"."""

    MORE_REST = says.LONGER_REST_SHORT
    READY = pauses.READY_NOW
    ANSWER = "what is waited for"
    BACK = says.BACK
    SKIP = says.SKIP
    END = says.END_SHORT


@dataclass(frozen=True)
class CardWords:
    """What is on the card now."""

    state: PlayerState
    word: str
    side: str
    """`Left`, before the work `Left next`; empty for both at once."""
    aside: str
    """Where no side stands: the repetition, or the round."""
    name: str
    easier: Exercise | None
    amount: str
    cues: tuple[str, ...]
    cue: int
    taps: tuple[Tap, ...]
    after: str
    """What comes next, in a line."""

    @property
    def spoken(self) -> str:
        """WordsToFit aloud when it changes; without the seconds."""
        return ", ".join(words for words in (self.word, self.name, self.side) if words)

    @property
    def opened(self) -> bool:
        """Whether all cues are shown."""
        return self.state.status is Status.PAUSED

    @property
    def main(self) -> str:
        """On the main button."""
        if self.state.status is Status.WAITING:
            return waiting_words(self.state.step)[1]
        return says.PAUSE if self.state.status is Status.RUNNING else says.GO_ON

    def tap_words(self) -> tuple[str, ...]:
        """On the faces of the other taps."""
        return tuple(waiting_words(self.state.step)[1] if tap is Tap.ANSWER else tap.value for tap in self.taps)


def card_words(playing: Playing, fault: str = "") -> CardWords:
    """Of a session. `fault`: what went wrong with keeping it, which stands in the place of a cue."""
    state = playing.state
    step = state.step
    coming = step if step.is_effort else state.next_effort() or step
    found = playing.library.get((step.exercise or coming.exercise) or "")
    number = repetition(state)
    counted = pauses.repetition_words(number, step.reps or 0) if number else ""
    word = word_of(state)
    name = found.name if found else word
    cues, cue = _cues(playing, found)
    if fault:
        cues, cue = (f"{fault} {says.NO_STORE_NEXT}", *cues), 0
    return CardWords(
        state, word, _side(step, coming.side), counted or says.where_word(step, rounds_of(state)).capitalize(),
        says.then(name) if step.kind is StepKind.CHANGE and found else name, playing.easier(),
        says.amount(coming, pounds=playing.person.pounds), cues, cue, _taps(state), _after(playing))


def said_of(now: CardWords, playing: Playing, *, undo: bool) -> WordsToFit:
    """The same as what the page is asked to hold, the same for a whole step."""
    state = now.state
    waits = state.status is Status.WAITING
    widest = max(state.step.reps or 0, 1)
    tag = now.side or (pauses.repetition_words(widest, widest) if repetition(state) else now.aside)
    return WordsToFit(
        now.word, "" if waits else tag, now.name, now.cues, now.easier.name if now.easier else says.NO_EASIER,
        now.amount, max(2, len(says.count_words(state.step.length_ms))),
        waiting_words(state.step)[0] if waits else "", now.main, now.tap_words(),
        says.whose(playing.person.name) if playing.led else "",
        lead.not_themselves(playing.person.sex) if playing.led else "", now.after, now.opened, undo)


def _side(step: Step, side: StepSide | None) -> str:
    if side not in ONE_SIDED:
        return ""
    word = says.SIDES[side]
    return word if step.is_effort else says.side_next(word)


def _cues(playing: Playing, found: Exercise | None) -> tuple[tuple[str, ...], int]:
    """All of them in order, and which one is shown: each stands eight seconds, a further stretch goes on with the next.
    """
    state = playing.state
    step = state.step
    lines = _led_lines(step, found) if playing.led else _lines(step, found)
    into = max(0, state.at_ms - step.start_ms) // CUE_MS
    if _asks_all_right(state):
        return (pauses.ALL_RIGHT_ASKED, *lines), into % (len(lines) + 1)
    earlier = sum(s.is_effort and s.exercise == step.exercise for s in state.steps[:state.index])
    at = 0 if state.status is Status.WAITING or not lines else (earlier + into) % len(lines)
    return lines, at


def _lines(step: Step, found: Exercise | None) -> tuple[str, ...]:
    down = (change_words(step)[1],) if step.kind is StepKind.CHANGE else ()
    if found is None:
        return down
    cues = found.cues
    said = (*cues.action, cues.breath) if step.is_effort else cues.set_up
    return (*down, *(line for line in said if line), *(says.care(line) for line in cues.safety))


def _led_lines(step: Step, found: Exercise | None) -> tuple[str, ...]:
    down = lead.change_lines(step) if step.kind is StepKind.CHANGE else ()
    return down or (lead.lines_for(found, step) if found else ())


def _asks_all_right(state: PlayerState) -> bool:
    """Whether somebody alone is asked in this rest, and has not answered."""
    step = state.step
    asked = not step.is_effort and step.kind is not StepKind.CHANGE and state.index in state.waiting()
    return asked and state.status in (Status.RUNNING, Status.PAUSED)


def _taps(state: PlayerState) -> tuple[Tap, ...]:
    if state.status is Status.PAUSED or (state.status is Status.WAITING and state.step.kind is StepKind.CHANGE):
        return Tap.BACK, Tap.SKIP, Tap.END
    if state.status is Status.WAITING:
        return ()
    if state.step.is_effort or state.step.kind is StepKind.CHANGE:
        return (Tap.ANSWER,) if state.index in state.waiting() else ()  # of a change, where it awaits a tap
    if _asks_all_right(state):
        return Tap.MORE_REST, Tap.ANSWER
    return (Tap.MORE_REST, Tap.READY) if state.next_effort() else (Tap.MORE_REST,)


def _after(playing: Playing) -> str:
    state = playing.state
    step = next_after(state)
    if step is None:
        return says.LAST_ONE
    found = playing.library.get(step.exercise or "")
    return says.next_line(found.name if found else "", step, resting=not state.step.is_effort)


def next_after(state: PlayerState) -> Step | None:
    """The work after what is shown: in a rest, the one after the next."""
    ahead = [s for i, s in enumerate(state.steps[state.index + 1:], state.index + 1)
             if s.is_effort and s.length_ms and i not in state.passed_by]
    skip = 0 if state.step.is_effort else 1
    return ahead[skip] if len(ahead) > skip else None
