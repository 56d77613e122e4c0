"""The sound track that the app makes inside a browser, listened to: how far each cue lies from its computed sample."""
from __future__ import annotations

import base64
import json
import re
from typing import Any, NamedTuple

from app.domain.model.plan import Timeline
from app.domain.player.tap_gates import Wait, waiting_steps
from app.domain.sound.cues import cues_of
from app.storage.codec import from_text
from app.words.client import today as client
from tests.bench.web_visits import python_of
from tests.browser.offline import Visitor
from tests.domain import onsets
from tests.domain.sound.test_audio_track import computed
from tests.stories import steps

#: What the app hands to the browser as a track, kept as it passes.
CATCH = """() => { const give = URL.createObjectURL.bind(URL); self.given = [];
  URL.createObjectURL = blob => { self.given.push(blob); return give(blob); }; }"""
CAUGHT = """async () => { const file = new FileReaderSync();
  return self.given.filter(one => one.type === 'audio/wav').map(one => file.readAsDataURL(one)); }"""
#: The plan of the running session, as the store in the browser holds it.
PLAN = """
import json
from pathlib import Path
from app.actions.people import current_person
from app.storage import journal
from app.storage.codec import to_text
from app.storage.database import FILE_NAME, open_store
store = open_store(Path("/store") / FILE_NAME)
with store.read() as db:
    run = journal.running(db, current_person(store).id)
store.close()
json.dumps([to_text(run.plan), sorted(run.about.get("waits", ()))])
"""


class CueError(NamedTuple):
    """Tones heard, and the most samples that one of them lies off; `None` where others are heard than were planned."""

    heard: int
    most: int | None


def cue_error(visitor: Visitor) -> CueError:
    """Starts today's session in an open app, before its check-in, and listens to the track that it makes."""
    visitor.press(client.START)
    steps.check_in_with(visitor, "Left knee", 2)
    worker = python_of(visitor.page)
    worker.evaluate(CATCH)
    visitor.press(client.START).sees(re.compile("left$"))
    plan, waits = json.loads(worker.evaluate("code => self.pyodide.runPythonAsync(code)", PLAN))
    tracks = worker.evaluate(CAUGHT)
    assert tracks, "no track was made"
    return compare(base64.b64decode(tracks[0].partition(",")[2]), plan, waits)


def compare(wav: bytes, plan: str, waits: list[Any]) -> CueError:
    """What is heard in the file beside what the plan, computed here, wants."""
    timeline = from_text(Timeline, plan)
    waiting = waiting_steps(timeline.steps, frozenset(Wait(one) for one in waits), frozenset())
    wanted, heard = computed(cues_of(timeline.steps, waiting=waiting)), onsets.tones(wav)
    if [one.name for one in wanted] != [one.name for one in heard]:
        return CueError(len(heard), None)
    return CueError(len(heard), max(abs(a.at - b.at) for a, b in zip(wanted, heard, strict=True)))
