"""Cues lie inside their step, tell sides from rests, and never pile up."""
from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from app.domain.model.plan import Part, Step, StepKind, StepSide
from app.domain.sound.cues import BUZZ, Buzz, CueKind, cues_of, sounding
from app.domain.sound.tones import TONES

K = StepKind


def laid(*steps: tuple[StepKind, int] | tuple[StepKind, int, StepSide]) -> tuple[Step, ...]:
    """Steps of so many seconds, end to end."""
    out: list[Step] = []
    at = 0
    for kind, seconds, *side in steps:
        out.append(Step(kind, Part.MAIN, at, seconds * 1000, "heel-raise", side[0] if side else None))
        at = out[-1].end_ms
    return tuple(out)


def told(steps: tuple[Step, ...], confirmed: frozenset[int] = frozenset()) -> list[tuple[str, int]]:
    return [(cue.kind.value, cue.at_ms) for cue in cues_of(steps, confirmed)]


@st.composite
def timelines(draw: st.DrawFn) -> tuple[Step, ...]:
    pairs = draw(st.lists(st.tuples(st.sampled_from(K), st.integers(0, 120_000)), min_size=1, max_size=30))
    sides = st.sampled_from([None, *StepSide])
    steps: list[Step] = []
    at = 0
    for kind, length in pairs:
        steps.append(Step(kind, Part.MAIN, at, length, draw(st.sampled_from(["a", "b"])), draw(sides)))
        at += length
    return tuple(steps)


@given(timelines(), st.frozensets(st.integers(0, 29)))
def test_every_cue_lies_inside_its_step(steps: tuple[Step, ...], confirmed: frozenset[int]) -> None:
    """start ≤ at < end, for any steps at all, and the cues come in order."""
    cues = cues_of(steps, confirmed)
    assert all(steps[c.index].start_ms <= c.at_ms < steps[c.index].end_ms for c in cues)
    assert [c.at_ms for c in cues] == sorted(c.at_ms for c in cues)


@given(timelines())
def test_the_end_is_told_once(steps: tuple[Step, ...]) -> None:
    """One finish, the last of all; none where nothing has a length."""
    finishes = [c for c in cues_of(steps) if c.kind is CueKind.FINISH]
    assert len(finishes) == (1 if any(s.length_ms for s in steps) else 0)
    assert not finishes or finishes[0].at_ms == steps[-1].end_ms - 1


@given(timelines(), st.integers(0, 3_600_000), st.integers(0, 600_000))
def test_a_late_cue_is_dropped(steps: tuple[Step, ...], start: int, length: int) -> None:
    """However far the position jumps, at most one cue comes, and not one whose moment has gone."""
    cue = sounding(cues_of(steps), start, start + length)
    if cue is not None and cue.kind not in (CueKind.FINISH, CueKind.WAITING):
        assert start < cue.at_ms <= start + length
        assert start + length - cue.at_ms <= 700


def test_work_is_counted_in_and_marked() -> None:
    """3-2-1 in the set-up; start, half and last ten in the work; rest after it; the end at the end."""
    steps = laid((K.SETUP, 10), (K.WORK, 40), (K.REST, 20))
    assert told(steps) == [
        ("count", 7_000), ("count", 8_000), ("count", 9_000), ("work", 10_000), ("halfway", 30_000),
        ("last_ten", 40_000), ("rest", 50_000), ("finish", 69_999),
    ]


def test_the_other_side_is_told_apart_from_a_rest() -> None:
    """Between left and right of one exercise it is "change side", not "rest"."""
    steps = laid((K.WORK, 15, StepSide.LEFT), (K.REST, 10, StepSide.RIGHT), (K.WORK, 15, StepSide.RIGHT), (K.REST, 9))
    kinds = [kind for kind, _ in told(steps)]
    assert kinds == ["work", "change_side", "count", "count", "count", "work", "rest", "finish"]
    other = (steps[0], replace(steps[1], exercise="hip-lift"), replace(steps[2], exercise="hip-lift"), steps[3])
    assert [kind for kind, _ in told(other)][1] == "rest"


def test_short_work_has_few_cues() -> None:
    """Under 20 s no halfway, under 30 s no last ten: they would run into the start and the end."""
    assert [kind for kind, _ in told(laid((K.WORK, 19)))] == ["work", "finish"]
    assert [kind for kind, _ in told(laid((K.HOLD, 29)))] == ["work", "halfway", "finish"]


def test_a_change_that_waits_is_not_counted_down() -> None:
    """Getting down to the floor ends with a call for a tap; once tapped before, the count is back."""
    steps = laid((K.WORK, 15), (K.CHANGE, 20), (K.WORK, 15))
    assert ("waiting", 34_999) in told(steps)
    assert all(kind != "count" for kind, _ in told(steps))
    assert [at for kind, at in told(steps, frozenset({1})) if kind == "count"] == [32_000, 33_000, 34_000]


def test_every_cue_has_a_tone_and_a_pattern() -> None:
    """A sound for each kind, and of the vibrations none is left over."""
    assert set(TONES) == set(CueKind)
    assert set(BUZZ.values()) == set(Buzz)
    assert set(BUZZ) == set(CueKind) - {CueKind.TICK}


def test_counted_movements_tick_at_their_tempo_where_nothing_else_is_told() -> None:
    """At the end of each repetition, not in a work that counts by time, and not beside another cue."""
    steps = laid((K.SETUP, 10), (K.WORK, 24), (K.REST, 20), (K.WORK, 24))
    counted = (*steps[:1], replace(steps[1], reps=8), *steps[2:])
    cues = cues_of(counted)
    assert [c.at_ms for c in cues if c.kind is CueKind.TICK] == [13_000, 16_000, 19_000, 25_000, 28_000, 31_000]
    assert next(c.at_ms for c in cues if c.kind is CueKind.HALFWAY) == 22_000
    assert all(c.kind is not CueKind.TICK for c in cues_of(steps))


@given(timelines(), st.integers(1, 40), st.frozensets(st.integers(0, 29)))
def test_ticks_keep_out_of_the_way_of_every_other_cue(
    steps: tuple[Step, ...], reps: int, waiting: frozenset[int],
) -> None:
    """In order, inside their step, and the other cues are the same as without them."""
    counted = tuple(replace(step, reps=reps) for step in steps)
    cues = cues_of(counted, waiting=waiting)
    assert [c.at_ms for c in cues] == sorted(c.at_ms for c in cues)
    assert all(counted[c.index].start_ms <= c.at_ms < counted[c.index].end_ms for c in cues)
    others = [c for c in cues if c.kind is not CueKind.TICK]
    assert others == list(cues_of(steps, waiting=waiting))
    for tick in (c for c in cues if c.kind is CueKind.TICK):
        assert all(not -200 < tick.at_ms - c.at_ms < 700 for c in others if c.index == tick.index)


def test_any_step_may_wait_for_a_tap() -> None:
    """Counted movements and a rest before a round too: then the call for a tap stands at its end."""
    steps = laid((K.WORK, 15), (K.REST, 20), (K.WORK, 15))
    cues = cues_of(steps, waiting=frozenset({0, 1}))
    assert [c.at_ms for c in cues if c.kind is CueKind.WAITING] == [14_999, 34_999]
    assert all(c.kind is not CueKind.COUNT for c in cues)
