"""What is said in a rest: safety first, never into the count-in, and never over a tone."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.model.exercise import Cues, Exercise
from app.domain.model.plan import ChangeStage, Part, Step, StepKind, StepSide
from app.domain.player.tap_gates import Wait, waiting_steps
from app.domain.sound.audio_track import lay_track
from app.domain.sound.cues import Cue, CueKind, cues_of
from app.domain.sound.tones import tone_ms
from app.domain.sound.voice_lines import (
    BETWEEN_MS,
    Said,
    SpokenLine,
    change_line,
    change_lines,
    exercise_lines,
    plan_lines,
    side_lines,
)
from tests.domain import onsets
from tests.domain.days import PLAIN
from tests.domain.shipped import SESSIONS, compiled, library
from tests.domain.sound.test_audio_track import written
from tests.domain.sound.test_cues import timelines
from tests.sampling import examples

K = StepKind
TOLD = Cues(set_up=("Stand tall.", "Feet apart."), safety=("Hold on.",))
KNOWN = {name: replace(PLAIN, id=name, cues=TOLD) for name in ("a", "b")}
CLIPS = [line.clip for one in KNOWN.values() for line in exercise_lines(one)] + [
    line.clip for line in (*side_lines(), *change_lines())]
LONG = dict.fromkeys(CLIPS, 1000)


def session(rest_s: int, *, side: StepSide | None = StepSide.LEFT, other: str = "b") -> tuple[Step, ...]:
    """Work, a rest of so many seconds with a set-up of 5 s, work."""
    lengths = [(K.WORK, 20_000, "a", side), (K.REST, rest_s * 1000, other, None), (K.SETUP, 5_000, other, None),
               (K.WORK, 20_000, other, side if other == "b" else StepSide.RIGHT)]
    steps: list[Step] = []
    for kind, length, name, which in lengths:
        steps.append(Step(kind, Part.MAIN, steps[-1].end_ms if steps else 0, length, name, which))
    return tuple(steps)


def said(steps: tuple[Step, ...], lengths: Mapping[str, int], from_ms: int = 0) -> list[SpokenLine]:
    """The lines before the second work."""
    return [line for line in plan_lines(steps, cues_of(steps), KNOWN, lengths, from_ms) if line.at_ms >= 20_000]


def test_with_time_enough_everything_is_said_in_its_usual_order() -> None:
    """The name, the side, how to set up, what to take care of."""
    heard = said(session(10), LONG)
    assert [line.line.said for line in heard] == [Said.NAME, Said.SIDE, Said.SET_UP, Said.SET_UP, Said.SAFETY]
    assert [line.line.number for line in heard][2:4] == [1, 2]
    assert all(b.at_ms - a.at_ms == 1_000 + BETWEEN_MS for a, b in pairwise(heard))


def test_where_time_is_short_safety_stays_longest_and_set_up_goes_first() -> None:
    """One line after another gives way: set-up from its end, then the name, then the side."""
    everything = [Said.SAFETY, Said.SIDE, Said.NAME, Said.SET_UP, Said.SET_UP]
    counts = []
    for rest in range(1, 9):
        lines = sorted(line.line.said for line in said(session(rest), LONG))
        assert lines == everything[:len(lines)]
        counts.append(len(lines))
    assert counts == sorted(counts) and set(counts) >= {1, 2, 3, 4, 5}


def test_a_line_that_is_too_long_gives_way_to_a_lesser_one_that_fits() -> None:
    """Ten seconds of safety fit into no rest of four; the side still does."""
    heard = said(session(4), LONG | {"voice/b/safety-1.wav": 10_000})
    assert [line.line.said for line in heard][:2] == [Said.NAME, Said.SIDE]


def test_the_other_side_of_the_same_exercise_is_told_by_its_side_alone() -> None:
    """Nobody needs the name again."""
    heard = said(session(10, other="a"), LONG)
    assert [(line.line.said, line.line.about) for line in heard] == [(Said.SIDE, "right")]


def test_set_up_is_said_once_and_safety_each_time() -> None:
    """When an exercise comes again, one knows how to set up."""
    first, again = session(10), session(10)
    moved = tuple(replace(step, start_ms=step.start_ms + first[-1].end_ms) for step in again)
    rest = Step(K.REST, Part.MAIN, first[-1].end_ms, 20_000, "a")
    later = tuple(replace(step, start_ms=step.start_ms + 20_000) for step in moved)
    steps = (*first, rest, *later)
    heard = [line for line in plan_lines(steps, cues_of(steps), KNOWN, LONG) if line.at_ms > rest.start_ms]
    assert {line.line.said for line in heard} == {Said.NAME, Said.SIDE, Said.SAFETY}


def test_without_recordings_nothing_is_said() -> None:
    """Tones and text alone."""
    assert plan_lines(session(10), cues_of(session(10)), KNOWN, {}) == ()


def getting_up(rest_s: int = 20) -> tuple[Step, ...]:
    """Work lying down, up from the floor with a sit and a stand, work."""
    lengths = [(K.WORK, 20_000, "a", None, None), (K.CHANGE, 8_000, "b", False, None),
               (K.CHANGE, 30_000, "b", None, ChangeStage.SIT), (K.CHANGE, 15_000, "b", None, ChangeStage.STAND),
               (K.REST, rest_s * 1000, "b", None, None), (K.WORK, 20_000, "b", None, None)]
    steps: list[Step] = []
    for kind, length, name, floor, stage in lengths:
        steps.append(Step(kind, Part.MAIN, steps[-1].end_ms if steps else 0, length, name, to_floor=floor, stage=stage))
    return tuple(steps)


def test_each_part_of_getting_up_is_said_as_it_begins() -> None:
    """Up, sit, stand, each within its own step and before anything about the exercise."""
    steps = getting_up()
    lengths = LONG | {line.clip: 3_000 for line in change_lines()}
    heard = [(line.line.about, line.at_ms) for line in said(steps, lengths) if line.line.said is Said.CHANGE]
    assert [about for about, _ in heard] == ["from-floor", "change-sit", "change-stand"]
    for (_, at_ms), step in zip(heard, steps[1:4], strict=True):
        assert step.start_ms <= at_ms <= step.start_ms + 1_000 and at_ms + 3_000 <= step.end_ms
    others = [line for line in said(steps, lengths) if line.line.said is not Said.CHANGE]
    assert {line.line.said for line in others} == {Said.NAME, Said.SET_UP, Said.SAFETY}


def test_how_to_get_up_gives_way_to_nothing_and_is_cut_by_nothing() -> None:
    """With hardly any rest the other lines go; a line longer than its own step is left to the screen."""
    lengths = LONG | {line.clip: 7_000 for line in change_lines()} | {"voice/change-stand.wav": 16_000}
    heard = [line.line.about for line in said(getting_up(0), lengths) if line.line.said is Said.CHANGE]
    assert heard == ["from-floor", "change-sit"]


def test_every_change_of_a_shipped_session_has_a_line_of_its_own() -> None:
    """Whoever lies down and gets up again hears each part."""
    known = {line.clip for line in change_lines()}
    for name in SESSIONS:
        for step in compiled(name).steps:
            assert step.kind is not K.CHANGE or change_line(step).clip in known
    assert len(known) == 2 + len(ChangeStage)


def test_after_a_change_on_the_way_the_rest_of_the_rest_tells_the_new_exercise() -> None:
    """From there on, and nothing twice."""
    steps = session(20)
    heard = said(steps, LONG, from_ms=30_000)
    assert heard[0].line.said is Said.NAME and 30_000 < heard[0].at_ms < 30_500
    assert said(steps, LONG, from_ms=43_500) == []


@st.composite
def voices(draw: st.DrawFn) -> dict[str, int]:
    """How long each recording is, ms; some are missing."""
    lengths = st.integers(100, 9_000)
    return {clip: draw(lengths) for clip in CLIPS if draw(st.integers(0, 5))}


@settings(max_examples=examples(150, 5_000), deadline=None)
@given(timelines(), voices(), st.frozensets(st.integers(0, 29)), st.integers(0, 600_000))
def test_no_line_overlaps_the_count_in_a_tone_or_another_line(
    steps: tuple[Step, ...], lengths: dict[str, int], waiting: frozenset[int], from_ms: int,
) -> None:
    """For any steps, any recordings, any waits: between two stretches of work, in silence."""
    cues = cues_of(steps, waiting=waiting)
    lines = plan_lines(steps, cues, KNOWN, lengths, from_ms)
    spans = [(line.at_ms, line.at_ms + lengths[line.line.clip]) for line in lines]
    assert all(a[1] <= b[0] for a, b in pairwise(spans))
    assert all(start >= from_ms for start, _ in spans)
    for start, end in spans:
        assert not any(overlaps(cue, start, end) for cue in cues)
        # work of no length is no work: nobody does anything then, and the program tells nothing of it
        worked = [step for step in steps if step.is_effort and step.length_ms]
        assert not any(step.start_ms < end and start < step.end_ms for step in worked)
        coming = next(step for step in steps if step.is_effort and step.length_ms and step.start_ms >= end)
        # what counted in the work before has been heard by then
        before = max((step.end_ms for step in steps if step.is_effort and step.end_ms <= start), default=0)
        counted = [cue.at_ms for cue in cues if cue.kind is CueKind.COUNT
                   and max(before, coming.start_ms - 3_000) <= cue.at_ms < coming.start_ms]
        assert not counted or end <= min(counted)


def overlaps(cue: Cue, start: int, end: int) -> bool:
    """Whether a tone sounds while something is said; a call for a tap has its own time on the track."""
    length = 1 if cue.kind is CueKind.WAITING else tone_ms(cue.kind)
    return start < cue.at_ms + length and cue.at_ms < end


def voice_of(known: Mapping[str, Exercise]) -> dict[str, bytes]:
    """A quiet recording of each line, each with its own length."""
    lines = [*side_lines(), *change_lines(), *(line for one in known.values() for line in exercise_lines(one))]
    return {line.clip: b"\x05\x00" * (16 * (700 + 37 * (place % 40))) for place, line in enumerate(lines)}


def test_on_the_track_of_a_shipped_session_lines_are_heard_apart_from_every_tone() -> None:
    """By listening alone: as many lines as were planned, at their samples, and all tones still at theirs."""
    clips = voice_of(library())
    for name in SESSIONS[:: max(1, len(SESSIONS) // examples(2, 30))]:
        steps = compiled(name).steps
        waiting = waiting_steps(steps, frozenset({Wait.ALL_RIGHT}), frozenset())
        track = lay_track(steps, library=library(), clips=clips, waiting=waiting)
        silent = lay_track(steps, waiting=waiting)
        file = written(track)
        assert onsets.tones(file) == onsets.tones(written(silent))
        heard = onsets.quiet(file)
        assert [(b.start, b.end) for b in heard] == [(s.at, s.end) for s in track.sounds if "/" in s.name]
        assert len(heard) > 20
