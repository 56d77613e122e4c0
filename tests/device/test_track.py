"""The track through the client: what is asked of its players, and files that nobody else can fetch."""
from __future__ import annotations

import asyncio
import io
from collections.abc import Callable
from pathlib import Path

import flet as ft
import pytest

from app.device import track as room
from app.device.abilities import Ability, Missing
from app.device.recording import RecordingDevice
from app.device.track import LEAD_MS, NOTHING, FletTrack
from app.device.track_folder import FolderShelf, swept
from app.domain.sound.audio_track import CueTrack, lay_track, write_rest, write_track
from app.serving.tracks import Tracks, shelf_in
from tests.domain.sound.test_cues import K, laid

STEPS = laid((K.SETUP, 5), (K.WORK, 20), (K.REST, 20), (K.WORK, 20))
TRACK = lay_track(STEPS)
LONGER = lay_track(laid((K.SETUP, 5), (K.WORK, 20), (K.REST, 35), (K.WORK, 20)))


class Audio:
    """The client's player: writes down what it is asked; `place` is where it says it is."""

    told: list[tuple[str, int]]
    loads = True
    place = 0

    def __init__(self, src: str, release_mode: object, on_loaded: Callable[[object], None]) -> None:
        self.src, self._on_loaded = src, on_loaded
        self._loaded()

    def _loaded(self) -> None:
        if self.loads or self.src == NOTHING:
            self._on_loaded(None)

    def update(self) -> None:
        self.told.append((self.src, -1))
        self._loaded()

    async def play(self, at: ft.Duration) -> None:
        self.told.append(("play", at.in_milliseconds))

    async def seek(self, at: ft.Duration) -> None:
        self.told.append(("seek", at.in_milliseconds))

    async def pause(self) -> None:
        self.told.append(("pause", -1))

    async def get_current_position(self) -> ft.Duration:
        return ft.Duration(milliseconds=self.place)


class Shelf:
    """Gives each version a number."""

    def __init__(self) -> None:
        self.kept: list[int] = []
        self.dropped = 0

    async def keep(self, track: CueTrack, since: int) -> str:
        self.kept.append(since)
        return f"track-{len(self.kept)}"

    def drop(self) -> None:
        self.dropped += 1


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, int]]:
    """What every player was asked, in order."""
    Audio.told, Audio.loads, Audio.place = [], True, 0
    monkeypatch.setattr("app.device.track.fta.Audio", Audio)
    monkeypatch.setattr(room, "GRACE_S", 0.05)
    return Audio.told


def test_it_plays_from_where_the_session_stands_when_its_turn_comes(told: list[tuple[str, int]]) -> None:
    """Loaded, played, sought while it plays, paused; the position is asked for at that moment and not before."""
    places = iter([1_000, 2_000])

    async def story() -> list[bool]:
        track = FletTrack(Missing(), Shelf())
        return [await track.load(TRACK), await track.play(lambda: next(places)), await track.play(lambda: next(places)),
                await track.pause(), await track.pause()]

    assert asyncio.run(story()) == [True] * 5
    assert told == [("track-1", -1), ("play", 1_000 + LEAD_MS), ("seek", 2_000 + LEAD_MS), ("pause", -1)]


def test_the_next_version_is_loaded_while_this_one_sounds(told: list[tuple[str, int]]) -> None:
    """Only then does the other player begin and the first one stop; no silence between."""
    async def story() -> None:
        track = FletTrack(Missing(), shelf := Shelf())
        await track.load(TRACK)
        await track.play(lambda: 30_000)
        await track.load(LONGER, 30_000 * 16)
        await track.play(lambda: 30_000)
        assert shelf.kept == [0, 480_000]

    asyncio.run(story())
    assert [what for what, _ in told] == ["track-1", "play", "track-2", "play", "pause"]


@pytest.mark.parametrize(("ahead_ms", "moved"), [(0, False), (40, False), (-55, False), (90, True), (-400, True)])
def test_a_drift_that_could_be_noticed_is_taken_back(
    told: list[tuple[str, int]], ahead_ms: int, moved: bool
) -> None:
    """Less than that is left alone, since a jump is heard."""
    async def story() -> int | None:
        track = FletTrack(Missing(), Shelf())
        await track.load(TRACK)
        await track.play(lambda: 10_000)
        Audio.place = 10_000 + ahead_ms
        await track.hold_to(lambda: 10_000)
        return await track.off_by(lambda: 10_000)

    off = asyncio.run(story())
    assert off is not None and abs(off - ahead_ms) < 10
    assert (told[-1][0] == "seek") is moved


