"""The track as it is heard: each cue at its computed sample, found by an ear that knows nothing of the writer."""
from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from app.domain.model.body import parse_spot
from app.domain.model.client import Client, Place
from app.domain.model.diary import Diary
from app.domain.model.exercise import Mode, Sides
from app.domain.model.plan import Part, Step, StepKind
from app.domain.model.record import Hurt
from app.domain.player.player import HurtTold, LongerRest, Skipped, Started, Swapped, WentBack, apply
from app.domain.player.player_state import advance, open_player
from app.domain.player.tap_gates import Wait, waiting_steps
from app.domain.sound.audio_track import TAIL_MS, WAIT_MS, CueTrack, audible, lay_track, write_rest, write_track
from app.domain.sound.cues import Cue, CueKind, cues_of
from tests.domain import onsets
from tests.domain import strategies as own
from tests.domain.compile.test_timeline_properties import Small, small_plan
from tests.domain.shipped import SESSIONS, compiled, library
from tests.domain.sound.test_cues import timelines
from tests.sampling import examples

RATE = 16_000
HEADER = 44


def written(track: CueTrack) -> bytes:
    """The whole file."""
    out = io.BytesIO()
    write_track(track, out)
    return out.getvalue()


def computed(cues: Sequence[Cue]) -> list[onsets.Heard]:
    """Where each cue belongs: 16 samples a millisecond, and three seconds of room after each wait before it."""
    waits = [cue.at_ms for cue in cues if cue.kind is CueKind.WAITING]
    return [onsets.Heard(cue.kind.value, 16 * (cue.at_ms + 3_000 * sum(wait < cue.at_ms for wait in waits)))
            for cue in cues]


def assert_heard(steps: tuple[Step, ...], waits: frozenset[Wait]) -> None:
    """Every cue at its sample, in order, and nothing else; not one sample off."""
    waiting = waiting_steps(steps, waits, frozenset())
    heard = onsets.tones(written(lay_track(steps, waiting=waiting)))
    assert heard == computed(cues_of(steps, waiting=waiting))
    assert [h.at for h in heard] == sorted(h.at for h in heard)


@pytest.mark.whole(keep=4)
@pytest.mark.parametrize("session", SESSIONS)
def test_every_cue_of_a_shipped_session_is_heard_at_its_computed_sample(session: str) -> None:
    """Error 0 samples, in the order in which they were planned."""
    assert_heard(compiled(session).steps, frozenset(Wait) if len(session) % 2 else frozenset())


