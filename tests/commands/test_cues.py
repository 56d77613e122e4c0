"""`evenload cues` from the outside: a WAV file whole or none at all, and one sentence where it cannot be."""
from __future__ import annotations

import json
from pathlib import Path

import pytest

from app.cli import main
from app.domain.sound.cues import cues_of
from app.resources import resource_dir
from app.words.sound import NO_TRACK
from tests.domain import onsets
from tests.domain.shipped import compiled
from tests.domain.sound.test_audio_track import computed
from tests.exchange.packs.test_recorded_lines import recording

SOURCE = resource_dir("assets") / "programmes" / "brackwater"
SESSION = "hotel-room"


def test_the_file_holds_every_cue_of_the_session_at_its_sample(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """As listening finds them, and as `--json` lists them."""
    out = tmp_path / "room.wav"
    assert main(["cues", str(SOURCE), SESSION, "-o", str(out), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    heard = onsets.tones(out.read_bytes())
    assert [(sound["kind"], sound["sample"]) for sound in told["sounds"]] == heard
    assert (told["rate"], told["samples"] * 2 + 44) == (16_000, out.stat().st_size)
    due = computed(cues_of(compiled(SESSION, diary=None).steps))
    assert heard == due
    assert [path.name for path in tmp_path.iterdir()] == ["room.wav"]


def test_a_recorded_line_in_the_folder_is_heard(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Whatever its rate; the last line of the answer counts it."""
    folder = copy_of(tmp_path)
    step = next(s for s in compiled(SESSION, diary=None).steps if s.is_effort)
    place = folder / "voice" / str(step.exercise)
    place.mkdir(parents=True)
    (place / "name.wav").write_bytes(recording(700, rate=22_050))
    assert main(["cues", str(folder), SESSION, "-o", str(tmp_path / "a.wav")]) == 0
    assert "spoken line" in capsys.readouterr().out
    assert onsets.quiet((tmp_path / "a.wav").read_bytes())


def copy_of(tmp_path: Path) -> Path:
    """The shipped source as a folder of one's own."""
    folder = tmp_path / "source"
    for path in SOURCE.rglob("*.toml"):
        to = folder / path.relative_to(SOURCE)
        to.parent.mkdir(parents=True, exist_ok=True)
        to.write_bytes(path.read_bytes())
    return folder


@pytest.mark.parametrize("arguments", [
    ["nowhere.evenload-pack", SESSION], [str(SOURCE), "no-such-session"], [str(SOURCE), SESSION, "--minutes", "2"],
    [str(SOURCE), SESSION, "--place", "Attic"], [str(SOURCE / "source.toml"), SESSION],
])
def test_bad_input_is_one_sentence_and_no_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], arguments: list[str]
) -> None:
    """Status 2, nothing on stdout, nothing written, nothing left behind."""
    assert main(["cues", *arguments, "-o", str(tmp_path / "a.wav")]) == 2
    out, err = capsys.readouterr()
    assert out == "" and err.count("\n") == 1 and len(err) > 20 and "Traceback" not in err
    assert list(tmp_path.iterdir()) == []


def test_a_recording_of_another_kind_is_named_and_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An 8-bit file: one sentence with its place and what is expected."""
    folder = copy_of(tmp_path)
    (folder / "voice").mkdir()
    (folder / "voice" / "left.wav").write_bytes(recording(500, width=1))
    assert main(["cues", str(folder), SESSION, "-o", str(tmp_path / "a.wav")]) == 2
    err = capsys.readouterr().err
    assert "voice/left.wav" in err and "16 bit" in err and err.count("\n") == 1
    assert not (tmp_path / "a.wav").exists()


@pytest.mark.parametrize("place", ["gone/a.wav", "."])
def test_a_place_that_cannot_be_written_is_said(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], place: str
) -> None:
    """A folder that is not there, or a folder in the file's place; no half-written file stays."""
    assert main(["cues", str(SOURCE), SESSION, "-o", str(tmp_path / place)]) == 2
    assert capsys.readouterr().err.count("\n") == 1
    assert list(tmp_path.rglob("*")) == []


def test_a_day_without_a_session_has_no_track(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Status 1, as `timeline` answers it."""
    diary = tmp_path / "d.json"
    diary.write_text(json.dumps({"symptoms": ["fever"], "pain": {}}), "utf-8")
    assert main(["cues", str(SOURCE), SESSION, "--diary", str(diary), "-o", str(tmp_path / "a.wav")]) == 1
    assert capsys.readouterr().out.strip() == NO_TRACK
    assert not (tmp_path / "a.wav").exists()