def test_a_track_that_does_not_load_is_a_lack_and_no_crash(
    told: list[tuple[str, int]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """In time; single tones are used then."""
    monkeypatch.setattr(room, "LOADED_WITHIN_S", 0.05)
    missing = Missing()

    async def story() -> bool:
        track = FletTrack(missing, Shelf())
        Audio.loads = False
        return await track.load(TRACK)

    assert asyncio.run(story()) is False
    assert Ability.TRACK in missing


def test_without_a_shelf_there_is_no_track_and_no_player(told: list[tuple[str, int]]) -> None:
    """As in a window that nothing can be put before."""
    missing = Missing()

    async def story() -> list[object]:
        track = FletTrack(missing, None)
        await track.drop()
        return [await track.load(TRACK), await track.play(lambda: 0), await track.off_by(lambda: 0)]

    assert asyncio.run(story()) == [False, False, None]
    assert told == [] and Ability.TRACK in missing


def test_a_track_that_is_given_up_is_taken_out_of_the_players_before_its_file_goes(told: list[tuple[str, int]]) -> None:
    """So that a page that is drawn anew does not ask for what is gone; a session begun meanwhile keeps its own."""
    shelf = Shelf()

    async def story() -> None:
        track = FletTrack(Missing(), shelf)
        await track.load(TRACK)
        await track.play(lambda: 0)
        await track.drop()
        assert told[-2:] == [("pause", -1), (NOTHING, -1)] and shelf.dropped == 1
        await track.load(TRACK)
        leaving = asyncio.create_task(track.drop())
        await asyncio.sleep(0)
        await track.load(LONGER)
        await leaving
        assert shelf.dropped == 1

    asyncio.run(story())


# ------------------------------------------------------------------ files

def whole(track: CueTrack) -> bytes:
    out = io.BytesIO()
    write_track(track, out)
    return out.getvalue()


def test_each_version_has_a_file_of_its_own_and_keeps_what_sounded_before(tmp_path: Path) -> None:
    """Up to the change the old bytes, from there the new ones; the two last files stay, the rest goes."""
    shelf = FolderShelf(tmp_path, "tracks")
    since = 30_000 * 16

    async def story() -> list[str]:
        return [await shelf.keep(TRACK, 0), await shelf.keep(LONGER, since), await shelf.keep(LONGER, 0)]

    first, second, third = asyncio.run(story())
    assert len({first, second, third}) == 3 and all(one.startswith("tracks/") for one in (first, second, third))
    assert sorted(f"tracks/{path.name}" for path in tmp_path.iterdir()) == sorted([second, third])
    rest = io.BytesIO()
    write_rest(LONGER, rest, since)
    made = (tmp_path / Path(second).name).read_bytes()
    assert made == whole(LONGER)[:44] + whole(TRACK)[44:44 + 2 * since] + rest.getvalue()
    assert (tmp_path / Path(third).name).read_bytes() == whole(LONGER)
    shelf.drop()
    assert list(tmp_path.iterdir()) == []


def test_a_start_sweeps_what_a_killed_one_left(tmp_path: Path) -> None:
    """Tracks are nobody's records."""
    (tmp_path / "tracks").mkdir()
    (tmp_path / "tracks" / "old.wav").write_bytes(b"1")
    assert list(swept(tmp_path / "tracks").iterdir()) == []


def fetched(tmp_path: Path, path: str, *headers: tuple[bytes, bytes]) -> tuple[int, dict[bytes, bytes], bytes]:
    """What the server's app answers."""
    sent: list[dict[str, object]] = []

    async def other(scope: object, receive: object, send: Callable[..., object]) -> None:
        await send({"type": "http.response.start", "status": 299, "headers": []})  # type: ignore[misc]

    async def send(message: dict[str, object]) -> None:
        sent.append(message)

    async def receive() -> dict[str, object]:
        await asyncio.sleep(3600)
        return {}

    scope = {"type": "http", "method": "GET", "path": path, "headers": list(headers), "extensions": {}}
    asyncio.run(Tracks(other, tmp_path / "tracks")(scope, receive, send))  # type: ignore[arg-type]
    told = dict(sent[0]["headers"])  # type: ignore[call-overload]
    return int(str(sent[0]["status"])), told, b"".join(bytes(m.get("body", b"")) for m in sent[1:])  # type: ignore


def test_the_server_hands_out_a_track_whole_and_in_parts_and_nothing_else(tmp_path: Path) -> None:
    """A player asks for parts as it needs them; a name that is none of ours goes to the app behind."""
    source = asyncio.run(shelf_in(tmp_path)().keep(TRACK, 0))
    status, told, body = fetched(tmp_path, f"/{source}")
    assert (status, told[b"content-type"], body) == (200, b"audio/wav", whole(TRACK))
    status, told, body = fetched(tmp_path, f"/{source}", (b"range", b"bytes=1000-1999"))
    assert (status, body) == (206, whole(TRACK)[1000:2000])
    assert fetched(tmp_path, "/tracks/" + "a" * 22 + ".wav")[0] == 404
    for path in ("/tracks/../store.sqlite", "/tracks/a.wav", "/tracks/", "/sounds/work.wav"):
        assert fetched(tmp_path, path)[0] == 299


def test_the_recording_track_writes_down_what_it_was_asked_and_lacks_on_demand(device: RecordingDevice) -> None:
    """The twin answers as the real one would."""
    async def story() -> None:
        assert await device.track.load(TRACK, 5) and await device.track.play(lambda: 7)
        assert await device.track.pause() and await device.track.off_by(lambda: 7) == 0
        device.record.lacks.add(Ability.TRACK)
        assert not await device.track.load(TRACK) and not await device.track.play(lambda: 0)

    asyncio.run(story())
    assert device.asked(Ability.TRACK) == [("load", "5"), ("play", "7"), ("pause",)]
    assert device.track.tracks == [TRACK] and Ability.TRACK in device.missing
