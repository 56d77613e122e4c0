"""The sound of a session as one track: each cue at its exact sample, silence between, lines where they fit.

Time on the track is the position in the session, with one difference: after a step that waits for a tap there are
`WAIT_MS` of room, in which the track can be stopped before the next cue sounds.
"""
from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import BinaryIO

from app.domain.model.exercise import Exercise
from app.domain.model.plan import Step
from app.domain.sound.cues import Cue, CueKind, cues_of
from app.domain.sound.tones import tone_bytes
from app.domain.sound.voice_lines import plan_lines
from app.domain.sound.wav import BYTES, PER_MS, RATE, length_ms, wav_header

WAIT_MS = 3_000
"""Room after a change that waits: longer than its tone and than a stop may take."""
TAIL_MS = 1_500
"""After the end, for the last tone to sound."""
APART_MS = 60
"""Two cues nearer than this are one to the ear: the lesser is left to the eye and the hand."""
GAP_MS = 10
"""Silence before a tone that comes while another one sounds: the earlier gives way."""
FADE_MS = 8
EVERY = frozenset(CueKind)
LESSER = frozenset({CueKind.COUNT, CueKind.HALFWAY, CueKind.LAST_TEN, CueKind.TICK})
SILENCE = bytes(RATE * BYTES)
"""A second of it."""


@dataclass(frozen=True)
class Sound:
    """Samples laid at a sample. `name` is a kind of cue or the file of a spoken line."""

    name: str
    at: int
    samples: bytes

    @property
    def end(self) -> int:
        """The first sample after it."""
        return self.at + len(self.samples) // BYTES

    @property
    def is_line(self) -> bool:
        """Whether it is something said: files have a folder, kinds of cue have none."""
        return "/" in self.name


@dataclass(frozen=True)
class CueTrack:
    """`sounds` in order, none overlapping; `length` in samples; `waits`: positions before which a tap is awaited."""

    length: int
    sounds: tuple[Sound, ...]
    waits: tuple[int, ...] = ()

    def track_ms(self, at_ms: int) -> int:
        """Where a position of the session lies on the track."""
        return _track_ms(self.waits, at_ms)

    def position_ms(self, track_ms: int) -> int:
        """The position at a place on the track; within the room for a tap, just before what follows it."""
        passed = bisect_right([_track_ms(self.waits, wait) for wait in self.waits], track_ms)
        at_ms = track_ms - passed * WAIT_MS
        return min([at_ms, *(wait - 1 for wait in self.waits[passed:])])

    def sample(self, at_ms: int) -> int:
        """The sample that sounds at a position."""
        return self.track_ms(at_ms) * PER_MS


def _track_ms(waits: Sequence[int], at_ms: int) -> int:
    return at_ms + WAIT_MS * bisect_right(waits, at_ms)


def lay_track(steps: Sequence[Step], *, kinds: frozenset[CueKind] = EVERY,
              library: Mapping[str, Exercise] | None = None, clips: Mapping[str, bytes] | None = None,
              waiting: frozenset[int] | None = None, from_ms: int = 0) -> CueTrack:
    """The track of a session. `kinds` of cues sound; `clips` are recordings, samples by file.
    `waiting`: steps at whose end a tap is awaited; by default changes of position.
    `from_ms`: where a session has just changed; lines are said from there on, tones are the same whatever it is.
    """
    cues = cues_of(steps, waiting=waiting)
    waits = tuple(cue.at_ms + 1 for cue in cues if cue.kind is CueKind.WAITING)
    heard = audible([cue for cue in cues if cue.kind in kinds], waits)
    tones = [Sound(cue.kind.value, _track_ms(waits, cue.at_ms) * PER_MS, tone_bytes(cue.kind, RATE)) for cue in heard]
    lengths = {clip: length_ms(samples) for clip, samples in (clips or {}).items()}
    lines = plan_lines(steps, cues, library or {}, lengths, from_ms)
    voice = [Sound(spoken.line.clip, _track_ms(waits, spoken.at_ms) * PER_MS, (clips or {})[spoken.line.clip])
             for spoken in lines]
    end_ms = steps[-1].end_ms if steps else 0
    length = (_track_ms(waits, end_ms) + TAIL_MS) * PER_MS
    return CueTrack(length, tuple(_giving_way(sorted([*tones, *voice], key=lambda sound: sound.at), length)), waits)


def audible(cues: Sequence[Cue], waits: Sequence[int] = ()) -> list[Cue]:
    """The cues that have room to be heard one by one; of two at nearly the same moment the one that tells more."""
    kept: list[Cue] = []
    for cue in cues:
        near = kept and _track_ms(waits, cue.at_ms) - _track_ms(waits, kept[-1].at_ms) < APART_MS
        if near and cue.kind in LESSER and kept[-1].kind not in LESSER:
            continue
        if near:
            kept.pop()
        kept.append(cue)
    return kept


def _giving_way(sounds: Sequence[Sound], length: int) -> Iterator[Sound]:
    """Each sound cut where the next one begins, softly and a moment before it."""
    for place, sound in enumerate(sounds):
        end = sounds[place + 1].at - GAP_MS * PER_MS if place + 1 < len(sounds) else length
        yield sound if sound.end <= end else Sound(sound.name, sound.at, _faded(sound.samples, end - sound.at))


def _faded(samples: bytes, count: int) -> bytes:
    """The first `count` samples, the last 8 ms of them going down to nothing."""
    kept = samples[:count * BYTES]
    fade = min(FADE_MS * PER_MS, count)
    start = len(kept) - fade * BYTES
    numbers = (int.from_bytes(kept[start + 2 * at:start + 2 * at + 2], "little", signed=True) for at in range(fade))
    low = (int(number * (fade - 1 - at) / fade) for at, number in enumerate(numbers))
    return kept[:start] + b"".join(number.to_bytes(BYTES, "little", signed=True) for number in low)


def write_track(track: CueTrack, out: BinaryIO) -> None:
    """The whole track as a WAV file, block by block: no more than a second of it is held at a time."""
    out.write(wav_header(track.length))
    write_rest(track, out, 0)


def write_rest(track: CueTrack, out: BinaryIO, since: int) -> None:
    """The samples from sample `since` to the end: the very bytes that stand there in the whole track."""
    at = since
    first = bisect_left([sound.end for sound in track.sounds], since + 1)
    for sound in track.sounds[first:]:
        _write_silence(out, sound.at - at)
        out.write(sound.samples[max(0, at - sound.at) * BYTES:])
        at = sound.end
    _write_silence(out, track.length - at)


def _write_silence(out: BinaryIO, count: int) -> None:
    seconds, rest = divmod(max(0, count), RATE)
    for _ in range(seconds):
        out.write(SILENCE)
    out.write(memoryview(SILENCE)[:rest * BYTES])

