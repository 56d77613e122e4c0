"""The parts of the browser's benchmark do what they say; how fast the app is is printed and never asserted."""
from __future__ import annotations

import io
import json
import shutil
from pathlib import Path

import pytest

from app.domain.sound.audio_track import lay_track, write_track
from app.exchange.brands.web_shell import POLICY
from app.storage.codec import to_text
from tests.bench.web import timed_rows
from tests.bench.web_cues import CueError, compare
from tests.bench.web_sites import sizes
from tests.bench.web_visits import Visit
from tests.browser.web_app import ROOT, build_scripts
from tests.domain.shipped import compiled


@pytest.mark.skipif(shutil.which("node") is None, reason="Node.js was not found")
def test_the_sizes_are_of_what_each_engine_keeps(tmp_path: Path) -> None:
    """Its own client and never the other's, by the service worker that is shipped; brotli never more than as it is."""
    _, client, _ = build_scripts()
    parts = dict.fromkeys((*client.ENGINES, "index.html"), "0" * 32)
    for name in parts:
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_bytes(name.encode() * 100)
    worker = (ROOT / "build/web/sw.js").read_text("utf-8").replace("/*PARTS*/{}", json.dumps(parts))
    (tmp_path / "sw.js").write_text(worker.replace("/*POLICY*/", POLICY), "utf-8")
    found = sizes(tmp_path)
    kept = {engine: {path for path, *_ in one["largest"]} for engine, one in found.items()}
    assert {"main.dart.wasm", "canvaskit/skwasm.wasm"} <= kept["Blink"] and "main.dart.js" not in kept["Blink"]
    assert {"main.dart.js", "canvaskit/canvaskit.wasm"} <= kept["other"] and "main.dart.wasm" not in kept["other"]
    assert all(0 < one["brotli"] < one["raw"] for one in found.values())


def test_a_cue_one_sample_late_is_heard_as_one_sample() -> None:
    """0 for the track as it is laid; 1 with one sample of silence put before it; none where a tone is left out."""
    plan = compiled()
    track = lay_track(plan.steps)
    out = io.BytesIO()
    write_track(track, out)
    good = out.getvalue()
    assert compare(good, to_text(plan), []) == CueError(len(track.sounds), 0)
    late = good[:44] + bytes(2) + good[44:-2]
    assert compare(late, to_text(plan), []) == CueError(len(track.sounds), 1)
    first = track.sounds[0]
    muted = bytearray(good)
    muted[44 + 2 * first.at:44 + 2 * first.end] = bytes(2 * (first.end - first.at))
    assert compare(bytes(muted), to_text(plan), []) == CueError(len(track.sounds) - 1, None)


def test_the_rows_give_medians_and_their_ratio() -> None:
    """Of three visits each, by turns."""
    ours = [Visit(100, 300), Visit(110, 200), Visit(120, 400)]
    bare = [Visit(90, 200), Visit(100, 200), Visit(110, 250)]
    start, frame = timed_rows("start", ours, bare)
    assert start == "| start | 300 (200) ms | 200 (200) ms | 1.50 (by turns 1.50, of the lowest 1.00) |"
    assert frame.endswith("| 110 ms | 100 ms | 1.10 |")
