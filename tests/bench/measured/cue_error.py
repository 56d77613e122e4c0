"""How far each cue of 30 minutes lies from its computed sample, found by an ear that knows nothing of the writer."""
from __future__ import annotations

import io

from .either import either, tell
from .long_track import audio_track, cues, long_steps

onsets = either("tests.domain.onsets")

MINUTES, SAMPLES_PER_MS = 30, 16


def main() -> None:
    """Listens and prints; `samples` is -1 where other tones are heard than were planned."""
    steps = long_steps(MINUTES)
    out = io.BytesIO()
    audio_track.write_track(audio_track.lay_track(steps), out)
    heard, planned = onsets.tones(out.getvalue()), cues.cues_of(steps)
    alike = [one.kind.value for one in planned] == [one.name for one in heard]
    pairs = zip(heard, planned, strict=True)
    off = max(abs(one.at - SAMPLES_PER_MS * cue.at_ms) for one, cue in pairs) if alike else -1
    tell({"spent": [], "floor": []}, cues=len(heard), minutes=steps[-1].end_ms / 60_000, samples=off)


if __name__ == "__main__":
    main()
