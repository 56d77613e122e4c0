"""The check of loudness plays what a session plays."""
from __future__ import annotations

from dataclasses import replace

from app.domain.model.exercise import Cues
from app.domain.sound.audio_track import EVERY
from app.ui.client.sound_check import LISTEN_S, sample_track
from app.words.sound import LACKS, lacks_words
from tests.domain import onsets
from tests.domain.days import PLAIN
from tests.domain.sound.test_audio_track import written

SAT = replace(PLAIN, id="sit", cues=Cues(safety=("Hold on.",)))
CLIPS = {"voice/sit/name.wav": b"\x05\x00" * 16 * 900}


def test_the_count_the_start_and_the_name_are_heard() -> None:
    """A line first, then 3, 2, 1, go."""
    file = written(sample_track(SAT, CLIPS, EVERY))
    names = [heard.name for heard in onsets.tones(file)]
    assert names == ["count", "count", "count", "work", "finish"]
    spoken = onsets.quiet(file)
    assert len(spoken) == 1 and spoken[0].end < (LISTEN_S - 3) * 16_000


def test_without_a_voice_the_tones_alone_and_with_tones_off_the_voice_alone() -> None:
    """As it is set on this device."""
    assert onsets.quiet(written(sample_track(None, {}, EVERY))) == []
    silent = written(sample_track(SAT, CLIPS, frozenset()))
    assert onsets.tones(silent) == [] and len(onsets.quiet(silent)) == 1


def test_what_is_missing_is_one_quiet_sentence() -> None:
    """However much is missing, and nothing where nothing is."""
    assert lacks_words([]) == "" == lacks_words(["track", "notices", "speech"])
    assert lacks_words(LACKS).count(".") == 2
    assert "vibrate" in lacks_words(["haptics"])
