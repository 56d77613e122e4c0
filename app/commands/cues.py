"""`evenload cues`: the sound track of a session as a WAV file."""
from __future__ import annotations

import argparse
import json
from collections.abc import Mapping
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

from app.commands.files import require_place, said_beside, write_stream, written_name
from app.commands.timeline import OpenedSource, order_at, source_at
from app.domain.compile.timeline import compile_timeline
from app.domain.model.plan import Timeline
from app.domain.sound.audio_track import CueTrack, lay_track, write_track
from app.domain.sound.voice_lines import change_lines, exercise_lines, side_lines
from app.domain.sound.wav import RATE
from app.exchange.forms.source import read_media
from app.exchange.packs.archive import PackShelf
from app.exchange.packs.recorded_lines import read_recording
from app.exchange.packs.voice_files import clips_in
from app.words import sound as words

DONE, NO = 0, 1


async def run(args: argparse.Namespace) -> int:
    """Writes the track. Exit 1, and nothing written, where today gives no session."""
    require_place(args.output)
    out, opened = said_beside(args.output), await source_at(args.pack)
    timeline = compile_timeline(order_at(args, opened.source, date.today()))
    if not timeline.steps:
        print(words.NO_TRACK, file=out)
        return NO
    track = lay_track(timeline.steps, library=opened.source.library(), clips=_clips(opened))
    write_stream(args.output, partial(write_track, track))
    if args.json:
        print(json.dumps(track_shape(track, timeline, args.output), ensure_ascii=False, indent=1), file=out)
    else:
        lines = sum(sound.is_line for sound in track.sounds)
        name, seconds = written_name(args.output), timeline.total_ms // 1000
        print(words.track_written(name, seconds, len(track.sounds) - lines, lines), file=out)
    return DONE


def _clips(opened: OpenedSource) -> Mapping[str, bytes]:
    """The recorded lines of a pack, or of a folder; there they are brought into form first.

    Raises:
        WrongValue: a recording in the folder that is no such WAV file.
    """
    of_exercises = (line for exercise in opened.source.exercises for line in exercise_lines(exercise))
    wanted = [*side_lines(), *change_lines(), *of_exercises]
    if opened.folder is None:
        return clips_in(PackShelf(opened.pack), [line.clip for line in wanted])
    media = read_media(opened.folder)
    return {line.clip: read_recording(media[line.clip], line.clip) for line in wanted if line.clip in media}


def track_shape(track: CueTrack, timeline: Timeline, path: Path) -> dict[str, Any]:
    """What is on the track: each sound by its first sample. `kind` is a kind of cue or, of a line, its file."""
    sounds = [{"kind": sound.name, "sample": sound.at, "position_ms": track.position_ms(sound.at * 1000 // RATE)}
              for sound in track.sounds]
    return {"file": str(path), "session": timeline.session, "rate": RATE, "samples": track.length,
            "total_s": timeline.total_ms // 1000, "sounds": sounds}