@settings(max_examples=examples(8, 150), deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
@given(own.small_sessions(), own.mild_diaries, own.bodies, own.rooms, st.frozensets(st.sampled_from(Wait)))
def test_every_cue_of_a_random_plan_is_heard_at_its_computed_sample(
    small: Small, diary: Diary, client: Client, place: Place, waits: frozenset[Wait],
) -> None:
    """Whatever the body, the room and the day make of a session."""
    plan = small_plan(small, client, place, diary)
    assume(plan.steps)
    assert_heard(plan.steps, waits)


def test_all_tones_lie_where_ageing_ears_still_hear() -> None:
    """400 to 1,000 Hz, as counted in the file."""
    _, frames = onsets.read(written(lay_track(compiled().steps)))
    assert all(400 <= burst.hz <= 1000 for burst in onsets.bursts(frames, RATE))


@settings(max_examples=examples(60, 2_000), deadline=None)
@given(timelines())
def test_cues_that_fall_together_give_way_to_what_tells_more(steps: tuple[Step, ...]) -> None:
    """For steps of any length at all: what is left is 60 ms apart and begins at its sample; starts and ends stay."""
    cues = cues_of(steps)
    waits = [cue.at_ms + 1 for cue in cues if cue.kind is CueKind.WAITING]
    kept = audible(cues, waits)
    at = {heard.at for heard in computed(cues)}
    sounds = lay_track(steps).sounds
    assert [s.name for s in sounds] == [cue.kind.value for cue in kept]
    assert all(sound.at in at for sound in sounds)
    assert all(b.at - a.at >= 60 * 16 and a.end <= b.at for a, b in pairwise(sounds))
    assert all(int.from_bytes(s.samples[:2], "little", signed=True) for s in sounds)
    ends = [cue for cue in cues if cue.kind is CueKind.FINISH]
    assert all(cue in kept for cue in ends)


def test_a_tone_that_would_run_into_the_next_is_cut_softly_and_before_it() -> None:
    """A rest tone of 650 ms, and the count 300 ms after it."""
    steps = (Step(StepKind.WORK, Part.MAIN, 0, 15_000, "a"), Step(StepKind.REST, Part.MAIN, 15_000, 3_300, "b"),
             Step(StepKind.WORK, Part.MAIN, 18_300, 15_000, "b"))
    _, rest, count, *_ = lay_track(steps).sounds
    assert (rest.name, count.name, count.at - rest.at) == ("rest", "count", 300 * 16)
    assert count.at - rest.end == 10 * 16
    last = memoryview(rest.samples).cast("h")[-128:]
    assert last[-1] == 0 and max(map(abs, last)) > 3_000
    assert max(abs(b - a) for a, b in pairwise(last)) < 5_000


def test_the_track_leaves_room_for_a_tap_after_each_change_of_position() -> None:
    """Three seconds in which it can be stopped before the next tone; positions before and after are told apart."""
    steps = (Step(StepKind.WORK, Part.MAIN, 0, 15_000, "a"), Step(StepKind.CHANGE, Part.MAIN, 15_000, 20_000, "b"),
             Step(StepKind.WORK, Part.MAIN, 35_000, 15_000, "b"))
    track = lay_track(steps)
    assert track.waits == (35_000,)
    assert [track.track_ms(at) for at in (0, 34_999, 35_000, 50_000)] == [0, 34_999, 35_000 + WAIT_MS, 50_000 + WAIT_MS]
    assert [track.position_ms(at) for at in (0, 34_999, 35_000, 37_999)] == [0, 34_999, 34_999, 34_999]
    assert [track.position_ms(at) for at in (38_000, 53_000)] == [35_000, 50_000]
    assert track.length == (50_000 + WAIT_MS + TAIL_MS) * 16
    assert all(sound.at % 16 == 0 and sound.end <= track.length for sound in track.sounds)


@given(timelines(), st.integers(0, 3_600_000))
def test_a_position_is_found_again_on_the_track(steps: tuple[Step, ...], at_ms: int) -> None:
    """There and back, for every position of every session."""
    track = lay_track(steps, kinds=frozenset())
    at_ms = min(at_ms, steps[-1].end_ms)
    assert track.position_ms(track.track_ms(at_ms)) == at_ms
    assert track.sounds == ()


# ------------------------------------------------------------------ writing

class Blocks(io.RawIOBase):
    """Remembers how large a block was written at once."""

    def __init__(self) -> None:
        self.sizes: list[int] = []

    def writable(self) -> bool:
        return True

    def write(self, data: object) -> int:
        self.sizes.append(len(memoryview(data)))  # type: ignore[arg-type]
        return self.sizes[-1]


def test_it_is_written_in_blocks_of_a_second_at_most() -> None:
    """No large array: what is written at once is a second of silence, a tone or a line."""
    out = Blocks()
    track = lay_track(compiled().steps)
    write_track(track, out)  # type: ignore[arg-type]
    assert max(out.sizes) <= 2 * 1_100 * 16
    assert sum(out.sizes) == HEADER + 2 * track.length


@settings(max_examples=examples(8, 150), deadline=None)
@given(st.sampled_from(SESSIONS), st.lists(st.floats(0, 1), min_size=1, max_size=4))
def test_from_any_sample_on_the_very_bytes_of_the_whole_are_written(session: str, places: list[float]) -> None:
    """Also from the middle of a tone, and from the end."""
    track = lay_track(compiled(session).steps)
    whole = written(track)
    inside = [sound.at + 700 for sound in track.sounds[::40]]
    for since in [0, track.length, *inside, *(int(place * track.length) for place in places)]:
        out = io.BytesIO()
        write_rest(track, out, since)
        assert out.getvalue() == whole[HEADER + 2 * since:]


EVENTS = st.one_of(
    st.just(LongerRest()), st.just(Skipped()), st.just(WentBack()),
    st.builds(Swapped, st.sampled_from(sorted(library())), st.sampled_from(sorted(library())),
              st.sampled_from(Sides), st.sampled_from(Mode), st.booleans()),
    st.builds(HurtTold, st.builds(Hurt, st.just(parse_spot("left knee")), st.integers(1, 3)),
              st.lists(st.sampled_from(sorted(library())), max_size=40).map(tuple)),
)


@settings(max_examples=examples(8, 150), deadline=None)
@given(st.sampled_from(SESSIONS), st.lists(st.tuples(st.floats(0, 1), EVENTS), min_size=1, max_size=3))
def test_after_a_change_the_rest_alone_is_written_anew(session: str, story: list[tuple[float, object]]) -> None:
    """Kept up to the change, written from there: what follows is, byte for byte, that of the changed session."""
    state = apply(open_player(compiled(session)), Started())
    file = written(lay_track(state.steps))
    for share, event in story:
        state = advance(state, state.at_ms + int(share * (state.total_ms - state.at_ms)))
        at_ms = state.at_ms
        state = apply(apply(state, event), Started())  # type: ignore[arg-type]
        track = lay_track(state.steps)
        since = min(track.sample(min(at_ms, state.at_ms)), track.length)
        out = io.BytesIO()
        write_rest(track, out, since)
        file = written(track)[:HEADER] + file[HEADER:HEADER + 2 * since] + out.getvalue()
        assert file[HEADER + 2 * since:] == written(track)[HEADER + 2 * since:]
        assert len(file) == HEADER + 2 * track.length


def test_longer_rest_moves_every_later_cue_by_its_length() -> None:
    """Fifteen seconds more: 240,000 samples."""
    plan = compiled()
    state = advance(apply(open_player(plan), Started()), plan.steps[1].end_ms + 1_000)
    rest = next(i for i, s in enumerate(state.steps) if i > state.index and s.kind is StepKind.REST)
    state = advance(state, state.steps[rest].start_ms + 1_000)
    later = apply(state, LongerRest())
    before = [h for h in computed(cues_of(state.steps)) if h.at > state.at_ms * 16 + 48_000]
    after = onsets.tones(written(lay_track(later.steps)))[-len(before):]
    assert after == [replace_at(h, 15_000 * 16) for h in before]


def replace_at(heard: onsets.Heard, by: int) -> onsets.Heard:
    """The same tone so many samples later."""
    return heard._replace(at=heard.at + by)


def test_only_the_kinds_that_were_asked_for_sound() -> None:
    """With tones switched off the track is silent, and as long."""
    steps = compiled().steps
    silent = lay_track(steps, kinds=frozenset())
    assert silent.length == lay_track(steps).length
    assert not written(silent)[HEADER:].strip(b"\0")
    heard = onsets.tones(written(lay_track(steps, kinds=frozenset({CueKind.REST}))))
    assert heard == [due for due in computed(cues_of(steps)) if due.name == "rest"]


def test_a_session_without_steps_has_a_track_of_silence() -> None:
    """Nothing to do, nothing to hear, no crash."""
    assert lay_track(()).sounds == ()
    assert len(written(lay_track(()))) == HEADER + 2 * TAIL_MS * 16


def test_a_step_of_no_length_is_not_heard() -> None:
    """What was left out on the way is silent."""
    steps = compiled().steps
    gone = replace(steps[3], length_ms=0)
    assert all(cue.index != 3 for cue in cues_of((*steps[:3], gone)))
