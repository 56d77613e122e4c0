"""What a voice says during a session: which lines, in which rest, and which give way where time is short.

A line is a recording of the coach, or of a speech engine, that the pack carries; its file's name says what it is.
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum

from app.domain.model.exercise import Exercise
from app.domain.model.plan import ChangeStage, Step, StepKind, StepSide
from app.domain.sound.cues import Cue, CueKind
from app.domain.sound.tones import tone_ms

AROUND_MS = 150
"""Silence between a line and a tone."""
BETWEEN_MS = 300
"""Silence between two lines."""
VOICE = "voice"
SPOKEN_SIDES = (StepSide.LEFT, StepSide.RIGHT)
TO_FLOOR, FROM_FLOOR = "to-floor", "from-floor"
CHANGES = {stage: f"change-{stage.value}" for stage in ChangeStage}
"""What the line of each other part of a change is called."""


class Said(IntEnum):
    """What a line tells. The first stays where time is short, the last gives way first."""

    SAFETY = 0
    SIDE = 1
    NAME = 2
    SET_UP = 3
    CHANGE = 4
    """How to get down or up: at the beginning of that part of the change, before anything else."""


#: The order in which the others are heard.
HEARD = (Said.NAME, Said.SIDE, Said.SET_UP, Said.SAFETY)


@dataclass(frozen=True, order=True)
class VoiceLine:
    """One thing to say, about an exercise, a side or a part of a change; `number` counts lines of one kind from 1."""

    said: Said
    about: str
    number: int = 1

    @property
    def clip(self) -> str:
        """Where its recording lies in a pack."""
        if self.said in (Said.SIDE, Said.CHANGE):
            return f"{VOICE}/{self.about}.wav"
        last = {Said.NAME: "name", Said.SET_UP: f"set-up-{self.number}", Said.SAFETY: f"safety-{self.number}"}
        return f"{VOICE}/{self.about}/{last[self.said]}.wav"


@dataclass(frozen=True)
class SpokenLine:
    """A line and the position at which it begins; it has ended before the next tone, and before the count-in."""

    line: VoiceLine
    at_ms: int


def exercise_lines(exercise: Exercise) -> tuple[VoiceLine, ...]:
    """Every line about an exercise, in the order in which they are heard."""
    counts = {Said.NAME: 1, Said.SET_UP: len(exercise.cues.set_up), Said.SAFETY: len(exercise.cues.safety)}
    return tuple(VoiceLine(said, exercise.id, number + 1) for said in HEARD for number in range(counts.get(said, 0)))


def side_lines() -> tuple[VoiceLine, ...]:
    """The lines that tell a side."""
    return tuple(VoiceLine(Said.SIDE, side.value) for side in SPOKEN_SIDES)


def change_line(step: Step) -> VoiceLine:
    """The line of one part of a change of position."""
    floor = FROM_FLOOR if step.to_floor is False else TO_FLOOR
    return VoiceLine(Said.CHANGE, CHANGES.get(step.stage, floor) if step.stage else floor)


def change_lines() -> tuple[VoiceLine, ...]:
    """The lines of every part of a change of position."""
    return tuple(VoiceLine(Said.CHANGE, about) for about in (TO_FLOOR, FROM_FLOOR, *CHANGES.values()))


def plan_lines(steps: Sequence[Step], cues: Sequence[Cue], library: Mapping[str, Exercise],
               lengths: Mapping[str, int], from_ms: int = 0) -> tuple[SpokenLine, ...]:
    """Where each line is said. `lengths`: clip → ms; a line without a clip is not said.

    Nothing is said before `from_ms`: where a session changes on the way, its rest tells the new exercise.
    """
    found: list[SpokenLine] = []
    told: set[str] = set()
    before: Step | None = None
    begins = 0
    for step in steps:
        if not step.is_effort or not step.length_ms:
            continue
        if step.start_ms > max(begins, from_ms):
            windows = _windows([cue for cue in cues if begins <= cue.at_ms < step.start_ms],
                               max(begins, from_ms), step.start_ms)
            how = list(_changes([s for s in steps if begins <= s.start_ms < step.start_ms], windows, lengths, from_ms))
            found += how
            found += _fitting(_wanted(step, before, library, told), _without(windows, how, lengths), lengths)
            found.sort(key=lambda spoken: spoken.at_ms)
        told.add(step.exercise or "")
        before, begins = step, step.end_ms
    return tuple(found)


def _wanted(step: Step, before: Step | None, library: Mapping[str, Exercise], told: set[str]) -> list[VoiceLine]:
    """Every line before some work. Set-up lines once; of an exercise that goes on only the side."""
    exercise = library.get(step.exercise or "")
    side = [VoiceLine(Said.SIDE, step.side.value)] if step.side in SPOKEN_SIDES else []
    if exercise is None or (before is not None and before.exercise == step.exercise):
        return side
    lines = [*exercise_lines(exercise), *side]
    return [line for line in lines if line.said is not Said.SET_UP or exercise.id not in told]


def _windows(cues: Sequence[Cue], start_ms: int, end_ms: int) -> list[tuple[int, int]]:
    """The silences between two stretches of work, without a margin around tones; the count-in ends the last one."""
    counted = [cue.at_ms for cue in cues if cue.kind is CueKind.COUNT]
    last = min([*counted, end_ms]) - AROUND_MS
    windows, at = [], start_ms + AROUND_MS
    for cue in cues:
        if cue.at_ms > last:
            break
        windows.append((at, min(cue.at_ms - AROUND_MS, last)))
        # what follows a call for a tap waits for it, so that the tone has long ended
        sounds = 1 if cue.kind is CueKind.WAITING else tone_ms(cue.kind)
        at = max(at, cue.at_ms + sounds + AROUND_MS)
    return [(a, b) for a, b in [*windows, (at, last)] if a < b]


def _changes(steps: Sequence[Step], windows: Sequence[tuple[int, int]], lengths: Mapping[str, int], from_ms: int
             ) -> Iterator[SpokenLine]:
    """The line of each change that begins here, within its own step: how to get up safely gives way to nothing."""
    for step in steps:
        line = change_line(step)
        if step.kind is not StepKind.CHANGE or line.clip not in lengths or step.start_ms < from_ms:
            continue
        within = [(max(a, step.start_ms), min(b, step.end_ms)) for a, b in windows]
        room = next((a for a, b in within if a + lengths[line.clip] <= b), None)
        if room is not None:
            yield SpokenLine(line, room)


def _without(windows: Sequence[tuple[int, int]], said: Sequence[SpokenLine], lengths: Mapping[str, int]
             ) -> list[tuple[int, int]]:
    """What is left of silences once these lines are said in them."""
    left = list(windows)
    for spoken in said:
        begin, end = spoken.at_ms - BETWEEN_MS, spoken.at_ms + lengths[spoken.line.clip] + BETWEEN_MS
        halves = [half for a, b in left for half in ((a, min(b, begin)), (max(a, end), b))]
        left = [(a, b) for a, b in halves if a < b]
    return left


def _fitting(wanted: Sequence[VoiceLine], windows: list[tuple[int, int]],
             lengths: Mapping[str, int]) -> list[SpokenLine]:
    """As many lines as fit, the more important ones first; heard in their usual order."""
    chosen: list[VoiceLine] = []
    laid: list[SpokenLine] = []
    for line in sorted(wanted):
        if line.clip not in lengths:
            continue
        more = sorted([*chosen, line], key=lambda one: (HEARD.index(one.said), one.number))
        tried = list(_laid(more, windows, lengths))
        if len(tried) == len(more):
            chosen, laid = more, tried
    return laid


def _laid(lines: Sequence[VoiceLine], windows: list[tuple[int, int]],
          lengths: Mapping[str, int]) -> Iterator[SpokenLine]:
    """Lines one after another, each in the first window that has room; ends where one has none."""
    place, at = 0, windows[0][0] if windows else 0
    for line in lines:
        while place < len(windows) and max(at, windows[place][0]) + lengths[line.clip] > windows[place][1]:
            place += 1
        if place == len(windows):
            return
        at = max(at, windows[place][0])
        yield SpokenLine(line, at)
        at += lengths[line.clip] + BETWEEN_MS
